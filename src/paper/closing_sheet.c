/* closing_sheet.c: the last ten minutes of a session: tools out and back, tubs, what was left as it should not be. */
#include "paper/kit_sheet.h"

static const table_column columns[] = {
    {.head = "tool", .share = 5, .ledger = true},
    {.head = "have", .width = MM(14), .align = TYPE_END, .bold = true},
    {.head = "out", .width = MM(18)},
    {.head = "back", .width = MM(18)},
    {.head = "missing, where looked", .share = 4},
};
enum { N_COLUMNS = sizeof columns / sizeof columns[0] };

static void add_questions(sheet *s) {
    static const char *const questions[] = {"every tub is empty, or its step is marked as left",
                                            "loose joints are on the loose list and tagged",
                                            "batteries disconnected, chargers off",
                                            "chemicals closed and put away, rags in the metal bin",
                                            "floor clear, blades and sharp ends covered",
                                            "everybody has gone home: counted at the door"};
    type_style style = {.size = TYPE_BODY, .colour = INK_BLACK};
    for (size_t i = 0; i < sizeof questions / sizeof questions[0]; i++) {
        sheet_tick(s, s->left, s->y + 1, 11);
        sheet_paragraph(s, text_of(questions[i]), style, s->left + 18, sheet_width(s) - 18);
        s->y += 6;
    }
}

static void compose(sheet *s, const void *what) {
    const kit_sheet *c = what;
    masthead m = {
        .kind = "CLOSING SHEET", .title = TEXT("Before the light goes out"), .subtitle = c->kit->name};
    masthead_draw(s, &m);
    sheet_blank(s, "session", s->left, s->y, sheet_width(s) * 0.25);
    sheet_blank(s, "day", s->left + sheet_width(s) * 0.3, s->y, sheet_width(s) * 0.25);
    sheet_blank(s, "closed by", s->left + sheet_width(s) * 0.6, s->y, sheet_width(s) * 0.4);
    s->y += 24;
    add_questions(s);
    s->y += 6;
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 15};
    table t = table_begin(s, &form, s->left);
    for (kit_index i = 0; i < c->kit->n_tools; i++) {
        const kit_tool *tool = &c->kit->tools[i];
        table_cell cells[N_COLUMNS] = {{.main = tool->name, .under = tool->size},
                                       {.main = arena_format(c->memory, "%lld", (long long)tool->needed)},
                                       {.kind = CELL_LINE},
                                       {.kind = CELL_LINE},
                                       {.kind = CELL_TEXT}};
        table_row(&t, cells);
    }
    table_end(&t);
}

void add_closing_sheet(book *b, const kit_sheet *k) {
    book_add(b, &(book_section){.outline = TEXT("Closing sheet"),
                                .running = TEXT("Closing sheet"),
                                .compose = compose,
                                .what = k});
}
