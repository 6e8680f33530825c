/* cmd_chase.c: `kitbench chase`: where each missing part stands, and what the maker was asked for. */
#include "base/sys.h"
#include "base/wrap.h"
#include "cli/ask.h"
#include "cli/commands.h"
#include "cli/work.h"

static void put_day(json_out *j, const char *key, bool known, date_day day) {
    char printed[11];
    if (!known) {
        json_put_null(j, key);
        return;
    }
    date_print(day, printed);
    json_put_text(j, key, text_of(printed));
}

static void part_json(json_out *j, const desk *d, const desk_chased *c) {
    json_put_object(j, NULL);
    json_put_text(j, "part", d->kit->parts[c->part].number);
    json_put_text(j, "name", d->kit->parts[c->part].name);
    json_put_text(j, "state", text_of(desk_chase_word(c->state)));
    json_put_integer(j, "lacking", c->lacking);
    json_put_integer(j, "asked", c->asked);
    put_day(j, "asked_on", c->asked > 0, date_of_moment(c->asked_at));
    json_put_integer(j, "promised", c->promised);
    put_day(j, "promised_for", c->promised_for != INT32_MAX, c->promised_for);
    json_put_integer(j, "steps_stopped", c->steps_stopped);
    json_put_array(j, "stand_ins");
    for (uint32_t i = 0; i < c->n_stand_ins; i++) {
        const kit_stand_in *s = &d->kit->stand_ins[c->stand_ins[i]];
        json_put_object(j, NULL);
        json_put_text(j, "part", d->kit->parts[s->stand_in].number);
        json_put_text(j, "condition", s->condition);
        json_put_integer(j, "in_stock", stock_available(d->stock, s->stand_in));
        json_end_object(j);
    }
    json_end_array(j);
    json_end_object(j);
}

static void part_text(const cli_call *call, const desk *d, const desk_chased *c, buf *out) {
    const kit_part *p = &d->kit->parts[c->part];
    char day[11];
    text line = arena_format(call->memory, "%.*s %.*s: %s; %lld lack", TEXT_ARG(p->number), TEXT_ARG(p->name),
                             desk_chase_word(c->state), (long long)c->lacking);
    if (c->asked > 0) {
        date_print(date_of_moment(c->asked_at), day);
        line = arena_format(call->memory, "%.*s, %lld asked on %s", TEXT_ARG(line), (long long)c->asked, day);
    }
    if (c->promised > 0) {
        date_print(c->promised_for, day);
        line = arena_format(call->memory, "%.*s, %lld promised for %s", TEXT_ARG(line),
                            (long long)c->promised, day);
    }
    if (c->steps_stopped)
        line = arena_format(call->memory, "%.*s; stops %u step%s", TEXT_ARG(line), c->steps_stopped,
                            c->steps_stopped == 1 ? "" : "s");
    wrap_add(out, line, CLI_WIDTH, 2);
    for (uint32_t i = 0; i < c->n_stand_ins; i++) {
        const kit_stand_in *s = &d->kit->stand_ins[c->stand_ins[i]];
        wrap_add(out,
                 arena_format(call->memory,
                              "  the maker allows %.*s %.*s%s%.*s (%lld in stock); ask, then decide",
                              TEXT_ARG(d->kit->parts[s->stand_in].number),
                              TEXT_ARG(d->kit->parts[s->stand_in].name), s->condition.len ? ", " : "",
                              TEXT_ARG(s->condition), (long long)stock_available(d->stock, s->stand_in)),
                 CLI_WIDTH, 4);
    }
}

static void add_parts(const cli_call *call, const desk *d, json_out *j, buf *out) {
    desk_chased *list;
    uint32_t n = desk_chase(d, date_of_moment(sys_now()), &list);
    for (uint32_t i = 0; i < n; i++)
        if (call->json)
            part_json(j, d, &list[i]);
        else
            part_text(call, d, &list[i], out);
}

static int show(const cli_call *call, const desk *d) {
    desk_chased *list;
    uint32_t n = desk_chase(d, date_of_moment(sys_now()), &list), open = 0;
    for (uint32_t i = 0; i < n; i++)
        open += list[i].state != DESK_ARRIVED;
    return work_list(call, d, "parts", "Nothing lacks, as far as it is counted.\n", add_parts,
                     open ? EXIT_NO : EXIT_DONE);
}

static bool correct(cli_call *call, desk *d, desk_reasons *why, err *e) {
    kit_index part;
    int64_t quantity;
    return work_part(d, call->arguments[1], &part, e) &&
           build_number("N", call->arguments[2], 0, CLI_MOST, &quantity, e) &&
           desk_correct_asked(d, part, quantity, cli_value(call, "reason"), build_who(call), why, e);
}

int cmd_chase(cli_call *call) {
    err e;
    desk *d;
    uint32_t n;
    desk_reasons why = {0};
    bool sent = cli_given(call, "sent"), corrected = call->n_arguments == 3, ok = true;
    if (call->n_arguments == 2 || (sent && corrected)) {
        err_input(&e, "chase", "write FILE, FILE --sent HOW, or FILE PART N --reason TEXT",
                  "that is none of its forms");
        return cli_fail(&e);
    }
    if (!desk_open(call->memory, call->arguments[0], sent || corrected ? DESK_WRITE : DESK_READ, "chase", &d,
                   &e))
        return cli_fail(&e);
    if (sent)
        ok = desk_report_sent(d, cli_value(call, "sent"), build_who(call), &n, &e);
    else if (corrected)
        ok = ask_proof(call, d, cli_value(call, "by"), &e) && correct(call, d, &why, &e);
    int code = !ok ? cli_fail(&e) : why.n ? work_answer(call, d, KIT_NONE, &why, TEXT("")) : show(call, d);
    desk_close(d);
    return code;
}
