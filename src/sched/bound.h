/* bound.h: lower bounds that need no search. Private to sched/. */
#ifndef SCHED_BOUND_H
#define SCHED_BOUND_H

#include "sched/model.h"

/* The longest chain of relations. O(n + relations). */
int32_t bound_critical_path(const model *m);

/* For each resource and each earliest start a: what starts at a or later needs so much of the resource that it cannot all be done, and
 * what must come behind it, before this. O(n log n) a resource. 0 without memory. */
int32_t bound_energy(const model *m, memory *mem);

#endif
