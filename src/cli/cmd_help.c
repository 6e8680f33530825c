/* cmd_help.c: `kitbench help` */
#include <string.h>

#include "cli/commands.h"
#include "cli/help.h"

int cmd_help(cli_call *call) {
    buf out = {0};
    if (call->n_arguments == 0) {
        help_all(&out);
        return cli_print(&out, EXIT_DONE);
    }
    size_t n;
    const cli_command *all = cli_commands(&n);
    for (size_t i = 0; i < n; i++) {
        if (strcmp(all[i].name, call->arguments[0]) == 0) {
            help_command(&out, &all[i]);
            return cli_print(&out, EXIT_DONE);
        }
    }
    err e;
    err_input(&e, "help", "see kitbench --help", "there is no command \"%s\"", call->arguments[0]);
    return cli_fail(&e);
}
