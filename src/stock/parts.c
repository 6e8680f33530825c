/* parts.c: each part over all its rows, and which of its promises are still open. */
#include <stdlib.h>

#include "stock/assess.h"

static void sum_rows(assessment *as) {
    for (kit_index i = 0; i < as->kit->n_rows; i++) {
        const stock_row *r = &as->out->rows[i];
        stock_part *p = &as->out->parts[as->kit->rows[i].part];
        p->expected += r->expected;
        p->usable += r->usable;
        p->damaged += r->damaged;
        if (!r->counted)
            p->not_counted += r->expected;
    }
}

/* Pieces in the wrong container are usable all the same; so is what came for a part that is on no row. */
static void add_others(assessment *as) {
    for (uint32_t i = 0; i < as->record->n_finds; i++) {
        const stock_find *f = &as->record->finds[i];
        if (f->part != KIT_NONE)
            as->out->parts[f->part].usable += f->quantity;
    }
    for (uint32_t i = 0; i < as->record->n_arrivals; i++) {
        const stock_arrival *a = &as->record->arrivals[i];
        if (a->row != KIT_NONE)
            continue;
        as->out->parts[a->part].usable += a->usable;
        as->out->parts[a->part].damaged += a->damaged;
    }
}

static int compare_promises(const void *left, const void *right) {
    const stock_promise *a = left, *b = right;
    if (a->part != b->part)
        return a->part < b->part ? -1 : 1;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    return a->entry < b->entry ? -1 : a->entry > b->entry;
}

static const stock_promise *first_of_part(const stock_promise *list, uint32_t n, kit_index part) {
    uint32_t low = 0, high = n;
    while (low < high) {
        uint32_t middle = low + (high - low) / 2;
        if (list[middle].part < part)
            low = middle + 1;
        else
            high = middle;
    }
    return list + low;
}

/* What came fulfils the promises that were given before it came, the earliest day first. */
static void fulfil(stock_promise *list, uint32_t n, const stock_arrival *arrival) {
    int64_t came = arrival->usable + arrival->damaged;
    stock_promise *end = list + n;
    stock_promise *p = list + (first_of_part(list, n, arrival->part) - list);
    for (; p < end && p->part == arrival->part && came > 0; p++) {
        if (p->entry > arrival->entry)
            continue;
        int64_t used = p->quantity < came ? p->quantity : came;
        p->quantity -= used;
        came -= used;
    }
}

static void list_supplies(assessment *as, const stock_promise *open, uint32_t n) {
    stock_supply *all = arena_array(as->memory, stock_supply, n);
    uint32_t used = 0;
    for (uint32_t i = 0; i < n; i++) {
        if (!open[i].quantity)
            continue;
        stock_part *p = &as->out->parts[open[i].part];
        if (!p->n_supplies)
            p->supplies = &all[used];
        if (p->n_supplies && p->supplies[p->n_supplies - 1].day == open[i].day)
            p->supplies[p->n_supplies - 1].quantity += open[i].quantity;
        else
            p->supplies[p->n_supplies++] = (stock_supply){open[i].day, open[i].quantity}, used++;
        p->promised += open[i].quantity;
    }
}

static void take_promises(assessment *as) {
    uint32_t n = as->record->n_promises;
    if (!n)
        return;
    stock_promise *open = arena_array(as->memory, stock_promise, n);
    for (uint32_t i = 0; i < n; i++)
        open[i] = as->record->promises[i];
    qsort(open, n, sizeof *open, compare_promises);
    for (uint32_t i = 0; i < as->record->n_arrivals; i++)
        fulfil(open, n, &as->record->arrivals[i]);
    list_supplies(as, open, n);
}

void assess_parts(assessment *as) {
    sum_rows(as);
    add_others(as);
    for (kit_index i = 0; i < as->kit->n_step_parts; i++)
        as->out->parts[as->kit->step_parts[i].part].needed += as->kit->step_parts[i].quantity;
    for (kit_index i = 0; i < as->kit->n_parts; i++) {
        stock_part *p = &as->out->parts[i];
        int64_t gap = p->expected - p->usable - p->not_counted;
        p->lacking = gap > 0 ? gap : 0;
        p->extra = gap < 0 ? -gap : 0;
    }
    take_promises(as);
}

uint32_t stock_place_arrival(arena *a, const kit *k, const stock *s, kit_index part, int64_t quantity,
                             stock_share **out) {
    uint32_t rows = 0;
    for (kit_index i = 0; i < k->n_rows; i++)
        rows += k->rows[i].part == part;
    stock_share *shares = arena_array(a, stock_share, rows + 1);
    uint32_t n = 0;
    kit_index first = KIT_NONE;
    for (kit_index i = 0; i < k->n_rows && quantity > 0; i++) {
        if (k->rows[i].part != part)
            continue;
        if (first == KIT_NONE)
            first = i;
        int64_t share = s->rows[i].lacking < quantity ? s->rows[i].lacking : quantity;
        if (share > 0)
            shares[n++] = (stock_share){i, share};
        quantity -= share;
    }
    if (quantity > 0 && first != KIT_NONE) {
        if (n && shares[0].row == first)
            shares[0].quantity += quantity;
        else
            shares[n++] = (stock_share){first, quantity};
    }
    *out = shares;
    return n;
}
