/* test_search.c: finding parts by words, on the cases of search.txt and the demo kit. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "kit/kit.h"
#include "support/blocks.h"

static text how(const kit_hit *hits, uint32_t n) {
    if (!n)
        return TEXT("none");
    return hits[0].not_found ? TEXT("nearest") : hits[0].worst == KIT_FOUND_SLIP ? TEXT("slip") : TEXT("");
}

static void one_case(arena *a, const kit *k, const block *b) {
    kit_hit *hits;
    uint32_t n = kit_search_parts(a, k, b->lines[0], &hits);
    text told = how(hits, n), wanted = text_trim(b->lines[1]);
    bool open = text_ends(wanted, TEXT(" ..."));
    if (open)
        wanted = text_slice(wanted, 0, wanted.len - 4);
    for (uint32_t i = 0; i < n; i++)
        told = arena_format(a, "%.*s%s%.*s", TEXT_ARG(told), told.len ? " " : "",
                            TEXT_ARG(k->parts[hits[i].part].number));
    if (open ? !text_starts(told, wanted) : !text_equal(told, wanted))
        fail_msg("line %u: %.*s: found %.*s", b->line, TEXT_ARG(b->lines[0]), TEXT_ARG(told));
}

static void test_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    faults f = faults_in(a);
    err e = {0};
    const kit *k;
    const kit_workshop *w;
    assert_true(kit_read(a, "demo/kit", NULL, &f, &k, &w, &e));
    blocks all = blocks_read(a, "tests/kit/search.txt");
    for (size_t i = 0; i < all.n; i++) {
        assert_int_equal(all.list[i].n, 2);
        one_case(a, k, &all.list[i]);
    }
    print_message("%zu searches\n", all.n);
    arena_close(a);
}

/* Every part is found by its own number, each of its makers' numbers and its own name. */
static void test_own_names(void **state) {
    (void)state;
    arena *a = arena_open();
    faults f = faults_in(a);
    err e = {0};
    const kit *k;
    const kit_workshop *w;
    assert_true(kit_read(a, "demo/kit", NULL, &f, &k, &w, &e));
    for (kit_index p = 0; p < k->n_parts; p++) {
        text names[3] = {k->parts[p].number, k->parts[p].name,
                         k->parts[p].makers_numbers.n ? k->parts[p].makers_numbers.list[0]
                                                      : k->parts[p].number};
        for (int i = 0; i < 3; i++) {
            kit_hit *hits;
            uint32_t n = kit_search_parts(a, k, names[i], &hits);
            bool found = false;
            for (uint32_t h = 0; h < n; h++)
                found =
                    found || (hits[h].part == p && hits[h].not_found == 0 && hits[h].worst < KIT_FOUND_SLIP);
            if (!found)
                fail_msg("%.*s does not find %.*s", TEXT_ARG(names[i]), TEXT_ARG(k->parts[p].number));
        }
    }
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases), cmocka_unit_test(test_own_names)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
