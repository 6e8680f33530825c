/* report_text.c: the report as plain text: one part for the maker, one for the carrier. */
#include <string.h>

#include "base/number.h"
#include "base/wrap.h"
#include "desk/act.h"
#include "desk/report.h"

enum { WIDTH = 80 };

typedef struct {
    const desk *d;
    const kit *k;
    const stock *s;
    arena *a;
    buf *out;
} report;

text report_makers_numbers(arena *a, const kit_part *p) {
    text all = TEXT("");
    for (uint32_t i = 0; i < p->makers_numbers.n; i++)
        all = i ? arena_format(a, "%.*s; %.*s", TEXT_ARG(all), TEXT_ARG(p->makers_numbers.list[i]))
                : p->makers_numbers.list[i];
    return all;
}

text report_label(const kit *k, kit_index container) {
    const kit_container *c = &k->containers[container];
    return c->label.len ? c->label : c->number;
}

text report_quantity(arena *a, int64_t n, kit_unit unit) {
    const char *word = kit_unit_word(unit);
    bool plural = n != 1 && (unit == KIT_PIECE || unit == KIT_PACK);
    return arena_format(a, "%lld %s%s", (long long)n, word, plural ? "s" : "");
}

static void add_paragraph(report *r, text t, size_t indent) {
    wrap_add(r->out, t, WIDTH, indent);
}

static void add_fact(report *r, const char *name, text value) {
    if (value.len)
        buf_addf(r->out, "%-15s %.*s\n", name, TEXT_ARG(value));
}

static void add_day(report *r, const char *name, date_day day) {
    if (day == INT32_MAX)
        return;
    char shown[11];
    date_print(day, shown);
    buf_addf(r->out, "%-15s %s, %s\n", name, date_weekday_name(day), shown);
}

static void add_heading(report *r, const char *title) {
    buf_addf(r->out, "\n%s\n", title);
    for (size_t i = 0; i < strlen(title); i++)
        buf_add_char(r->out, '-');
    buf_add_char(r->out, '\n');
}

static void add_head(report *r, date_day today) {
    const kit *k = r->k;
    buf_add_z(r->out, "Missing-parts report\n====================\n\n");
    add_fact(r, "Kit", arena_format(r->a, "%.*s, %.*s", TEXT_ARG(k->number), TEXT_ARG(k->name)));
    add_fact(r, "Serial", k->serial);
    add_fact(r, "Revision", k->revision);
    add_fact(r, "Maker", k->maker);
    add_fact(r, "To", k->contact);
    if (r->d->workshop)
        add_fact(r, "From", r->d->workshop->name);
    add_day(r, "Date", today);
    add_day(r, "Delivered", r->s->delivered);
    add_day(r, "Report by", r->s->report_by);
    const stock_container *w = &r->s->whole;
    buf_addf(r->out, "%-15s %u of %u rows\n", "Counted", w->counted, w->rows);
    if (w->counted < w->rows)
        buf_add_z(r->out, "\nThe stock check is not finished: more may be found.\n");
}

/* "A1 row 3: F-012 Hexagon screw ..." and below it what was found. */
static void add_row(report *r, kit_index i, text found) {
    const kit_row *row = &r->k->rows[i];
    const kit_part *p = &r->k->parts[row->part];
    text numbers = report_makers_numbers(r->a, p);
    text label = r->k->containers[row->container].label;
    text line =
        arena_format(r->a, "  %.*s: %.*s %.*s%s%.*s%s%.*s%s%s%.*s%s", TEXT_ARG(place_of_row(r->a, r->k, i)),
                     TEXT_ARG(p->number), TEXT_ARG(p->name), p->designation.len ? ", " : "",
                     TEXT_ARG(p->designation), numbers.len ? " (maker's number " : "", TEXT_ARG(numbers),
                     numbers.len ? ")" : "", label.len ? ", label " : "", TEXT_ARG(label), "");
    add_paragraph(r, line, 4);
    add_paragraph(r, arena_format(r->a, "    %.*s", TEXT_ARG(found)), 4);
}

