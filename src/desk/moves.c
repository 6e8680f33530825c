/* moves.c: pieces on their way: drawn, fitted, put back, lost. */
#include "desk/reasons.h"

bool append_move(desk *d, const store_entry *stamp, const stock_move *m, err *e) {
    store_entry n = act_entry(stamp, STORE_MOVE);
    n.part = d->kit->parts[m->part].number;
    n.usable = m->quantity;
    n.from_place = text_of(stock_place_word(m->from));
    n.to_place = text_of(stock_place_word(m->to));
    if (m->row != KIT_NONE) {
        n.container = d->kit->containers[d->kit->rows[m->row].container].number;
        n.line = d->kit->rows[m->row].line;
    }
    if (m->step != KIT_NONE)
        n.step = d->kit->steps[m->step].number;
    int64_t number;
    return store_append(d->file, &n, &number, e);
}

/* What lies in a row now: what was found there, or what is packed when nobody counted it, less what was drawn. */
static int64_t lies_in_row(const desk *d, kit_index row) {
    const stock_row *r = &d->stock->rows[row];
    int64_t n = (r->counted ? r->usable : r->usable + r->expected) - d->stock->work->row_out[row];
    return n > 0 ? n : 0;
}

static int64_t least(int64_t a, int64_t b) {
    return a < b ? a : b;
}

/* Compartment first, then the rows in the order of the packing list; what lies on no row comes last. */
static bool draw_part(desk *d, const store_entry *stamp, kit_index step, kit_index part, int64_t wanted,
                      err *e) {
    stock_move m = {.part = part, .to = STOCK_IN_TUB, .row = KIT_NONE, .step = step};
    m.from = STOCK_IN_COMPARTMENT;
    m.quantity = least(wanted, d->stock->work->at[part][STOCK_IN_COMPARTMENT]);
    if (m.quantity > 0 && !append_move(d, stamp, &m, e))
        return false;
    wanted -= m.quantity > 0 ? m.quantity : 0;
    m.from = STOCK_IN_ROW;
    for (kit_index i = 0; i < d->kit->n_rows && wanted > 0; i++) {
        if (d->kit->rows[i].part != part || !lies_in_row(d, i))
            continue;
        m.row = i;
        m.quantity = least(wanted, lies_in_row(d, i));
        if (!append_move(d, stamp, &m, e))
            return false;
        wanted -= m.quantity;
    }
    m.row = KIT_NONE;
    m.quantity = wanted;
    return wanted <= 0 || append_move(d, stamp, &m, e);
}

bool append_draw(desk *d, const store_entry *stamp, kit_index step, err *e) {
    int64_t *needed = arena_array(d->memory, int64_t, d->kit->n_parts);
    for (kit_index i = 0; i < d->kit->n_step_parts; i++)
        if (d->kit->step_parts[i].step == step)
            needed[d->kit->step_parts[i].part] += d->kit->step_parts[i].quantity;
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        if (needed[p] > 0 && !draw_part(d, stamp, step, p, needed[p], e))
            return false;
    return true;
}

bool append_empty(desk *d, const store_entry *stamp, kit_index step, stock_place from, stock_place to,
                  stock_place single_use, err *e) {
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        stock_move m = {.part = p, .from = from, .row = KIT_NONE, .step = step};
        m.quantity = stock_at_step(&d->record, step, p, from);
        m.to = d->kit->parts[p].single_use ? single_use : to;
        if (m.quantity > 0 && !append_move(d, stamp, &m, e))
            return false;
    }
    return true;
}

static bool needs_step(stock_place p) {
    return p == STOCK_IN_TUB || p == STOCK_FITTED_IN;
}

static void check_move(const desk *d, const desk_transfer *t, desk_reasons *why) {
    const char *word = stock_place_word(t->from);
    int64_t there = d->stock->work->at[t->part][t->from];
    if (t->from == STOCK_IN_ROW)
        there = t->row == KIT_NONE
                    ? stock_available(d->stock, t->part) - d->stock->work->at[t->part][STOCK_IN_COMPARTMENT]
                    : lies_in_row(d, t->row);
    if (needs_step(t->from) && t->step != KIT_NONE)
        there = stock_at_step(&d->record, t->step, t->part, t->from);
    if (t->from == t->to)
        reasons_add(d, why, "both places are the same");
    if (t->quantity > there)
        reasons_add(d, why, "there are %lld of %.*s there (%s), not %lld", (long long)(there > 0 ? there : 0),
                    TEXT_ARG(d->kit->parts[t->part].number), word, (long long)t->quantity);
    if (t->step == KIT_NONE && (needs_step(t->from) || needs_step(t->to)))
        reasons_add(d, why, "say of which step: --step STEP");
    if (needs_step(t->from) && needs_step(t->to) && t->from == t->to)
        reasons_add(d, why, "put it back first");
}

bool desk_move(desk *d, const desk_transfer *t, desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    check_move(d, t, why);
    stock_move m = {.part = t->part,
                    .quantity = t->quantity,
                    .from = t->from,
                    .to = t->to,
                    .row = t->row,
                    .step = needs_step(t->from) || needs_step(t->to) ? t->step : KIT_NONE};
    return reasons_end(d, why->n || append_move(d, &stamp, &m, e), why, e);
}
