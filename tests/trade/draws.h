/* draws.h: random numbers of the tests of this room: the same in every run (xorshift64). */
#ifndef TESTS_TRADE_DRAWS_H
#define TESTS_TRADE_DRAWS_H

#include <stdint.h>

#include "trade/chance.h"

/* Above 0, below 1. */
static inline double draw_uniform(uint64_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return ((double)(*seed >> 11) + 0.5) / 9007199254740992.0;
}

/* Standard normal. */
static inline double draw_bell(uint64_t *seed) {
    return normal_quantile(draw_uniform(seed));
}

#endif
