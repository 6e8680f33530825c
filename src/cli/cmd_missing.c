/* cmd_missing.c: `kitbench missing`: what is not as on the list, and what that stops. */
#include "cli/commands.h"
#include "cli/missing.h"

int cmd_missing(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "missing", &d, &e))
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        missing_json(d, &out);
    else
        missing_text(call, d, &out);
    const stock *s = d->stock;
    bool wrong =
        s->n_missing_rows || s->n_extra_rows || s->n_damaged_rows || s->whole.finds || s->n_low_batteries;
    desk_close(d);
    return cli_print(&out, wrong ? EXIT_NO : EXIT_DONE);
}
