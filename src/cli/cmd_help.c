/* cmd_help.c: `kitbench help` */
#include <string.h>

#include "base/json_out.h"
#include "cli/commands.h"
#include "cli/help.h"
#include "cli/manual.h"

static void list_options(json_out *j, const cli_command *command) {
    json_put_array(j, "options");
    for (int i = 0; i < CLI_MAX_OPTIONS && command->options[i].name; i++) {
        const cli_option *o = &command->options[i];
        json_put_object(j, NULL);
        json_put_text(j, "name", text_of(o->name));
        if (o->value)
            json_put_text(j, "value", text_of(o->value));
        json_put_text(j, "help", text_of(o->help));
        json_end_object(j);
    }
    json_end_array(j);
}

/* `only` is NULL for all of them. */
static void list_as_json(buf *out, const cli_command *only) {
    const cli_command *c;
    const char *heading;
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "commands");
    for (size_t i = 0; (c = cli_command_at(i, &heading)); i++) {
        if (only && only != c)
            continue;
        json_put_object(&j, NULL);
        json_put_text(&j, "command", text_of(c->name));
        json_put_text(&j, "arguments", text_of(c->arguments));
        json_put_text(&j, "group", text_of(heading));
        json_put_text(&j, "summary", text_of(c->summary));
        json_put_text(&j, "details", text_of(c->details));
        list_options(&j, c);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

int cmd_help(cli_call *call) {
    buf out = {0};
    if (cli_given(call, "manual") || cli_given(call, "completion")) {
        (cli_given(call, "manual") ? manual_page : manual_completion)(&out);
        return cli_print(&out, EXIT_DONE);
    }
    if (call->n_arguments == 0) {
        if (call->json)
            list_as_json(&out, NULL);
        else
            help_all(&out);
        return cli_print(&out, EXIT_DONE);
    }
    const cli_command *c;
    for (size_t i = 0; (c = cli_command_at(i, NULL)); i++) {
        if (strcmp(c->name, call->arguments[0]) == 0) {
            if (call->json)
                list_as_json(&out, c);
            else
                help_command(&out, c);
            return cli_print(&out, EXIT_DONE);
        }
    }
    err e;
    err_input(&e, "help", "see kitbench --help", "there is no command \"%s\"", call->arguments[0]);
    return cli_fail(&e);
}
