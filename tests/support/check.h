/* check.h: cmocka with the headers it wants before it, and a small random source. */
#ifndef TESTS_SUPPORT_CHECK_H
#define TESTS_SUPPORT_CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* splitmix64; source: Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014. */
static inline uint64_t random_next(uint64_t *seed) {
    uint64_t z = *seed += UINT64_C(0x9E3779B97F4A7C15);
    z = (z ^ z >> 30) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ z >> 27) * UINT64_C(0x94D049BB133111EB);
    return z ^ z >> 31;
}

static inline uint32_t random_below(uint64_t *seed, uint32_t n) {
    return (uint32_t)(random_next(seed) % n);
}

#endif
