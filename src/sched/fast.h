/* fast.h: the schedule generator of the inner loops. Private to sched/.
 *
 * The same schedules as generate.h for problems without reservoirs, maps and costly cuts, some twenty times faster: one
 * word of free capacity for each time unit, a fit is one subtraction and one mask. Besides placing early it places late,
 * from the end backwards, on the same calendar, which is what forward-backward improvement needs.
 */
#ifndef SCHED_FAST_H
#define SCHED_FAST_H

#include "sched/model.h"

typedef struct {
    int32_t task, distance; /* start to start */
} fast_arc;

typedef struct {
    const model *m;
    int32_t limit;   /* times kept: no schedule gets longer */
    uint64_t *fresh; /* limit + 1 words or rows: bare capacities */
    uint64_t *free;
    int32_t *after_at, *before_at;
    fast_arc *after, *before;
    int32_t *bin, *sorted; /* counting sort by time */
    int32_t *end;          /* by task, to sort by */
    int32_t touched_from, touched_to;
} fast;

/* Can this problem be generated here? */
bool fast_suits(const model *m);

/* Has time no direction in it: capacities that never change, no windows, relations from ends only? A schedule built from the end
 * backwards is then as good as one built from the start, wherever that end is put. */
bool fast_turns_round(const model *m);

/* For schedules of at most `limit`. false: no memory. */
MUST_USE bool fast_open(fast *f, const model *m, int32_t limit, memory *mem);

/* Early placement of the tasks in `order`. Returns the makespan, or SCHED_NONE when a task finds no start. */
int32_t fast_early(fast *f, const int32_t *order, int32_t *start);

/* Late placement of the tasks in `order`, last first, each as late as what follows it and the resources allow, none to end after `end`.
 * `order` has each task behind what it follows. Returns the span from the first start to `end`, or SCHED_NONE when a task finds no
 * start. */
int32_t fast_late_anew(fast *f, const int32_t *order, int32_t *start, int32_t end);

/* Moves every task of the schedule as late as it goes without ending after `end`, last ends first. */
void fast_late(fast *f, int32_t *start, int32_t end);

/* Tasks by start, for the early pass after a late one, or as a list; predecessors stay in front. By end: the same for the late pass, in
 * problems where all relations count from an end. */
void fast_order_by_start(fast *f, const int32_t *start, int32_t *order);
void fast_order_by_end(fast *f, const int32_t *start, int32_t *order);

#endif
