/* risk_draw.h: random numbers and durations for carrying a plan out.
 *
 * Each sample has a key, and each thing that is drawn in it a number of its own: the draw is a hash of both. So no draw depends on
 * which others were made: threads share nothing, and two runs that differ in one thing differ in nothing else.
 *
 * A duration is drawn from a table of chances of whole minutes, made once for each step; that is exact up to rounding, needs one number a
 * draw and can be held against the distribution's formulas without drawing at all.
 *
 * Private to plan/.
 */
#ifndef PLAN_RISK_DRAW_H
#define PLAN_RISK_DRAW_H

#include <math.h>
#include <stdint.h>

#include "base/arena.h"

/* The finaliser of splitmix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014). */
static inline uint64_t risk_mix(uint64_t z) {
    z += 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

static inline uint64_t risk_key(uint64_t seed, uint64_t sample) {
    return risk_mix(risk_mix(seed) ^ (sample * 0xd1b54a32d192ed03U));
}

/* Uniform in 0 .. 2^64 - 1. */
static inline uint64_t risk_draw(uint64_t key, uint64_t what) {
    return risk_mix(key ^ (what * 0x9fb21c651e98df25U + 0x632be59bd9b4e019U));
}

/* Such a share of the draws is at most it. */
static inline uint64_t risk_limit(double share) {
    return share < 1 ? (uint64_t)ldexp(share, 63) * 2 : UINT64_MAX;
}

/* Minutes low .. low + n - 1; a draw d gives the first whose upto is at least d. */
typedef struct {
    int32_t low;
    uint32_t n;
    const uint64_t *upto; /* ascending, the last UINT64_MAX */
} risk_minutes;

/* Of the three-point beta distribution of network planning with these low, likely and high minutes, rounded to whole ones:
 * X = low + (high - low) B, B beta with 1 + 4 m and 5 - 4 m, m = (likely - low) / (high - low); its mean is (low + 4 likely + high) / 6
 * (Malcolm, Roseboom, Clark, Fazar, Operations Research 7, 1959). low <= likely <= high. */
risk_minutes risk_minutes_of(arena *a, int32_t low, int32_t likely, int32_t high);

static inline int32_t risk_draw_minutes(const risk_minutes *m, uint64_t draw) {
    uint32_t below = 0, from = m->n - 1; /* the answer lies in below .. from */
    while (below < from) {
        uint32_t mid = (below + from) / 2;
        if (m->upto[mid] >= draw)
            from = mid;
        else
            below = mid + 1;
    }
    return m->low + (int32_t)below;
}

#endif
