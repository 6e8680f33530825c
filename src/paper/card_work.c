/* card_work.c: what is done, and the tests that say whether it was done well. */
#include "paper/card.h"
#include "paper/table.h"
#include "paper/wording.h"

void card_work(const card *c, sheet *s) {
    text rest = c->kit->steps[c->step].instruction, line;
    if (!rest.len)
        return;
    type_style number = {.size = TYPE_LARGE, .bold = true, .colour = INK_ACCENT};
    type_style words = {.size = TYPE_LARGE, .colour = INK_BLACK};
    double indent = MM(7), x = card_left(s);
    bool several = text_find(rest, TEXT("\n")) >= 0;
    card_block(s, "Work", 28);
    for (int i = 1; text_next_piece(&rest, '\n', &line);) {
        line = text_trim(line);
        if (!line.len)
            continue;
        double width = card_width(s) - (several ? indent : 0);
        sheet_room(s, typeset_height(s->type, line, words, width));
        if (several)
            sheet_text(s, arena_format(c->memory, "%d", i), number, x, s->y, indent);
        sheet_paragraph(s, line, words, several ? x + indent : x, width);
        s->y += 4;
        i++;
    }
    card_end_block(s);
}

void card_tests(const card *c, sheet *s) {
    static const table_column columns[] = {
        {.head = "test", .share = 5},
        {.head = "must be", .share = 4, .bold = true},
        {.head = "found", .width = MM(18)},
        {.head = "signed by, and when", .width = MM(42)},
    };
    const kit *k = c->kit;
    arena *a = c->memory;
    table_form form = {.columns = columns, .n = 4, .least_row = 26};
    table t;
    bool any = false, hold = false;
    for (uint32_t i = 0; i < k->n_step_tests; i++) {
        const kit_step_test *test = &k->step_tests[i];
        if (test->step != c->step)
            continue;
        if (!any) {
            card_block(s, "Tests", 60);
            t = table_begin(s, &form, card_left(s));
        }
        any = true;
        hold = hold || test->hold_point;
        table_cell cells[] = {
            {.main = test->what, .under = test->hold_point ? TEXT("HOLD POINT") : TEXT(""), .loud = true},
            {.main = wording_limits(a, test)},
            {.kind = CELL_LINE},
            {.kind = CELL_LINE, .main = arena_format(a, "%s:", wording_signer(test->signed_by))},
        };
        table_row(&t, cells);
    }
    if (!any)
        return;
    table_end(&t);
    if (hold) {
        type_style style = {.size = TYPE_BODY, .bold = true, .colour = INK_PAPER, .most_lines = 1};
        sheet_room(s, 24);
        s->y += 4;
        sheet_fill(s, card_left(s), s->y, card_width(s), 18, INK_BLACK);
        sheet_text(s, TEXT("HOLD POINT: nothing after this step starts before it is signed."), style,
                   card_left(s) + 6, s->y + 3, card_width(s) - 12);
        s->y += 18;
    }
    card_end_block(s);
}
