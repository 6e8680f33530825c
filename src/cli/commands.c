/* commands.c: the one table of commands. A new command is a row here, a line in commands.h, and cmd_NAME.c. */
#include "cli/commands.h"

static const cli_command commands[] = {
    {
        .name = "check",
        .arguments = "KIT",
        .least = 1,
        .most = 1,
        .group = "Kits",
        .summary = "every fault of a kit folder, or its size when all is right",
        .details = "Reads the kit folder (docs/kit-format.md) and with --workshop also the workshop's\n"
                   "folder (docs/workshop-format.md). Each fault is told with file, row, column, what is\n"
                   "wrong and what would be right, all in one run. Exit code 0: no fault, 2: faults.",
        .run = cmd_check,
        .options = {{"workshop", 'w', "FOLDER", "check the workshop that builds it, too"},
                    {"package", 0, NULL, "write datapackage.json anew from the tables first"}},
    },
    {
        .name = "draft",
        .arguments = "LIST",
        .least = 1,
        .most = 1,
        .group = "Kits",
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
    {
        .name = "print",
        .arguments = "FILE|KIT WHAT -o OUT.pdf",
        .least = 2,
        .most = 2,
        .group = "Paper",
        .summary = "sheets to write on and to hang up, as a PDF",
        .details = "WHAT is one of\n"
                   "  check-sheets  the rows of each box to tick at the stock check; --box, --copies\n"
                   "  job-cards     a card for each step; --step\n"
                   "Both need no more than a kit folder. The same input gives the same bytes.",
        .run = cmd_print,
        .options = {{"output", 'o', "OUT.pdf", "where the PDF is written"},
                    {"paper", 0, "SIZE", "a4 (unless said otherwise) or letter"},
                    {"box", 0, "BOX,...", "only these boxes"},
                    {"copies", 0, "N", "of each box's sheets, for several pairs"},
                    {"step", 0, "STEP,...", "only these steps"}},
    },
    {
        .name = "help",
        .arguments = "[COMMAND]",
        .most = 1,
        .group = "About",
        .summary = "the list of commands, or one command's help",
        .details = "Without an argument the list of all commands, with one what that command takes.",
        .run = cmd_help,
    },
};

const cli_command *cli_commands(size_t *n) {
    *n = sizeof commands / sizeof commands[0];
    return commands;
}
