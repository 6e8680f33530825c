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
