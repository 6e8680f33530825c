/* commands_kits.c: the rows of the command table that are about kits and parts lists before a build. */
#include "cli/commands.h"

const cli_command commands_kits[] = {
    {
        .name = "check",
        .arguments = "KIT",
        .least = 1,
        .most = 1,
        .summary = "every fault of a kit folder, or its size when all is right",
        .details = "Reads the kit folder (docs/kit-format.md) and with --workshop also the\n"
                   "workshop's folder (docs/workshop-format.md). Each fault is told with file, row,\n"
                   "column, what is wrong and what would be right, all in one run. Exit code 0: no\n"
                   "fault, 2: faults.",
        .run = cmd_check,
        .options = {{"workshop", 'w', "FOLDER", "check the workshop that builds it, too"},
                    {"package", 0, NULL, "write datapackage.json anew from the tables first"}},
    },
    {
        .name = "draft",
        .arguments = "LIST",
        .least = 1,
        .most = 1,
        .summary = "a draft kit from somebody else's parts list",
        .details = "Reads a parts list (CSV with commas, semicolons or tabs; UTF-8, UTF-16 or\n"
                   "Windows-1252) and tells how it was read: which column is what, how sure that is\n"
                   "and why, and each row that is no part or was not understood. With -o the draft\n"
                   "kit is written: the parts, one box and bag, no steps. What was guessed wrong can\n"
                   "be named: --columns \"name=Part; quantity=C\" takes headings or a spreadsheet's\n"
                   "letters; there are name, quantity, unit, number, makers-number, specification,\n"
                   "note, box, bag and nothing (docs/draft.md). Exit code 1: some rows were not\n"
                   "understood.",
        .run = cmd_draft,
        .options = {{"output", 'o', "KIT", "folder to write, which must not be there yet"},
                    {"columns", 'c', "WHAT", "which columns are what"},
                    {"name", 0, "TEXT", "the kit's name; otherwise the list's file name"},
                    {"header-row", 0, "N", "row of the headings; 0: there are none"},
                    {"separator", 0, "WORD", "comma, semicolon or tab"},
                    {"encoding", 0, "WORD", "utf-8, utf-16le, utf-16be or windows-1252"},
                    {"decimal", 0, "WORD", "the decimal mark of the quantities: point or comma"},
                    {"open-packs", 0, NULL, "count the pieces of packs: 2 of 50 are 100"}},
    },
    {.name = NULL},
};
