/* test_sched_samplers.c: the random numbers of the simulation: known answers of the generators, distributions against their closed
 * forms, the greatest of several sums against Clark's formulas, a textbook's network. Seeds are fixed, so that each run is the same. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "sched/exact.h"
#include "sched/rng.h"
#include "sched/sched.h"

enum { SAMPLES = 100000 };

/* xoshiro256** from the state 1, 2, 3, 4, and splitmix64 from 1234567: the outputs of the authors' reference code
 * (https://prng.di.unimi.it), as reprinted with several open implementations; from memory. */
static void generators_give_their_known_answers(void **state) {
    (void)state;
    static const uint64_t xoshiro[] = {11520U,
                                       0U,
                                       1509978240U,
                                       1215971899390074240U,
                                       1216172134540287360U,
                                       607988272756665600U,
                                       16172922978634559625U,
                                       8476171486693032832U,
                                       10595114339597558777U,
                                       2904607092377533576U};
    static const uint64_t split[] = {6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                     4593380528125082431U, 16408922859458223821U};
    rng r = {{1, 2, 3, 4}};
    for (size_t k = 0; k < sizeof xoshiro / sizeof *xoshiro; k++)
        assert_true(rng_next(&r) == xoshiro[k]);
    uint64_t x = 1234567;
    for (size_t k = 0; k < sizeof split / sizeof *split; k++)
        assert_true(rng_mix(&x) == split[k]);
}

/* Chi-square of counts that should all be equal. Limits below: the 99.9 % points of handbook tables, for 255 degrees of freedom
 * 330.5, for 3 degrees 16.27. */
static double chi_square(const int *count, int cells, double expected) {
    double sum = 0;
    for (int k = 0; k < cells; k++)
        sum += (count[k] - expected) * (count[k] - expected) / expected;
    return sum;
}

static void streams_are_even_along_and_across(void **state) {
    (void)state;
    int along[256] = {0}, across[256] = {0}, below[256] = {0};
    rng r = rng_open(5, 0);
    for (uint64_t k = 0; k < 256000; k++) {
        along[(int)(256 * rng_unit(&r))]++;
        rng other = rng_open(5, k); /* the first number of each sample's stream */
        across[(int)(256 * rng_unit(&other))]++;
        below[rng_below(&r, 256)]++;
    }
    assert_true(chi_square(along, 256, 1000) < 330.5);
    assert_true(chi_square(across, 256, 1000) < 330.5);
    assert_true(chi_square(below, 256, 1000) < 330.5);
}

static void our_logarithm_is_the_logarithm(void **state) {
    (void)state;
    rng r = rng_open(1, 1);
    for (int k = 0; k < 100000; k++) {
        double x = ldexp(rng_unit(&r) + 0x1p-60, (int)rng_below(&r, 40) - 20), want = log(x);
        assert_true(fabs(exact_log(x) - want) <= 1e-14 * (1 + fabs(want)));
    }
}

/* ---- distributions ----------------------------------------------------------------------------------------- */

static sched_simulated *run(const sched_problem *p, const sched_simulation *what) {
    sched_simulated *r;
    sched_fault fault;
    if (!sched_simulate(p, what, &r, &fault))
        fail_msg("%s", fault.text);
    return r;
}

static double triangular_below(double x, double m) {
    return x < m ? x * x / m : 1 - (1 - x) * (1 - x) / (1 - m);
}

/* Both parameters whole, their sum 6: the chance of at least `alpha` successes in 5 draws (Abramowitz and Stegun 26.5.24). */
static double beta_below(double x, int alpha) {
    static const double choose[] = {1, 5, 10, 10, 5, 1};
    double sum = 0;
    for (int j = alpha; j <= 5; j++)
        sum += choose[j] * pow(x, j) * pow(1 - x, 5 - j);
    return sum;
}

static int by_value(const void *a, const void *b) {
    int32_t x = *(const int32_t *)a, y = *(const int32_t *)b;
    return (x > y) - (x < y);
}

/* Kolmogorov and Smirnov's distance between sample and distribution, below the 99.9 % point 1.95 / sqrt(n) of its table. */
static void expect_distribution(sched_shape shape, int quarter) {
    const int32_t low = 1000000, wide = 40000000;
    const int32_t start[] = {0};
    sched_problem *p = sched_open();
    sched_add_task(p, low);
    const sched_duration d[] = {{low, low + wide / 4 * quarter, low + wide, shape}};
    sched_simulation what = {.starts = start, .durations = d, .samples = SAMPLES, .seed = 11, .threads = 2};
    sched_simulated *r = run(p, &what);
    qsort(r->makespans, SAMPLES, sizeof(int32_t), by_value);
    double farthest = 0;
    for (int k = 0; k < SAMPLES; k++) {
        double x = (double)(r->makespans[k] - low) / wide;
        double f =
            shape == SCHED_TRIANGULAR ? triangular_below(x, quarter / 4.0) : beta_below(x, 1 + quarter);
        farthest = fmax(farthest, fmax(fabs(f - (double)k / SAMPLES), fabs(f - (double)(k + 1) / SAMPLES)));
    }
    if (farthest * sqrt(SAMPLES) > 1.95)
        fail_msg("shape %d, likely at %d quarters: distance %g", (int)shape, quarter,
                 farthest * sqrt(SAMPLES));
    sched_simulated_close(r);
    sched_close(p);
}

