/* cmd_undo.c: `kitbench undo`: takes back an entry or the last act, by another entry. */
#include "base/wrap.h"
#include "cli/ask.h"
#include "cli/commands.h"

typedef struct {
    text *told;
    uint32_t n;
} undone;

static void add_json(buf *out, const undone *u) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "undone");
    for (uint32_t i = 0; i < u->n; i++)
        json_put_text(&j, NULL, u->told[i]);
    json_end_array(&j);
    json_end_object(&j);
}

static int answer(cli_call *call, const undone *u) {
    buf out = {0};
    if (call->json)
        add_json(&out, u);
    for (uint32_t i = 0; i < u->n && !call->json; i++)
        wrap_add(&out, arena_format(call->memory, "undone: %.*s", TEXT_ARG(u->told[i])), CLI_WIDTH, 8);
    return cli_print(&out, EXIT_DONE);
}

int cmd_undo(cli_call *call) {
    err e;
    int64_t entry = 0;
    if (call->n_arguments == 2 && !build_number("ENTRY", call->arguments[1], 1, INT64_MAX, &entry, &e))
        return cli_fail(&e);
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "undo", &d, &e))
        return cli_fail(&e);
    undone u = {0};
    bool signs = cli_given(call, "reason"); /* a sign-off is undone with one */
    bool ok = (!signs || ask_proof(call, d, cli_value(call, "by"), &e)) &&
              desk_undo(d, entry, cli_value(call, "reason"), build_who(call), &u.told, &u.n, &e);
    int code = ok ? answer(call, &u) : cli_fail(&e);
    desk_close(d);
    return code;
}
