/* closing.c: which few compartments and tools to recount at a session's end, and what left-overs tell.
 *
 * Model of the closing count. Each time pieces of a part are taken or put back, something may go wrong: SLIP for the act and
 * SLIP_A_PIECE for each piece, twice that when a look-alike was handled, too. A tool that was used may have been left
 * behind with SLIP_A_TOOL for each piece and step. With mistakes falling independently, a recount meets at least one with
 * chance 1 - exp(-sum). The rates are common practice, no source: they only rank. Counting takes REACH_S for a place and
 * one second a piece; the choice that reveals the most places with a mistake within the time is exact (0/1 knapsack).
 */
#include <math.h>

#include "stock/assess.h"

#define SLIP 0.02
#define SLIP_A_PIECE 0.002
#define SLIP_A_TOOL 0.01

enum { REACH_S = 15, TOOL_REACH_S = 5, ALIKE_FROM = 1 };

static void add_handling(const stock_record *record, date_moment since, double *sum) {
    for (uint32_t i = 0; i < record->n_moves; i++) {
        const stock_move *m = &record->moves[i];
        bool handled = m->from == STOCK_IN_ROW || m->from == STOCK_IN_COMPARTMENT || m->to == STOCK_IN_ROW ||
                       m->to == STOCK_IN_COMPARTMENT;
        if (handled && m->at >= since)
            sum[m->part] += SLIP + SLIP_A_PIECE * (double)m->quantity;
    }
}

static bool look_alike_handled(arena *a, const kit *k, const double *sum, kit_index part) {
    for (kit_index p = 0; p < k->n_parts; p++)
        if (p != part && sum[p] > 0 && alike_parts(a, k, part, p).grade >= ALIKE_FROM)
            return true;
    return false;
}

static uint32_t add_parts(arena *a, const kit *k, const stock *s, date_moment since, stock_recount *out) {
    double *sum = arena_array(a, double, k->n_parts);
    uint32_t n = 0;
    add_handling(s->record, since, sum);
    for (kit_index p = 0; p < k->n_parts; p++) {
        if (sum[p] <= 0)
            continue;
        double mistakes = look_alike_handled(a, k, sum, p) ? 2 * sum[p] : sum[p];
        int64_t pieces = stock_available(s, p);
        out[n++] = (stock_recount){.part = p,
                                   .tool = KIT_NONE,
                                   .chance = 1 - exp(-mistakes),
                                   .pieces = pieces,
                                   .seconds = REACH_S + pieces};
    }
    return n;
}

static uint32_t add_tools(arena *a, const kit *k, const stock_record *record, date_moment since,
                          stock_recount *out) {
    bool *worked = arena_array(a, bool, k->n_steps);
    double *sum = arena_array(a, double, k->n_tools);
    uint32_t n = 0;
    for (uint32_t i = 0; i < record->n_events; i++)
        if (record->events[i].at >= since)
            worked[record->events[i].step] = true;
    for (kit_index i = 0; i < k->n_step_tools; i++)
        if (worked[k->step_tools[i].step])
            sum[k->step_tools[i].tool] += SLIP_A_TOOL * (double)k->step_tools[i].quantity;
    for (kit_index t = 0; t < k->n_tools; t++)
        if (sum[t] > 0)
            out[n++] = (stock_recount){.part = KIT_NONE,
                                       .tool = t,
                                       .chance = 1 - exp(-sum[t]),
                                       .pieces = k->tools[t].needed,
                                       .seconds = TOOL_REACH_S + k->tools[t].needed};
    return n;
}

/* best[t]: the largest sum of chances within t seconds; taken[i][t]: item i is in the best choice of items 0..i. */
static void choose(arena *a, stock_recount *list, uint32_t n, uint32_t seconds) {
    size_t width = (size_t)seconds + 1;
    double *best = arena_array(a, double, width);
    bool *taken = arena_array(a, bool, width *n);
    for (uint32_t i = 0; i < n; i++)
        for (int64_t t = seconds; t >= list[i].seconds; t--) {
            double with = best[t - list[i].seconds] + list[i].chance;
            if (with <= best[t])
                continue;
            best[t] = with;
            taken[i * width + (size_t)t] = true;
        }
    int64_t left = seconds;
    for (uint32_t i = n; i-- > 0;)
        if (taken[i * width + (size_t)left]) {
            list[i].chosen = true;
            left -= list[i].seconds;
        }
}

uint32_t stock_closing_count(arena *a, const kit *k, const stock *s, date_moment since, uint32_t seconds,
                             stock_recount **out) {
    *out = arena_array(a, stock_recount, (size_t)k->n_parts + k->n_tools);
    uint32_t n = add_parts(a, k, s, since, *out);
    n += add_tools(a, k, s->record, since, *out + n);
    choose(a, *out, n, seconds);
    return n;
}

/* Steps that were begun and take the part; those that take just as many first. */
static void list_steps(arena *a, const kit *k, const stock *s, stock_left_over *l) {
    l->steps = arena_array(a, kit_index, 2 * (size_t)k->n_step_parts);
    for (int exact = 1; exact >= 0; exact--) {
        for (kit_index i = 0; i < k->n_step_parts; i++) {
            const kit_step_part *p = &k->step_parts[i];
            bool fits = p->quantity == l->difference;
            if (p->part != l->part || s->work->steps[p->step].state == STOCK_TO_DO || fits != (exact == 1))
                continue;
            l->steps[l->n_steps++] = p->step;
            l->n_exact += fits;
        }
    }
}

void stock_judge_left_overs(arena *a, const kit *k, const stock *s, stock_left_over *list, uint32_t n) {
    for (uint32_t i = 0; i < n; i++) {
        list[i].expected = stock_available(s, list[i].part);
        list[i].difference = list[i].counted - list[i].expected;
        list[i].swapped_for = KIT_NONE;
        if (list[i].difference > 0)
            list_steps(a, k, s, &list[i]);
    }
    for (uint32_t i = 0; i < n; i++)
        for (uint32_t j = 0; j < n; j++)
            if (list[i].difference > 0 && list[j].difference < 0 && list[i].swapped_for == KIT_NONE &&
                alike_parts(a, k, list[i].part, list[j].part).grade >= ALIKE_FROM)
                list[i].swapped_for = list[j].part;
}
