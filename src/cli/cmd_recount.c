/* cmd_recount.c: `kitbench recount`: how many rows to count again, and which first. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "cli/commands.h"
#include "cli/trade_call.h"
#include "kit/kit.h"

/* One row of the list and what a wrong count of it would stop. */
typedef struct {
    kit_index row;
    uint32_t steps; /* that draw the part or come after such a step */
    bool
        care; /* a step that draws it is supervised or an adult's, waits for a hold point, or tightens it by torque */
    bool spare;
} weighty_row;

/* A wrong piece hurts most where people count on it: work that needs an adult, a hold point, a torque. */
static bool step_needs_care(const kit *k, kit_index step) {
    if (k->steps[step].supervision != KIT_IN_ROOM)
        return true;
    for (uint32_t i = 0; i < k->n_step_tests; i++)
        if (k->step_tests[i].step == step && k->step_tests[i].hold_point)
            return true;
    return false;
}

/* Marks the steps after `step`, itself included. Steps are few hundred: a plain sweep until nothing changes. */
static uint32_t count_after(const kit *k, const bool *draws, bool *marked) {
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_steps; i++)
        marked[i] = draws[i];
    for (bool changed = true; changed;) {
        changed = false;
        for (uint32_t i = 0; i < k->n_step_after; i++) {
            const kit_after *a = &k->step_after[i];
            if (marked[a->after] && !marked[a->step])
                changed = marked[a->step] = true;
        }
    }
    for (uint32_t i = 0; i < k->n_steps; i++)
        n += marked[i];
    return n;
}

static int by_harm(const void *x, const void *y) {
    const weighty_row *a = x, *b = y;
    if (a->care != b->care)
        return a->care ? -1 : 1;
    if (a->steps != b->steps)
        return a->steps > b->steps ? -1 : 1;
    if (a->spare != b->spare)
        return a->spare ? 1 : -1;
    return (a->row > b->row) - (a->row < b->row);
}

static weighty_row *rank_rows(arena *m, const kit *k) {
    weighty_row *rows = arena_array(m, weighty_row, k->n_rows);
    bool *draws = arena_array(m, bool, k->n_steps), *marked = arena_array(m, bool, k->n_steps);
    for (uint32_t i = 0; i < k->n_rows; i++) {
        kit_index part = k->rows[i].part;
        for (uint32_t s = 0; s < k->n_steps; s++)
            draws[s] = false;
        bool care = false;
        for (uint32_t s = 0; s < k->n_step_parts; s++) {
            const kit_step_part *drawn = &k->step_parts[s];
            if (drawn->part != part)
                continue;
            draws[drawn->step] = true;
            care = care || drawn->tightening == KIT_TORQUE || step_needs_care(k, drawn->step);
        }
        rows[i] = (weighty_row){i, count_after(k, draws, marked), care, k->rows[i].spare > 0};
    }
    if (k->n_rows)
        qsort(rows, k->n_rows, sizeof *rows, by_harm);
    return rows;
}

static void add_rows(const kit *k, const weighty_row *rows, uint32_t n, buf *out, json_out *j, bool json) {
    if (json)
        json_put_array(j, "first");
    else
        buf_addf(out,
                 "\nFirst, by what a wrong count would hurt, then by the steps it would stop:\n"
                 "%-8s %4s  %-34s %s\n",
                 "box, bag", "row", "part", "steps");
    for (uint32_t i = 0; i < n; i++) {
        const kit_row *r = &k->rows[rows[i].row];
        const kit_part *p = &k->parts[r->part];
        if (json) {
            json_put_object(j, NULL);
            json_put_text(j, "container", k->containers[r->container].number);
            json_put_integer(j, "line", r->line);
            json_put_text(j, "part", p->number);
            json_put_integer(j, "stops_steps", rows[i].steps);
            json_put_bool(j, "care", rows[i].care);
            json_put_bool(j, "spare", rows[i].spare);
            json_end_object(j);
            continue;
        }
        wrap_pad(out, k->containers[r->container].number, 8);
        buf_addf(out, " %4lld  ", (long long)r->line);
        wrap_pad(out, p->name, 34);
        buf_addf(out, " %5u%s%s\n", rows[i].steps, rows[i].care ? "  care" : "",
                 rows[i].spare ? "  has a spare" : "");
    }
    if (!json)
        trade_line(out,
                   "care: drawn for supervised or adult work, before a hold point, or tightened by torque.");
    if (json)
        json_end_array(j);
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

int cmd_recount(cli_call *call) {
    err e = {0};
    const kit *k = NULL;
    if (call->n_arguments) {
        faults f = faults_in(call->memory);
        const kit_workshop *w;
        if (!kit_read(call->memory, call->arguments[0], NULL, &f, &k, &w, &e))
            return e.kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(&e);
    }
    recount_state s = {0};
    recount_plan p;
    double sure;
    int32_t show;
    bool ok = trade_whole(call, "rows", 1, 100000, k ? (int32_t)k->n_rows : 0, &s.rows, &e) &&
              trade_whole(call, "recounted", 0, 100000, 0, &s.recounted, &e) &&
              trade_whole(call, "wrong", 0, 100000, 0, &s.found_wrong, &e) &&
              trade_whole(call, "fewer-than", 1, 100000, 5, &s.wrong_allowed, &e) &&
              trade_whole(call, "show", 0, 1000, 12, &show, &e) &&
              trade_option(call, "sure", 50, 99.99, 95, &sure, &e);
    s.confidence = ok ? sure / 100 : 0;
    if (!ok || !recount_needed(&s, &p, &e))
        return cli_fail(&e);
    buf out = {0};
    json_out j = json_to(&out);
    if (call->json)
        json_put_object(&j, NULL);
    add_plan(&s, &p, &out, &j, call->json);
    if (cli_given(call, "first") && !add_double(call, &out, &j, &e)) {
        buf_free(&out);
        return cli_fail(&e);
    }
    if (k)
        add_rows(k, rank_rows(call->memory, k), (uint32_t)show < k->n_rows ? (uint32_t)show : k->n_rows, &out,
                 &j, call->json);
    if (call->json)
        json_end_object(&j);
    return cli_print(&out, p.to_go ? EXIT_NO : EXIT_DONE);
}