static void durations_follow_their_distributions(void **state) {
    (void)state;
    for (int quarter = 0; quarter <= 4; quarter++) {
        expect_distribution(SCHED_TRIANGULAR, quarter);
        expect_distribution(SCHED_BETA, quarter);
    }
}

/* ---- events ------------------------------------------------------------------------------------------------ */

/* The first task ends at 1, or at 11 when its bench is closed; the second one later, or 6 later when the other bench is closed, which
 * takes two rows of one event. The four outcomes come as often as independent events of 0.3 and 0.6 say. */
static void events_happen_as_often_as_said_and_apart_from_each_other(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t first = sched_add_task(p, 1), second = sched_add_task(p, 1);
    int32_t bench = sched_add_resource(p, 1), other = sched_add_resource(p, 1);
    sched_set_demand(p, first, bench, 1);
    sched_set_demand(p, second, other, 1);
    sched_add_relation(p, SCHED_END_START, first, second, 0, SCHED_NONE);
    const int32_t starts[] = {0, 1};
    const sched_duration d[] = {{1, 1, 1, SCHED_BETA}, {1, 1, 1, SCHED_BETA}};
    const sched_random_change rows[] = {
        {0, bench, 0, 10, 0, 0.3}, {1, other, 1, 6, 0, 0.6}, {1, other, 11, 16, 0, 0.6}};
    sched_simulation what = {.starts = starts,
                             .durations = d,
                             .changes = rows,
                             .change_count = 3,
                             .samples = SAMPLES,
                             .seed = 3,
                             .threads = 2};
    sched_simulated *r = run(p, &what);
    const int32_t outcome[] = {2, 7, 12, 17};
    const double chance[] = {0.7 * 0.4, 0.7 * 0.6, 0.3 * 0.4, 0.3 * 0.6};
    double chi = 0;
    int all = 0;
    for (int q = 0; q < 4; q++) {
        int n = 0;
        for (int k = 0; k < SAMPLES; k++)
            n += r->makespans[k] == outcome[q];
        all += n;
        chi += pow(n - SAMPLES * chance[q], 2) / (SAMPLES * chance[q]);
    }
    assert_int_equal(all, SAMPLES);
    assert_true(chi < 16.27);
    sched_simulated_close(r);
    sched_close(p);
}

/* ---- the latest of several --------------------------------------------------------------------------------- */

static double normal_density(double x) {
    return exp(-x * x / 2) / sqrt(2 * acos(-1.0));
}

static double normal_below(double x) {
    return erfc(-x / sqrt(2.0)) / 2;
}

/* Mean and variance of the greater of two independent normal variables (Clark, Operations Research 9, 1961). */
static void clark(double m1, double d1, double m2, double d2, double *mean, double *variance) {
    double a = sqrt(d1 * d1 + d2 * d2), x = (m1 - m2) / a;
    *mean = m1 * normal_below(x) + m2 * normal_below(-x) + a * normal_density(x);
    double square = (m1 * m1 + d1 * d1) * normal_below(x) + (m2 * m2 + d2 * d2) * normal_below(-x) +
                    (m1 + m2) * a * normal_density(x);
    *variance = square - *mean * *mean;
}

/* Mean and deviation of the latest end of `n` tasks that begin together, in parts of the range. */
static void latest_of(int n, int quarter, sched_shape shape, double *mean, double *deviation) {
    const int32_t wide = 4000000;
    int32_t starts[8] = {0};
    sched_duration d[8];
    sched_problem *p = sched_open();
    for (int i = 0; i < n; i++) {
        sched_add_task(p, wide);
        d[i] = (sched_duration){0, wide / 4 * quarter, wide, shape};
    }
    sched_simulation what = {.starts = starts, .durations = d, .samples = SAMPLES, .seed = 8, .threads = 2};
    sched_simulated *r = run(p, &what);
    double sum = 0, squares = 0;
    for (int k = 0; k < SAMPLES; k++) {
        double x = (double)r->makespans[k] / wide;
        sum += x;
        squares += x * x;
    }
    *mean = sum / SAMPLES;
    *deviation = sqrt(squares / SAMPLES - *mean * *mean);
    sched_simulated_close(r);
    sched_close(p);
}

/* A duration below x with chance x^q (triangular with its likely value at the end: q = 2; beta: q = 5): the latest of n is below x with
 * chance x^(qn), so that with w = qn its mean is w / (w + 1) and its variance w / ((w + 1)^2 (w + 2)). */
