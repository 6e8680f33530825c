/* sweep.h: names for stretches that hang together in time.
 *
 * Private to naming.c. The stretches stand by their start; from the first to the last at least one of them runs at every
 * minute, so no part of them can be named by itself.
 */
#ifndef PLAN_SWEEP_H
#define PLAN_SWEEP_H

#include "plan/naming.h"

/* Fills the seats of all items, whose list is ascending by `from`. `minutes` (by person) is used to choose and brought up to
 * date. No try takes more nodes than `effort`. PEOPLE_CANNOT is proven; *reached is then the number of items, from the first on, that cannot all be named
 * together with those that run at the same time as one of them. Memory for as long as it takes in `a`. */
people_answer sweep_name(arena *a, const people_work *w, naming_item *const *items, uint32_t n,
                         uint32_t effort, int32_t *minutes, uint32_t *reached);

#endif
