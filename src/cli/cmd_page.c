/* cmd_page.c: `kitbench page`: the state of a build as one HTML page. */
#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"

static void fill(json_out *j, const void *what) {
    json_put_text(j, "file", text_of(what));
}

int cmd_page(cli_call *call) {
    err e;
    plan_call it;
    const char *to = cli_value(call, "output");
    if (!plan_call_open(call, "page", &it, &e))
        return cli_fail(&e);
    buf out = {0};
    plan *p = NULL;
    bool planned = it.in.workshop && it.in.kit->n_steps;
    bool made = !planned || plan_make(call->memory, &it.in, &p, &e);
    if (made)
        desk_state_page(it.desk, p, sys_now(), &out);
    plan_call_close(&it);
    if (made && !to && !call->json)
        return cli_print(&out, EXIT_DONE);
    if (made && !to)
        made = err_input(&e, "--json", "name a file with -o", "the page itself is no JSON");
    made = made && sys_write_file(to, buf_text(&out), &e);
    buf_free(&out);
    return made ? build_answer(call, arena_format(call->memory, "%s written", to), fill, to, EXIT_DONE)
                : cli_fail(&e);
}
