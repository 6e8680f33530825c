/* cmd_recount.c: `kitbench recount`: how many rows to count again, and which first. */
#include <math.h>

#include "cli/commands.h"
#include "cli/kit_source.h"
#include "cli/recount_rank.h"
#include "cli/trade_call.h"

static void json_row(const kit *k, const recount_row *row, json_out *j) {
    const kit_row *r = &k->rows[row->row];
    json_put_object(j, NULL);
    json_put_text(j, "container", k->containers[r->container].number);
    json_put_integer(j, "line", r->line);
    json_put_text(j, "part", k->parts[r->part].number);
    trade_json_real(j, "chance_wrong", row->chance);
    json_put_integer(j, "stops_steps", row->steps);
    json_put_integer(j, "stops_person_min", row->person_min);
    json_put_bool(j, "care", row->care);
    json_put_bool(j, "spare", row->spare);
    json_put_bool(j, "look_alike", row->alike);
    json_put_bool(j, "differs", row->differs);
    trade_json_real(j, "harm_person_min", row->harm);
    json_end_object(j);
}

static void text_row(const kit *k, const recount_row *row, buf *out) {
    const kit_row *r = &k->rows[row->row];
    wrap_pad(out, k->containers[r->container].number, 8);
    buf_addf(out, " %4lld  ", (long long)r->line);
    wrap_pad(out, k->parts[r->part].name, 26);
    buf_addf(out, " %4.0f %% %6.0f h%s%s%s%s\n", 100 * row->chance, (double)row->person_min / 60,
             row->care ? "  care" : "", row->spare ? "  spare" : "", row->alike ? "  alike" : "",
             row->differs ? "  differs" : "");
}

static void add_rows(const kit *k, const recount_row *rows, uint32_t n, buf *out, json_out *j, bool json) {
    if (json) {
        json_put_array(j, "first");
        for (uint32_t i = 0; i < n; i++)
            json_row(k, &rows[i], j);
        json_end_array(j);
        return;
    }
    buf_addf(out, "\nFirst, by the harm to be expected of a wrong count:\n%-8s %4s  %-26s %6s %8s\n",
             "box, bag", "row", "part", "wrong", "stops");
    for (uint32_t i = 0; i < n; i++)
        text_row(k, &rows[i], out);
    trade_line(
        out,
        "wrong: the chance (grows with the pieces; alike: the kit has a look-alike; differs: not as listed). "
        "stops: person-hours of work that need the part or come after. care: supervised, adult's work, a hold "
        "point or a torque: three times the harm; spares divide it. Our rule, no source.");
}

static void add_plan(const recount_state *s, const recount_plan *p, buf *out, json_out *j, bool json) {
    if (json) {
        json_put_integer(j, "rows", s->rows);
        json_put_integer(j, "needed", p->needed);
        json_put_integer(j, "to_go", p->to_go);
        trade_json_real(j, "sure_now", p->sure_now);
        trade_json_real(j, "share_wrong_low", p->share_low);
        trade_json_real(j, "share_wrong_high", p->share_high);
        return;
    }
    buf_addf(out, "Count %d more rows again, blind and drawn at random\n", p->to_go);
    trade_line(
        out,
        "After %d of %d rows, if no more are wrong, it is %.0f in 100 sure that fewer than %d wrong rows are left. "
        "So far %d were counted again and %d were wrong: sure to %.0f in 100.",
        p->needed, s->rows, 100 * s->confidence, s->wrong_allowed, s->recounted, s->found_wrong,
        100 * p->sure_now);
    if (s->recounted > 0)
        trade_line(out, "Share of wrong rows: %.1f to %.1f %% (exact, 95 %%).", 100 * p->share_low,
                   100 * p->share_high);
}

/* Two pairs counted the same rows: what did both miss? */
static bool add_double(const cli_call *call, buf *out, json_out *j, err *e) {
    int32_t first, second, both;
    if (!cli_given(call, "first") || !cli_given(call, "second") || !cli_given(call, "both"))
        return err_input(e, "--first, --second, --both",
                         "give the errors that each pair found, and those that both found",
                         "all three are needed");
    if (!trade_whole(call, "first", 0, 100000, 0, &first, e) ||
        !trade_whole(call, "second", 0, 100000, 0, &second, e) ||
        !trade_whole(call, "both", 0, 100000, 0, &both, e))
        return false;
    double_count d = errors_missed(first, second, both);
    if (isnan(d.total))
        return err_input(e, "--both", "errors found by both are at most those of each",
                         "%d is more than one pair found", both);
    if (call->json) {
        json_put_object(j, "double_count");
        trade_json_real(j, "errors", d.total);
        trade_json_real(j, "missed", d.missed);
        trade_json_real(j, "missed_high", d.range.high);
        json_end_object(j);
        return true;
    }
    trade_line(
        out,
        "Two counts: %d and %d errors, %d found by both: about %.1f errors in all, %.1f missed by both (0 to %.0f). "
        "Too few if both pairs overlook the same things.",
        first, second, both, d.total, d.missed, ceil(d.range.high));
    return true;
}

static bool add_answer(const cli_call *call, const kit_source *from, buf *out, int *code, err *e) {
    const kit *k = from->kit;
    const stock *counted = from->build ? from->build->stock : NULL;
    recount_row *rows = NULL;
    uint32_t n = k ? recount_rank(call->memory, k, counted, &rows) : 0;
    recount_state s = {0};
    recount_plan p;
    double sure;
    int32_t show;
    if (k && n == 0)
        return err_input(e, "recount", "count the rows first", "no row was counted yet");
    if (!k && !cli_given(call, "rows"))
        return err_input(e, "--rows", "say how many rows the list has, or name a kit or build file",
                         "it is needed here");
    bool ok = trade_whole(call, "rows", 1, 100000, (int32_t)n, &s.rows, e) &&
              trade_whole(call, "recounted", 0, 100000, 0, &s.recounted, e) &&
              trade_whole(call, "wrong", 0, 100000, 0, &s.found_wrong, e) &&
              trade_whole(call, "fewer-than", 1, 100000, 5, &s.wrong_allowed, e) &&
              trade_whole(call, "show", 0, 1000, 12, &show, e) &&
              trade_option(call, "sure", 50, 99.9, 95, &sure, e);
    s.confidence = ok ? sure / 100 : 0;
    if (!ok || !recount_needed(&s, &p, e))
        return false;
    json_out j = json_to(out);
    if (call->json)
        json_put_object(&j, NULL);
    add_plan(&s, &p, out, &j, call->json);
    if ((cli_given(call, "first") || cli_given(call, "second") || cli_given(call, "both")) &&
        !add_double(call, out, &j, e))
        return false;
    if (k && show > 0)
        add_rows(k, rows, n < (uint32_t)show ? n : (uint32_t)show, out, &j, call->json);
    if (call->json)
        json_end_object(&j);
    *code = p.to_go ? EXIT_NO : EXIT_DONE;
    return true;
}

int cmd_recount(cli_call *call) {
    err e = {0};
    buf out = {0};
    int code = EXIT_DONE;
    kit_source from = {0};
    if (call->n_arguments && !kit_source_open(call, call->arguments[0], NULL, &from, &code))
        return code;
    bool ok = add_answer(call, &from, &out, &code, &e);
    kit_source_close(&from);
    if (ok)
        return cli_print(&out, code);
    buf_free(&out);
    return cli_fail(&e);
}
