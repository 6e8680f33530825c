/* commands.h: one function for each command; each stands in cmd_NAME.c. */
#ifndef CLI_COMMANDS_H
#define CLI_COMMANDS_H

#include "cli/cli.h"

int cmd_check(cli_call *call);
int cmd_draft(cli_call *call);
int cmd_help(cli_call *call);
int cmd_print(cli_call *call);

#endif
