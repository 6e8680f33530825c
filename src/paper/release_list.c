/* release_list.c: what has to be true before the list is complete: hold points, what was left loose, closing. */
#include "paper/kit_sheet.h"

static const table_column tests[] = {
    {.head = "right", .width = MM(12), .align = TYPE_CENTRE, .ledger = true},
    {.head = "step", .share = 4},
    {.head = "test", .share = 4, .bold = true},
    {.head = "limits", .share = 2},
    {.head = "measured", .width = MM(22)},
    {.head = "signed, by whom", .width = MM(38)},
};
enum { N_TESTS = sizeof tests / sizeof tests[0] };

static void add_tests(const kit_sheet *c, sheet *s, bool hold_points) {
    const kit *k = c->kit;
    heading_draw(s, hold_points ? "Hold points" : "Other tests", 60);
    table_form form = {.columns = tests, .n = N_TESTS, .least_row = 20};
    table t = table_begin(s, &form, s->left);
    for (kit_index step = 0; step < k->n_steps; step++)
        for (uint32_t i = 0; i < k->n_step_tests; i++) {
            const kit_step_test *test = &k->step_tests[i];
            if (test->step != step || test->hold_point != hold_points)
                continue;
            table_cell cells[N_TESTS] = {
                {.kind = CELL_TICK},  {.main = wording_step(c->memory, k, step)},
                {.main = test->what}, {.main = wording_limits(c->memory, test)},
                {.kind = CELL_LINE},  {.kind = CELL_LINE, .main = text_of(wording_signer(test->signed_by))}};
            table_row(&t, cells);
        }
    table_end(&t);
}

static const table_column loose[] = {
    {.head = "tight", .width = MM(12), .align = TYPE_CENTRE, .ledger = true},
    {.head = "left loose in", .share = 4},
    {.head = "pieces", .share = 4, .bold = true},
    {.head = "tightened by", .share = 4},
};

static void add_loose(const kit_sheet *c, sheet *s) {
    const kit *k = c->kit;
    heading_draw(s, "What was left loose", 60);
    table_form form = {.columns = loose, .n = 4, .least_row = 18};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->closed_by == KIT_NONE)
            continue;
        table_cell cells[] = {
            {.kind = CELL_TICK},
            {.main = wording_step(c->memory, k, p->step)},
            {.main = arena_format(c->memory, "%lld × %.*s %.*s", (long long)p->quantity,
                                  TEXT_ARG(k->parts[p->part].number), TEXT_ARG(k->parts[p->part].name))},
            {.main = wording_step(c->memory, k, p->closed_by)}};
        table_row(&t, cells);
    }
    table_end(&t);
}

static void add_rest(sheet *s) {
    static const char *const rest[] = {
        "every tub is empty; left-over pieces are accounted for", "every tool is back",
        "tests that later work disturbed were done again", "guards are on; the stop button was tried",
        "the maker's own release list is done"};
    heading_draw(s, "And", 100);
    type_style style = {.size = TYPE_BODY, .colour = INK_BLACK};
    for (size_t i = 0; i < sizeof rest / sizeof rest[0]; i++) {
        sheet_tick(s, s->left, s->y + 1, 11);
        sheet_paragraph(s, text_of(rest[i]), style, s->left + 18, sheet_width(s) - 18);
        s->y += 6;
    }
    s->y += 8;
    sheet_blank(s, "list complete: leader", s->left, s->y, sheet_width(s) * 0.55);
    sheet_blank(s, "day", s->left + sheet_width(s) * 0.6, s->y, sheet_width(s) * 0.3);
    s->y += 24;
}

static void compose(sheet *s, const void *what) {
    const kit_sheet *c = what;
    masthead m = {
        .kind = "RELEASE LIST",
        .title = c->kit->name,
        .subtitle = TEXT(
            "A complete list says that nothing on it is open. It does not say that the machine is safe.")};
    masthead_draw(s, &m);
    add_tests(c, s, true);
    add_tests(c, s, false);
    add_loose(c, s);
    add_rest(s);
    masthead_defer(s, "Where a licensed person has to accept the machine, that comes after this.");
}

void add_release_list(book *b, const kit_sheet *k) {
    book_add(b, &(book_section){.outline = TEXT("Release list"),
                                .running = TEXT("Release list"),
                                .compose = compose,
                                .what = k});
}
