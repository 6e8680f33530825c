/* missing_json.c: what is not as on the list, as JSON; docs/json.md explains each member. */
#include "cli/missing.h"

static void add_rows(json_out *j, const desk *d, const char *key, const kit_index *rows, uint32_t n) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < n; i++) {
        const stock_row *r = &d->stock->rows[rows[i]];
        json_put_object(j, NULL);
        build_json_row(j, d->kit, rows[i]);
        json_put_integer(j, "expected", r->expected);
        json_put_integer(j, "usable", r->usable);
        json_put_integer(j, "damaged", r->damaged);
        json_put_integer(j, "missing", r->missing);
        json_put_integer(j, "extra", r->extra);
        json_put_bool(j, "in_transit", r->in_transit);
        json_put_text(j, "note", r->note);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_finds(json_out *j, const desk *d) {
    json_put_array(j, "not_on_the_list");
    for (uint32_t i = 0; i < d->record.n_finds; i++) {
        const stock_find *f = &d->record.finds[i];
        json_put_object(j, NULL);
        json_put_text(j, "container", d->kit->containers[f->container].number);
        json_put_text(j, "what", f->what);
        json_put_integer(j, "quantity", f->quantity);
        if (f->part == KIT_NONE)
            json_put_null(j, "part");
        else
            json_put_text(j, "part", d->kit->parts[f->part].number);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_place(json_out *j, const desk *d, const char *key, kit_index row) {
    if (row == KIT_NONE) {
        json_put_null(j, key);
        return;
    }
    json_put_object(j, key);
    build_json_row(j, d->kit, row);
    json_end_object(j);
}

static void add_swaps(json_out *j, const desk *d) {
    json_put_array(j, "swaps");
    for (uint32_t i = 0; i < d->stock->n_swaps; i++) {
        const stock_swap *w = &d->stock->swaps[i];
        json_put_object(j, NULL);
        add_place(j, d, "too_many", w->extra_row);
        if (w->extra_row == KIT_NONE)
            json_put_text(j, "found", d->record.finds[w->find].what);
        else
            json_put_null(j, "found");
        add_place(j, d, "too_few", w->missing_row);
        json_put_integer(j, "pieces", w->pieces);
        json_put_bool(j, "fits", w->fits);
        json_put_text(j, "reason", w->reason);
        json_put_text(j, "tell", w->tell);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_day(json_out *j, const char *key, date_day day) {
    char shown[11];
    if (day == INT32_MAX) {
        json_put_null(j, key);
        return;
    }
    date_print(day, shown);
    json_put_text(j, key, text_of(shown));
}

static void add_stops(json_out *j, const desk *d) {
    json_put_array(j, "stopped");
    for (uint32_t i = 0; i < d->stock->n_stops; i++) {
        const stock_stop *s = &d->stock->stops[i];
        json_put_object(j, NULL);
        json_put_text(j, "step", d->kit->steps[s->step].number);
        json_put_text(j, "part", d->kit->parts[s->part].number);
        json_put_integer(j, "needed", s->needed);
        json_put_integer(j, "missing", s->missing);
        json_put_integer(j, "unpromised", s->unpromised);
        add_day(j, "promised_for", s->ready);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_parts(json_out *j, const desk *d) {
    json_put_array(j, "parts");
    for (kit_index i = 0; i < d->kit->n_parts; i++) {
        const stock_part *p = &d->stock->parts[i];
        if (!p->lacking && !p->promised)
            continue;
        json_put_object(j, NULL);
        json_put_text(j, "part", d->kit->parts[i].number);
        json_put_integer(j, "lacking", p->lacking);
        json_put_integer(j, "promised", p->promised);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_batteries(json_out *j, const desk *d) {
    json_put_array(j, "low_batteries");
    for (uint32_t i = 0; i < d->stock->n_low_batteries; i++) {
        const stock_low_battery *b = &d->stock->low_batteries[i];
        json_put_object(j, NULL);
        build_json_row(j, d->kit, b->row);
        json_put_integer(j, "piece", b->piece);
        json_put_decimal(j, "volts", b->millivolts, 3);
        json_put_decimal(j, "expected_volts", b->low_mv, 3);
        json_end_object(j);
    }
    json_end_array(j);
}

void missing_json(const desk *d, buf *out) {
    const stock *s = d->stock;
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_bool(&j, "complete", stock_complete(s));
    json_put_integer(&j, "not_counted", s->whole.rows - s->whole.counted);
    add_day(&j, "report_by", s->report_by);
    add_day(&j, "carrier_by", s->carrier_by);
    add_rows(&j, d, "missing", s->missing_rows, s->n_missing_rows);
    add_rows(&j, d, "extra", s->extra_rows, s->n_extra_rows);
    add_rows(&j, d, "damaged", s->damaged_rows, s->n_damaged_rows);
    add_finds(&j, d);
    add_swaps(&j, d);
    add_stops(&j, d);
    add_parts(&j, d);
    add_batteries(&j, d);
    json_end_object(&j);
}
