/* cmd_new.c: `kitbench new`: begins a build file. */
#include "cli/build.h"
#include "cli/commands.h"

static void fill(json_out *j, const void *what) {
    const desk *d = what;
    json_put_text(j, "file", text_of(d->path));
    json_put_text(j, "kit", d->kit->number);
    json_put_integer(j, "rows", d->kit->n_rows);
    json_put_integer(j, "steps", d->kit->n_steps);
    json_put_integer(j, "crew", d->workshop ? d->workshop->n_crew : 0);
}

int cmd_new(cli_call *call) {
    const char *path = call->arguments[0], *kit_folder = cli_value(call, "kit");
    err e;
    if (!kit_folder) {
        err_input(&e, "new", "write --kit FOLDER", "the kit is missing");
        return cli_fail(&e);
    }
    faults f = faults_in(call->memory);
    if (!desk_new(call->memory, path, kit_folder, cli_value(call, "workshop"), desk_device(call->memory), &f,
                  &e))
        return e.kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(&e);
    desk *d;
    if (!desk_open(call->memory, path, DESK_READ, "new", &d, &e))
        return cli_fail(&e);
    text line =
        arena_format(call->memory, "%s begun: %.*s, %u rows, %u steps%s", path, TEXT_ARG(d->kit->name),
                     d->kit->n_rows, d->kit->n_steps,
                     d->workshop ? arena_format(call->memory, ", a crew of %u", d->workshop->n_crew).at : "");
    int code = build_answer(call, line, fill, d, EXIT_DONE);
    desk_close(d);
    return code;
}
