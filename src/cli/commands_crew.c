/* commands_crew.c: the rows of the command table that are about crew and dates in the file. */
#include "cli/commands.h"

const cli_command commands_crew[] = {
    {
        .name = "crew",
        .arguments = "FILE [add|change|remove NAME]",
        .least = 1,
        .most = 3,
        .summary = "who is in it; people added and changed without files",
        .details = "A nickname is enough. --supervises and --skills are numbers or names of the\n"
                   "kit's kinds of work and skills, with commas between. What was done stays under\n"
                   "the number of a person who is removed; kitbench forget blanks the name.",
        .run = cmd_crew,
        .options = {{"adult", 'a', "YES|NO", "of age"},
                    {"leader", 'l', "YES|NO", "leads the build"},
                    {"supervises", 0, "WORK,...", "what this adult may supervise"},
                    {"skills", 0, "SKILL,...", "already practised"},
                    {"name", 'n', "NAME", "of change: another nickname"},
                    {"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "workshop",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "the workshop: adults in the room, pace, wanted day",
        .details = "Shows them; with an option changes them.",
        .run = cmd_workshop,
        .options = {{"name", 'n', "TEXT", "of the workshop or club"},
                    {"minimum-adults", 0, "N", "in the room for any work"},
                    {"beginners-factor", 0, "N", "1.5: half as long again as the kit says"},
                    {"owns", 0, "NUMBER=N,...", "tools and workplaces that are there"},
                    {"wanted-day", 0, "DAY", "by when it must be ready; \"\": not said"},
                    {"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "sessions",
        .arguments = "FILE [add RULE | cancel|restore|remove N]",
        .least = 1,
        .most = 3,
        .summary = "the dates; added by a rule in plain words",
        .details = "RULE is like \"Tuesdays 18:30 to 20:30, 5 September to 14 November, not 24\n"
                   "October\" or \"Saturday 12 September 10:00 to 16:00\". A day without a year is the\n"
                   "next one of that name.",
        .run = cmd_sessions,
        .options = {{"opening", 0, "MIN", "minutes at its start that are no work"},
                    {"closing", 0, "MIN", "minutes at its end that are no work"},
                    {"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "attendance",
        .arguments = "FILE [SESSION NAME WHEN]",
        .least = 1,
        .most = 4,
        .summary = "who comes to which session, and from when to when",
        .details = "WHEN is yes, no, 19:00-20:30, 19:00- or -20:00. Whoever is not named comes to\n"
                   "the whole session.",
        .run = cmd_attendance,
        .options = {{"by", 'b', "NAME", "who changed it"}},
    },
    {.name = NULL},
};
