/* test_sched_simulate.c: simulation against distributions and hand-worked plans. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "sched/sched.h"

static sched_simulated *run(const sched_problem *p, const sched_simulation *what) {
    sched_simulated *r;
    sched_fault fault;
    bool ok = sched_simulate(p, what, &r, &fault);
    if (!ok)
        fail_msg("%s", fault.text);
    return r;
}

static void moments(const sched_simulated *r, double *mean, double *deviation) {
    double sum = 0, squares = 0;
    for (uint64_t k = 0; k < r->samples; k++) {
        sum += r->makespans[k];
        squares += (double)r->makespans[k] * r->makespans[k];
    }
    *mean = sum / (double)r->samples;
    *deviation = sqrt(squares / (double)r->samples - *mean * *mean);
}

/* One task: mean and deviation of the distributions. Triangular: (a + m + b) / 3 and its textbook variance
 * (a^2 + m^2 + b^2 - am - ab - mb) / 18. Beta with a density x^4m (1 - x)^(4 - 4m): mean (a + 4m + b) / 6, variance
 * alpha beta / ((alpha + beta)^2 (alpha + beta + 1)) of the range squared, alpha + beta = 6. */
static void durations_have_the_moments_of_their_distribution(void **state) {
    (void)state;
    const int32_t start[] = {0};
    for (int shape = SCHED_TRIANGULAR; shape <= SCHED_BETA; shape++) {
        sched_problem *p = sched_open();
        sched_add_task(p, 3000);
        const double a = 2000, m = 3000, b = 7000;
        const sched_duration d[] = {{2000, 3000, 7000, (sched_shape)shape}};
        sched_simulation what = {.starts = start, .durations = d, .samples = 200000, .seed = 5, .threads = 1};
        sched_simulated *r = run(p, &what);
        double mean, deviation, alpha = 1 + 4 * (m - a) / (b - a), beta = 6 - alpha;
        moments(r, &mean, &deviation);
        double want = shape == SCHED_TRIANGULAR ? (a + m + b) / 3 : (a + 4 * m + b) / 6;
        double want_deviation = shape == SCHED_TRIANGULAR
                                    ? sqrt((a * a + m * m + b * b - a * m - a * b - m * b) / 18)
                                    : (b - a) * sqrt(alpha * beta / (36 * 7));
        assert_true(fabs(mean - want) < 4 * want_deviation / sqrt(200000.0) + 0.5);
        assert_true(fabs(deviation - want_deviation) < 0.01 * want_deviation);
        sched_simulated_close(r);
        sched_close(p);
    }
}

static sched_problem *two_on_one_bench(void) {
    sched_problem *p = sched_open();
    int32_t bench = sched_add_resource(p, 1);
    for (int i = 0; i < 2; i++)
        sched_set_demand(p, sched_add_task(p, 10), bench, 1);
    int32_t last = sched_add_task(p, 5);
    sched_add_relation(p, SCHED_END_START, 0, last, 0, SCHED_NONE);
    return p;
}

static void threads_do_not_change_the_samples(void **state) {
    (void)state;
    sched_problem *p = two_on_one_bench();
    const int32_t starts[] = {0, 10, 10};
    const sched_duration d[] = {
        {5, 10, 30, SCHED_BETA}, {8, 10, 12, SCHED_TRIANGULAR}, {5, 5, 5, SCHED_TRIANGULAR}};
    sched_simulation what = {.starts = starts, .durations = d, .samples = 5000, .seed = 9, .threads = 1};
    sched_simulated *one = run(p, &what);
    what.threads = 3;
    sched_simulated *three = run(p, &what);
    assert_memory_equal(one->makespans, three->makespans, 5000 * sizeof(int32_t));
    assert_memory_equal(one->decides, three->decides, 3 * sizeof(uint32_t));
    /* Seeded samples are part of what we promise: the same on every machine. */
    assert_int_equal(one->makespans[0], 24);
    assert_int_equal(one->decides[0], 5000);
    sched_simulated_close(one);
    sched_simulated_close(three);
    sched_close(p);
}

static void a_change_closes_the_bench(void **state) {
    (void)state;
    sched_problem *p = two_on_one_bench();
    const int32_t starts[] = {0, 10, 10};
    const sched_duration d[] = {{10, 10, 10, SCHED_BETA}, {10, 10, 10, SCHED_BETA}, {5, 5, 5, SCHED_BETA}};
    const sched_random_change closed[] = {{0, 0, 10, 20, 0, 1.0}, {1, 0, 5, 10, 0, 0.0}};
    sched_simulation what = {.starts = starts,
                             .durations = d,
                             .changes = closed,
                             .change_count = 2,
                             .samples = 10,
                             .seed = 1,
                             .threads = 1};
    sched_simulated *r = run(p, &what);
    for (int k = 0; k < 10; k++)
        assert_int_equal(r->makespans[k], 30);
    sched_simulated_close(r);
    sched_close(p);
}

static void kept_cuts_hold_for_the_durations_drawn(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    for (int k = 1; k <= 10; k++)
        sched_add_cut(p, 20 * k);
    for (int i = 0; i < 2; i++)
        sched_set_crossing(p, sched_add_task(p, 10), SCHED_CUT_KEPT, 0);
    sched_add_relation(p, SCHED_END_START, 0, 1, 0, SCHED_NONE);
    const int32_t starts[] = {0, 10};
    const sched_duration d[] = {{11, 11, 11, SCHED_BETA}, {50, 50, 50, SCHED_BETA}};
    sched_simulation what = {.starts = starts, .durations = d, .samples = 3, .seed = 1, .threads = 1};
    sched_simulated *r = run(p, &what);
    assert_int_equal(r->makespans[2], 40); /* the second waits for the cut at 20 and is taken as 20 long */
    sched_simulated_close(r);
    sched_close(p);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(durations_have_the_moments_of_their_distribution),
        cmocka_unit_test(threads_do_not_change_the_samples),
        cmocka_unit_test(a_change_closes_the_bench),
        cmocka_unit_test(kept_cuts_hold_for_the_durations_drawn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
