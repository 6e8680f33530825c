/* chance.h: the few distributions that counting needs.
 *
 * Arguments outside their range give NAN; nothing here fails otherwise. Textbook formulas; Wilson 1927 and Clopper and
 * Pearson 1934 for intervals, Chapman 1951 for two counts of the same thing.
 */
#ifndef TRADE_CHANCE_H
#define TRADE_CHANCE_H

#include <stdbool.h>
#include <stdint.h>

/* P(Z <= z) of the standard normal, and the z for a probability p in (0, 1) (within 1e-9). */
double normal_cdf(double z);
double normal_quantile(double p);

/* P(X <= k), n trials, probability p: binomial. n up to 1e6. */
double binomial_cdf(int32_t k, int32_t n, double p);

/* P(X <= k): k wrong ones among n drawn without putting back, from `total` of which `wrong` are wrong. */
double hypergeometric_cdf(int32_t k, int32_t total, int32_t wrong, int32_t n);

typedef struct {
    double low, high;
} interval;

/* Interval for a share, k of n, two-sided; `confidence` in (0, 1), such as 0.95. */
interval share_wilson(int32_t k, int32_t n, double confidence);
interval share_exact(int32_t k, int32_t n, double confidence); /* Clopper-Pearson: never too narrow */

/* Two independent counts of the same rows: `first` and `second` errors found, `both` found by both. */
typedef struct {
    double total;   /* errors there are, Chapman: (n1+1)(n2+1)/(m+1) - 1 */
    double missed;  /* by both: total - (n1 + n2 - m), not below 0 */
    double sd;      /* of total */
    interval range; /* of missed, 95 %, normal approximation, not below 0 */
} double_count;

/* NAN in all fields when both > first or both > second. */
double_count errors_missed(int32_t first, int32_t second, int32_t both);

#endif
