/* Counting by weight: against theory, against simulated weighings, and bags whose contents are known. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/bag.h"
#include "trade/chance.h"
#include "trade/weigh.h"

/* A small generator for simulated weighings; same numbers on every machine. */
static uint64_t seed = 0x9E3779B97F4A7C15u;

static double uniform(void) {
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return ((double)(seed >> 11) + 0.5) / 9007199254740992.0;
}

static double bell(void) {
    return normal_quantile(uniform());
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

/* All combinations counted the slow way, for small bags: nested loops over every change vector. */
static uint64_t count_slowly(const bag_problem *p, double difference, double variance) {
    int most = p->changes_most;
    uint64_t n = 0;
    for (int a = -most; a <= most; a++)
        for (int b = -most; b <= most; b++)
            for (int c = -most; c <= most; c++) {
                int d[3] = {a, b, c}, sum = 0;
                double change = 0, v = variance;
                bool possible = true;
                for (int i = 0; i < 3; i++) {
                    sum += abs(d[i]);
                    change += d[i] * p->parts[i].mass_mg;
                    v += d[i] * p->parts[i].sd_mg * p->parts[i].sd_mg;
                    possible &= d[i] >= -p->parts[i].expected;
                }
                if (possible && sum <= most && fabs(difference - change) <= 3 * sqrt(v))
                    n++;
            }
    return n;
}

static void test_bag_is_exact(void **state) {
    (void)state;
    arena *a = arena_open();
    for (int round = 0; round < 300; round++) {
        bag_part parts[3];
        double expected = 0, variance = 0;
        for (int i = 0; i < 3; i++) {
            double mass = 500 + 20000 * uniform();
            parts[i] = (bag_part){mass, 0.01 * mass, (int32_t)(uniform() * 6)};
            expected += parts[i].expected * mass;
            variance += parts[i].expected * parts[i].sd_mg * parts[i].sd_mg;
        }
        bag_problem p = {parts, 3, fmax(0, expected + 20000 * (uniform() - 0.5)), 100, 0, 1 + round % 4,
                         0,     0};
        bag_answer out;
        assert_true(bag_explain(a, &p, &out, NULL));
        assert_int_equal(out.fitting, count_slowly(&p, p.measured_mg - expected, variance + 1e4));
        double sum = 0;
        for (uint32_t i = 0; i < out.n_stories; i++) {
            sum += out.stories[i].chance;
            assert_true(i == 0 || out.stories[i].chance <= out.stories[i - 1].chance);
        }
        assert_true(sum <= 1 + 1e-9 && (out.fitting > BAG_KEPT || out.fitting == 0 || sum > 1 - 1e-9));
    }
    arena_close(a);
}

/* A bag of screws on a 0.1 g scale: one M8x30 for an M8x25, one nut missing, all there, a coarse scale. */
static void test_bag_stories(void **state) {
    (void)state;
    arena *a = arena_open();
    bag_part parts[] = {{15300, 100, 8}, {16900, 110, 8}, {5200, 50, 16}, {1830, 20, 32}};
    double expected = 0;
    for (size_t i = 0; i < 4; i++)
        expected += parts[i].expected * parts[i].mass_mg;
    bag_problem p = {parts, 4, expected - 5200, 60, 0, 2, 0, 0};
    bag_answer out;
    assert_true(bag_explain(a, &p, &out, NULL));
    assert_int_equal(out.verdict, BAG_ONE_STORY);
    assert_true(out.stories[0].part[0] == 2 && out.stories[0].delta[0] == -1 && out.stories[0].delta[1] == 0);
    p.measured_mg = expected + 30;
    assert_true(bag_explain(a, &p, &out, NULL));
    assert_int_equal(out.verdict, BAG_AS_LISTED);
    p.measured_mg =
        expected + 1600; /* the swap: one longer screw for a shorter one; a washer more would be 230 mg off */
    p.scale_sd_mg = 30;
    for (size_t i = 0; i < 4; i++)
        parts[i].sd_mg = 0.0005 * parts[i].mass_mg;
    assert_true(bag_explain(a, &p, &out, NULL));
    bool swap = out.stories[0].part[0] == 0 && out.stories[0].delta[0] == -1 && out.stories[0].delta[1] == 1;
    assert_true(swap);
    p.measured_mg = expected - 40000;
    assert_true(bag_explain(a, &p, &out, NULL));
    assert_int_equal(out.verdict, BAG_NO_STORY);
    arena_close(a);
}

/* One change of a part, drawn with the odds that the search assumes. */
static int32_t draw_delta(double missing, double extra) {
    double u = uniform() * (1 + missing + missing * missing + extra + extra * extra);
    if (u < missing)
        return -1;
    if ((u -= missing) < missing * missing)
        return -2;
    if ((u -= missing * missing) < extra)
        return 1;
    return u - extra < extra * extra ? 2 : 0;
}

/* Among the answers that are 70 % sure, 70 % are right: bags with known errors, real scatter, a real scale. */
static void test_bag_chances_are_honest(void **state) {
    (void)state;
    static const double masses[6] = {15300, 16900, 5200, 1830, 2280, 9400};
    double promised = 0, right = 0, odds_missing = 0.08, odds_extra = 0.03;
    unsigned rounds = 0;
    arena *a = arena_open();
    for (int i = 0; i < 3000; i++) {
        bag_part parts[6];
        int32_t delta[6], changes = 0;
        double measured = 150 * bell();
        for (int k = 0; k < 6; k++) {
            parts[k] = (bag_part){masses[k], 0.008 * masses[k], 8};
            delta[k] = draw_delta(odds_missing, odds_extra);
            changes += abs(delta[k]);
            for (int n = 0; n < 8 + delta[k]; n++)
                measured += masses[k] * (1 + 0.008 * bell());
        }
        if (changes > BAG_CHANGES)
            continue; /* more than is searched for */
        bag_problem p = {parts, 6, measured, 150, 0, BAG_CHANGES, odds_missing, odds_extra};
        bag_answer out;
        assert_true(bag_explain(a, &p, &out, NULL));
        if (out.n_stories == 0)
            continue; /* beyond 3 sd, once in 370 */
        int32_t said[6] = {0};
        for (int k = 0; k < BAG_CHANGES && out.stories[0].delta[k]; k++)
            said[out.stories[0].part[k]] = out.stories[0].delta[k];
        bool same = true;
        for (int k = 0; k < 6; k++)
            same &= said[k] == delta[k];
        promised += out.stories[0].chance;
        right += same;
        rounds++;
    }
    print_message("promised %.3f, right %.3f\n", promised / rounds, right / rounds);
    assert_true(rounds > 2500 && fabs(promised - right) / rounds < 0.02);
    arena_close(a);
}

/* A whole box of 60 sorts on a 5 g scale: it cannot be told, and the answer says so. */
static void test_whole_box_cannot_be_told(void **state) {
    (void)state;
    arena *a = arena_open();
    bag_part parts[60];
    double expected = 0;
    for (int i = 0; i < 60; i++) {
        double mass = 800 + 350 * i;
        parts[i] = (bag_part){mass, 0.01 * mass, 20};
        expected += 20 * mass;
    }
    bag_problem p = {parts, 60, expected - 6000, 5000 / sqrt(12.0), 0, 3, 0, 0};
    bag_answer out;
    assert_true(bag_explain(a, &p, &out, NULL));
    print_message("%llu of %llu combinations fit\n", (unsigned long long)out.fitting,
                  (unsigned long long)out.tried);
    assert_int_equal(out.verdict, BAG_CANNOT_TELL);
    assert_true(out.fitting > 1000);
    p.changes_most = 4;
    err e = {0};
    bag_part many[200];
    for (int i = 0; i < 200; i++)
        many[i] = parts[i % 60];
    p.parts = many;
    p.n_parts = 200;
    assert_false(bag_explain(a, &p, &out, &e));
    assert_true(e.remedy[0]);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_sds),          cmocka_unit_test(test_the_two_samples),
        cmocka_unit_test(test_promise_is_kept),        cmocka_unit_test(test_weigh_refusals),
        cmocka_unit_test(test_bag_is_exact),           cmocka_unit_test(test_bag_stories),
        cmocka_unit_test(test_bag_chances_are_honest), cmocka_unit_test(test_whole_box_cannot_be_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
