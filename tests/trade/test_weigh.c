/* Counting by weight: against theory and against simulated weighings. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "draws.h"
#include "reference.h"
#include "trade/chance.h"
#include "trade/weigh.h"

/* A small generator for simulated weighings; same numbers on every machine. */
static uint64_t seed = 0x9E3779B97F4A7C15u;

static double bell(void) {
    return draw_bell(&seed);
}

static void test_published_sds(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "06e_count_by_weight.csv"))
        skip();
    agreement a = {.what = "counting by weight"};
    for (size_t i = 1; i < r.table.n; i++) {
        char what[128], basis[128];
        int pieces, n;
        double cv, chance;
        snprintf(what, sizeof what, "%.*s", TEXT_ARG(reference_text(&r, i, "quantity")));
        snprintf(basis, sizeof basis, "%.*s", TEXT_ARG(reference_text(&r, i, "basis")));
        if (sscanf(what, "sd of weighed count: N=%d, reference n=%d, piece CV=%lf%%", &pieces, &n, &cv) !=
                3 ||
            sscanf(basis, "N CV sqrt(1/N+1/n); P(|err|<0.5) = %lf", &chance) != 1) {
            a.skipped++;
            continue;
        }
        double sd = weigh_sd(pieces, n, cv / 100, 0);
        reference_compare(&a, &r, i, sd, reference_number(&r, i, "value"), 0.0006);
        reference_compare(&a, &r, i, weigh_chance_right(sd), chance, 0.0001);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 36);
    reference_close(&r);
}

/* With 10 reference pieces and 1 % scatter a bag of 120 is right four times in five; with 60, 99 in 100. */
static void test_the_two_samples(void **state) {
    (void)state;
    assert_true(fabs(weigh_chance_right(weigh_sd(120, 10, 0.01, 0)) - 0.80) < 0.01);
    assert_true(fabs(weigh_chance_right(weigh_sd(120, 60, 0.01, 0)) - 0.99) < 0.005);
    int32_t needed = weigh_reference_needed(120, 0.01, 0, 0.99);
    assert_true(weigh_chance_right(weigh_sd(120, needed, 0.01, 0)) >= 0.99);
    assert_true(weigh_chance_right(weigh_sd(120, needed - 1, 0.01, 0)) < 0.99);
    assert_int_equal(weigh_reference_needed(2000, 0.01, 0, 0.95),
                     0); /* own scatter alone is too much above 650 */
    assert_true(weigh_reference_needed(600, 0.01, 0, 0.95) > 0);
}

/* What it promises is what happens: 4000 simulated bags with real scatter, rounding and a drifting scale. */
static void test_promise_is_kept(void **state) {
    (void)state;
    enum { ROUNDS = 4000, PIECES = 80, SAMPLE = 25 };
    double promised = 0, right = 0, inside = 0, mean = 2.5, cv = 0.012, step = 0.1, drift = 0.05;
    for (int i = 0; i < ROUNDS; i++) {
        double bag = 0, sample = 0;
        for (int k = 0; k < PIECES; k++)
            bag += mean * (1 + cv * bell());
        for (int k = 0; k < SAMPLE; k++)
            sample += mean * (1 + cv * bell());
        weighing w = {.scale_step_g = step, .scale_sd_g = drift, .piece_cv = cv, .reference_n = SAMPLE};
        w.tare_g = step * round((8 + drift * bell()) / step);
        w.gross_g = step * round((8 + bag + drift * bell()) / step);
        w.reference_g = step * round((sample + drift * bell()) / step);
        weighed_count c;
        assert_true(weigh_count(&w, 0.95, &c, NULL));
        promised += c.chance_right;
        right += c.count == PIECES;
        inside += c.low <= PIECES && PIECES <= c.high;
    }
    print_message("promised %.4f, right %.4f, in the range %.4f\n", promised / ROUNDS, right / ROUNDS,
                  inside / ROUNDS);
    assert_true(fabs(promised - right) / ROUNDS < 0.02);
    assert_true(inside / ROUNDS >= 0.95);
}

static void test_weigh_refusals(void **state) {
    (void)state;
    const weighing good = {0.1, 0, 0.01, 25, 62.5, 8, 208};
    weighed_count c;
    assert_true(weigh_count(&good, 0.95, &c, NULL) && c.count == 80 && c.low <= 80 && c.high >= 80);
    for (int i = 0; i < 9; i++) {
        weighing w = good;
        double wanted = 0.95;
        switch (i) {
        case 0:
            w.gross_g = (double)NAN;
            break;
        case 1:
            w.gross_g = 7;
            break;
        case 2:
            w.reference_n = 0;
            break;
        case 3:
            w.piece_cv = 0;
            break;
        case 4:
            w.scale_step_g = 0;
            break;
        case 5:
            w.gross_g = 1e12;
            break;
        case 6:
            wanted = 1;
            break;
        case 7:
            w.reference_g = 0;
            break;
        case 8:
            w.gross_g = 8 + 2.5 * 5000;
            break; /* 5000 pieces cannot be told from 5001 */
        default:
            break;
        }
        err e = {0};
        if (weigh_count(&w, wanted, &c, &e))
            fail_msg("case %d was not refused", i);
        assert_true(e.cause[0] && e.remedy[0]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_sds),
        cmocka_unit_test(test_the_two_samples),
        cmocka_unit_test(test_promise_is_kept),
        cmocka_unit_test(test_weigh_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
