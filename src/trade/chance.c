#include "trade/chance.h"

#include <math.h>

static const double nan_value = (double)NAN;

double normal_cdf(double z) {
    return 0.5 * erfc(-z / sqrt(2.0));
}

/* Newton steps from a rough start (Abramowitz and Stegun 26.2.23); the cdf itself is exact to double. */
double normal_quantile(double p) {
    if (!(p > 0 && p < 1))
        return nan_value;
    double tail = p < 0.5 ? p : 1 - p, t = sqrt(-2 * log(tail));
    double z = t - (2.515517 + 0.802853 * t + 0.010328 * t * t) /
                       (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t * t * t);
    z = p < 0.5 ? -z : z;
    for (int i = 0; i < 8; i++) {
        double density = exp(-0.5 * z * z) / 2.5066282746310002;
        if (density < 1e-300)
            break;
        z -= (normal_cdf(z) - p) / density;
    }
    return z;
}

/* lgamma writes a global sign; lgamma_r does not. */
static double log_gamma(double x) {
    int sign;
    return lgamma_r(x, &sign);
}

static double log_choose(double n, double k) {
    return log_gamma(n + 1) - log_gamma(k + 1) - log_gamma(n - k + 1);
}

double binomial_cdf(int32_t k, int32_t n, double p) {
    if (n < 0 || n > 1000000 || !(p >= 0 && p <= 1))
        return nan_value;
    if (k < 0)
        return 0;
    if (k >= n || p == 0)
        return 1;
    if (p == 1)
        return 0;
    double sum = 0, log_p = log(p), log_q = log1p(-p);
    for (int32_t i = 0; i <= k; i++)
        sum += exp(log_choose(n, i) + i * log_p + (n - i) * log_q);
    return sum < 1 ? sum : 1;
}

double hypergeometric_cdf(int32_t k, int32_t total, int32_t wrong, int32_t n) {
    if (total < 0 || wrong < 0 || wrong > total || n < 0 || n > total || total > 1000000)
        return nan_value;
    int32_t least = n + wrong - total > 0 ? n + wrong - total : 0, most = n < wrong ? n : wrong;
    if (k < least)
        return 0;
    if (k >= most)
        return 1;
    double sum = 0, all = log_choose(total, n);
    for (int32_t i = least; i <= k; i++)
        sum += exp(log_choose(wrong, i) + log_choose(total - wrong, n - i) - all);
    return sum < 1 ? sum : 1;
}

static bool sane(int32_t k, int32_t n, double confidence) {
    return n > 0 && n <= 1000000 && k >= 0 && k <= n && confidence > 0 && confidence < 1;
}

interval share_wilson(int32_t k, int32_t n, double confidence) {
    if (!sane(k, n, confidence))
        return (interval){nan_value, nan_value};
    double z = normal_quantile(0.5 + confidence / 2), p = (double)k / n, zz = z * z / n;
    double middle = p + zz / 2, half = z * sqrt(p * (1 - p) / n + z * z / (4.0 * n * n));
    interval r = {(middle - half) / (1 + zz), (middle + half) / (1 + zz)};
    r.low = k == 0 ? 0 : r.low;
    r.high = k == n ? 1 : r.high;
    return r;
}

/* The p at which P(X <= k) falls to `level`; the cdf falls as p grows. */
static double share_at(int32_t k, int32_t n, double level) {
    double low = 0, high = 1;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (binomial_cdf(k, n, middle) > level)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

interval share_exact(int32_t k, int32_t n, double confidence) {
    if (!sane(k, n, confidence))
        return (interval){nan_value, nan_value};
    double tail = (1 - confidence) / 2;
    return (interval){k == 0 ? 0 : share_at(k - 1, n, 1 - tail), k == n ? 1 : share_at(k, n, tail)};
}

double_count errors_missed(int32_t first, int32_t second, int32_t both) {
    double_count r = {nan_value, nan_value, nan_value, {nan_value, nan_value}};
    if (both < 0 || first < both || second < both || first > 1000000 || second > 1000000)
        return r;
    double n1 = first, n2 = second, m = both, seen = n1 + n2 - m;
    r.total = (n1 + 1) * (n2 + 1) / (m + 1) - 1;
    r.missed = r.total > seen ? r.total - seen : 0;
    r.sd = sqrt((n1 + 1) * (n2 + 1) * (n1 - m) * (n2 - m) / ((m + 1) * (m + 1) * (m + 2)));
    r.range.low = r.missed - 1.96 * r.sd > 0 ? r.missed - 1.96 * r.sd : 0;
    r.range.high = r.missed + 1.96 * r.sd;
    return r;
}
