/* report.c: the missing-parts report to the maker, and apart from it the damage for the carrier.
 *
 * The maker is asked by part, because what lies in another bag than listed need not be sent; the rows stand under each
 * part as the evidence. What was damaged on the way is asked for here too, and claimed from the carrier on a sheet of
 * its own, which has an earlier deadline.
 */
#include "paper/book.h"
#include "paper/facts.h"
#include "paper/masthead.h"
#include "paper/table.h"
#include "paper/wording.h"

typedef struct {
    arena *memory;
    const kit *kit;
    const stock *found;
} report;

static const type_style head_style = {.size = TYPE_HEAD, .bold = true, .colour = INK_BLACK};
static const type_style plain_style = {.size = TYPE_BODY, .colour = INK_BLACK};

static void start_block(sheet *s, const char *name, double height) {
    sheet_room(s, height);
    if (s->y > s->top)
        s->y += 14;
    sheet_paragraph(s, text_of(name), head_style, s->left, sheet_width(s));
    s->y += 2;
}

static text day_or(arena *a, date_day day, const char *otherwise) {
    return day == INT32_MAX ? text_of(otherwise) : wording_date(a, day);
}

static text quantity(const report *r, kit_index row, int64_t n) {
    return wording_quantity(r->memory, n, r->kit->rows[row].unit);
}

/* "Box 3 › Bag B3 (lot 7) row 7" */
static text row_place(const report *r, kit_index row) {
    const kit_row *listed = &r->kit->rows[row];
    text label = r->kit->containers[listed->container].label;
    return arena_format(r->memory, "%.*s%s%.*s%s row %lld",
                        TEXT_ARG(wording_place(r->memory, r->kit, listed->container)), label.len ? " (" : "",
                        TEXT_ARG(label), label.len ? ")" : "", (long long)listed->line);
}

/* One line of evidence: where it is listed and what was found there. */
static text row_evidence(const report *r, kit_index row) {
    const stock_row *state = &r->found->rows[row];
    text damaged = state->damaged
                       ? arena_format(r->memory, ", %.*s damaged", TEXT_ARG(quantity(r, row, state->damaged)))
                       : TEXT("");
    return arena_format(r->memory, "%.*s: %.*s usable of %.*s%.*s", TEXT_ARG(row_place(r, row)),
                        TEXT_ARG(quantity(r, row, state->usable)),
                        TEXT_ARG(quantity(r, row, state->expected)), TEXT_ARG(damaged));
}

static kit_unit unit_of(const kit *k, kit_index part) {
    for (uint32_t i = 0; i < k->n_rows; i++)
        if (k->rows[i].part == part)
            return k->rows[i].unit;
    return KIT_PIECE;
}

/* The rows of a part where something lacks, a line each. */
static text part_evidence(const report *r, kit_index part) {
    buf lines = {0};
    for (kit_index i = 0; i < r->kit->n_rows; i++)
        if (r->kit->rows[i].part == part && r->found->rows[i].lacking)
            buf_addf(&lines, "%s%.*s", lines.len ? "\n" : "", TEXT_ARG(row_evidence(r, i)));
    text t = arena_text(r->memory, buf_text(&lines));
    buf_free(&lines);
    return t;
}

