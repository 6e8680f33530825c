/* battery_card.c: what keeps the batteries alive, and a table to write their readings in. */
#include "paper/kit_sheet.h"

static const table_column columns[] = {
    {.head = "day", .width = MM(24), .ledger = true},
    {.head = "battery", .share = 2},
    {.head = "rested since", .share = 2},
    {.head = "V, alone", .width = MM(20)},
    {.head = "charged from – to", .share = 3},
    {.head = "by", .share = 2},
};
enum { N_COLUMNS = sizeof columns / sizeof columns[0], LINES = 14 };

static text volts(arena *a, int64_t mv) {
    return arena_format(a, "%lld.%02lld V", (long long)(mv / 1000), (long long)(mv % 1000 / 10));
}

static void add_sort(const kit_sheet *c, sheet *s, const kit_battery *b) {
    static const char *const chemistry[] = {"sealed lead-acid, AGM", "sealed lead-acid, gel",
                                            "lead-acid, flooded"};
    arena *a = c->memory;
    const kit_part *p = &c->kit->parts[b->part];
    type_style style = {.size = TYPE_BODY, .colour = INK_BLACK};
    heading_draw(s, arena_format(a, "%.*s %.*s", TEXT_ARG(p->number), TEXT_ARG(p->name)).at, 80);
    buf w = {0};
    buf_addf(&w, "%s, %lld V, %lld.%lld Ah at the 20-hour rate.", chemistry[b->chemistry],
             (long long)(b->nominal_mv / 1000), (long long)(b->capacity_mah / 1000),
             (long long)(b->capacity_mah % 1000 / 100));
    if (b->arrival_low_mv > 0)
        buf_addf(&w, " Below %.*s after a rest it is low.", TEXT_ARG(volts(a, b->arrival_low_mv)));
    if (b->charge_high_ma > 0)
        buf_addf(&w, " Charge with at most %lld.%lld A.", (long long)(b->charge_high_ma / 1000),
                 (long long)(b->charge_high_ma % 1000 / 100));
    if (b->top_up_days > 0)
        buf_addf(&w, " In storage, top up every %lld days.", (long long)b->top_up_days);
    sheet_paragraph(s, buf_text(&w), style, s->left, sheet_width(s));
    buf_free(&w);
}

/* Usual care of lead-acid batteries: common practice, no source; the label goes first. */
static void add_care(sheet *s) {
    static const char *const care[] = {
        "Store them full, cool and dry; a flat one freezes and dies.",
        "Measure each alone, 12 to 24 hours after charge or load, with everything disconnected.",
        "A charger for this sort, with no more amperes than the label allows; in a room with air; an adult does it.",
        "Never short the poles: tools insulated, no rings or watches, caps on the poles until they are wired.",
        "Carry by the handles or from below, by as many as the mass asks for; keep them upright.",
        "A swollen, leaking or hot one: leave it alone, switch off, tell the leader. Old ones go back to the dealer.",
    };
    type_style style = {.size = TYPE_BODY, .colour = INK_BLACK};
    heading_draw(s, "Care", 90);
    for (size_t i = 0; i < sizeof care / sizeof care[0]; i++) {
        sheet_tick(s, s->left, s->y + 1, 3);
        sheet_paragraph(s, text_of(care[i]), style, s->left + 10, sheet_width(s) - 10);
        s->y += 3;
    }
}

static void compose(sheet *s, const void *what) {
    const kit_sheet *c = what;
    masthead m = {
        .kind = "BATTERY CARE", .title = TEXT("Keep the batteries alive"), .subtitle = c->kit->name};
    masthead_draw(s, &m);
    for (uint32_t i = 0; i < c->kit->n_batteries; i++)
        add_sort(c, s, &c->kit->batteries[i]);
    add_care(s);
    heading_draw(s, "Readings", 60);
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 20};
    table t = table_begin(s, &form, s->left);
    table_cell cells[N_COLUMNS] = {{.kind = CELL_TEXT}};
    for (int i = 0; i < LINES; i++)
        table_row(&t, cells);
    table_end(&t);
    s->y += 6;
    masthead_defer(s, "Read a voltage with “kitbench reading”, and it says when to top up next.");
}

void add_battery_card(book *b, const kit_sheet *k) {
    book_add(b, &(book_section){.outline = TEXT("Battery care"),
                                .running = TEXT("Battery care"),
                                .compose = compose,
                                .what = k});
}
