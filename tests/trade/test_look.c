/* Which pieces look alike: a fitter's cases, and symmetry over many pairs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"
#include "trade/look.h"

static const char *const grades[] = {"different", "near", "alike", "same"};

static designation must_read(text t) {
    designation d;
    err e;
    if (!designation_read(text_trim(t), &d, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return d;
}

static void test_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    case_list list = cases_read(a, "looks.txt");
    for (size_t i = 0; i < list.n; i++) {
        text rest = list.list[i].input, first = {0}, second = {0};
        assert_true(text_next_piece(&rest, '|', &first) && text_next_piece(&rest, '|', &second));
        designation x = must_read(first), y = must_read(second);
        look_alike xy, yx;
        designation_look_alike(&x, &y, &xy);
        designation_look_alike(&y, &x, &yx);
        assert_int_equal(xy.grade, yx.grade);
        assert_true(xy.seen == yx.seen && xy.reason[0]);
        assert_true(xy.grade == LOOK_DIFFERENT || xy.grade == LOOK_SAME || xy.tell[0]);
        if (!text_is(case_value(&list.list[i], "grade"), grades[xy.grade]))
            fail_msg("line %u: %s (%.2f: %s)", list.list[i].line, grades[xy.grade], xy.seen, xy.reason);
    }
    arena_close(a);
}

/* A longer difference is never harder to see. */
static void test_longer_is_plainer(void **state) {
    (void)state;
    designation a = must_read(TEXT("ISO 4762 M8x20")), b = a;
    double before = -1;
    for (b.length_um = 20000; b.length_um <= 120000; b.length_um += 1000) {
        look_alike look;
        designation_look_alike(&a, &b, &look);
        assert_true(look.seen >= before);
        before = look.seen;
    }
    assert_true(before > 3);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_cases),
                                       cmocka_unit_test(test_longer_is_plainer)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