static void draw_to_send(const report *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "to send", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "number in the kit", .width = MM(29)},
        {.head = "maker's number", .width = MM(27)},
        {.head = "what it is, and where it is listed", .share = 1},
    };
    const kit *k = r->kit;
    table_form form = {.columns = columns, .n = 4};
    start_block(s, "Please send", 70);
    table t = table_begin(s, &form, s->left);
    bool any = false;
    for (kit_index i = 0; i < k->n_parts; i++) {
        if (r->found->parts[i].lacking <= 0)
            continue;
        any = true;
        table_cell cells[] = {
            {.main = wording_quantity(r->memory, r->found->parts[i].lacking, unit_of(k, i))},
            {.main = k->parts[i].number},
            {.main = wording_list(r->memory, k->parts[i].makers_numbers, "–")},
            {.main = wording_part(r->memory, &k->parts[i]), .under = part_evidence(r, i)},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
    else
        sheet_paragraph(s, TEXT("Nothing: of all that was counted, enough usable pieces are there."),
                        plain_style, s->left, sheet_width(s));
}

/* A table of rows of the packing list: how many, what, where. */
static void draw_rows(const report *r, sheet *s, const char *name, const char *count_head,
                      const kit_index *rows, uint32_t n, int64_t (*count)(const stock_row *),
                      bool (*wanted)(const report *, kit_index)) {
    table_column columns[] = {
        {.head = count_head, .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "number in the kit", .width = MM(29)},
        {.head = "what it is", .share = 1},
        {.head = "where", .share = 1},
    };
    table_form form = {.columns = columns, .n = 4};
    table t;
    bool any = false;
    for (uint32_t i = 0; i < n; i++) {
        const kit_part *part = &r->kit->parts[r->kit->rows[rows[i]].part];
        const stock_row *state = &r->found->rows[rows[i]];
        if (!wanted(r, rows[i]))
            continue;
        if (!any) {
            start_block(s, name, 70);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        table_cell cells[] = {
            {.main = quantity(r, rows[i], count(state))},
            {.main = part->number},
            {.main = wording_part(r->memory, part)},
            {.main = row_place(r, rows[i]), .under = state->note},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}

static int64_t count_damaged(const stock_row *row) {
    return row->damaged;
}

static int64_t count_extra(const stock_row *row) {
    return row->extra;
}

static int64_t count_missing(const stock_row *row) {
    return row->missing;
}

static bool any_row(const report *r, kit_index row) {
    (void)r;
    (void)row;
    return true;
}

static bool damaged_before(const report *r, kit_index row) {
    return !r->found->rows[row].in_transit;
}

static bool damaged_on_the_way(const report *r, kit_index row) {
    return r->found->rows[row].in_transit;
}

static bool lies_elsewhere(const report *r, kit_index row) {
    return r->found->parts[r->kit->rows[row].part].lacking <= 0;
}

static void draw_finds(const report *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "pieces", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "what it is", .share = 1},
        {.head = "found in", .share = 1},
    };
    const stock_record *record = r->found->record;
    if (!record->n_finds)
        return;
    start_block(s, "Not on the packing list", 70);
    table_form form = {.columns = columns, .n = 3};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < record->n_finds; i++) {
        const stock_find *find = &record->finds[i];
        table_cell cells[] = {
            {.main = arena_format(r->memory, "%lld", (long long)find->quantity)},
            {.main = find->what},
            {.main = wording_place(r->memory, r->kit, find->container)},
        };
        table_row(&t, cells);
    }
    table_end(&t);
}

static text volts(arena *a, int64_t millivolts) {
    return arena_format(a, "%lld.%02lld V", (long long)(millivolts / 1000),
                        (long long)(millivolts % 1000 / 10));
}

static void draw_batteries(const report *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "measured", .width = MM(18), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "at least", .width = MM(18), .align = TYPE_END},
        {.head = "battery", .share = 1},
        {.head = "where", .share = 1},
    };
    const stock *found = r->found;
    if (!found->n_low_batteries)
        return;
    start_block(s, "Batteries below the voltage on arrival", 70);
    table_form form = {.columns = columns, .n = 4};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < found->n_low_batteries; i++) {
        const stock_low_battery *b = &found->low_batteries[i];
        const kit_part *part = &r->kit->parts[r->kit->rows[b->row].part];
        table_cell cells[] = {
            {.main = volts(r->memory, b->millivolts)},
            {.main = volts(r->memory, b->low_mv)},
            {.main = arena_format(r->memory, "%.*s %.*s, piece %lld", TEXT_ARG(part->number),
                                  TEXT_ARG(part->name), (long long)b->piece)},
            {.main = row_place(r, b->row)},
        };
        table_row(&t, cells);
    }
    table_end(&t);
}

/* What must be known before the report is sent. */
static void draw_warnings(const report *r, sheet *s) {
    const stock *found = r->found;
    uint32_t open = found->whole.rows - found->whole.counted;
    type_style bold = plain_style;
    bold.bold = true;
    s->y += 8;
    if (open)
        sheet_paragraph(s,
                        arena_format(r->memory,
                                     "Not finished: %u of %u rows are not counted yet. They are not in "
                                     "this report.",
                                     open, found->whole.rows),
                        bold, s->left, sheet_width(s));
    if (!found->n_recheck)
        return;
    sheet_paragraph(
        s,
        TEXT("Before this goes out, count again: too many here and too few there of pieces that look "
             "alike."),
        bold, s->left, sheet_width(s));
    for (uint32_t i = 0; i < found->n_recheck; i++) {
        const kit_part *part = &r->kit->parts[r->kit->rows[found->recheck[i]].part];
        text line = arena_format(r->memory, "%.*s, %.*s %.*s", TEXT_ARG(row_evidence(r, found->recheck[i])),
                                 TEXT_ARG(part->name), TEXT_ARG(part->designation));
        sheet_room(s, 14);
        sheet_tick(s, s->left, s->y + 1.5, 9);
        sheet_paragraph(s, line, plain_style, s->left + 16, sheet_width(s) - 16);
        s->y += 2;
    }
}

static void draw_signature(sheet *s) {
    sheet_room(s, 50);
    s->y += 26;
    double half = sheet_width(s) / 2;
    sheet_blank(s, "reported by", s->left, s->y, half - MM(4));
    sheet_blank(s, "on", s->left + half, s->y, half);
    s->y += 20;
}

