/* Single cells: quantities, packs, figures, column letters. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "base/number.h"
#include "kit/draft_inside.h"
#include "support/blocks.h"

static text print_quantity(arena *a, const draft_quantity *q) {
    char amount[24];
    number_print_decimal(q->amount, 3, amount);
    return q->pack_of ? arena_format(a, "%s packs of %lld", amount, (long long)q->pack_of)
                      : arena_format(a, "%s %s", amount, draft_unit_word(q->unit));
}

static void quantities_follow_the_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    blocks all = blocks_read(a, "tests/draft/cases/quantity.txt");
    for (size_t i = 0; i < all.n; i++) {
        const block *b = &all.list[i];
        text cell = {0}, after;
        assert_true(b->n == 2 && quoted_part(b->lines[0], &cell, &after));
        draft_mark mark = text_starts(b->lines[0], TEXT("point"))   ? DRAFT_POINT
                          : text_starts(b->lines[0], TEXT("comma")) ? DRAFT_COMMA
                                                                    : DRAFT_ANY_MARK;
        draft_quantity q = draft_quantity_read(a, cell, mark);
        bool refused = text_starts(b->lines[1], TEXT("not "));
        text says = q.known ? print_quantity(a, &q) : q.why_not;
        if (refused ? q.known || text_find(says, text_slice(b->lines[1], 4, b->lines[1].len)) < 0
                    : !q.known || !text_equal(says, b->lines[1]))
            fail_msg("line %u: \"%.*s\" gave %.*s", b->line, TEXT_ARG(cell), TEXT_ARG(says));
    }
    arena_close(a);
}

static void packs_follow_the_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    blocks all = blocks_read(a, "tests/draft/cases/packs.txt");
    for (size_t i = 0; i < all.n; i++) {
        const block *b = &all.list[i];
        int64_t expected = 0;
        number_fault why;
        assert_true(b->n == 2 && number_integer(b->lines[1], -1, 100000, &expected, &why));
        int64_t found = draft_pack_in_name(a, b->lines[0]);
        if (found != expected)
            fail_msg("line %u: %.*s gave %lld", b->line, TEXT_ARG(b->lines[0]), (long long)found);
    }
    arena_close(a);
}

/* Every amount of a million prints and reads back in every dialect. */
static void every_amount_reads_back(void **state) {
    (void)state;
    arena *a = arena_open();
    for (int64_t amount = 0; amount < 1000000000; amount += 999 + amount / 500) {
        char point[24];
        number_print_decimal(amount, 3, point);
        text with_point = text_of(point);
        draft_quantity q = draft_quantity_read(a, with_point, DRAFT_POINT);
        assert_true(q.known && q.amount == amount);
        char comma[24];
        snprintf(comma, sizeof comma, "%s", point);
        for (char *c = comma; *c; c++)
            if (*c == '.')
                *c = ',';
        q = draft_quantity_read(a, text_of(comma), DRAFT_COMMA);
        assert_true(q.known && q.amount == amount);
        /* Without knowing the mark it is the same or not understood, never another. */
        q = draft_quantity_read(a, text_of(comma), DRAFT_ANY_MARK);
        assert_true(!q.known || q.amount == amount);
    }
    arena_close(a);
}

static void figures_and_links(void **state) {
    (void)state;
    static const char *const figures[] = {"1",     "12.50", "$281.38", "1.234,50 €",
                                          "12 kr", "- 5",   "100 %",   "1'000"};
    static const char *const others[] = {"", "Total", "5 m", "M3", "$", "kr"};
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++)
        if (!draft_is_figure(text_of(figures[i])))
            fail_msg("%s is a figure", figures[i]);
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (draft_is_figure(text_of(others[i])))
            fail_msg("%s is no figure", others[i]);
    assert_true(draft_is_link(TEXT("https://example.org/a")));
    assert_false(draft_is_link(TEXT("see https://example.org/a")));
}

static void columns_have_letters(void **state) {
    (void)state;
    static const struct {
        uint32_t place;
        const char *letters;
    } cases[] = {{0, "A"}, {25, "Z"}, {26, "AA"}, {51, "AZ"}, {52, "BA"}, {701, "ZZ"}, {702, "AAA"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char letters[8];
        draft_column_letters(cases[i].place, letters);
        assert_string_equal(letters, cases[i].letters);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quantities_follow_the_cases), cmocka_unit_test(packs_follow_the_cases),
        cmocka_unit_test(every_amount_reads_back),     cmocka_unit_test(figures_and_links),
        cmocka_unit_test(columns_have_letters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