static void add_lacking(report *r) {
    bool any = false;
    for (kit_index i = 0; i < r->k->n_rows; i++) {
        const stock_row *row = &r->s->rows[i];
        if (!row->lacking)
            continue;
        if (!any)
            add_heading(r, "Please send");
        any = true;
        kit_unit unit = r->k->rows[i].unit;
        text damaged = row->damaged ? arena_format(r->a, ", %lld damaged%s", (long long)row->damaged,
                                                   row->in_transit ? " in transit" : "")
                                    : TEXT("");
        add_row(r, i,
                arena_format(r->a, "%.*s lacking: %lld on the list, %lld usable%.*s%s%.*s",
                             TEXT_ARG(report_quantity(r->a, row->lacking, unit)), (long long)row->expected,
                             (long long)row->usable, TEXT_ARG(damaged), row->note.len ? ", " : "",
                             TEXT_ARG(row->note)));
    }
    if (!any)
        buf_add_z(r->out, "\nNothing is lacking on the rows that were counted.\n");
}

static void add_absent(report *r) {
    const kit *k = r->k;
    bool any = false;
    for (kit_index i = 0; i < k->n_containers; i++) {
        kit_index outer = k->containers[i].inside;
        if (!stock_is_absent(&r->s->containers[i]) ||
            (outer != KIT_NONE && stock_is_absent(&r->s->containers[outer])))
            continue;
        if (!any)
            add_heading(r, "Not there at all");
        any = true;
        add_paragraph(r,
                      arena_format(r->a, "  %.*s, %.*s, label %.*s", TEXT_ARG(k->containers[i].number),
                                   TEXT_ARG(k->containers[i].name), TEXT_ARG(report_label(k, i))),
                      4);
    }
}

/* What one bag has too little and another too much of is no reason to send anything. */
static void add_parts(report *r) {
    bool any = false;
    for (kit_index i = 0; i < r->k->n_parts; i++) {
        const stock_part *p = &r->s->parts[i];
        if (!p->lacking && !p->promised)
            continue;
        if (!any)
            add_heading(r, "By part, over all bags");
        any = true;
        text line = arena_format(r->a, "  %.*s %.*s%s%.*s: %lld to send", TEXT_ARG(r->k->parts[i].number),
                                 TEXT_ARG(r->k->parts[i].name), r->k->parts[i].designation.len ? ", " : "",
                                 TEXT_ARG(r->k->parts[i].designation), (long long)p->lacking);
        for (uint32_t j = 0; j < p->n_supplies; j++) {
            char day[11];
            date_print(p->supplies[j].day, day);
            line = arena_format(r->a, "%.*s; %lld promised for %s", TEXT_ARG(line),
                                (long long)p->supplies[j].quantity, day);
        }
        add_paragraph(r, line, 4);
    }
}

static void add_extra(report *r) {
    if (r->s->n_extra_rows)
        add_heading(r, "Too many");
    for (uint32_t i = 0; i < r->s->n_extra_rows; i++) {
        kit_index row = r->s->extra_rows[i];
        const stock_row *found = &r->s->rows[row];
        add_row(r, row,
                arena_format(r->a, "%.*s too many: %lld on the list, %lld usable",
                             TEXT_ARG(report_quantity(r->a, found->extra, r->k->rows[row].unit)),
                             (long long)found->expected, (long long)found->usable));
    }
    if (r->d->record.n_finds)
        add_heading(r, "Not on the list");
    for (uint32_t i = 0; i < r->d->record.n_finds; i++) {
        const stock_find *f = &r->d->record.finds[i];
        text label = report_label(r->k, f->container);
        add_paragraph(r,
                      arena_format(r->a, "  %.*s (label %.*s): %lld x %.*s",
                                   TEXT_ARG(r->k->containers[f->container].number), TEXT_ARG(label),
                                   (long long)f->quantity, TEXT_ARG(f->what)),
                      4);
    }
}

static void add_swaps(report *r) {
    if (r->s->n_swaps)
        add_heading(r, "Perhaps packed for each other");
    for (uint32_t i = 0; i < r->s->n_swaps; i++) {
        const stock_swap *w = &r->s->swaps[i];
        text extra =
            w->extra_row != KIT_NONE
                ? place_of_row(r->a, r->k, w->extra_row)
                : arena_format(r->a, "%.*s (not on the list)",
                               TEXT_ARG(r->k->containers[r->d->record.finds[w->find].container].number));
        add_paragraph(r,
                      arena_format(r->a, "  %.*s has too many, %.*s too few: %.*s", TEXT_ARG(extra),
                                   TEXT_ARG(place_of_row(r->a, r->k, w->missing_row)), TEXT_ARG(w->reason)),
                      4);
    }
}

