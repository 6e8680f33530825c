/* commands.c: the one table of commands. A new command is a row here, a line in commands.h, and cmd_NAME.c. */
#include "cli/commands.h"

static const cli_command commands[] = {
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
