/* commands_build.c: the rows of the command table that are about the running build. */
#include "cli/commands.h"

const cli_command commands_build[] = {
    {
        .name = "where",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "where we stand, what stops us, what to decide today",
        .details = "How far the check and the build are, the next session, steps that cannot go on\n"
                   "and why, and what somebody has to do or decide.",
        .run = cmd_where,
    },
    {
        .name = "steps",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "each step: running, ready, or what it waits for",
        .details = "In build order. A step is ready when it could be started now, given its people:\n"
                   "all it follows is done and its delay over, hold points signed, pieces, tools and\n"
                   "place free, and enough adults in the room.",
        .run = cmd_steps,
        .options = {{"open", 'o', NULL, "leave out what is done and tested"}},
    },
    {
        .name = "start",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .summary = "begin a step, or go on with one that was left",
        .details = "Only when all it follows is done and its delay over, hold points are signed, its\n"
                   "pieces are there, nothing runs that may not be next to it, and its people are\n"
                   "free. Work that needs a supervisor is confirmed by one who may supervise it. Its\n"
                   "pieces are drawn into its tub. Exit code 1: not now; every reason is told.",
        .run = cmd_start,
        .options = {{"by", 'b', "NAME,...", "who works on it"},
                    {"confirm", 'c', "NAME", "the supervisor who says yes"}},
    },
    {
        .name = "change-over",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .summary = "others go on with a running step",
        .details = "Who built a step, before or after a change-over, does not sign its tests.",
        .run = cmd_change_over,
        .options = {{"by", 'b', "NAME,...", "who goes on with it"}},
    },
    {
        .name = "leave",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .summary = "leave a running step unfinished at a session's end",
        .details = "Its pieces stay in its tub. kitbench start goes on with it.",
        .run = cmd_leave,
        .options = {{"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "blocked",
        .arguments = "FILE STEP REASON",
        .least = 3,
        .most = 3,
        .summary = "a step cannot go on, and why",
        .details = "kitbench start goes on with it once it can.",
        .run = cmd_blocked,
        .options = {{"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "done",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .summary = "a step is done",
        .details = "What lies in its tub is fitted, but for what --left says: that goes back to its\n"
                   "compartment. Look into the tub: it must be empty now.",
        .run = cmd_done,
        .options = {{"minutes", 'm', "N", "minutes of work; otherwise as the clock says"},
                    {"left", 'l', "PART=N,...", "what was left in the tub"},
                    {"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "test",
        .arguments = "FILE STEP NUMBER VALUE",
        .least = 4,
        .most = 4,
        .summary = "a measured value of a step's test, and who signs it",
        .details = "NUMBER is the test's on the job card: 1, 2, ...; VALUE a number in its unit, or\n"
                   "yes or no. Whoever built or measured does not sign. A value out of the limits is\n"
                   "written as failed and blocks what follows (exit code 1). A signed value is\n"
                   "replaced only by an adult, with --reason.",
        .run = cmd_test,
        .options = {{"by", 'b', "NAME", "who measured"},
                    {"signed-by", 's', "NAME", "who looked at it and signs"},
                    {"reason", 'r', "TEXT", "why a signed value is replaced"}},
    },
    {
        .name = "compartments",
        .arguments = "FILE [PART LABEL]",
        .least = 1,
        .most = 3,
        .summary = "in which compartment each part lies",
        .details = "LABEL is what stands on it, such as \"tray 2, B4\"; \"\" for none.",
        .run = cmd_compartments,
        .options = {{"by", 'b', "NAME", "who labelled it"}},
    },
    {
        .name = "tools-here",
        .arguments = "FILE [TOOL N]...",
        .least = 1,
        .most = -1,
        .summary = "which tools are back, counted one by one",
        .details = "--all: all of them are here, but for those that are named with their number.\n"
                   "Exit code 1: some are missing, or not counted since the last work.",
        .run = cmd_tools_here,
        .options = {{"all", 'a', NULL, "every tool is here in its number"},
                    {"by", 'b', "NAME", "who counted"}},
    },
    {
        .name = "loose",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "what was left loose on purpose, and what closes it",
        .details = "Of steps that were begun; a line goes away when its closing step is done.",
        .run = cmd_loose,
    },
    {
        .name = "move",
        .arguments = "FILE PART N FROM TO",
        .least = 5,
        .most = 5,
        .summary = "pieces go from one place to another",
        .details = "FROM and TO are row (box or bag), compartment, tub, fitted, lost or scrapped. A\n"
                   "tub and what is fitted need --step. kitbench start and done move a step's own\n"
                   "pieces.",
        .run = cmd_move,
        .options = {{"step", 's', "STEP", "whose tub, or what it fitted"},
                    {"bag", 0, "BAG", "which bag or box of the packing list"},
                    {"by", 'b', "NAME", "who moved them"}},
    },
    {
        .name = "undo-step",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .summary = "what undoing a step costs; with --yes take it apart",
        .details = "What hides it must come off first, and what hides that. Tells which tests become\n"
                   "void, which single-use pieces must be drawn again and whether they are there,\n"
                   "and the minutes. --yes needs an adult (--by) and a --reason.",
        .run = cmd_undo_step,
        .options = {{"yes", 'y', NULL, "do it"},
                    {"reason", 'r', "TEXT", "why"},
                    {"by", 'b', "NAME", "the adult who does it"}},
    },
    {
        .name = "closing",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "what to recount tonight; --complete: all is here",
        .details = "Names the few compartments and tools whose recount likeliest reveals a mistake\n"
                   "made today, chosen for five minutes. With --complete or --missing it is written\n"
                   "that the count was done.",
        .run = cmd_closing,
        .options = {{"since", 0, "MOMENT", "handled since then; otherwise since midnight"},
                    {"complete", 'c', NULL, "it was done, and everything is here"},
                    {"missing", 'm', "WHAT", "it was done, and this did not come back"},
                    {"by", 'b', "NAME", "who counted"}},
    },
    {
        .name = "left-overs",
        .arguments = "FILE [PART N]...",
        .least = 1,
        .most = -1,
        .summary = "what pieces left at the end tell",
        .details = "Without PART what should be left by the record, with the spares and where it\n"
                   "lies. With counts: too many may be missing in a step, or a look-alike sits in\n"
                   "their place. Exit code 1: they differ.",
        .run = cmd_left_overs,
    },
    {
        .name = "reading",
        .arguments = "FILE [PART PIECE VOLTS]",
        .least = 1,
        .most = 4,
        .summary = "a battery measured; without it all, and the next top-ups",
        .details = "Voltage says something only after 12 h of rest or more, each battery alone. The\n"
                   "label's days between top-ups come first; a low reading asks for one at once.",
        .run = cmd_reading,
        .options = {{"rested", 'r', "HOURS", "without load or charge"},
                    {"charged", 'c', NULL, "it was charged to full just now"},
                    {"bag", 0, "BAG", "bag or box, when the part lies in several"},
                    {"by", 'b', "NAME", "who measured"}},
    },
    {
        .name = "release",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "is the list complete? Each reason why not",
        .details = "Steps, hold points and other tests, what was left loose, pieces in tubs or lost,\n"
                   "and the closing count after the last work. It says \"list complete\" and nothing\n"
                   "more: whether the machine may be used is for people. Exit code 1: not complete.",
        .run = cmd_release,
    },
    {
        .name = "serve",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "the pages for phones and the laptop, until Ctrl-C",
        .details = "Shows the leader's address, and with --lan that of the phones with the code to\n"
                   "join, as text and as QR. Commands beside it may go on: the pages see within a\n"
                   "second what they write. With --wifi it asks for the password of the Wi-Fi and\n"
                   "shows a QR by which phones join it. Plain HTTP unless --tls is given: whoever\n"
                   "shares the Wi-Fi can listen.",
        .run = cmd_serve,
        .options = {{"port", 'p', "N", "where it listens; usually 8460, 0: any free one"},
                    {"lan", 0, NULL, "let other machines in; otherwise only this one"},
                    {"name", 0, "HOST", "the name by which phones reach this laptop"},
                    {"wifi", 0, "NAME", "show a QR to join the Wi-Fi of that name"},
                    {"tls", 0, "CERT,KEY", "use HTTPS with these two files"}},
    },
    {.name = NULL},
};
