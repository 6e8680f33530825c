/* found.c: where a piece on the floor comes from (found.h states the model). */
#include <stdlib.h>

#include "stock/stock.h"

static date_day day_of(date_moment at) {
    return date_of_moment(at);
}

static int by_day(const void *a, const void *b) {
    date_day x = *(const date_day *)a, y = *(const date_day *)b;
    return (x > y) - (x < y);
}

/* Different days after `day` on which steps were worked on or a closing count was done. */
static uint32_t evenings_since(arena *a, const stock_record *r, date_day day) {
    date_day *days = arena_array(a, date_day, (size_t)r->n_events + r->n_closings);
    uint32_t n = 0, different = 0;
    for (uint32_t i = 0; i < r->n_events; i++)
        if (day_of(r->events[i].at) > day)
            days[n++] = day_of(r->events[i].at);
    for (uint32_t i = 0; i < r->n_closings; i++)
        if (day_of(r->closings[i].at) > day)
            days[n++] = day_of(r->closings[i].at);
    if (n)
        qsort(days, n, sizeof *days, by_day);
    for (uint32_t i = 0; i < n; i++)
        different += i == 0 || days[i] != days[i - 1];
    return different;
}

static uint32_t closings_since(const stock_record *r, int64_t entry) {
    uint32_t n = 0;
    for (uint32_t i = 0; i < r->n_closings; i++)
        n += r->closings[i].entry > entry && r->closings[i].missing.len == 0;
    return n;
}

static void add_tests(const kit *k, const stock_work *w, stock_source *out) {
    out->is_signed = true;
    for (kit_index t = 0; t < k->n_step_tests; t++) {
        if (k->step_tests[t].step != out->step)
            continue;
        out->has_tests = true;
        out->is_signed = out->is_signed && w->tests[t].there && w->tests[t].is_signed;
    }
    out->is_signed = out->is_signed && out->has_tests;
}

static int64_t asked_for(const kit *k, kit_index step, kit_index part) {
    int64_t n = 0;
    for (kit_index i = 0; i < k->n_step_parts; i++)
        if (k->step_parts[i].step == step && k->step_parts[i].part == part)
            n += k->step_parts[i].quantity;
    return n;
}

static double weigh(const stock_source *s) {
    double weight = (double)s->pieces;
    weight *= s->is_signed ? 0.1 : 1;
    weight *= s->short_by > 0 ? 20 : 1;
    for (uint32_t i = 0; i < s->evenings; i++)
        weight /= 2;
    for (uint32_t i = 0; i < s->closings; i++)
        weight /= 3;
    return weight;
}

static int weightiest_first(const void *x, const void *y) {
    const stock_source *a = x, *b = y;
    if (a->weight != b->weight)
        return a->weight > b->weight ? -1 : 1;
    if (a->kind != b->kind)
        return a->kind < b->kind ? -1 : 1;
    return (a->step > b->step) - (a->step < b->step);
}

uint32_t stock_found_sources(arena *a, const kit *k, const stock *s, kit_index part, stock_source **out) {
    const stock_work *w = s->work;
    stock_source *list = arena_array(a, stock_source, (size_t)k->n_steps + 2);
    uint32_t n = 0;
    for (kit_index i = 0; i < k->n_steps; i++) {
        int64_t fitted = stock_at_step(s->record, i, part, STOCK_FITTED_IN);
        int64_t handled = fitted + stock_at_step(s->record, i, part, STOCK_IN_TUB);
        int64_t lacking = asked_for(k, i, part) - fitted;
        if (w->steps[i].state == STOCK_TO_DO || (handled <= 0 && asked_for(k, i, part) == 0))
            continue;
        stock_source *new = &list[n++];
        *new = (stock_source){.part = part, .step = i, .pieces = handled > 0 ? handled : 1};
        new->short_by = w->steps[i].state == STOCK_DONE &&lacking > 0 ? lacking : 0;
        new->evenings = evenings_since(a, s->record, day_of(w->steps[i].since));
        new->closings = closings_since(s->record, w->steps[i].entry);
        add_tests(k, w, new);
        new->weight = weigh(new);
    }
    int64_t lost = w->at[part][STOCK_LOST], lying = stock_available(s, part);
    if (lost > 0)
        list[n++] = (stock_source){.kind = STOCK_FROM_LOST,
                                   .part = part,
                                   .step = KIT_NONE,
                                   .pieces = lost,
                                   .weight = 30 * (double)lost};
    list[n++] = (stock_source){.kind = STOCK_FROM_BAG,
                               .part = part,
                               .step = KIT_NONE,
                               .pieces = lying,
                               .weight = 0.1 * (double)(lying > 0 ? lying : 1)};
    qsort(list, n, sizeof *list, weightiest_first);
    *out = list;
    return n;
}
