/* Batteries against published values, laws and refusals. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/battery.h"

/* The table of a meter's manual: capacity of a 100 Ah battery at a current, k from 1.1 to 1.3, as run time. */
static void test_published_peukert(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "04b_peukert.csv"))
        skip();
    agreement a = {.what = "Peukert"};
    for (size_t i = 1; i < r.table.n; i++) {
        char line[160];
        double amperes, k, percent = reference_number(&r, i, "published");
        snprintf(line, sizeof line, "%.*s", TEXT_ARG(reference_text(&r, i, "case")));
        if (sscanf(line, "available capacity %% of a 100 Ah (20 h) battery at %lf A, n=%lf", &amperes, &k) !=
                2 ||
            amperes > 60) { /* above 12 I20 we refuse */
            a.skipped++;
            continue;
        }
        battery_sort sort = battery_agm;
        sort.peukert = (band){k, k, k};
        battery_set set = {&sort, 12, 100, 1, 1};
        load_part load = {amperes, 1};
        run_time t;
        assert_true(battery_run_time(&set, &load, 1, 25, 0.8, &t, NULL));
        double given_ah = t.minutes.likely / 60 * amperes / 0.8;
        reference_compare(&a, &r, i, given_ah, percent, 1.0);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 20);
    reference_close(&r);
}

/* One maker's 40 Ah sheet: 37.2 Ah at 10 h, 34 at 5 h, 24 at 1 h; 90 % at 10 C, 103 % at 30 C. */
static void test_run_time(void **state) {
    (void)state;
    static const double rows[][2] = {{3.72, 37.2}, {6.8, 34}, {24, 24}};
    battery_set set = {&battery_agm, 12, 40, 1, 1};
    for (size_t i = 0; i < 3; i++) {
        load_part load = {rows[i][0], 60};
        run_time t;
        assert_true(battery_run_time(&set, &load, 1, 25, 0.8, &t, NULL));
        double unit = rows[i][0] / 60 / 0.8;
        assert_true(t.minutes.low * unit <= rows[i][1] * 1.01 && t.minutes.high * unit >= rows[i][1] * 0.99);
        if (i == 1) {
            run_time cold, warm;
            assert_true(battery_run_time(&set, &load, 1, 10, 0.8, &cold, NULL));
            assert_true(battery_run_time(&set, &load, 1, 30, 0.8, &warm, NULL));
            assert_true(fabs(cold.capacity_factor_temperature - 0.90) < 0.04);
            assert_true(fabs(warm.capacity_factor_temperature - 1.03) < 0.02);
        }
    }
    /* a profile of equal parts is the same as one part; two in parallel more than double the time */
    load_part once = {10, 30}, twice[2] = {{10, 10}, {10, 20}};
    run_time x, y, z;
    battery_set pair = {&battery_agm, 12, 40, 2, 2};
    assert_true(battery_run_time(&set, &once, 1, 20, 0.5, &x, NULL) &&
                battery_run_time(&set, twice, 2, 20, 0.5, &y, NULL));
    assert_true(fabs(x.minutes.likely - y.minutes.likely) < 1e-9);
    assert_true(battery_run_time(&pair, &once, 1, 20, 0.5, &z, NULL) &&
                z.minutes.likely > 2 * x.minutes.likely);
    assert_true(battery_set_volts(&pair) == 24 && battery_set_ah(&pair) == 80);
    load_part bad[] = {{30, 10}, {-1, 10}, {5, 0}, {(double)NAN, 5}, {0.01, 5}};
    for (size_t i = 0; i < 5; i++) {
        err e = {0};
        assert_false(battery_run_time(&set, &bad[i], 1, 20, 0.5, &x, &e));
        assert_true(e.cause[0] && e.remedy[0]);
    }
    assert_false(battery_run_time(&set, &once, 1, 60, 0.5, &x, NULL));
    assert_false(battery_run_time(&set, &once, 1, 20, 0.95, &x, NULL));
}

static void test_published_rest(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "04c_battery_ocv.csv"))
        skip();
    agreement a = {.what = "rested voltage"};
    for (size_t i = 1; i < r.table.n; i++) {
        text set = reference_text(&r, i, "set");
        double soc = reference_number(&r, i, "soc_percent"), volts = reference_number(&r, i, "volts");
        bool ours = text_find(set, TEXT("AGM")) >= 0 || text_starts(set, TEXT("gel/sealed set at 26.7")) ||
                    text_starts(set, TEXT("gel/sealed set at 21.1"));
        rest_reading reading;
        if (!ours || isnan(soc) || isnan(volts) ||
            !battery_charge_at_rest(&battery_agm, volts, 24, &reading, NULL)) {
            a.skipped++;
            continue;
        }
        double c = soc / 100, off = fmax(0, fmax(reading.charge.low - c, c - reading.charge.high));
        reference_compare(&a, &r, i, c + off, c, 0.06);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 20);
    reference_close(&r);
}

static void test_rest(void **state) {
    (void)state;
    rest_reading a;
    double before = -1;
    for (double v = 11; v <= 13.1; v += 0.05) {
        assert_true(battery_charge_at_rest(&battery_agm, v, 24, &a, NULL));
        assert_true(a.charge.low <= a.charge.likely && a.charge.likely <= a.charge.high &&
                    a.charge.likely >= before);
        before = a.charge.likely;
    }
    assert_true(battery_charge_at_rest(&battery_agm, 12.3, 24, &a, NULL) && a.charge_now && !a.flat);
    assert_true(battery_charge_at_rest(&battery_agm, 11.7, 24, &a, NULL) && a.flat);
    err e = {0};
    assert_false(battery_charge_at_rest(&battery_agm, 12.6, 2, &a, &e));
    assert_non_null(strstr(e.cause, "12 h"));
    assert_false(battery_charge_at_rest(&battery_agm, 25.2, 24, &a, &e)); /* a string of two: each alone */
    assert_false(battery_charge_at_rest(&battery_agm, (double)NAN, 24, &a, &e));
}

