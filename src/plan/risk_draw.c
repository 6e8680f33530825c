/* risk_draw.c: the chances of whole minutes. */
#include "plan/risk_draw.h"

/* Points and weights of Gauss and Legendre for a third of a minute; five points are exact for polynomials of degree nine. */
static const double point[] = {-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831,
                               0.9061798459386640};
static const double weight[] = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889,
                                0.4786286704993665, 0.2369268850561891};

/* The density up to a factor, at x in (0, 1). */
static double density(double m, double x) {
    return x <= 0 || x >= 1 ? 0 : pow(x, 4 * m) * pow(1 - x, 4 * (1 - m));
}

/* Its integral from a to b, in parts so short that little is lost at the ends, where a power may rise steeply. */
static double integral(double m, double a, double b) {
    enum { PARTS = 3 };
    double sum = 0, half = (b - a) / (2 * PARTS);
    for (int part = 0; part < PARTS && b > a; part++)
        for (int k = 0; k < 5; k++)
            sum += weight[k] * half * density(m, a + half * (2 * part + 1 + point[k]));
    return sum;
}

risk_minutes risk_minutes_of(arena *a, int32_t low, int32_t likely, int32_t high) {
    risk_minutes out = {.low = low, .n = (uint32_t)(high - low) + 1};
    uint64_t *upto = arena_array(a, uint64_t, out.n);
    double *chance = arena_array(a, double, out.n), all = 0, sum = 0, span = high - low;
    out.upto = upto;
    for (uint32_t k = 0; k < out.n && span > 0; k++) {
        double from = k == 0 ? 0 : (k - 0.5) / span, to = k + 1 == out.n ? 1 : (k + 0.5) / span;
        chance[k] = integral((likely - low) / span, from, to);
        all += chance[k];
    }
    for (uint32_t k = 0; k + 1 < out.n; k++) {
        sum += chance[k];
        upto[k] = risk_limit(sum / all);
    }
    upto[out.n - 1] = UINT64_MAX;
    return out;
}
