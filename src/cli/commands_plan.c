/* commands_plan.c: the rows of the command table that are about the plan and what it hangs on. */
#include "cli/commands.h"

const cli_command commands_plan[] = {
    {
        .name = "plan",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "who does what at which session, and when it is finished",
        .details = "From the kit's steps, the crew, the sessions and the stock: one step after\n"
                   "another and sub-assemblies in parallel side by side, the finish, what decides\n"
                   "it, steps that missing pieces stop, and for each session who does what\n"
                   "(docs/planning.md). Rows nobody counted yet are taken as packed; promised parts\n"
                   "arrive on their day. When the dated sessions do not suffice it goes on over\n"
                   "undated ones. Without --seconds the answer is the same on every machine. Ctrl-C\n"
                   "takes the best so far. Exit code 1: not all of it can be planned, or not in\n"
                   "time.",
        .run = cmd_plan,
        .options = {{"announce", 'a', NULL, "write down that the crew is told this plan"},
                    {"by", 'b', "NAME", "who announces it"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "draw",
        .arguments = "FILE CHART",
        .least = 2,
        .most = 2,
        .summary = "a chart of the plan as SVG",
        .details = "joining: the joining chart. Working time runs downwards, session by session; the\n"
                   "main machine is the trunk in the middle, sub-assemblies run beside it and turn\n"
                   "in at their joining step; a step is as wide as people work on it. It is laid\n"
                   "out for the width asked for: about 95 mm suit a phone.",
        .run = cmd_draw,
        .options = {{"output", 'o', "OUT.svg", "where it is written; else it is printed"},
                    {"width", 'w', "MM", "how wide, 55 to 2000 (180 unless said otherwise)"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "whatif",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "the plan with something changed, beside the plan of now",
        .details = "Nothing is written. Changes may be combined, each option once. Exit code 1: the\n"
                   "build then ends later, or fewer steps can go ahead.",
        .run = cmd_whatif,
        .options = {{"tonight-without", 0, "NAME", "somebody stays away from the next session"},
                    {"always", 0, "NAME", "somebody comes to all of every session"},
                    {"one-more-like", 0, "NAME", "one more person who may do the same"},
                    {"tool", 0, "NUMBER", "one more of a tool"},
                    {"workplace", 0, "NUMBER", "one more of a workplace"},
                    {"session-after", 0, "N", "one more session the day after session N"},
                    {"cancel", 0, "N", "no session N"},
                    {"part", 0, "NUMBER", "all pieces of a part are here at the start"},
                    {"gone", 0, "NAME", "somebody comes to no session any more"},
                    {"tool-less", 0, "NUMBER", "one fewer of a tool"},
                    {"workplace-less", 0, "NUMBER", "one fewer of a workplace"},
                    {"part-later", 0, "NUMBER:DAYS", "what is promised of a part comes later"},
                    {"crew", 0, NULL, "instead: crews of 1 to 12 with 1 to 4 adults"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for each plan"}},
    },
    {
        .name = "why",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "what holds the build up, and what would end it earlier",
        .details = "Plans again with one more person, tool, workplace or session, with somebody at\n"
                   "every session, with a missing part here at the start: each that could matter,\n"
                   "one at a time, ranked by the finish. When the wanted day is not met it looks\n"
                   "for the fewest of these that meet it. --seconds holds for each plan.",
        .run = cmd_why,
        .options = {{"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for each plan"}},
    },
    {
        .name = "late",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "which missing pieces to chase first, and what to order by when",
        .details = "Plans again with each lacking part coming later and later: the last day that\n"
                   "costs nothing, the cost of each week after it, and which steps wait meanwhile.\n"
                   "Then tools and consumables with the last day to order them, backward from the\n"
                   "plan. Exit code 1: pieces are lacking. --seconds holds for each plan.",
        .run = cmd_late,
        .options = {{"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for each plan"}},
    },
    {
        .name = "calendar",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "sessions and other dates for a calendar program",
        .details = "iCalendar (RFC 5545): sessions with their steps, promised arrivals, top-ups of\n"
                   "batteries, and what comes due after the release. A calendar program that reads\n"
                   "it again updates what it had: import it again whenever the plan has changed.\n"
                   "What is only promised or planned is marked as tentative. No names are in it.",
        .run = cmd_calendar,
        .options = {{"output", 'o', "FILE", "write it there instead of on the screen"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "risk",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "how sure the day is, and where a reserve or a buffer helps",
        .details = "Carries the plan out 20,000 times: steps take their low, likely or high minutes,\n"
                   "people miss sessions, sessions are called off and promises come late as often\n"
                   "as the workshop's tables say. Tells the chance of each session being the last\n"
                   "and of meeting the wanted day, how often each step decides the finish, at\n"
                   "which sessions a supervisor in reserve is wanted, and where a buffer helps,\n"
                   "each with its sampling error. The same seed gives the same answer.",
        .run = cmd_risk,
        .options = {{"samples", 'n', "N", "carry it out so many times"},
                    {"seed", 0, "N", "other chances: a number from 1 on"},
                    {"threads", 0, "N", "use so many threads; otherwise all cores"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for the plan"}},
    },
    {
        .name = "session",
        .arguments = "FILE N",
        .least = 2,
        .most = 2,
        .summary = "the run sheet of one session: who, what, where, when",
        .details = "Plans the build and shows session N in full: each turn with its people, place,\n"
                   "tools and what to wear, when to change over and what to leave in which state,\n"
                   "then each person's evening. kitbench print FILE run-sheet draws it.",
        .run = cmd_session,
        .options = {{"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for the plan"}},
    },
    {.name = NULL},
};
