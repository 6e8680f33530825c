/* report_csv.c: the report as CSV (RFC 4180): one record for each row of the packing list with something wrong, each
 * box with something wrong, and each thing that is on no row. */
#include "desk/report.h"

typedef struct {
    const char *to;   /* "maker", "carrier" */
    const char *what; /* "lacking", "extra", ... */
    kit_index container;
    int64_t line; /* 0: none */
    kit_index part;
    const char *unit;
    int64_t expected, usable, damaged, lacking; /* -1: empty */
    text note;
} csv_record_out;

static void add_number(buf *out, int64_t n) {
    buf_add_char(out, ',');
    if (n >= 0)
        buf_addf(out, "%lld", (long long)n);
}

static void add_text(buf *out, text t) {
    buf_add_char(out, ',');
    buf_add_csv(out, t);
}

static void add_record(const desk *d, buf *out, const csv_record_out *r) {
    const kit *k = d->kit;
    static const kit_part none;
    const kit_part *p = r->part == KIT_NONE ? &none : &k->parts[r->part];
    buf_add_csv(out, k->number);
    add_text(out, k->serial);
    add_text(out, k->revision);
    add_text(out, text_of(r->to));
    add_text(out, text_of(r->what));
    add_text(out, k->containers[r->container].number);
    add_text(out, k->containers[r->container].label);
    add_number(out, r->line ? r->line : -1);
    add_text(out, p->number);
    add_text(out, report_makers_numbers(d->memory, p));
    add_text(out, p->name);
    add_text(out, p->designation);
    add_text(out, text_of(r->unit));
    add_number(out, r->expected);
    add_number(out, r->usable);
    add_number(out, r->damaged);
    add_number(out, r->lacking);
    add_text(out, r->note);
    buf_add_z(out, "\r\n");
}

static void add_row(const desk *d, buf *out, kit_index i, const char *to, const char *what) {
    const kit_row *row = &d->kit->rows[i];
    const stock_row *s = &d->stock->rows[i];
    add_record(d, out,
               &(csv_record_out){to, what, row->container, row->line, row->part, kit_unit_word(row->unit),
                                 s->expected, s->usable, s->damaged, s->lacking, s->note});
}

static void add_box(const desk *d, buf *out, kit_index i) {
    const stock_container *c = &d->stock->containers[i];
    csv_record_out r = {"carrier", "", i, 0, KIT_NONE, "", -1, -1, -1, -1, TEXT_INIT("")};
    if (!c->received && d->stock->boxes_received) {
        r.what = "not received";
        add_record(d, out, &r);
    }
    if (c->damage.len) {
        r.what = "damaged box";
        r.note = c->damage;
        add_record(d, out, &r);
    }
    if (c->mass_doubtful) {
        r.what = "mass";
        r.note = arena_format(d->memory, "weighed %lld g, stated %lld g", (long long)c->mass_g,
                              (long long)d->kit->containers[i].gross_mass_g);
        add_record(d, out, &r);
    }
}

static void add_batteries(const desk *d, buf *out) {
    for (uint32_t i = 0; i < d->stock->n_low_batteries; i++) {
        const stock_low_battery *b = &d->stock->low_batteries[i];
        const kit_row *row = &d->kit->rows[b->row];
        add_record(d, out,
                   &(csv_record_out){
                       "maker", "low battery", row->container, row->line, row->part, kit_unit_word(row->unit),
                       -1, -1, -1, -1,
                       arena_format(d->memory, "battery %lld: %lld mV, at least %lld mV expected",
                                    (long long)b->piece, (long long)b->millivolts, (long long)b->low_mv)});
    }
}

void desk_report_csv(const desk *d, buf *out) {
    buf_add_z(out,
              "kit,serial,revision,to,what,container,label,row,part,makers_numbers,name,designation,unit,"
              "expected,usable,damaged,lacking,note\r\n");
    for (kit_index i = 0; i < d->kit->n_rows; i++) {
        const stock_row *s = &d->stock->rows[i];
        if (s->lacking)
            add_row(d, out, i, "maker", "lacking");
        if (s->extra)
            add_row(d, out, i, "maker", "extra");
        if (s->damaged && s->in_transit)
            add_row(d, out, i, "carrier", "damaged");
        else if (s->damaged && !s->lacking)
            add_row(d, out, i, "maker", "damaged");
    }
    for (uint32_t i = 0; i < d->record.n_finds; i++) {
        const stock_find *f = &d->record.finds[i];
        add_record(d, out,
                   &(csv_record_out){"maker", "not on the list", f->container, 0, f->part, "piece", 0,
                                     f->quantity, 0, -1, f->what});
    }
    add_batteries(d, out);
    for (kit_index i = 0; i < d->kit->n_containers; i++)
        if (d->kit->containers[i].inside == KIT_NONE)
            add_box(d, out, i);
}
