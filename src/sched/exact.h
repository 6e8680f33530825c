/* exact.h: logarithm and exponential that give the same bits on every machine. Private to sched/.
 *
 * Only + - * / and exact scaling, each correctly rounded by IEEE 754 (contraction is off in our builds); good to about 1e-14,
 * which is plenty for drawing random numbers. The C library's own may differ in the last bit from machine to machine. */
#ifndef SCHED_EXACT_H
#define SCHED_EXACT_H

#include <math.h>

/* ln x for x > 0: x = m 2^e with m near 1, ln m = 2 artanh((m - 1) / (m + 1)). */
static inline double exact_log(double x) {
    int e;
    double m = frexp(x, &e); /* exact */
    if (m < 0.70710678118654752) {
        m *= 2;
        e--;
    }
    double z = (m - 1) / (m + 1), q = z * z, term = z, sum = 0;
    for (int k = 1; k < 40; k += 2) {
        sum += term / k;
        term *= q;
    }
    return 2 * sum + e * 0.69314718055994531;
}

#endif
