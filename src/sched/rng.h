/* rng.h: xoshiro256** (Blackman and Vigna, "Scrambled linear pseudorandom number generators", 2021; public domain), seeded by
 * splitmix64. The same seed and stream give the same numbers on every machine. Private to sched/. */
#ifndef SCHED_RNG_H
#define SCHED_RNG_H

#include <stdint.h>

typedef struct {
    uint64_t s[4];
} rng;

static inline uint64_t rng_mix(uint64_t *x) {
    uint64_t z = (*x += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

/* Streams of one seed are independent for all practical purposes: their states are hashes of both. */
static inline rng rng_open(uint64_t seed, uint64_t stream) {
    uint64_t x = seed, y = stream ^ 0xd1b54a32d192ed03U;
    rng r;
    for (int i = 0; i < 4; i++)
        r.s[i] = rng_mix(&x) ^ rng_mix(&y);
    if (!(r.s[0] | r.s[1] | r.s[2] | r.s[3]))
        r.s[0] = 1;
    return r;
}

static inline uint64_t rng_next(rng *r) {
    uint64_t *s = r->s, t = s[1] << 17, x = s[1] * 5;
    uint64_t result = ((x << 7) | (x >> 57)) * 9;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = (s[3] << 45) | (s[3] >> 19);
    return result;
}

/* 0 .. n - 1, n > 0 (Lemire's multiplication; its bias below 2^-32 does not matter here). */
static inline uint32_t rng_below(rng *r, uint32_t n) {
    return (uint32_t)(((rng_next(r) >> 32) * n) >> 32);
}

/* In [0, 1), 53 bits. */
static inline double rng_unit(rng *r) {
    return (double)(rng_next(r) >> 11) * 0x1p-53;
}

#endif
