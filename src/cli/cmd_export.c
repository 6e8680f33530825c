/* cmd_export.c: `kitbench export` and `kitbench restore`: a build as JSON, and back. */
#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"

enum { MOST_EXPORT_BYTES = 1 << 30 };

static void fill(json_out *j, const void *what) {
    json_put_text(j, "file", text_of(what));
}

int cmd_export(cli_call *call) {
    err e;
    desk *d;
    const char *to = cli_value(call, "output");
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "export", &d, &e))
        return cli_fail(&e);
    buf out = {0};
    bool ok = desk_export(d, &out, &e);
    buf_add_char(&out, '\n');
    text line = arena_format(call->memory, "%s holds the build up to entry %lld", to ? to : "",
                             (long long)d->last_entry);
    desk_close(d);
    if (ok && !to)
        return cli_print(&out, EXIT_DONE);
    if (ok && sys_exists(to))
        ok = err_input(&e, to, "choose another name, or move that file away",
                       "there is a file of that name already");
    ok = ok && sys_write_file(to, buf_text(&out), &e);
    buf_free(&out);
    return ok ? build_answer(call, line, fill, to, EXIT_DONE) : cli_fail(&e);
}

int cmd_restore(cli_call *call) {
    err e;
    text json;
    const char *to = call->arguments[0], *from = call->arguments[1];
    if (!sys_read_file(call->memory, from, MOST_EXPORT_BYTES, &json, &e) || !desk_restore(to, from, json, &e))
        return cli_fail(&e);
    return build_answer(call, arena_format(call->memory, "%s made from %s", to, from), fill, to, EXIT_DONE);
}
