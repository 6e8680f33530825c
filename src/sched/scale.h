/* scale.h: time counted in a coarser unit. Private to sched/. */
#ifndef SCHED_SCALE_H
#define SCHED_SCALE_H

#include "sched/problem.h"

/* The largest unit of which every time of a problem without faults is a multiple, but for deadlines, the horizon and last allowed
 * starts, which only limit from above; at least 1. */
int32_t scale_unit(const sched_problem *p);

/* The problem without its objectives, counted in that unit, for the same makespan: with every start rounded down to a multiple
 * of the unit a schedule keeps all its rules. NULL: no memory. The caller closes it. */
sched_problem *scale_open(const sched_problem *p, int32_t unit);

#endif
