/* test_codes.c: four characters tell every box, bag, part and step apart, and stay when rows are added. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kit/kit.h"

/* A kit of nothing but numbers. */
static kit *make_kit(arena *a, uint32_t parts, uint32_t containers, uint32_t steps) {
    kit *k = arena_new(a, kit);
    *k = (kit){.n_parts = parts, .n_containers = containers, .n_steps = steps};
    k->parts = arena_array(a, kit_part, parts);
    k->containers = arena_array(a, kit_container, containers);
    k->steps = arena_array(a, kit_step, steps);
    for (uint32_t i = 0; i < parts; i++)
        k->parts[i].number = arena_format(a, "F-%05u", i);
    for (uint32_t i = 0; i < containers; i++)
        k->containers[i].number = arena_format(a, "B%u", i);
    for (uint32_t i = 0; i < steps; i++)
        k->steps[i].number = arena_format(a, "F-%05u", i); /* the same number as a part has */
    return k;
}

static void test_all_differ_and_are_found(void **state) {
    (void)state;
    arena *a = arena_open();
    kit_codes codes;
    kit_make_codes(a, make_kit(a, 20000, 300, 500), &codes);
    assert_int_equal(codes.n, 20800);
    for (uint32_t i = 0; i < codes.n; i++) {
        const kit_code *c = codes.sorted[i];
        assert_int_equal(strlen(c->code), KIT_CODE_LENGTH);
        assert_null(strpbrk(c->code, "0OQ1I2Z5S8BG"));
        assert_true(i == 0 || strcmp(codes.sorted[i - 1]->code, c->code) < 0);
        assert_ptr_equal(kit_find_code(&codes, text_of(c->code)), c);
        char small[KIT_CODE_LENGTH];
        for (int j = 0; j < KIT_CODE_LENGTH; j++)
            small[j] = c->code[j] >= 'A' ? (char)(c->code[j] + 'a' - 'A') : c->code[j];
        assert_ptr_equal(kit_find_code(&codes, (text){small, KIT_CODE_LENGTH}), c);
    }
    assert_int_equal(kit_find_code(&codes, text_of(codes.by_index[KIT_CODE_STEP][7].code))->index, 7);
    arena_close(a);
}

static void test_codes_stay_when_rows_are_added(void **state) {
    (void)state;
    arena *a = arena_open();
    kit_codes before, after;
    kit_make_codes(a, make_kit(a, 400, 20, 60), &before);
    kit_make_codes(a, make_kit(a, 900, 20, 60), &after);
    for (uint32_t i = 0; i < 400; i++)
        assert_string_equal(before.by_index[KIT_CODE_PART][i].code, after.by_index[KIT_CODE_PART][i].code);
    for (uint32_t i = 0; i < 20; i++)
        assert_string_equal(before.by_index[KIT_CODE_CONTAINER][i].code,
                            after.by_index[KIT_CODE_CONTAINER][i].code);
    arena_close(a);
}

static void test_what_is_no_code(void **state) {
    (void)state;
    arena *a = arena_open();
    kit_codes codes, none;
    kit_make_codes(a, make_kit(a, 10, 1, 1), &codes);
    kit_make_codes(a, make_kit(a, 0, 0, 0), &none);
    assert_null(kit_find_code(&codes, TEXT("")));
    assert_null(kit_find_code(&codes, TEXT("ABCDE")));
    assert_null(kit_find_code(&codes, TEXT("0000")));
    assert_null(kit_find_code(&codes, TEXT("\xc3\xa4\xc3\xb6")));
    assert_null(kit_find_code(&none, TEXT("ACDE")));
    kit_make_codes(a, make_kit(a, 170000, 1, 1), &codes);
    assert_int_equal(codes.n, 0);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_differ_and_are_found),
        cmocka_unit_test(test_codes_stay_when_rows_are_added),
        cmocka_unit_test(test_what_is_no_code),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
