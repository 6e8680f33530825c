/* missing_text.c: what is not as on the list, as text of 80 columns. */
#include "base/wrap.h"
#include "cli/missing.h"

typedef struct {
    const cli_call *call;
    const desk *d;
    buf *out;
} page;

static void add(page *p, text t) {
    wrap_add(p->out, t, CLI_WIDTH, 4);
}

/* "  A1 row 3, F-012 hexagon screw, ISO 4017 M8x25-8.8: 2 of 12" */
static void add_row(page *p, kit_index row, text what) {
    const kit_part *part = &p->d->kit->parts[p->d->kit->rows[row].part];
    add(p, arena_format(p->call->memory, "  %.*s, %.*s %.*s%s%.*s: %.*s",
                        TEXT_ARG(build_place(p->call, p->d->kit, row)), TEXT_ARG(part->number),
                        TEXT_ARG(part->name), part->designation.len ? ", " : "", TEXT_ARG(part->designation),
                        TEXT_ARG(what)));
}

static void add_rows(page *p, const char *title, const kit_index *rows, uint32_t n,
                     text (*say)(arena *a, const stock_row *r)) {
    if (!n)
        return;
    buf_addf(p->out, "\n%s\n", title);
    for (uint32_t i = 0; i < n; i++)
        add_row(p, rows[i], say(p->call->memory, &p->d->stock->rows[rows[i]]));
}

static text say_missing(arena *a, const stock_row *r) {
    return arena_format(a, "%lld of %lld%s", (long long)r->missing, (long long)r->expected,
                        r->usable + r->damaged ? "" : ", none found");
}

static text say_extra(arena *a, const stock_row *r) {
    return arena_format(a, "%lld more than %lld", (long long)r->extra, (long long)r->expected);
}

static text say_damaged(arena *a, const stock_row *r) {
    return arena_format(a, "%lld of %lld%s%s%.*s", (long long)r->damaged, (long long)r->expected,
                        r->in_transit ? ", in transit: for the carrier" : "", r->note.len ? ", " : "",
                        TEXT_ARG(r->note));
}

/* One line says more than ten rows of nothing. A bag inside one that is missing is not named again. */
static void add_absent(page *p) {
    const kit *k = p->d->kit;
    bool any = false;
    for (kit_index i = 0; i < k->n_containers; i++) {
        const stock_container *c = p->d->stock->containers;
        if (!stock_is_absent(&c[i]) ||
            (k->containers[i].inside != KIT_NONE && stock_is_absent(&c[k->containers[i].inside])))
            continue;
        if (!any)
            buf_add_z(p->out, "\nNot there at all\n");
        any = true;
        add(p, arena_format(p->call->memory, "  %.*s, %.*s%s%.*s", TEXT_ARG(k->containers[i].number),
                            TEXT_ARG(k->containers[i].name), k->containers[i].label.len ? ", label " : "",
                            TEXT_ARG(k->containers[i].label)));
    }
}

static void add_finds(page *p) {
    const stock_record *record = &p->d->record;
    if (record->n_finds)
        buf_add_z(p->out, "\nNot on the list\n");
    for (uint32_t i = 0; i < record->n_finds; i++) {
        const stock_find *f = &record->finds[i];
        add(p, arena_format(p->call->memory, "  %.*s: %lld x %.*s",
                            TEXT_ARG(p->d->kit->containers[f->container].number), (long long)f->quantity,
                            TEXT_ARG(f->what)));
    }
}

static void add_swaps(page *p) {
    const stock *s = p->d->stock;
    const kit *k = p->d->kit;
    arena *a = p->call->memory;
    if (s->n_swaps)
        buf_add_z(p->out, "\nProbably swapped: count these rows again before you report\n");
    for (uint32_t i = 0; i < s->n_swaps; i++) {
        const stock_swap *w = &s->swaps[i];
        text extra;
        if (w->extra_row != KIT_NONE) {
            const kit_part *part = &k->parts[k->rows[w->extra_row].part];
            extra = arena_format(a, "%.*s (%.*s) has %lld too many",
                                 TEXT_ARG(build_place(p->call, k, w->extra_row)), TEXT_ARG(part->name),
                                 (long long)s->rows[w->extra_row].extra);
        } else {
            const stock_find *f = &p->d->record.finds[w->find];
            extra = arena_format(a, "%.*s has %lld x %.*s", TEXT_ARG(k->containers[f->container].number),
                                 (long long)f->quantity, TEXT_ARG(f->what));
        }
        const kit_part *part = &k->parts[k->rows[w->missing_row].part];
        add(p, arena_format(a, "  %.*s, %.*s (%.*s) misses %lld: %.*s%s%.*s", TEXT_ARG(extra),
                            TEXT_ARG(build_place(p->call, k, w->missing_row)), TEXT_ARG(part->name),
                            (long long)s->rows[w->missing_row].missing, TEXT_ARG(w->reason),
                            w->tell.len ? "; " : "", TEXT_ARG(w->tell)));
    }
}

