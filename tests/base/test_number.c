/* Numbers: tests/base/cases/number.txt, and every value prints and reads back. */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/number.h"
#include "base/utf8.h"
#include "support/blocks.h"
#include "support/check.h"

static void compare(arena *a, const block *b) {
    text cell = {0}, after = {0};
    int scale = 0;
    int64_t low = 0, high = 0, value = 0;
    assert_true(b->n == 2 && quoted_part(b->lines[0], &cell, &after));
    assert_int_equal(sscanf(arena_z(a, after), "%d %" SCNd64 " %" SCNd64, &scale, &low, &high), 3);
    number_fault why = {{0}, {0}};
    bool ok = number_decimal(cell, scale, low, high, &value, &why);
    text says =
        ok ? arena_format(a, "%" PRId64, value) : arena_format(a, "not %s; %s", why.cause, why.remedy);
    if (!text_equal(says, b->lines[1]))
        fail_msg("line %u: \"%.*s\" gave: %.*s", b->line, TEXT_ARG(cell), TEXT_ARG(says));
    if (scale == 0) {
        int64_t again = 0;
        assert_true(number_integer(cell, low, high, &again, &why) == ok && again == value);
    }
}

static void numbers_follow_the_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    blocks all = blocks_read(a, "tests/base/cases/number.txt");
    for (size_t i = 0; i < all.n; i++)
        compare(a, &all.list[i]);
    print_message("%zu numbers\n", all.n);
    arena_close(a);
}

static void printed_values_read_back(void **state) {
    (void)state;
    static const int64_t edges[] = {
        0, 1, -1, 9, 10, 999, 1000, INT64_MAX, INT64_MIN, INT64_MAX - 1, INT64_MIN + 1};
    enum { EDGES = sizeof edges / sizeof edges[0], RANDOM = 200000 };
    uint64_t seed = 3;
    for (int i = 0; i < RANDOM + EDGES; i++) {
        int64_t value = i < EDGES ? edges[i] : (int64_t)random_next(&seed) >> random_below(&seed, 64);
        for (int scale = i < EDGES ? 0 : (int)random_below(&seed, 10); scale <= 9;
             scale += i < EDGES ? 1 : 10) {
            char printed[24];
            int64_t back = 0;
            number_fault why;
            number_print_decimal(value, scale, printed);
            if (!number_decimal(text_of(printed), scale, INT64_MIN, INT64_MAX, &back, &why) || back != value)
                fail_msg("%" PRId64 " / 10^%d printed as %s reads as %" PRId64 " %s", value, scale, printed,
                         back, why.cause);
        }
    }
}

/* Whatever the bytes, a failure is told in whole characters (when the cell was), with cause and remedy. */
static void failures_are_whole_texts(void **state) {
    (void)state;
    static const char *const parts[] = {"ä", "本", "𝛼", "1", ",", ".", "-", "x", " "};
    uint64_t seed = 5;
    for (int i = 0; i < 100000; i++) {
        char cell[300];
        size_t n = 0;
        for (uint32_t k = random_below(&seed, 70); k > 0; k--)
            n += (size_t)snprintf(cell + n, sizeof cell - n, "%s", parts[random_below(&seed, 9)]);
        int64_t value;
        number_fault why = {{0}, {0}};
        if (number_decimal((text){cell, n}, (int)random_below(&seed, 10), 0, 1000, &value, &why))
            continue;
        assert_true(why.cause[0] && why.remedy[0]);
        if (utf8_fault(text_of(why.cause)) >= 0 || utf8_fault(text_of(why.remedy)) >= 0)
            fail_msg("half a character in: %s; %s", why.cause, why.remedy);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(numbers_follow_the_cases),
                                       cmocka_unit_test(printed_values_read_back),
                                       cmocka_unit_test(failures_are_whole_texts)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
