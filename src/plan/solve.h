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
    int32_t *starts; /* by job, when found */
} solve_answer;

/* One step after another. */
MUST_USE bool solve_alone(planner *p, solve_answer *out, err *e);

/* In parallel; `known` (or NULL) is a schedule to begin with. Every schedule found can be named. */
MUST_USE bool solve_together(planner *p, const int32_t *known, solve_answer *out, err *e);

#endif
