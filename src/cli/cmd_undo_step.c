/* cmd_undo_step.c: `kitbench undo-step`: what undoing a step costs, and on --yes its doing. */
#include "base/wrap.h"
#include "cli/ask.h"
#include "cli/commands.h"
#include "cli/work.h"

static void add_steps(const cli_call *call, const desk *d, buf *out, const char *title, const kit_index *list,
                      uint32_t n) {
    for (uint32_t i = 0; i < n; i++) {
        const kit_step *s = &d->kit->steps[list[i]];
        wrap_add(out,
                 arena_format(call->memory, "%s %.*s %.*s", title, TEXT_ARG(s->number), TEXT_ARG(s->name)),
                 CLI_WIDTH, 2);
    }
}

static void add_text(const cli_call *call, const desk *d, const stock_undoing *u, buf *out) {
    add_steps(call, d, out, "Comes off:", u->off, u->n_off);
    for (uint32_t i = 0; i < u->n_void_tests; i++) {
        const kit_step_test *t = &d->kit->step_tests[u->void_tests[i]];
        wrap_add(out,
                 arena_format(call->memory, "Void%s: %.*s test %lld, %.*s",
                              d->stock->work->tests[u->void_tests[i]].is_signed ? " sign-off" : "",
                              TEXT_ARG(d->kit->steps[t->step].number),
                              (long long)stock_test_number(d->kit, u->void_tests[i]), TEXT_ARG(t->what)),
                 CLI_WIDTH, 2);
    }
    for (uint32_t i = 0; i < u->n_again; i++) {
        const stock_again *p = &u->again[i];
        wrap_add(out,
                 arena_format(call->memory, "Single use, draw again: %lld x %.*s; %lld in stock%s",
                              (long long)p->again, TEXT_ARG(d->kit->parts[p->part].number),
                              (long long)p->available, p->available < p->again ? ", NOT ENOUGH" : ""),
                 CLI_WIDTH, 2);
    }
    add_steps(call, d, out, "Stays, but was built after it; let an adult judge:", u->later, u->n_later);
    wrap_add(out,
             arena_format(call->memory,
                          "About %lld min to take off (half the kit's likely minutes: common practice, no "
                          "source) and %lld min to do again, beginners' factor not included.",
                          (long long)u->off_min, (long long)u->redo_min),
             CLI_WIDTH, 0);
}

static void json_steps(json_out *j, const desk *d, const char *key, const kit_index *list, uint32_t n) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < n; i++)
        json_put_text(j, NULL, d->kit->steps[list[i]].number);
    json_end_array(j);
}

static void add_json(const desk *d, const stock_undoing *u, const desk_reasons *why, bool written, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_bool(&j, "written", written);
    work_put_reasons(&j, "reasons", why);
    json_steps(&j, d, "comes_off", u->off, u->n_off);
    json_steps(&j, d, "running", u->running, u->n_running);
    json_steps(&j, d, "built_after", u->later, u->n_later);
    json_put_array(&j, "void_tests");
    for (uint32_t i = 0; i < u->n_void_tests; i++) {
        json_put_object(&j, NULL);
        json_put_text(&j, "step", d->kit->steps[d->kit->step_tests[u->void_tests[i]].step].number);
        json_put_integer(&j, "test", stock_test_number(d->kit, u->void_tests[i]));
        json_put_bool(&j, "signed", d->stock->work->tests[u->void_tests[i]].is_signed);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_array(&j, "draw_again");
    for (uint32_t i = 0; i < u->n_again; i++) {
        json_put_object(&j, NULL);
        json_put_text(&j, "part", d->kit->parts[u->again[i].part].number);
        json_put_integer(&j, "quantity", u->again[i].again);
        json_put_integer(&j, "in_stock", u->again[i].available);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_integer(&j, "off_min", u->off_min);
    json_put_integer(&j, "redo_min", u->redo_min);
    json_end_object(&j);
}

static int answer(cli_call *call, desk *d, const stock_undoing *u, const desk_reasons *why, bool yes) {
    buf out = {0};
    bool written = yes && !why->n;
    if (call->json) {
        add_json(d, u, why, written, &out);
    } else {
        add_text(call, d, u, &out);
        buf_add_z(&out, written ? "Written.\n"
                        : yes   ? "Not written:\n"
                                : "Nothing written; --yes does it.\n");
        for (uint32_t i = 0; i < why->n; i++)
            wrap_add(&out, arena_format(call->memory, "  %.*s", TEXT_ARG(why->list[i])), CLI_WIDTH, 4);
    }
    return cli_print(&out, why->n ? EXIT_NO : EXIT_DONE);
}

int cmd_undo_step(cli_call *call) {
    err e;
    kit_index step;
    desk_reasons why = {0};
    stock_undoing u;
    int code;
    bool yes = cli_given(call, "yes");
    desk *d = work_open(call, yes ? DESK_WRITE : DESK_READ, &step, &code);
    if (!d)
        return code;
    if (d->stock->work->steps[step].state == STOCK_TO_DO)
        err_input(&e, call->arguments[1], "", "it was not begun");
    else
        e.kind = ERR_NONE;
    if (e.kind == ERR_NONE)
        desk_plan_undoing(d, step, &u);
    bool ok = e.kind == ERR_NONE &&
              (!yes || (ask_proof(call, d, cli_value(call, "by"), &e) &&
                        desk_undo_step(d, step, cli_value(call, "reason"), build_who(call), &why, &e)));
    code = ok ? answer(call, d, &u, &why, yes) : cli_fail(&e);
    desk_close(d);
    return code;
}
