/* cmd_move.c: `kitbench move`: pieces go from one place to another. */
#include "cli/commands.h"
#include "cli/work.h"

static bool read_place(const char *name, const char *word, stock_place *out, err *e) {
    *out = stock_place_of(text_of(word));
    return *out != STOCK_PLACES || err_input(e, name, "write row, compartment, tub, fitted, lost or scrapped",
                                             "\"%s\" is no place", word);
}

static bool read_transfer(const cli_call *call, const desk *d, desk_transfer *t, err *e) {
    const char *step = cli_value(call, "step"), *bag = cli_value(call, "bag");
    *t = (desk_transfer){.row = KIT_NONE, .step = KIT_NONE};
    if (!work_part(d, call->arguments[1], &t->part, e) ||
        !build_number("N", call->arguments[2], 1, CLI_MOST, &t->quantity, e) ||
        !read_place("FROM", call->arguments[3], &t->from, e) ||
        !read_place("TO", call->arguments[4], &t->to, e) ||
        (step && !desk_find_step(d, text_of(step), &t->step, e)))
        return false;
    return !bag || desk_find_row(d, text_of(bag), d->kit->parts[t->part].number, &t->row, e);
}

int cmd_move(cli_call *call) {
    err e;
    desk *d;
    desk_transfer t;
    desk_reasons why = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "move", &d, &e))
        return cli_fail(&e);
    bool ok = read_transfer(call, d, &t, &e) && desk_move(d, &t, build_who(call), &why, &e);
    int code = EXIT_DONE;
    if (ok) {
        text line = arena_format(call->memory, "%lld x %.*s: %s to %s", (long long)t.quantity,
                                 TEXT_ARG(d->kit->parts[t.part].number), stock_place_word(t.from),
                                 stock_place_word(t.to));
        code = work_answer(call, d, KIT_NONE, &why, line);
    }
    desk_close(d);
    return ok ? code : cli_fail(&e);
}