static void draw_top(const report *r, sheet *s, const char *kind, text subtitle, date_day by) {
    const kit *k = r->kit;
    masthead m = {
        .kind = kind,
        .title = k->name,
        .subtitle = subtitle,
        .corner = by == INT32_MAX ? TEXT("") : TEXT("report by"),
        .corner_more = by == INT32_MAX ? TEXT("") : wording_day(r->memory, by),
    };
    masthead_draw(s, &m);
    const stock_container *whole = &r->found->whole;
    fact facts[] = {
        {.label = "serial", .value = k->serial.len ? k->serial : TEXT("–")},
        {.label = "revision", .value = k->revision.len ? k->revision : TEXT("–")},
        {.label = "delivered", .value = day_or(r->memory, r->found->delivered, "–")},
        {.label = "boxes received",
         .value = arena_format(r->memory, "%u of %u", r->found->boxes_received, r->found->boxes)},
        {.label = "rows counted", .value = arena_format(r->memory, "%u of %u", whole->counted, whole->rows)},
    };
    static const double shares[] = {16, 12, 36, 18, 18};
    facts_draw(s, facts, shares, 5);
}

static void compose_maker(sheet *s, const void *what) {
    const report *r = what;
    const stock *found = r->found;
    text to = r->kit->maker;
    if (r->kit->contact.len)
        to = arena_format(r->memory, "to %.*s\n%.*s", TEXT_ARG(to), TEXT_ARG(r->kit->contact));
    draw_top(r, s, "MISSING-PARTS REPORT · TO THE MAKER", to, found->report_by);
    draw_warnings(r, s);
    draw_to_send(r, s);
    draw_rows(r, s, "Damaged when unpacked", "damaged", found->damaged_rows, found->n_damaged_rows,
              count_damaged, damaged_before);
    draw_rows(r, s, "More than listed", "too many", found->extra_rows, found->n_extra_rows, count_extra,
              any_row);
    draw_rows(r, s, "Not where it is listed, found in another place", "not here", found->missing_rows,
              found->n_missing_rows, count_missing, lies_elsewhere);
    draw_finds(r, s);
    draw_batteries(r, s);
    draw_signature(s);
}

static bool has_transit_damage(const report *r) {
    for (kit_index i = 0; i < r->kit->n_containers; i++)
        if (r->found->containers[i].damage.len)
            return true;
    for (uint32_t i = 0; i < r->found->n_damaged_rows; i++)
        if (damaged_on_the_way(r, r->found->damaged_rows[i]))
            return true;
    return false;
}

static void draw_damaged_boxes(const report *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "box", .width = MM(26), .bold = true, .ledger = true},
        {.head = "damage seen at the door", .share = 1},
        {.head = "weighed", .width = MM(22), .align = TYPE_END},
        {.head = "as shipped", .width = MM(22), .align = TYPE_END},
    };
    const kit *k = r->kit;
    table_form form = {.columns = columns, .n = 4};
    table t;
    bool any = false;
    for (kit_index i = 0; i < k->n_containers; i++) {
        const stock_container *c = &r->found->containers[i];
        if (!c->damage.len)
            continue;
        if (!any) {
            start_block(s, "Boxes damaged", 70);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        int64_t stated = k->containers[i].gross_mass_g;
        table_cell cells[] = {
            {.main = wording_container(r->memory, k, i)},
            {.main = c->damage},
            {.main = c->mass_g >= 0 ? wording_mass(r->memory, c->mass_g) : TEXT("–")},
            {.main = stated >= 0 ? wording_mass(r->memory, stated) : TEXT("–")},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}

static void compose_carrier(sheet *s, const void *what) {
    const report *r = what;
    draw_top(r, s, "DAMAGE ON THE WAY · TO THE CARRIER",
             TEXT("Keep the boxes and the packing; photographs go with this."), r->found->carrier_by);
    draw_damaged_boxes(r, s);
    draw_rows(r, s, "Contents damaged", "damaged", r->found->damaged_rows, r->found->n_damaged_rows,
              count_damaged, damaged_on_the_way);
    draw_signature(s);
}

bool paper_report(arena *a, const paper_setup *setup, const kit *k, const stock *found, buf *pdf,
                  paper_notes *notes, err *e) {
    book *to;
    text title = arena_format(a, "Missing-parts report: %.*s", TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    report r = {.memory = a, .kit = k, .found = found};
    book_add(to, &(book_section){.outline = TEXT("To the maker"),
                                 .running = TEXT("Missing-parts report · to the maker"),
                                 .compose = compose_maker,
                                 .what = &r});
    if (has_transit_damage(&r))
        book_add(to, &(book_section){.outline = TEXT("To the carrier"),
                                     .running = TEXT("Damage on the way · to the carrier"),
                                     .compose = compose_carrier,
                                     .what = &r});
    return book_close(to, notes, e);
}
