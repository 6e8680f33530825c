/* cmd_closing.c: `kitbench closing` and `left-overs`: what to recount tonight, and what left-over pieces tell. */
#include "base/sys.h"
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

enum { FIVE_MINUTES_S = 300 };

static text place_name(const desk *d, const stock_recount *r, text *name) {
    *name = r->tool == KIT_NONE ? d->kit->parts[r->part].name : d->kit->tools[r->tool].name;
    return r->tool == KIT_NONE ? d->kit->parts[r->part].number : d->kit->tools[r->tool].number;
}

static void closing_json(const desk *d, const stock_recount *list, uint32_t n, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "recount");
    for (uint32_t i = 0; i < n; i++) {
        text name, number = place_name(d, &list[i], &name);
        json_put_object(&j, NULL);
        json_put_text(&j, list[i].tool == KIT_NONE ? "part" : "tool", number);
        json_put_text(&j, "name", name);
        json_put_integer(&j, "pieces", list[i].pieces);
        json_put_number(&j, "chance", list[i].chance);
        json_put_integer(&j, "seconds", list[i].seconds);
        json_put_bool(&j, "chosen", list[i].chosen);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

static void closing_text(const cli_call *call, const desk *d, const stock_recount *list, uint32_t n,
                         buf *out) {
    buf_add_z(out, n ? "Recount within five minutes (chance that a mistake shows):\n"
                     : "Nothing was handled since then.\n");
    for (uint32_t i = 0; i < n; i++) {
        text name, number = place_name(d, &list[i], &name);
        if (list[i].chosen)
            wrap_add(out,
                     arena_format(call->memory, "  %s %.*s %.*s: %lld pieces, %.0f %%",
                                  list[i].tool == KIT_NONE ? "part" : "tool", TEXT_ARG(number),
                                  TEXT_ARG(name), (long long)list[i].pieces, 100 * list[i].chance),
                     CLI_WIDTH, 4);
    }
    if (n)
        wrap_add(out,
                 TEXT("The chances rank; the rates behind them are common practice, no source. Written "
                      "with --complete or --missing WHAT."),
                 CLI_WIDTH, 0);
}

static bool read_since(const cli_call *call, date_moment *since, err *e) {
    const char *word = cli_value(call, "since");
    *since = (date_moment)date_of_moment(sys_now()) * MINUTES_PER_DAY;
    return !word || date_read_moment(text_of(word), since) ||
           err_input(e, "--since", "write it like \"2027-03-14 18:30\"", "\"%s\" is no moment", word);
}

int cmd_closing(cli_call *call) {
    err e;
    desk *d;
    date_moment since;
    desk_reasons none = {0};
    stock_recount *list;
    buf out = {0};
    bool write = cli_given(call, "complete") || cli_given(call, "missing");
    if (!read_since(call, &since, &e) ||
        !desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "closing", &d, &e))
        return cli_fail(&e);
    int code;
    if (write) {
        code = desk_close_count(d, cli_value(call, "missing"), build_who(call), &e)
                   ? work_answer(call, d, KIT_NONE, &none, TEXT("The closing count is written."))
                   : cli_fail(&e);
    } else {
        uint32_t n = stock_closing_count(call->memory, d->kit, d->stock, since, FIVE_MINUTES_S, &list);
        if (call->json)
            closing_json(d, list, n, &out);
        else
            closing_text(call, d, list, n, &out);
        code = cli_print(&out, EXIT_DONE);
    }
    desk_close(d);
    return code;
}

static bool read_counts(const cli_call *call, const desk *d, stock_left_over *list, uint32_t *n, err *e) {
    if (call->n_arguments % 2 == 0)
        return err_input(e, "left-overs", "write PART N for each", "a part has no quantity");
    for (int i = 1; i < call->n_arguments; i += 2) {
        stock_left_over *l = &list[(*n)++];
        if (!work_part(d, call->arguments[i], &l->part, e) ||
            !build_number("N", call->arguments[i + 1], 0, CLI_MOST, &l->counted, e))
            return false;
    }
    return true;
}

static void left_json(const desk *d, const stock_left_over *list, uint32_t n, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "left_overs");
    for (uint32_t i = 0; i < n; i++) {
        const stock_left_over *l = &list[i];
        json_put_object(&j, NULL);
        json_put_text(&j, "part", d->kit->parts[l->part].number);
        json_put_integer(&j, "counted", l->counted);
        json_put_integer(&j, "expected", l->expected);
        json_put_array(&j, "steps");
        for (uint32_t s = 0; s < l->n_steps; s++)
            json_put_text(&j, NULL, d->kit->steps[l->steps[s]].number);
        json_end_array(&j);
        if (l->swapped_for == KIT_NONE)
            json_put_null(&j, "swapped_for");
        else
            json_put_text(&j, "swapped_for", d->kit->parts[l->swapped_for].number);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

static void left_text(const cli_call *call, const desk *d, const stock_left_over *l, buf *out) {
    arena *a = call->memory;
    text line =
        arena_format(a, "%.*s %.*s: %lld counted, %lld expected", TEXT_ARG(d->kit->parts[l->part].number),
                     TEXT_ARG(d->kit->parts[l->part].name), (long long)l->counted, (long long)l->expected);
    for (uint32_t s = 0; s < l->n_steps; s++)
        line = arena_format(a, "%.*s%s%.*s%s", TEXT_ARG(line), s ? ", " : "; may be missing in ",
                            TEXT_ARG(d->kit->steps[l->steps[s]].number),
                            s < l->n_exact ? " (takes just as many)" : "");
    if (l->swapped_for != KIT_NONE)
        line =
            arena_format(a, "%.*s; may also be a swap: too few of %.*s are left, which may sit in its place",
                         TEXT_ARG(line), TEXT_ARG(d->kit->parts[l->swapped_for].number));
    wrap_add(out, line, CLI_WIDTH, 2);
}

int cmd_left_overs(cli_call *call) {
    err e;
    desk *d;
    uint32_t n = 0;
    bool right = true;
    buf out = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "left-overs", &d, &e))
        return cli_fail(&e);
    stock_left_over *list = arena_array(call->memory, stock_left_over, (size_t)call->n_arguments + 1);
    if (!read_counts(call, d, list, &n, &e)) {
        desk_close(d);
        return cli_fail(&e);
    }
    stock_judge_left_overs(call->memory, d->kit, d->stock, list, n);
    for (uint32_t i = 0; i < n; i++)
        right = right && !list[i].difference;
    if (call->json)
        left_json(d, list, n, &out);
    for (uint32_t i = 0; i < n && !call->json; i++)
        left_text(call, d, &list[i], &out);
    desk_close(d);
    return cli_print(&out, right ? EXIT_DONE : EXIT_NO);
}