/* Self-discharge: a maker's table (AGM 3 % at 20 C, 1.5 % at 10 C), another's remaining charge after half a year (97 % at
 * 0 C, 91 % at 25 C, 63 % at 40 C): the band must hold them. */
static void test_storage(void **state) {
    (void)state;
    assert_true(fabs(battery_loss(&battery_agm, 30.4375, 20).likely - 0.03) < 1e-9);
    assert_true(fabs(battery_loss(&battery_agm, 30.4375, 10).likely - 0.015) < 1e-9);
    static const double half_years[][2] = {{0, 0.03}, {25, 0.09}, {40, 0.37}};
    for (size_t i = 0; i < 3; i++) {
        band loss = battery_loss(&battery_agm, 182.6, half_years[i][0]);
        assert_true(loss.low <= half_years[i][1] * 1.05 && loss.high >= half_years[i][1] * 0.95);
    }
    band quarter = battery_loss(&battery_agm, 91.3, 20); /* typical sheet: 91 % left after 3 months */
    assert_true(quarter.low < 0.09 && quarter.high > 0.09);

    double room[12];
    for (int i = 0; i < 12; i++)
        room[i] = 20;
    date_day dates[40];
    size_t n;
    date_day from = date_from_civil((date_civil){2026, 10, 1}),
             to = date_from_civil((date_civil){2027, 9, 30});
    assert_true(battery_top_ups(&battery_agm, 1, room, from, to, dates, 40, &n, NULL));
    double gap_months = (dates[0] - from) / 30.4375;
    print_message("first top-up after %.1f months at 20 C; common practice is two to three\n", gap_months);
    assert_true(n == 2 && gap_months > 3 && gap_months < 5);
    for (int i = 0; i < 12; i++)
        room[i] = 25;
    assert_true(battery_top_ups(&battery_agm, 1, room, from, to, dates, 40, &n, NULL));
    assert_true((dates[0] - from) / 30.4375 <
                3); /* in a warm room the common practice is what the worst maker needs */
    room[3] = 60;
    assert_false(battery_top_ups(&battery_agm, 1, room, from, to, dates, 40, &n, NULL));
}

static void test_charger_and_tests(void **state) {
    (void)state;
    battery_set set = {&battery_agm, 12, 36, 2, 1};
    charge_answer a;
    assert_true(battery_charger(&set, 5, 28.8, 27.4, 0.5, &a, NULL) && a.suits);
    assert_true(a.hours.low > 0.5 * 36 / 5 && a.hours.low <= a.hours.likely &&
                a.hours.likely <= a.hours.high);
    assert_true(battery_charger(&set, 5, 14.4, 13.7, 0.5, &a, NULL) &&
                !a.suits); /* for one battery, not for two */
    assert_true(battery_charger(&set, 20, 28.8, 27.4, 0.5, &a, NULL) && !a.suits);
    assert_true(battery_charger(&set, 0.5, 28.8, 27.4, 0.5, &a, NULL) && !a.suits);
    assert_true(battery_charger(&set, 5, 32, 27.4, 0.5, &a, NULL) && !a.suits && a.why_not[0]);
    assert_false(battery_charger(&set, (double)NAN, 28.8, 27.4, 0.5, &a, NULL));

    capacity_test c;
    assert_true(battery_capacity_test(300, 300, 25, &c, NULL) && fabs(c.share - 1) < 1e-9 && !c.end_of_life);
    assert_true(battery_capacity_test(200, 300, 20, &c, NULL) && fabs(c.share - 200 / (300 * 0.942)) < 1e-9 &&
                c.end_of_life);
    assert_false(battery_capacity_test(200, 300, 0, &c, NULL));

    band mass = battery_mass_kg(&battery_agm, 12, 36); /* common practice, no source: about 12 kg */
    print_message("a 12 V 36 Ah AGM: %.1f kg (%.1f to %.1f); common practice is about 12\n", mass.likely,
                  mass.low, mass.high);
    assert_true(mass.low < 12 && mass.high > 12 && fabs(mass.likely - 12) < 1);
    band sheet = battery_mass_kg(&battery_agm, 12, 40); /* one maker's sheet: 16 kg */
    assert_true(sheet.high >= 16);
    double before = 0;
    for (double soc = 0; soc <= 1; soc += 0.05) {
        assert_true(battery_freezes_below(soc) < before);
        before = battery_freezes_below(soc);
    }
    assert_true(battery_freezes_below(0) >= -8 && isnan(battery_freezes_below(2)));
}

static void test_published_temperature(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "04f_battery_temperature.csv"))
        skip();
    agreement a = {.what = "capacity test factor"};
    for (size_t i = 1; i < r.table.n; i++) {
        double celsius = reference_number(&r, i, "deg_C"), factor = reference_number(&r, i, "factor");
        capacity_test c;
        if (!text_starts(reference_text(&r, i, "quantity"), TEXT("time-adjusted")) || isnan(factor) ||
            !battery_capacity_test(100, 100, celsius, &c, NULL)) {
            a.skipped++;
            continue;
        }
        reference_compare(&a, &r, i, 1 / c.share, factor, 1e-6);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 8);
    reference_close(&r);
}
int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_peukert),
        cmocka_unit_test(test_run_time),
        cmocka_unit_test(test_published_rest),
        cmocka_unit_test(test_rest),
        cmocka_unit_test(test_storage),
        cmocka_unit_test(test_charger_and_tests),
        cmocka_unit_test(test_published_temperature),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
