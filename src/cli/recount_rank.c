/* recount_rank.c: which rows to count again first. */
#include "cli/recount_rank.h"

#include <math.h>
#include <stdlib.h>

#include "trade/trade.h"

/* The rates of the closing count. */
static const double slip = 0.02, slip_a_piece = 0.002;

static bool *alike_parts(arena *a, const kit *k) {
    designation *names = arena_array(a, designation, k->n_parts);
    bool *alike = arena_array(a, bool, k->n_parts);
    look_alike look;
    for (kit_index i = 0; i < k->n_parts; i++)
        if (!designation_read(k->parts[i].designation, &names[i], NULL))
            names[i] = (designation){0};
    for (kit_index i = 0; i < k->n_parts; i++) {
        for (kit_index j = i + 1; j < k->n_parts && names[i].kind; j++) {
            if (names[i].kind != names[j].kind || (alike[i] && alike[j]))
                continue;
            designation_look_alike(&names[i], &names[j], &look);
            if (look.grade != LOOK_DIFFERENT)
                alike[i] = alike[j] = true;
        }
    }
    return alike;
}

/* A wrong piece hurts most where people count on it: work that needs an adult, a hold point. */
static bool step_needs_care(const kit *k, kit_index step) {
    if (k->steps[step].supervision != KIT_IN_ROOM)
        return true;
    for (uint32_t i = 0; i < k->n_step_tests; i++)
        if (k->step_tests[i].step == step && k->step_tests[i].hold_point)
            return true;
    return false;
}

/* The steps that draw the part, and from them on all that come after. Steps are few hundred: a plain sweep until nothing
 * changes. */
static void sum_stopped(const kit *k, bool *marked, recount_row *out) {
    for (bool changed = true; changed;) {
        changed = false;
        for (uint32_t i = 0; i < k->n_step_after; i++) {
            const kit_after *a = &k->step_after[i];
            if (marked[a->after] && !marked[a->step])
                changed = marked[a->step] = true;
        }
    }
    for (kit_index i = 0; i < k->n_steps; i++) {
        out->steps += marked[i];
        out->person_min += marked[i] ? k->steps[i].people * k->steps[i].likely_min : 0;
    }
}

static void add_cost(arena *a, const kit *k, recount_row *out) {
    bool *marked = arena_array(a, bool, k->n_steps);
    kit_index part = k->rows[out->row].part;
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *drawn = &k->step_parts[i];
        if (drawn->part != part)
            continue;
        marked[drawn->step] = true;
        out->care = out->care || drawn->tightening == KIT_TORQUE || step_needs_care(k, drawn->step);
    }
    sum_stopped(k, marked, out);
}

static double chance_wrong(const kit *k, const recount_row *r, const stock *s) {
    const kit_row *row = &k->rows[r->row];
    double pieces = row->unit == KIT_PIECE ? (double)row->quantity : 1;
    double mistakes = slip + slip_a_piece * pieces;
    mistakes *= r->alike ? 2 : 1;
    mistakes *= r->differs ? 2 : 1;
    mistakes *= s && s->rows[r->row].times > 1 ? 0.1 : 1;
    return 1 - exp(-mistakes);
}

static int by_harm(const void *x, const void *y) {
    const recount_row *a = x, *b = y;
    if (a->harm != b->harm)
        return a->harm > b->harm ? -1 : 1;
    return (a->row > b->row) - (a->row < b->row);
}

uint32_t recount_rank(arena *a, const kit *k, const stock *s, recount_row **out) {
    recount_row *rows = arena_array(a, recount_row, k->n_rows);
    const bool *alike = alike_parts(a, k);
    uint32_t n = 0;
    for (kit_index i = 0; i < k->n_rows; i++) {
        if (s && !s->rows[i].counted)
            continue;
        recount_row *r = &rows[n++];
        *r = (recount_row){.row = i, .spare = k->rows[i].spare > 0, .alike = alike[k->rows[i].part]};
        r->differs = s && (s->rows[i].lacking > 0 || s->rows[i].extra > 0);
        add_cost(a, k, r);
        r->chance = chance_wrong(k, r, s);
        r->harm = r->chance * (double)r->person_min * (r->care ? 3 : 1) / (double)(1 + k->rows[i].spare);
    }
    if (n)
        qsort(rows, n, sizeof *rows, by_harm);
    *out = rows;
    return n;
}
