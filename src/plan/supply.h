/* supply.h: which steps the pieces suffice for.
 *
 * Private to plan/. Pieces, those counted and those promised for a day, go to the steps in build order. A step that does
 * not get all its pieces is stopped and takes none; a step after it waits and takes none either, so what it would have
 * used is there for the steps that can go ahead.
 */
#ifndef PLAN_SUPPLY_H
#define PLAN_SUPPLY_H

#include "plan/calendar.h"

typedef enum { SUPPLY_DONE, SUPPLY_GOES, SUPPLY_STOPPED, SUPPLY_WAITING, SUPPLY_IMPOSSIBLE } supply_state;

typedef struct {
    supply_state *state;  /* by step; SUPPLY_DONE and SUPPLY_IMPOSSIBLE are given, the others found */
    kit_index *waits_for; /* by step, for SUPPLY_WAITING: a step right before it that does not go ahead */
    plan_stopped *stopped;
    uint32_t n_stopped;
    int64_t *drawn; /* by part: what the steps that go ahead draw */
} supply;

/* Fills the rest of `s`; s->state holds what is done and what is impossible, SUPPLY_GOES for all else. `order` is the build
 * order. */
void supply_share(arena *a, const plan_input *in, const kit_index *order, supply *s);

/* Pieces there at the start, never negative. */
int64_t supply_usable(const plan_input *in, kit_index part);

/* The latest moment at which something that a step still needs arrives; INT64_MIN when nothing does. */
date_moment supply_last_arrival(const plan_input *in);

#endif
