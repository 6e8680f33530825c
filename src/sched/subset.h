/* subset.h: a problem with some tasks and resources left out. Private to sched/. */
#ifndef SCHED_SUBSET_H
#define SCHED_SUBSET_H

#include "sched/problem.h"
#include "sched/refusal.h"

/* The rules of `p` among the tasks and resources kept, by index; `name` (by task) gets their new numbers or SCHED_NONE. What a task left
 * out would give to a reservoir is there from the beginning; objectives are left out: the problem is a relaxation, so
 * that without a schedule for it there is none for `p`. NULL: no memory. The caller closes it. */
sched_problem *subset_open(const sched_problem *p, const bool *keep_task, const bool *keep_resource,
                           int32_t horizon, int32_t *name);

/* The refusals among tasks kept, under their new numbers, added to `to`. */
void subset_refusals(const sched_refusal *from, const int32_t *name, sched_refusal *to);

#endif
