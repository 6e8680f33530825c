/* Wiring against published values, laws and refusals. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/wiring.h"

static void test_published_cables(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "09a_cable_resistance.csv"))
        skip();
    agreement a = {.what = "cables"};
    for (size_t i = 1; i < r.table.n; i++) {
        bool tinned = text_starts(reference_text(&r, i, "finish"), TEXT("tinned"));
        double ours = cable_ohm_per_km(reference_number(&r, i, "area_mm2"), tinned, 20);
        if (reference_number(&r, i, "class") != 5 || isnan(ours)) {
            a.skipped++;
            continue;
        }
        reference_compare(&a, &r, i, ours, reference_number(&r, i, "max_resistance_20C_ohm_per_km"), 1e-9);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 18);
    reference_close(&r);
}

/* Worked examples: 30 A, 3 m one way, 6 mm2 class 5: 0.594 V; 50 A, 1.5 m, 16 mm2: 0.1815 V (from the IEC 60228 table);
 * factor for copper from 20 to 70 C: 1/0.833 (a cable maker's correction table). */
static void test_wiring_values(void **state) {
    (void)state;
    assert_true(fabs(cable_drop_v(6, 3, 30, 20) - 0.594) < 1e-9);
    assert_true(fabs(cable_drop_v(16, 1.5, 50, 20) - 0.1815) < 1e-9);
    assert_true(fabs(cable_ohm_per_km(6, false, 70) / 3.30 - 1 / 0.833) < 0.005);
}

/* Whatever is chosen: the fuse protects the cable, carries the load with a quarter in hand, and the drop is kept. */
static void test_wiring_laws(void **state) {
    (void)state;
    unsigned n = 0, refused = 0;
    for (double load = 0.5; load <= 80; load *= 1.3) {
        for (double length = 0.2; length <= 20; length *= 1.5) {
            for (int v = 12; v <= 24; v += 12) {
                wiring_task t = {v, load, length, 0.03, 20, 0};
                wiring_answer a;
                if (!wiring_choose(&t, &a, NULL)) {
                    refused++;
                    continue;
                }
                n++;
                assert_true(a.fuse_a <= a.carries_a && a.fuse_a >= 1.25 * load - 1e-9);
                assert_true(a.drop_share <= 0.03 && a.short_at_load_a < a.short_at_battery_a);
                assert_true(fabs(a.drop_v - cable_drop_v(a.area_mm2, length, load, 20)) < 1e-12);
            }
        }
    }
    assert_true(n > 200 && refused > 10);
    static const wiring_task bad[] = {{230, 5, 2, 0.03, 20, 0},  {12, 0, 2, 0.03, 20, 0},
                                      {12, 200, 2, 0.03, 20, 0}, {12, 5, -1, 0.03, 20, 0},
                                      {12, 5, 2, 0.5, 20, 0},    {12, 5, 2, 0.03, 300, 0},
                                      {12, 5, 2, 0.03, 20, -1},  {12, (double)NAN, 2, 0.03, 20, 0}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        wiring_answer a;
        err e = {0};
        assert_false(wiring_choose(&bad[i], &a, &e));
        assert_true(e.cause[0] && e.remedy[0]);
    }
    /* in hot air a thicker cable is needed for the same fuse */
    wiring_task cool = {12, 20, 0.5, 0.05, 20, 0}, hot = cool;
    wiring_answer in_cool, in_hot;
    hot.celsius = 60;
    assert_true(wiring_choose(&cool, &in_cool, NULL) && wiring_choose(&hot, &in_hot, NULL));
    assert_true(in_hot.area_mm2 > in_cool.area_mm2 && in_hot.carries_a >= in_hot.fuse_a);
    /* a 12 V 40 Ah AGM: 8 milliohm, 1.5 kA (one maker's sheet) */
    wiring_task t = {12, 5, 1, 0.03, 20, 0};
    wiring_answer a;
    assert_true(wiring_choose(&t, &a, NULL) && fabs(a.short_at_battery_a - 1500) < 1 && a.fuse_blows);
    assert_non_null(strstr(wiring_connect_step(6), "fuse very last"));
}

/* A cable that is there: enough exactly when it is as thick as the one that would be chosen, or thicker. */
static void test_given_cable(void **state) {
    (void)state;
    for (double load = 0.5; load < 60; load *= 1.7) {
        for (double length = 0.5; length <= 12; length *= 2) {
            wiring_task t = {
                .volts = 12, .load_a = load, .one_way_m = length, .drop_allowed = 0.05, .celsius = 20};
            wiring_answer chosen, given;
            if (!wiring_choose(&t, &chosen, NULL))
                continue;
            assert_true(chosen.enough);
            for (unsigned i = 0; cable_area_at(i) > 0; i++) {
                assert_true(wiring_judge(&t, cable_area_at(i), &given, NULL));
                assert_true(given.enough == (cable_area_at(i) >= chosen.area_mm2));
                assert_true(given.fuse_a == chosen.fuse_a);
            }
        }
    }
    wiring_task t = {.volts = 12, .load_a = 5, .one_way_m = 1, .drop_allowed = 0.05, .celsius = 20};
    wiring_answer a;
    err e = {0};
    assert_false(wiring_judge(&t, 3, &a, &e));
    assert_true(e.remedy[0]);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_cables),
        cmocka_unit_test(test_wiring_values),
        cmocka_unit_test(test_wiring_laws),
        cmocka_unit_test(test_given_cable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
