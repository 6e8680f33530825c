/* state_stock.c: counts, boxes, pieces, what is missing and the batteries, as the pages see them. */
#include "web/state.h"

static void put_day(json_out *j, const char *key, date_day day) {
    char shown[11];
    if (day == INT32_MAX)
        return;
    date_print(day, shown);
    json_put_text(j, key, text_of(shown));
}

static void put_whole(state *s, const desk *d) {
    const stock *st = d->stock;
    json_out *j = state_put(s, false, "build");
    json_put_integer(j, "rows", st->whole.rows);
    json_put_integer(j, "counted", st->whole.counted);
    json_put_integer(j, "all_right", st->whole.all_right);
    json_put_integer(j, "finds", st->whole.finds);
    json_put_integer(j, "boxes", st->boxes);
    json_put_integer(j, "boxes_received", st->boxes_received);
    json_put_integer(j, "stops", st->n_stops);
    json_put_bool(j, "complete", stock_complete(st));
    put_day(j, "report_by", st->report_by);
    put_day(j, "carrier_by", st->carrier_by);
    state_done(s);
}

static void put_row(state *s, const desk *d, kit_index i) {
    const kit_row *k = &d->kit->rows[i];
    const stock_row *r = &d->stock->rows[i];
    if (!r->counted && !r->arrived)
        return;
    json_out *j = state_put(s, false, "row/%.*s/%lld", TEXT_ARG(d->kit->containers[k->container].number),
                            (long long)k->line);
    json_put_bool(j, "counted", r->counted);
    json_put_integer(j, "times", r->times);
    json_put_integer(j, "usable", r->usable);
    json_put_integer(j, "damaged", r->damaged);
    json_put_integer(j, "missing", r->missing);
    json_put_integer(j, "lacking", r->lacking);
    json_put_integer(j, "extra", r->extra);
    json_put_bool(j, "in_transit", r->in_transit);
    json_put_text(j, "note", r->note);
    state_done(s);
}

static void put_container(state *s, const desk *d, kit_index i) {
    const stock_container *c = &d->stock->containers[i];
    json_out *j = state_put(s, false, "box/%.*s", TEXT_ARG(d->kit->containers[i].number));
    json_put_integer(j, "rows", c->rows);
    json_put_integer(j, "counted", c->counted);
    json_put_integer(j, "all_right", c->all_right);
    json_put_integer(j, "finds", c->finds);
    json_put_bool(j, "received", c->received);
    json_put_integer(j, "mass_g", c->mass_g);
    json_put_bool(j, "mass_doubtful", c->mass_doubtful);
    json_put_text(j, "damage", c->damage);
    json_put_bool(j, "absent", stock_is_absent(c));
    state_done(s);
}

static void put_finds(state *s, const desk *d) {
    for (uint32_t i = 0; i < d->record.n_finds; i++) {
        const stock_find *f = &d->record.finds[i];
        json_out *j = state_put(s, false, "find/%lld", (long long)f->entry);
        json_put_text(j, "in", d->kit->containers[f->container].number);
        json_put_text(j, "what", f->what);
        json_put_text(j, "part", f->part == KIT_NONE ? TEXT("") : d->kit->parts[f->part].number);
        json_put_integer(j, "quantity", f->quantity);
        state_done(s);
    }
}

static void put_part(state *s, const desk *d, kit_index p) {
    const stock_part *st = &d->stock->parts[p];
    const int64_t *at = d->stock->work->at[p];
    json_out *j = state_put(s, false, "part/%.*s", TEXT_ARG(d->kit->parts[p].number));
    json_put_integer(j, "usable", st->usable);
    json_put_integer(j, "not_counted", st->not_counted);
    json_put_integer(j, "damaged", st->damaged);
    json_put_integer(j, "lacking", st->lacking);
    json_put_integer(j, "extra", st->extra);
    json_put_integer(j, "needed", st->needed);
    json_put_integer(j, "available", stock_available(d->stock, p));
    json_put_object(j, "at");
    for (int place = STOCK_IN_COMPARTMENT; place < STOCK_PLACES; place++)
        if (at[place])
            json_put_integer(j, stock_place_word((stock_place)place), at[place]);
    json_end_object(j);
    json_put_array(j, "promised");
    for (uint32_t i = 0; i < st->n_supplies; i++) {
        json_put_object(j, NULL);
        json_put_integer(j, "quantity", st->supplies[i].quantity);
        put_day(j, "day", st->supplies[i].day);
        json_end_object(j);
    }
    json_end_array(j);
    state_done(s);
}