static void the_latest_of_several_has_its_closed_form(void **state) {
    (void)state;
    for (int n = 1; n <= 8; n++)
        for (int shape = SCHED_TRIANGULAR; shape <= SCHED_BETA; shape++) {
            double w = n * (shape == SCHED_TRIANGULAR ? 2 : 5), mean, deviation,
                   want = sqrt(w / (w + 2)) / (w + 1);
            latest_of(n, 4, (sched_shape)shape, &mean, &deviation);
            assert_true(fabs(mean - w / (w + 1)) < 4 * want / sqrt(SAMPLES));
            assert_true(fabs(deviation / want - 1) < 0.02);
        }
}

/* The symmetric beta is near enough to a normal for Clark's formula to be good to 0.02 deviations. */
static void the_later_of_two_is_as_clark_says(void **state) {
    (void)state;
    double mean, variance, deviation, alone, spread;
    clark(0, 1, 0, 1, &mean, &variance); /* 1 / sqrt(pi) and 1 - 1 / pi */
    assert_true(fabs(mean - 0.56419) < 1e-5 && fabs(variance - 0.68169) < 1e-5);
    clark(15, 1.764, 15, 1.5, &mean, &variance); /* by numerical integration */
    assert_true(fabs(mean - 15.923764) < 1e-5 && fabs(variance - 1.827508) < 1e-5);
    latest_of(1, 2, SCHED_BETA, &alone, &spread);
    clark(alone, spread, alone, spread, &mean, &variance);
    double sampled;
    latest_of(2, 2, SCHED_BETA, &sampled, &deviation);
    assert_true(fabs(sampled - mean) < 0.02 * spread);
    assert_true(fabs(deviation - sqrt(variance)) < 0.03 * spread);
}

/* A foundry's network, in many textbooks of operations management (times in weeks, from memory; the expected finish of its longest
 * path, 15, and the path A C E G H are published). The mean of the maximum is above the maximum of the means, and the published path
 * decides more often than any other. */
static void a_textbooks_network_is_as_published(void **state) {
    (void)state;
    enum { A, B, C, D, E, F, G, H, TASKS };
    static const int32_t week[TASKS][3] = {{1, 2, 3}, {2, 3, 4}, {1, 2, 3},  {2, 4, 6},
                                           {1, 4, 7}, {1, 2, 9}, {3, 4, 11}, {1, 2, 3}};
    static const int32_t after[][2] = {{A, C}, {B, D}, {C, E}, {C, F}, {D, G}, {E, G}, {F, H}, {G, H}};
    sched_problem *p = sched_open();
    sched_duration d[TASKS];
    double chain = 0;
    for (int i = 0; i < TASKS; i++) {
        const int32_t *w = week[i];
        sched_add_task(p, 1000 * (w[0] + 4 * w[1] + w[2]) / 6);
        d[i] = (sched_duration){1000 * w[0], 1000 * w[1], 1000 * w[2], SCHED_BETA};
        if (i == A || i == C || i == E || i == G || i == H)
            chain += (w[0] + 4 * w[1] + w[2]) / 6.0;
    }
    for (size_t k = 0; k < sizeof after / sizeof *after; k++)
        sched_add_relation(p, SCHED_END_START, after[k][0], after[k][1], 0, SCHED_NONE);
    assert_true(fabs(chain - 15) < 1e-9);
    sched_options o = sched_default_options();
    sched_result *plan;
    sched_fault fault;
    assert_true(sched_solve(p, &o, &plan, &fault));
    assert_int_equal(plan->makespan, 15000);
    sched_simulation what = {
        .starts = plan->starts, .durations = d, .samples = SAMPLES, .seed = 2, .threads = 2};
    sched_simulated *r = run(p, &what);
    double sum = 0;
    for (int k = 0; k < SAMPLES; k++)
        sum += r->makespans[k];
    assert_true(sum / SAMPLES > 15000 && sum / SAMPLES < 16000);
    assert_int_equal(r->decides[H], SAMPLES);
    assert_true(r->decides[E] > r->decides[D] && r->decides[E] > r->decides[F]);
    assert_true(r->decides[G] + r->decides[F] >= SAMPLES);
    sched_simulated_close(r);
    sched_result_close(plan);
    sched_close(p);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(generators_give_their_known_answers),
        cmocka_unit_test(streams_are_even_along_and_across),
        cmocka_unit_test(our_logarithm_is_the_logarithm),
        cmocka_unit_test(durations_follow_their_distributions),
        cmocka_unit_test(events_happen_as_often_as_said_and_apart_from_each_other),
        cmocka_unit_test(the_latest_of_several_has_its_closed_form),
        cmocka_unit_test(the_later_of_two_is_as_clark_says),
        cmocka_unit_test(a_textbooks_network_is_as_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
