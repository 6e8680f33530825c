/* refusal.h: what a caller's check has said against schedules. Private to sched/. */
#ifndef SCHED_REFUSAL_H
#define SCHED_REFUSAL_H

#include "sched/memory.h"
#include "sched/problem.h"

struct sched_refusal {
    memory *mem;
    int32_t *task; /* members of sets, one after the other */
    int32_t tasks, task_room;
    int32_t *set_at; /* ends of the sets in task[] */
    int32_t sets, set_room;
    sched_start_bound *bound;
    int32_t bounds, bound_room;
    int32_t *bound_at;
    int32_t bound_sets, bound_set_room;
    int32_t n;          /* tasks of the problem */
    int32_t *suggested; /* starts, valid when has_suggested; NULL before the first */
    bool has_suggested;
    bool failed;
};

/* Does the schedule break one of the refusals from number `sets` and `bound_sets` on? */
bool refusal_applies(const sched_refusal *r, const sched_problem *p, const int32_t *starts, int32_t sets,
                     int32_t bound_sets);

#endif
