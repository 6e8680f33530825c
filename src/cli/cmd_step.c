/* cmd_step.c: `kitbench start`, `change-over`, `leave`, `blocked`, `done`: what happens to a step. */
#include "cli/ask.h"
#include "cli/commands.h"
#include "cli/work.h"

/* One command: the build and the step it names, and what speaks against it. */
typedef struct {
    desk *d;
    kit_index step;
    desk_reasons why;
} step_act;

static text headline(const cli_call *call, const desk *d, kit_index step) {
    const kit_step *s = &d->kit->steps[step];
    return arena_format(call->memory, "%.*s %.*s: %s", TEXT_ARG(s->number), TEXT_ARG(s->name),
                        stock_state_word(d->stock->work->steps[step].state));
}

static int run(cli_call *call, bool (*act)(const cli_call *call, step_act *a, err *e)) {
    err e;
    step_act a = {0};
    int code;
    a.d = work_open(call, DESK_WRITE, &a.step, &code);
    if (!a.d)
        return code;
    code = act(call, &a, &e) ? work_answer(call, a.d, a.step, &a.why, headline(call, a.d, a.step))
                             : cli_fail(&e);
    desk_close(a.d);
    return code;
}

static bool start(const cli_call *call, step_act *a, err *e) {
    const char *confirm = cli_value(call, "confirm");
    return ask_proof(call, a->d, confirm, e) &&
           desk_start(a->d, a->step, cli_value(call, "by"), confirm, build_who(call), &a->why, e);
}

static bool change_over(const cli_call *call, step_act *a, err *e) {
    return desk_change_over(a->d, a->step, cli_value(call, "by"), build_who(call), &a->why, e);
}

static bool leave(const cli_call *call, step_act *a, err *e) {
    return desk_leave(a->d, a->step, NULL, build_who(call), &a->why, e);
}

static bool block(const cli_call *call, step_act *a, err *e) {
    return desk_leave(a->d, a->step, call->arguments[2], build_who(call), &a->why, e);
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

static bool finish(const cli_call *call, step_act *a, err *e) {
    int64_t minutes;
    desk_left *left = NULL;
    uint32_t n = 0;
    return build_option(call, "minutes", 0, 100000, -1, &minutes, e) && read_left(call, a->d, &left, &n, e) &&
           desk_finish(a->d, a->step, minutes, left, n, build_who(call), &a->why, e);
}

int cmd_start(cli_call *call) {
    return run(call, start);
}

int cmd_change_over(cli_call *call) {
    return run(call, change_over);
}

int cmd_leave(cli_call *call) {
    return run(call, leave);
}

int cmd_blocked(cli_call *call) {
    return run(call, block);
}

int cmd_done(cli_call *call) {
    return run(call, finish);
}
