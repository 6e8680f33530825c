#include "cli/help.h"

#include <stdio.h>
#include <string.h>

void help_all(buf *out) {
    buf_add_z(out, "usage: kitbench COMMAND [ARGUMENTS] [--json]\n\n"
                   "Gets a machine built from a boxed kit: stock check, missing parts, plan, sheets.\n");
    const char *above = NULL, *heading;
    const cli_command *c;
    for (size_t i = 0; (c = cli_command_at(i, &heading)); i++) {
        if (heading != above)
            buf_addf(out, "\n%s\n", heading);
        above = heading;
        buf_addf(out, "  %-12s  %s\n", c->name, c->summary);
    }
    buf_add_z(out, "\nkitbench COMMAND --help tells more of one command.\n"
                   "Exit codes: 0 done, 1 the answer is \"no\" (pieces missing, late), 2 bad input,\n"
                   "3 cannot run.\n");
}

static void add_option(buf *out, const cli_option *o) {
    char shown[64];
    if (o->letter)
        snprintf(shown, sizeof shown, "-%c, --%s%s%s", o->letter, o->name, o->value ? " " : "",
                 o->value ? o->value : "");
    else
        snprintf(shown, sizeof shown, "--%s%s%s", o->name, o->value ? " " : "", o->value ? o->value : "");
    buf_addf(out, "  %-22s  %s\n", shown, o->help);
}

void help_command(buf *out, const cli_command *command) {
    buf_addf(out, "usage: kitbench %s %s%s[OPTIONS]\n\n%s\n", command->name, command->arguments,
             command->arguments[0] ? " " : "", command->details);
    buf_add_z(out, "\nOptions\n");
    for (int i = 0; i < CLI_MAX_OPTIONS && command->options[i].name; i++)
        add_option(out, &command->options[i]);
    add_option(out, &(cli_option){"json", 0, NULL, "answer as one JSON object"});
    add_option(out, &(cli_option){"help", 0, NULL, "this text"});
}
