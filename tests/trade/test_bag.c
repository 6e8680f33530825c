/* Bags whose contents are known: against the slow way, against simulated weighings, and one that cannot be told. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "draws.h"
#include "trade/bag.h"

/* A small generator for simulated weighings; same numbers on every machine. */
static uint64_t seed = 0x9E3779B97F4A7C15u;

static double uniform(void) {
    return draw_uniform(&seed);
}

static double bell(void) {
    return draw_bell(&seed);
}

/* All combinations the slow way, for small bags: nested loops over every change vector, each with its likelihood. */
typedef struct {
    uint64_t fitting;
    double total, best; /* weights */
    int best_change[3];
} slow_answer;

static void judge_slowly(const bag_problem *p, double difference, double variance, const int d[3],
                         slow_answer *out) {
    int sum = 0;
    double change = 0, v = variance, prior = 1;
    for (int i = 0; i < 3; i++) {
        sum += abs(d[i]);
        change += d[i] * p->parts[i].mass_mg;
        v += d[i] * p->parts[i].sd_mg * p->parts[i].sd_mg;
        prior *= pow(d[i] < 0 ? 1.0 / 100 : 1.0 / 300, abs(d[i]));
        if (d[i] < -p->parts[i].expected)
            return;
    }
    double off = (difference - change) / sqrt(v);
    if (sum > p->changes_most || fabs(off) > 3)
        return;
    double weight = prior * exp(-off * off / 2) / sqrt(v);
    out->fitting++;
    out->total += weight;
    if (weight > out->best) {
        out->best = weight;
        for (int i = 0; i < 3; i++)
            out->best_change[i] = d[i];
    }
}

static slow_answer explain_slowly(const bag_problem *p, double difference, double variance) {
    int most = p->changes_most;
    slow_answer out = {0, 0, 0, {0, 0, 0}};
    for (int a = -most; a <= most; a++)
        for (int b = -most; b <= most; b++)
            for (int c = -most; c <= most; c++)
                judge_slowly(p, difference, variance, (int[3]){a, b, c}, &out);
    return out;
}

static void compare_stories(const bag_answer *out, const slow_answer *slow) {
    assert_int_equal(out->fitting, slow->fitting);
    if (slow->fitting == 0) {
        assert_int_equal(out->n_stories, 0);
        return;
    }
    int change[3] = {0, 0, 0};
    for (int i = 0; i < BAG_CHANGES && out->stories[0].delta[i]; i++)
        change[out->stories[0].part[i]] += out->stories[0].delta[i];
    assert_memory_equal(change, slow->best_change, sizeof change);
    assert_true(fabs(out->stories[0].chance - slow->best / slow->total) < 1e-9);
}

static void test_bag_is_exact(void **state) {
    (void)state;
    arena *a = arena_open();
    unsigned told = 0;
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
        slow_answer slow = explain_slowly(&p, p.measured_mg - expected, variance + 1e4);
        compare_stories(&out, &slow);
        told += slow.fitting > 0;
        double sum = 0;
        for (uint32_t i = 0; i < out.n_stories; i++) {
            sum += out.stories[i].chance;
            assert_true(i == 0 || out.stories[i].chance <= out.stories[i - 1].chance);
        }
        assert_true(sum <= 1 + 1e-9 && (out.fitting > BAG_KEPT || out.fitting == 0 || sum > 1 - 1e-9));
    }
    assert_true(told > 100);
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
        cmocka_unit_test(test_bag_is_exact),
        cmocka_unit_test(test_bag_stories),
        cmocka_unit_test(test_bag_chances_are_honest),
        cmocka_unit_test(test_whole_box_cannot_be_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
