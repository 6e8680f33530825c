/* cmd_calendar.c: `kitbench calendar`: the dates of a build for other programs. */
#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"

typedef struct {
    const char *path;
    uint32_t events;
} written;

static void fill(json_out *j, const void *what) {
    const written *w = what;
    json_put_text(j, "file", text_of(w->path));
    json_put_integer(j, "events", w->events);
}

/* A build without a crew, or a kit without steps, has dates all the same. */
static bool make(const plan_call *it, buf *out, uint32_t *n, err *e) {
    plan *p = NULL;
    bool planned = it->in.workshop && it->in.kit->n_steps;
    return (!planned || plan_make(it->desk->memory, &it->in, &p, e)) && desk_calendar(it->desk, p, out, n, e);
}

int cmd_calendar(cli_call *call) {
    err e;
    plan_call it;
    if (!plan_call_open(call, "calendar", &it, &e))
        return cli_fail(&e);
    buf out = {0};
    written w = {.path = cli_value(call, "output")};
    bool made = make(&it, &out, &w.events, &e);
    plan_call_close(&it);
    if (made && !w.path && !call->json)
        return cli_print(&out, EXIT_DONE);
    if (made && !w.path)
        made = err_input(&e, "--json", "name a file with -o", "the calendar itself is no JSON");
    made = made && sys_write_file(w.path, buf_text(&out), &e);
    buf_free(&out);
    if (!made)
        return cli_fail(&e);
    text line = arena_format(call->memory, "%s: %u events", w.path, w.events);
    return build_answer(call, line, fill, &w, EXIT_DONE);
}
