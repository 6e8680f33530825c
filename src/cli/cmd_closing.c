/* cmd_closing.c: `kitbench closing`: what to recount tonight. */
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
        if (list[i].tool == KIT_NONE)
            json_put_text(&j, "label", desk_label_of(d, list[i].part));
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_array(&j, "not_back");
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        json_put_text(&j, NULL, d->kit->containers[d->record.holds[i].container].number);
    json_end_array(&j);
    json_end_object(&j);
}

static text where_it_lies(const desk *d, const stock_recount *r) {
    text label = r->tool == KIT_NONE ? desk_label_of(d, r->part) : TEXT("");
    return label.len ? arena_format(d->memory, " in %.*s", TEXT_ARG(label)) : TEXT("");
}

static void closing_text(const cli_call *call, const desk *d, const stock_recount *list, uint32_t n,
                         buf *out) {
    buf_add_z(out, n ? "Recount within five minutes (chance that a mistake shows):\n"
                     : "Nothing was handled since then.\n");
    for (uint32_t i = 0; i < n; i++) {
        text name, number = place_name(d, &list[i], &name);
        if (list[i].chosen)
            wrap_add(out,
                     arena_format(call->memory, "  %s %.*s %.*s%.*s: %lld pieces, %.0f %%",
                                  list[i].tool == KIT_NONE ? "part" : "tool", TEXT_ARG(number),
                                  TEXT_ARG(name), TEXT_ARG(where_it_lies(d, &list[i])),
                                  (long long)list[i].pieces, 100 * list[i].chance),
                     CLI_WIDTH, 4);
    }
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        wrap_add(out,
                 arena_format(call->memory, "Not back where it came from: %.*s",
                              TEXT_ARG(d->kit->containers[d->record.holds[i].container].number)),
                 CLI_WIDTH, 2);
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
    desk_reasons why = {0};
    stock_recount *list;
    buf out = {0};
    bool write = cli_given(call, "complete") || cli_given(call, "missing");
    if (!read_since(call, &since, &e) ||
        !desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "closing", &d, &e))
        return cli_fail(&e);
    int code;
    if (write) {
        code = desk_close_count(d, cli_value(call, "missing"), build_who(call), &why, &e)
                   ? work_answer(call, d, KIT_NONE, &why, TEXT("The closing count is written."))
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
