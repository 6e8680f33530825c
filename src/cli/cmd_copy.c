/* cmd_copy.c: `kitbench copy`: a consistent copy of a build in use. */
#include "cli/build.h"
#include "cli/commands.h"

static void fill(json_out *j, const void *what) {
    json_put_text(j, "copy", text_of(what));
}

int cmd_copy(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "copy", &d, &e))
        return cli_fail(&e);
    const char *to = call->arguments[1];
    text line = arena_format(call->memory, "%s is a copy up to entry %lld", to, (long long)d->last_entry);
    int code = desk_copy(d, to, &e) ? build_answer(call, line, fill, to, EXIT_DONE) : cli_fail(&e);
    desk_close(d);
    return code;
}
