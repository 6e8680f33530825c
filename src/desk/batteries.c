/* batteries.c: readings of batteries, what they say, and when to top up. The label's interval comes first. */
#include "desk/reasons.h"
#include "trade/battery.h"

static const kit_battery *battery_of(const kit *k, kit_index part) {
    for (kit_index i = 0; i < k->n_batteries; i++)
        if (k->batteries[i].part == part)
            return &k->batteries[i];
    return NULL;
}

bool desk_read_battery(desk *d, kit_index row, int64_t piece, int64_t millivolts, int64_t rested_min,
                       bool charged, desk_who who, err *e) {
    const kit_row *r = &d->kit->rows[row];
    store_entry stamp;
    int64_t number;
    if (!battery_of(d->kit, r->part))
        return err_input(e, place_of_row(d->memory, d->kit, row).at, "name a battery of batteries.csv",
                         "%.*s is no battery", TEXT_ARG(d->kit->parts[r->part].number));
    if (piece < 1 || piece > r->quantity)
        return err_input(e, "PIECE", "number them from 1", "the row has %lld", (long long)r->quantity);
    if (!act_begin(d, who, &stamp, e))
        return false;
    store_entry n = act_entry(&stamp, STORE_READING);
    n.container = d->kit->containers[r->container].number;
    n.line = r->line;
    n.piece = piece;
    n.millivolts = millivolts;
    n.minutes = rested_min;
    n.instead = charged;
    return act_end(d, store_append(d->file, &n, &number, e), e);
}

static const battery_sort *sort_of(const kit_battery *b) {
    return b->chemistry == KIT_AGM ? &battery_agm : b->chemistry == KIT_GEL ? &battery_gel : NULL;
}

static void judge(const desk *d, const kit_battery *b, desk_battery *out) {
    rest_reading says;
    err e;
    const stock_reading *r = out->last;
    date_day from = out->charged_at ? date_of_moment(out->charged_at) : d->stock->delivered;
    if (from != INT32_MAX && b->top_up_days > 0)
        out->top_up = from + (date_day)b->top_up_days;
    if (!r || r->charged)
        return;
    if (!sort_of(b) || b->nominal_mv != 12000 || r->rested_min < 0) {
        out->why_not = sort_of(b) && b->nominal_mv == 12000
                           ? TEXT("say how long it rested: at least 12 h without load or charge")
                           : TEXT("there is no table for this kind of battery");
        return;
    }
    if (!battery_charge_at_rest(sort_of(b), (double)r->millivolts / 1000, (double)r->rested_min / 60, &says,
                                &e)) {
        out->why_not = arena_text(d->memory, text_of(e.cause));
        return;
    }
    out->known = true;
    out->low = says.charge.low;
    out->high = says.charge.high;
    out->flat = says.flat;
    if (says.charge_now)
        out->top_up = date_of_moment(r->at);
}

uint32_t desk_batteries(const desk *d, desk_battery **out) {
    uint32_t n = 0;
    size_t cap = 0;
    *out = NULL;
    for (kit_index row = 0; row < d->kit->n_rows; row++) {
        const kit_battery *b = battery_of(d->kit, d->kit->rows[row].part);
        for (int64_t piece = 1; b && piece <= d->kit->rows[row].quantity; piece++) {
            desk_battery one = {.row = row, .piece = piece, .top_up = INT32_MAX};
            for (uint32_t i = 0; i < d->record.n_readings; i++) {
                const stock_reading *r = &d->record.readings[i];
                if (r->row != row || r->piece != piece)
                    continue;
                one.last = r;
                one.charged_at = r->charged ? r->at : one.charged_at;
            }
            judge(d, b, &one);
            arena_room(d->memory, *out, n, cap, desk_battery);
            (*out)[n++] = one;
        }
    }
    return n;
}