static void put_stops(state *s, const desk *d) {
    for (uint32_t i = 0; i < d->stock->n_stops; i++) {
        const stock_stop *st = &d->stock->stops[i];
        text step = d->kit->steps[st->step].number, part = d->kit->parts[st->part].number;
        json_out *j = state_put(s, false, "stop/%.*s/%.*s", TEXT_ARG(step), TEXT_ARG(part));
        json_put_text(j, "step", step);
        json_put_text(j, "part", part);
        json_put_integer(j, "missing", st->missing);
        json_put_integer(j, "unpromised", st->unpromised);
        put_day(j, "ready", st->ready);
        state_done(s);
    }
}

/* Where the leader may want to look again before anybody is called. */
static void put_swaps(state *s, const desk *d) {
    for (uint32_t i = 0; i < d->stock->n_swaps; i++) {
        const stock_swap *w = &d->stock->swaps[i];
        json_out *j = state_put(s, true, "swap/%u", i);
        const kit_row *missing = &d->kit->rows[w->missing_row];
        json_put_text(j, "missing_in", d->kit->containers[missing->container].number);
        json_put_integer(j, "missing_line", missing->line);
        if (w->extra_row != KIT_NONE) {
            const kit_row *extra = &d->kit->rows[w->extra_row];
            json_put_text(j, "extra_in", d->kit->containers[extra->container].number);
            json_put_integer(j, "extra_line", extra->line);
        } else {
            json_put_text(j, "extra_what", d->record.finds[w->find].what);
        }
        json_put_integer(j, "pieces", w->pieces);
        json_put_text(j, "reason", w->reason);
        json_put_text(j, "tell", w->tell);
        state_done(s);
    }
}

static void put_batteries(state *s, const desk *d) {
    desk_battery *list;
    uint32_t n = desk_batteries(d, &list);
    for (uint32_t i = 0; i < n; i++) {
        const desk_battery *b = &list[i];
        const kit_row *r = &d->kit->rows[b->row];
        text in = d->kit->containers[r->container].number;
        json_out *j = state_put(s, false, "battery/%.*s/%lld/%lld", TEXT_ARG(in), (long long)r->line,
                                (long long)b->piece);
        json_put_text(j, "in", in);
        json_put_integer(j, "line", r->line);
        json_put_text(j, "part", d->kit->parts[r->part].number);
        json_put_integer(j, "piece", b->piece);
        if (b->last)
            json_put_integer(j, "millivolts", b->last->millivolts);
        if (b->known) {
            json_put_integer(j, "low_percent", (int64_t)(100 * b->low));
            json_put_integer(j, "high_percent", (int64_t)(100 * b->high));
        }
        json_put_bool(j, "flat", b->flat);
        json_put_text(j, "why_not", b->why_not);
        put_day(j, "top_up", b->top_up);
        state_done(s);
    }
}

void state_put_stock(state *s, const desk *d) {
    put_whole(s, d);
    for (kit_index i = 0; i < d->kit->n_rows; i++)
        put_row(s, d, i);
    for (kit_index i = 0; i < d->kit->n_containers; i++)
        put_container(s, d, i);
    for (kit_index i = 0; i < d->kit->n_parts; i++)
        put_part(s, d, i);
    put_finds(s, d);
    put_stops(s, d);
    put_swaps(s, d);
    put_batteries(s, d);
}
