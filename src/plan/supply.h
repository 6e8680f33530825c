/* supply.h: which steps the pieces of a plan suffice for, by the one rule of the stock room.
 *
 * Private to plan/. The pieces are those usable and those promised for a day.
 */
#ifndef PLAN_SUPPLY_H
#define PLAN_SUPPLY_H

#include "plan/calendar.h"
#include "stock/stock.h"

typedef struct {
    stock_fate *fate; /* by step; STOCK_FATE_DONE and _IMPOSSIBLE are given, the others found */
    kit_index *waits_for;
    plan_stopped *stopped;
    uint32_t n_stopped;
    int64_t *drawn; /* by part: what the steps that go ahead draw */
} supply;

/* Fills the rest of `s`; s->fate holds what is done and what is impossible, STOCK_FATE_GOES for all else. `order` is the
 * build order. */
void supply_share(arena *a, const plan_input *in, const kit_index *order, supply *s);

/* What all steps of the kit draw of the part. */
int64_t supply_needed(const kit *k, kit_index part);

/* Pieces there at the start, never negative. */
int64_t supply_usable(const plan_input *in, kit_index part);

/* The latest moment at which something that a step still needs arrives; INT64_MIN when nothing does. */
date_moment supply_last_arrival(const plan_input *in);

#endif
