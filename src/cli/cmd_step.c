/* cmd_step.c: `kitbench start`, `change-over`, `leave`, `blocked`, `done`: what happens to a step. */
#include "cli/commands.h"
#include "cli/work.h"

static text headline(const cli_call *call, const desk *d, kit_index step) {
    const kit_step *s = &d->kit->steps[step];
    return arena_format(call->memory, "%.*s %.*s: %s", TEXT_ARG(s->number), TEXT_ARG(s->name),
                        stock_state_word(d->stock->work->steps[step].state));
}

static int finish(cli_call *call, desk *d, kit_index step, bool ok, const desk_reasons *why, const err *e) {
    int code = ok ? work_answer(call, d, step, why, headline(call, d, step)) : cli_fail(e);
    desk_close(d);
    return code;
}

int cmd_start(cli_call *call) {
    err e;
    kit_index step;
    desk_reasons why = {0};
    int code;
    desk *d = work_open(call, DESK_WRITE, &step, &code);
    if (!d)
        return code;
    bool ok = desk_start(d, step, cli_value(call, "by"), cli_value(call, "confirm"),
                         desk_device(call->memory), &why, &e);
    return finish(call, d, step, ok, &why, &e);
}

int cmd_change_over(cli_call *call) {
    err e;
    kit_index step;
    desk_reasons why = {0};
    int code;
    desk *d = work_open(call, DESK_WRITE, &step, &code);
    if (!d)
        return code;
    bool ok = desk_change_over(d, step, cli_value(call, "by"), desk_device(call->memory), &why, &e);
    return finish(call, d, step, ok, &why, &e);
}

int cmd_leave(cli_call *call) {
    err e;
    kit_index step;
    desk_reasons why = {0};
    int code;
    desk *d = work_open(call, DESK_WRITE, &step, &code);
    if (!d)
        return code;
    bool ok = desk_leave(d, step, NULL, build_who(call), &why, &e);
    return finish(call, d, step, ok, &why, &e);
}

int cmd_blocked(cli_call *call) {
    err e;
    kit_index step;
    desk_reasons why = {0};
    int code;
    desk *d = work_open(call, DESK_WRITE, &step, &code);
    if (!d)
        return code;
    bool ok = desk_leave(d, step, call->arguments[2], build_who(call), &why, &e);
    return finish(call, d, step, ok, &why, &e);
}

/* "P-20=2, P-30=1" */
static bool read_left(const cli_call *call, const desk *d, desk_left **out, uint32_t *n, err *e) {
    text rest = text_trim(text_of(cli_value(call, "left"))), one, number, quantity;
    size_t cap = 0;
    while (rest.len && text_next_piece(&rest, ',', &one)) {
        desk_left l;
        if (!text_next_piece(&one, '=', &number) || !text_next_piece(&one, '=', &quantity))
            return err_input(e, "--left", "write it like P-20=2,P-30=1", "a part has no quantity");
        if (!work_part(d, arena_z(call->memory, number), &l.part, e) ||
            !build_number("--left", arena_z(call->memory, text_trim(quantity)), 0, CLI_MOST, &l.quantity, e))
            return false;
        arena_room(call->memory, *out, *n, cap, desk_left);
        (*out)[(*n)++] = l;
    }
    return true;
}

int cmd_done(cli_call *call) {
    err e;
    kit_index step;
    desk_reasons why = {0};
    int code;
    int64_t minutes;
    desk_left *left = NULL;
    uint32_t n_left = 0;
    if (!build_option(call, "minutes", 0, 100000, -1, &minutes, &e))
        return cli_fail(&e);
    desk *d = work_open(call, DESK_WRITE, &step, &code);
    if (!d)
        return code;
    bool ok = read_left(call, d, &left, &n_left, &e) &&
              desk_finish(d, step, minutes, left, n_left, build_who(call), &why, &e);
    return finish(call, d, step, ok, &why, &e);
}
