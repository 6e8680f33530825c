/* dead_ends.h: a set of states from which a search has found no way on.
 *
 * Private to sweep.c. A state is a place in the search and a row of numbers, as many as were said at opening. Kept whole, so
 * that two states are never taken for one. Some thousand entries; looked up at each item the search comes to.
 */
#ifndef PLAN_DEAD_ENDS_H
#define PLAN_DEAD_ENDS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

typedef struct dead_ends dead_ends;

/* Empty; all its memory in `a`. */
dead_ends *dead_ends_open(arena *a, uint32_t numbers);

bool dead_ends_has(const dead_ends *d, uint32_t place, const int32_t *state);

/* A state that is not in it yet. */
void dead_ends_add(dead_ends *d, uint32_t place, const int32_t *state);

#endif