static void add_stops(page *p) {
    const stock *s = p->d->stock;
    if (s->n_stops)
        buf_add_z(p->out, "\nSteps that cannot get all their pieces, in build order\n");
    for (uint32_t i = 0; i < s->n_stops; i++) {
        const stock_stop *stop = &s->stops[i];
        const kit_step *step = &p->d->kit->steps[stop->step];
        char day[11] = "";
        if (stop->ready != INT32_MAX)
            date_print(stop->ready, day);
        add(p, arena_format(p->call->memory, "  %.*s %.*s: %lld of %lld x %.*s%s%s", TEXT_ARG(step->number),
                            TEXT_ARG(step->name), (long long)stop->missing, (long long)stop->needed,
                            TEXT_ARG(p->d->kit->parts[stop->part].number), day[0] ? ", promised for " : "",
                            day));
    }
}

static void add_batteries(page *p) {
    const stock *s = p->d->stock;
    if (s->n_low_batteries)
        buf_add_z(p->out, "\nBatteries below the voltage expected on arrival\n");
    for (uint32_t i = 0; i < s->n_low_batteries; i++) {
        const stock_low_battery *b = &s->low_batteries[i];
        char measured[24], low[24];
        number_print_decimal(b->millivolts, 3, measured);
        number_print_decimal(b->low_mv, 3, low);
        add_row(p, b->row,
                arena_format(p->call->memory, "battery %lld has %s V, expected at least %s V",
                             (long long)b->piece, measured, low));
    }
}

/* A box or a piece, as far as anybody said so. */
static bool damaged_in_transit(const page *p) {
    const stock *s = p->d->stock;
    for (kit_index i = 0; i < p->d->kit->n_containers; i++)
        if (s->containers[i].damage.len)
            return true;
    for (uint32_t i = 0; i < s->n_damaged_rows; i++)
        if (s->rows[s->damaged_rows[i]].in_transit)
            return true;
    return false;
}

static void add_end(page *p) {
    const stock *s = p->d->stock;
    if (s->whole.counted < s->whole.rows)
        buf_addf(p->out, "\n%u of %u rows are not counted yet.\n", s->whole.rows - s->whole.counted,
                 s->whole.rows);
    else if (stock_complete(s))
        buf_add_z(p->out, "The list is complete.\n");
    char day[11];
    if (s->carrier_by != INT32_MAX && damaged_in_transit(p)) {
        date_print(s->carrier_by, day);
        buf_addf(p->out, "\nThe carrier takes claims until %s, %s.\n", date_weekday_name(s->carrier_by), day);
    }
    if (s->report_by != INT32_MAX && !stock_complete(s)) {
        date_print(s->report_by, day);
        buf_addf(p->out, "\nThe maker takes reports until %s, %s.\n", date_weekday_name(s->report_by), day);
    }
}

void missing_text(const cli_call *call, const desk *d, buf *out) {
    page p = {call, d, out};
    const stock *s = d->stock;
    buf_addf(out, "rows missing pieces: %u, with too many: %u, damaged: %u; not on the list: %u\n",
             s->n_missing_rows, s->n_extra_rows, s->n_damaged_rows, d->record.n_finds);
    add_swaps(&p);
    add_absent(&p);
    add_rows(&p, "Missing", s->missing_rows, s->n_missing_rows, say_missing);
    add_rows(&p, "Too many", s->extra_rows, s->n_extra_rows, say_extra);
    add_rows(&p, "Damaged", s->damaged_rows, s->n_damaged_rows, say_damaged);
    add_finds(&p);
    add_batteries(&p);
    add_stops(&p);
    add_end(&p);
}
