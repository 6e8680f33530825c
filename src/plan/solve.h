/* solve.h: asks sched/ for start times that can be named.
 *
 * Private to plan/.
 */
#ifndef PLAN_SOLVE_H
#define PLAN_SOLVE_H

#include "plan/planner.h"

typedef struct {
    bool found;
    bool infeasible; /* proven: no schedule within the line */
    bool optimal;
    int32_t makespan, lower_bound;
    int32_t *starts;  /* by job, when found */
    bool shelf_least; /* solve_put_off: its objectives are proven least */
} solve_answer;

/* The end of the last job at these starts. Less its minutes to resume, a job that is moved to a session's begin ends earlier. */
int32_t solve_last_end(const planner *p, const int32_t *starts);

/* One step after another. */
MUST_USE bool solve_alone(planner *p, solve_answer *out, err *e);

/* In parallel; `known` (or NULL) is a schedule to begin with. Every schedule found can be named. */
MUST_USE bool solve_together(planner *p, const int32_t *known, solve_answer *out, err *e);

/* The problem of just_in_time.c (closed here): within the finish `makespan`, from the schedule `known` of all its tasks.
 * Not found is no failure. `effort` limits the search. */
MUST_USE bool solve_put_off(planner *p, sched_problem *problem, const int32_t *known, int32_t makespan,
                            uint64_t effort, solve_answer *out, err *e);

/* Can the schedule be named? */
bool solve_can_name(planner *p, const int32_t *starts);

#endif
