/* help.h: the help, written from the command table. */
#ifndef CLI_HELP_H
#define CLI_HELP_H

#include "cli/cli.h"

void help_all(buf *out);
void help_command(buf *out, const cli_command *command);

#endif
