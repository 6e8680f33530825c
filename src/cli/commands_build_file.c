/* commands_build_file.c: the rows of the command table that are about the file itself: undoing, copies, exports, codes. */
#include "cli/commands.h"

const cli_command commands_build_file[] = {
    {
        .name = "undo",
        .arguments = "FILE [ENTRY]",
        .least = 1,
        .most = 2,
        .summary = "take back the last act, or one entry",
        .details = "Without ENTRY all that the last command which still stands wrote; given again\n"
                   "it goes back further. With ENTRY one entry of the journal; undoing an undo\n"
                   "makes the entry stand again. Nothing is removed: the undo is an entry, too.",
        .run = cmd_undo,
        .options = {{"by", 'b', "NAME", "who undid it"}, {"reason", 'r', "TEXT", "why; a sign-off needs it"}},
    },
    {
        .name = "codes",
        .arguments = "FILE [PERSON]",
        .least = 1,
        .most = 2,
        .summary = "codes that prove what an adult says",
        .details = "With PERSON, an adult of the crew, a code is set: it is asked for and never\n"
                   "stands on the command line. From then on a supervised start, a sign-off and its\n"
                   "correction ask for that person's code. Five wrong tries lock it until a leader\n"
                   "sets a new one. Once a leader has a code, changes need --by that leader. A code\n"
                   "keeps out somebody at a phone, not somebody who has the file.",
        .run = cmd_codes,
        .options = {{"by", 'b', "NAME", "the leader who changes it, or the person"},
                    {"remove", 0, NULL, "take the person's code away"},
                    {"clear", 0, NULL, "take all codes away; the journal tells it"},
                    {"reason", 'r', "TEXT", "why they are taken away (needed with --clear)"}},
    },
    {
        .name = "forget",
        .arguments = "FILE PERSON",
        .least = 2,
        .most = 2,
        .summary = "blank a person's name for good",
        .details = "The journal knows people by number; this blanks the name and rewrites the file\n"
                   "so that no byte of it is left there. What somebody typed as a note is not\n"
                   "searched.",
        .run = cmd_forget,
    },
    {
        .name = "copy",
        .arguments = "FILE OUT",
        .least = 2,
        .most = 2,
        .summary = "a consistent copy, also while the file is in use",
        .details = "OUT must not be there yet. The copy is checked before it gets its name.",
        .run = cmd_copy,
    },
    {
        .name = "export",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "all of a build as JSON, for other programs and for long",
        .details = "Kit, workshop, people, journal and pictures, as docs/export.md describes them\n"
                   "and docs/export.schema.json checks them. Names of people are in it; codes and\n"
                   "devices are not. kitbench restore makes the same build of it.",
        .run = cmd_export,
        .options = {{"output", 'o', "JSON", "write it there instead of on the screen"}},
    },
    {
        .name = "page",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .summary = "the state of a build as one web page, to send around",
        .details = "HTML without scripts, readable without any program of ours: where the build\n"
                   "stands, what is missing, the plan, each step, each box. No names are in it.",
        .run = cmd_page,
        .options = {{"output", 'o', "HTML", "write it there instead of on the screen"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "restore",
        .arguments = "FILE JSON",
        .least = 2,
        .most = 2,
        .summary = "make a build file from its export",
        .details = "FILE must not be there yet. Nothing of JSON is taken on trust: what does not fit\n"
                   "is refused with its table and row, and then there is no FILE. Codes must be set\n"
                   "again.",
        .run = cmd_restore,
    },
    {.name = NULL},
};
