/* cmd_test.c: `kitbench test`: a measured value, and who signs it. */
#include "cli/ask.h"
#include "cli/commands.h"
#include "cli/work.h"

static text headline(const cli_call *call, const desk *d, kit_index test) {
    const kit_step_test *t = &d->kit->step_tests[test];
    const stock_test *s = &d->stock->work->tests[test];
    return arena_format(call->memory, "%.*s test %lld, %.*s: %s, %s%s",
                        TEXT_ARG(d->kit->steps[t->step].number), (long long)stock_test_number(d->kit, test),
                        TEXT_ARG(t->what), s->in_limits ? "within the limits" : "FAILED, out of the limits",
                        s->is_signed ? "signed" : "not signed",
                        t->hold_point && !(s->in_limits && s->is_signed) ? "; nothing may follow it" : "");
}

static int answer(cli_call *call, desk *d, kit_index test, const desk_reasons *why) {
    kit_index step = d->kit->step_tests[test].step;
    int code = work_answer(call, d, step, why, headline(call, d, test));
    bool failed = !why->n && !d->stock->work->tests[test].in_limits;
    return code == EXIT_DONE && failed ? EXIT_NO : code;
}

static bool find_test(const cli_call *call, const desk *d, kit_index step, kit_index *test, err *e) {
    int64_t number;
    if (!build_number("NUMBER", call->arguments[2], 1, 1000, &number, e))
        return false;
    *test = stock_find_test(d->kit, step, number);
    return *test != KIT_NONE || err_input(e, "NUMBER", "take it from the job card", "%.*s has no test %lld",
                                          TEXT_ARG(d->kit->steps[step].number), (long long)number);
}

int cmd_test(cli_call *call) {
    err e;
    kit_index step, test;
    desk_reasons why = {0};
    int code;
    desk *d = work_open(call, DESK_WRITE, &step, &code);
    if (!d)
        return code;
    bool ok = find_test(call, d, step, &test, &e) && ask_proof(call, d, cli_value(call, "signed-by"), &e) &&
              desk_test(d, test, text_of(call->arguments[3]), cli_value(call, "signed-by"),
                        cli_value(call, "reason"), build_who(call), &why, &e);
    code = ok ? answer(call, d, test, &why) : cli_fail(&e);
    desk_close(d);
    return code;
}
