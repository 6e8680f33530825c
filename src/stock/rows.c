/* rows.c: what each row of the packing list has: the count that stands, and what arrived since. */
#include "stock/assess.h"

static void take_counts(assessment *as, int64_t *counted_at) {
    for (uint32_t i = 0; i < as->record->n_counts; i++) {
        const stock_count *c = &as->record->counts[i];
        stock_row *r = &as->out->rows[c->row];
        r->counted = true;
        r->times = c->times;
        r->usable = c->usable;
        r->damaged = c->damaged;
        r->in_transit = c->in_transit;
        r->note = c->note;
        counted_at[c->row] = c->entry;
    }
}

/* What was drawn before the count did not lie in the bag any more, but it was there. */
static void add_drawn(assessment *as, const int64_t *counted_at) {
    for (uint32_t i = 0; i < as->record->n_moves; i++) {
        const stock_move *m = &as->record->moves[i];
        if (m->row == KIT_NONE || m->entry > counted_at[m->row])
            continue;
        stock_row *r = &as->out->rows[m->row];
        r->usable += m->from == STOCK_IN_ROW ? m->quantity : 0;
        r->usable -= m->to == STOCK_IN_ROW ? m->quantity : 0;
    }
}

/* A count after the arrival has the arrived pieces in it. */
static void add_arrivals(assessment *as, const int64_t *counted_at) {
    for (uint32_t i = 0; i < as->record->n_arrivals; i++) {
        const stock_arrival *arrival = &as->record->arrivals[i];
        if (arrival->row == KIT_NONE || arrival->entry < counted_at[arrival->row])
            continue;
        stock_row *r = &as->out->rows[arrival->row];
        r->usable += arrival->usable;
        r->arrived += arrival->usable;
        r->damaged += arrival->damaged;
    }
}

static int64_t above(int64_t n) {
    return n > 0 ? n : 0;
}

static void judge(assessment *as, kit_index i) {
    stock_row *r = &as->out->rows[i];
    r->expected = as->kit->rows[i].quantity;
    if (!r->counted)
        return;
    r->lacking = above(r->expected - r->usable);
    r->missing = above(r->expected - r->usable - r->damaged);
    r->extra = above(r->usable - r->expected);
    kit_index box = kit_box_of(as->kit, as->kit->rows[i].container);
    if (r->damaged && as->out->containers[box].damage.len)
        r->in_transit = true;
}

void assess_rows(assessment *as) {
    const kit *k = as->kit;
    stock *s = as->out;
    int64_t *counted_at = arena_array(as->memory, int64_t, k->n_rows); /* entry; 0: never */
    take_counts(as, counted_at);
    add_drawn(as, counted_at);
    add_arrivals(as, counted_at);
    s->missing_rows = arena_array(as->memory, kit_index, k->n_rows);
    s->extra_rows = arena_array(as->memory, kit_index, k->n_rows);
    s->damaged_rows = arena_array(as->memory, kit_index, k->n_rows);
    for (kit_index i = 0; i < k->n_rows; i++) {
        judge(as, i);
        const stock_row *r = &s->rows[i];
        if (r->missing)
            s->missing_rows[s->n_missing_rows++] = i;
        if (r->extra)
            s->extra_rows[s->n_extra_rows++] = i;
        if (r->damaged)
            s->damaged_rows[s->n_damaged_rows++] = i;
    }
}
