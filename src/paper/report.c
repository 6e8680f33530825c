/* report.c: the missing-parts report to the maker, and apart from it the damage for the carrier.
 *
 * The maker is asked by part, because what lies in another bag than listed need not be sent; the rows stand under each
 * part as the evidence. What was damaged on the way is asked for here too, and claimed from the carrier on a sheet of
 * its own, which has an earlier deadline.
 */
#include "paper/book.h"
#include "paper/claim.h"
#include "paper/facts.h"
#include "paper/masthead.h"
#include "paper/wording.h"

static const type_style plain_style = {.size = TYPE_BODY, .colour = INK_BLACK};

static text day_or(arena *a, date_day day, const char *otherwise) {
    return day == INT32_MAX ? text_of(otherwise) : wording_date(a, day);
}

/* What must be known before the report is sent. */
static void draw_warnings(const claim *r, sheet *s) {
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
        text line = arena_format(r->memory, "%.*s, %.*s %.*s", TEXT_ARG(claim_evidence(r, found->recheck[i])),
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

static void draw_top(const claim *r, sheet *s, const char *kind, text subtitle, date_day by) {
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
    static const double shares[] = {24, 12, 30, 17, 17};
    facts_draw(s, facts, shares, 5);
}

static void compose_maker(sheet *s, const void *what) {
    const claim *r = what;
    const stock *found = r->found;
    text to = r->kit->maker;
    if (r->kit->contact.len)
        to = arena_format(r->memory, "to %.*s\n%.*s", TEXT_ARG(to), TEXT_ARG(r->kit->contact));
    if (r->from.len)
        to = arena_format(r->memory, "%.*s\nfrom %.*s", TEXT_ARG(to), TEXT_ARG(r->from));
    draw_top(r, s, "MISSING-PARTS REPORT · TO THE MAKER", to, found->report_by);
    draw_warnings(r, s);
    claim_draw_absent(r, s);
    claim_draw_to_send(r, s);
    claim_draw_damaged(r, s);
    claim_draw_extra(r, s);
    claim_draw_elsewhere(r, s);
    claim_draw_finds(r, s);
    claim_draw_batteries(r, s);
    draw_signature(s);
}

static void compose_carrier(sheet *s, const void *what) {
    const claim *r = what;
    draw_top(r, s, "DAMAGE ON THE WAY · TO THE CARRIER",
             TEXT("Keep the boxes and the packing; photographs go with this."), r->found->carrier_by);
    claim_draw_boxes(r, s);
    claim_draw_contents(r, s);
    draw_signature(s);
}

bool paper_report(arena *a, const paper_setup *setup, const kit *k, const stock *found, text from, buf *pdf,
                  paper_notes *notes, err *e) {
    book *to;
    text title = arena_format(a, "Missing-parts report: %.*s", TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    claim r = {.memory = a, .kit = k, .found = found, .from = from};
    book_add(to, &(book_section){.outline = TEXT("To the maker"),
                                 .running = TEXT("Missing-parts report · to the maker"),
                                 .compose = compose_maker,
                                 .what = &r});
    if (claim_has_transit_damage(&r))
        book_add(to, &(book_section){.outline = TEXT("To the carrier"),
                                     .running = TEXT("Damage on the way · to the carrier"),
                                     .compose = compose_carrier,
                                     .what = &r});
    return book_close(to, notes, e);
}
