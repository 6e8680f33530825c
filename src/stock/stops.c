/* stops.c: which steps the missing pieces stop: pieces go to the steps in build order until they run out. */
#include "stock/assess.h"

/* What is left to give of each part. */
typedef struct {
    int64_t usable;
    uint32_t supply; /* the first of the part's supplies that is not used up */
    int64_t taken;   /* of that supply */
} left_over;

/* Takes `wanted` from what is promised; the day when the last of it comes, INT32_MAX when it does not reach. */
static date_day take_promised(const stock_part *p, left_over *left, int64_t wanted) {
    date_day ready = INT32_MAX;
    while (wanted > 0 && left->supply < p->n_supplies) {
        const stock_supply *s = &p->supplies[left->supply];
        int64_t there = s->quantity - left->taken;
        int64_t used = there < wanted ? there : wanted;
        left->taken += used;
        wanted -= used;
        ready = s->day;
        if (left->taken == s->quantity) {
            left->supply++;
            left->taken = 0;
        }
    }
    return wanted > 0 ? INT32_MAX : ready;
}

/* One need of one step; a second need of the same part goes to the same record. */
static void serve(assessment *as, const kit_step_part *need, left_over *left, uint32_t first_of_step) {
    stock *s = as->out;
    int64_t given = left->usable < need->quantity ? left->usable : need->quantity;
    left->usable -= given;
    if (given == need->quantity)
        return;
    int64_t missing = need->quantity - given;
    date_day ready = take_promised(&s->parts[need->part], left, missing);
    for (uint32_t i = first_of_step; i < s->n_stops; i++) {
        if (s->stops[i].part != need->part)
            continue;
        s->stops[i].needed += need->quantity;
        s->stops[i].missing += missing;
        s->stops[i].ready = ready > s->stops[i].ready ? ready : s->stops[i].ready;
        return;
    }
    s->stops[s->n_stops++] = (stock_stop){need->step, need->part, need->quantity, missing, ready};
}

/* The needs of each step, one after another: step_parts by step, in their own order. first[] has n_steps + 1 items. */
static kit_index *needs_by_step(arena *a, const kit *k, uint32_t *first) {
    for (kit_index i = 0; i < k->n_step_parts; i++)
        first[k->step_parts[i].step + 1]++;
    for (kit_index i = 0; i < k->n_steps; i++)
        first[i + 1] += first[i];
    kit_index *order = arena_array(a, kit_index, k->n_step_parts);
    uint32_t *next = arena_array(a, uint32_t, k->n_steps);
    for (kit_index i = 0; i < k->n_step_parts; i++) {
        kit_index step = k->step_parts[i].step;
        order[first[step] + next[step]++] = i;
    }
    return order;
}

void assess_stops(assessment *as) {
    const kit *k = as->kit;
    if (!k->n_steps)
        return;
    left_over *left = arena_array(as->memory, left_over, k->n_parts);
    for (kit_index i = 0; i < k->n_parts; i++)
        left[i].usable = stock_available(as->out, i);
    uint32_t *first = arena_array(as->memory, uint32_t, k->n_steps + 1);
    const kit_index *needs = needs_by_step(as->memory, k, first);
    const kit_index *order = kit_build_order(as->memory, k);
    as->out->stops = arena_array(as->memory, stock_stop, k->n_step_parts);
    for (kit_index i = 0; i < k->n_steps; i++) {
        uint32_t first_of_step = as->out->n_stops;
        if (as->out->work->steps[order[i]].state != STOCK_TO_DO)
            continue; /* it has drawn its pieces */
        for (uint32_t j = first[order[i]]; j < first[order[i] + 1]; j++) {
            const kit_step_part *need = &k->step_parts[needs[j]];
            serve(as, need, &left[need->part], first_of_step);
        }
    }
}
