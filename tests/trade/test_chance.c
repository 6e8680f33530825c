/* Distributions and intervals against published values and against each other. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/chance.h"
#include "trade/recount.h"

static void close_to(double found, double wanted, double within) {
    if (!(fabs(found - wanted) <= within))
        fail_msg("%.9g instead of %.9g", found, wanted);
}

static void test_published_intervals(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "06c_binomial_ci.csv"))
        skip();
    agreement a = {.what = "intervals"};
    for (size_t i = 1; i < r.table.n; i++) {
        text method = reference_text(&r, i, "method");
        double k = reference_number(&r, i, "x"), n = reference_number(&r, i, "n");
        double low = reference_number(&r, i, "lower"), high = reference_number(&r, i, "upper");
        bool exact = text_starts(method, TEXT("Clopper"));
        if (isnan(k) || isnan(n) || isnan(low) || isnan(high) ||
            (!exact && !text_starts(method, TEXT("Wilson")))) {
            a.skipped++;
            continue;
        }
        interval ours =
            exact ? share_exact((int32_t)k, (int32_t)n, 0.95) : share_wilson((int32_t)k, (int32_t)n, 0.95);
        /* rows with z = 1.96 are given to 16 digits; the rounded z shifts them by up to 1e-5 */
        reference_compare(&a, &r, i, ours.low, low, 5.1e-5);
        reference_compare(&a, &r, i, ours.high, high, 5.1e-5);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 50);
    reference_close(&r);
}

static void test_published_plans(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "06b_oc_curve.csv"))
        skip();
    agreement a = {.what = "acceptance"};
    for (size_t i = 1; i < r.table.n; i++) {
        double n = reference_number(&r, i, "n"), c = reference_number(&r, i, "Ac");
        double x = reference_number(&r, i, "x"), value = reference_number(&r, i, "value");
        if (!text_is(reference_text(&r, i, "quantity"), "Pa at p") || isnan(value) || isnan(n)) {
            a.skipped++;
            continue;
        }
        reference_compare(&a, &r, i, binomial_cdf((int32_t)c, (int32_t)n, x), value, 6e-6);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    reference_close(&r);
}

/* Newcombe 1998, table I (two published copies), and the normal distribution's printed table. */
static void test_own_values(void **state) {
    (void)state;
    interval w = share_wilson(81, 263, 0.95), x = share_exact(81, 263, 0.95);
    close_to(w.low, 0.2553, 5e-5);
    close_to(w.high, 0.3662, 5e-5);
    close_to(x.low, 0.2527, 5e-5);
    close_to(x.high, 0.3676, 5e-5);
    close_to(normal_cdf(1.96), 0.9750021, 1e-7);
    close_to(normal_quantile(0.975), 1.959963985, 1e-8);
    close_to(normal_quantile(1e-6), -4.753424309, 1e-7);
    /* Skalski and others 1983, rabbits: 87 marked, 14 caught, 7 of them marked: N = 164, 93.8 to 234.2 */
    double_count rabbits = errors_missed(87, 14, 7);
    close_to(rabbits.total, 164, 1e-9);
    close_to(1.96 * rabbits.sd, 70.2, 0.05);
    /* a bin of 200: 190 and 186 found, 178 by both: about one missed by both */
    double_count bin = errors_missed(190, 186, 178);
    close_to(bin.total, 198.54, 0.005);
    close_to(bin.missed, 0.54, 0.005);
    assert_true(isnan(errors_missed(5, 5, 6).total));
}

/* Sums of small cases by counting, and the two distributions against each other. */
static void test_laws(void **state) {
    (void)state;
    close_to(hypergeometric_cdf(0, 10, 3, 4), 35.0 / 210, 1e-12); /* C(7,4)/C(10,4) */
    close_to(hypergeometric_cdf(1, 10, 3, 4), (35.0 + 3 * 35) / 210, 1e-12);
    close_to(binomial_cdf(2, 5, 0.5), 16.0 / 32, 1e-12);
    close_to(hypergeometric_cdf(2, 1000000, 10000, 50), binomial_cdf(2, 50, 0.01), 1e-4);
    for (int32_t k = -1; k <= 20; k++)
        close_to(binomial_cdf(k, 20, 0.3) + binomial_cdf(19 - k, 20, 0.7), 1, 1e-12);
    for (double p = 0.001; p < 1; p += 0.0371)
        close_to(normal_cdf(normal_quantile(p)), p, 1e-12);
    assert_true(isnan(normal_quantile(0)) && isnan(normal_quantile(1)) && isnan(binomial_cdf(1, 2, 1.5)));
    assert_true(isnan(share_wilson(3, 2, 0.95).low) && isnan(share_exact(0, 0, 0.95).low));
}

/* Recounts: against direct enumeration, and plain cases anyone can check. */
static void test_recount(void **state) {
    (void)state;
    recount_plan p;
    recount_state none = {.rows = 200, .wrong_allowed = 1, .confidence = 0.95};
    assert_true(recount_needed(&none, &p, NULL));
    assert_int_equal(p.needed, 190); /* to be 95 % sure that not one of 200 is wrong: 1 - n/200 <= 0.05 */
    recount_state few = {.rows = 200, .wrong_allowed = 10, .confidence = 0.95};
    assert_true(recount_needed(&few, &p, NULL));
    assert_true(hypergeometric_cdf(0, 200, 10, p.needed) <= 0.05 &&
                hypergeometric_cdf(0, 200, 10, p.needed - 1) > 0.05);
    int32_t before = p.needed;
    for (int32_t c = 1; c <= 4; c++) { /* each error found means more to count */
        recount_state s = {
            .rows = 200, .recounted = before, .found_wrong = c, .wrong_allowed = 10, .confidence = 0.95};
        assert_true(recount_needed(&s, &p, NULL));
        assert_true(p.needed > before && p.to_go == p.needed - before && p.sure_now < 0.95);
        before = p.needed;
    }
    static const recount_state bad[] = {{0, 0, 0, 1, 0.95},   {10, 11, 0, 1, 0.95},      {10, 5, 6, 1, 0.95},
                                        {10, 5, 0, 0, 0.95},  {10, 5, 0, 11, 0.95},      {10, 5, 0, 1, 1.0},
                                        {10, 5, -1, 1, 0.95}, {10, 5, 0, 1, (double)NAN}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        err e = {0};
        assert_false(recount_needed(&bad[i], &p, &e));
        assert_true(e.cause[0] && e.remedy[0]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_published_intervals), cmocka_unit_test(test_published_plans),
        cmocka_unit_test(test_own_values), cmocka_unit_test(test_laws), cmocka_unit_test(test_recount)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
