/* commands_about.c: the rows of the command table that are about the program itself. */
#include "cli/commands.h"

const cli_command commands_about[] = {
    {
        .name = "help",
        .arguments = "[COMMAND]",
        .most = 1,
        .summary = "the list of commands, or one command's help",
        .details = "Without an argument the list of all commands, with one what that command takes.",
        .run = cmd_help,
        .options = {{"manual", 0, NULL, "the whole as a man page, in the macros of groff"},
                    {"completion", 0, NULL, "a script by which bash completes our commands"}},
    },
    {.name = NULL},
};