static void add_batteries(report *r) {
    if (r->s->n_low_batteries)
        add_heading(r, "Batteries below the voltage expected on arrival");
    for (uint32_t i = 0; i < r->s->n_low_batteries; i++) {
        const stock_low_battery *b = &r->s->low_batteries[i];
        char measured[24], low[24];
        number_print_decimal(b->millivolts, 3, measured);
        number_print_decimal(b->low_mv, 3, low);
        add_row(r, b->row,
                arena_format(r->a, "battery %lld: %s V, expected at least %s V", (long long)b->piece,
                             measured, low));
    }
}

static void add_stops(report *r) {
    if (r->s->n_stops)
        add_heading(r, "Steps that wait for these pieces, in build order");
    for (uint32_t i = 0; i < r->s->n_stops; i++) {
        const stock_stop *stop = &r->s->stops[i];
        const kit_step *step = &r->k->steps[stop->step];
        char day[11] = "";
        if (stop->ready != INT32_MAX)
            date_print(stop->ready, day);
        add_paragraph(r,
                      arena_format(r->a, "  %.*s %.*s: %lld of %lld x %.*s%s%s", TEXT_ARG(step->number),
                                   TEXT_ARG(step->name), (long long)stop->missing, (long long)stop->needed,
                                   TEXT_ARG(r->k->parts[stop->part].number), day[0] ? ", promised for " : "",
                                   day),
                      4);
    }
}

static void add_carrier_boxes(report *r) {
    for (kit_index i = 0; i < r->k->n_containers; i++) {
        const stock_container *c = &r->s->containers[i];
        const kit_container *box = &r->k->containers[i];
        if (box->inside != KIT_NONE)
            continue;
        text label = report_label(r->k, i);
        text line = TEXT("");
        if (!c->received && r->s->boxes_received)
            line = TEXT("not received");
        else if (c->damage.len)
            line = arena_format(r->a, "damaged on arrival: %.*s", TEXT_ARG(c->damage));
        if (c->mass_doubtful)
            line = arena_format(r->a, "%.*s%sweighed %lld g, stated %lld g", TEXT_ARG(line),
                                line.len ? "; " : "", (long long)c->mass_g, (long long)box->gross_mass_g);
        if (line.len)
            add_paragraph(r,
                          arena_format(r->a, "  %.*s (label %.*s): %.*s", TEXT_ARG(box->number),
                                       TEXT_ARG(label), TEXT_ARG(line)),
                          4);
    }
}

static bool has_carrier_part(const report *r) {
    for (kit_index i = 0; i < r->k->n_containers; i++)
        if (r->k->containers[i].inside == KIT_NONE &&
            (r->s->containers[i].damage.len || r->s->containers[i].mass_doubtful ||
             (!r->s->containers[i].received && r->s->boxes_received)))
            return true;
    for (uint32_t i = 0; i < r->s->n_damaged_rows; i++)
        if (r->s->rows[r->s->damaged_rows[i]].in_transit)
            return true;
    return false;
}

static void add_carrier(report *r) {
    if (!has_carrier_part(r))
        return;
    buf_add_z(r->out, "\n\nFor the carrier: damage in transit\n==================================\n\n");
    add_fact(r, "Consignment",
             arena_format(r->a, "kit %.*s, serial %.*s, %u boxes", TEXT_ARG(r->k->number),
                          TEXT_ARG(r->k->serial), r->s->boxes));
    add_day(r, "Delivered", r->s->delivered);
    add_day(r, "Report by", r->s->carrier_by);
    buf_add_char(r->out, '\n');
    add_carrier_boxes(r);
    for (uint32_t i = 0; i < r->s->n_damaged_rows; i++) {
        kit_index row = r->s->damaged_rows[i];
        const stock_row *found = &r->s->rows[row];
        if (found->in_transit)
            add_row(r, row,
                    arena_format(r->a, "%.*s damaged%s%.*s",
                                 TEXT_ARG(report_quantity(r->a, found->damaged, r->k->rows[row].unit)),
                                 found->note.len ? ": " : "", TEXT_ARG(found->note)));
    }
    buf_add_z(r->out, "\nKeep the packing, and photographs of the damage, until the carrier has answered.\n");
}

void desk_report_text(const desk *d, date_day today, buf *out) {
    report r = {.d = d, .k = d->kit, .s = d->stock, .a = d->memory, .out = out};
    add_head(&r, today);
    add_absent(&r);
    add_lacking(&r);
    add_parts(&r);
    add_swaps(&r);
    add_extra(&r);
    add_batteries(&r);
    add_stops(&r);
    add_carrier(&r);
}
