/* just_in_time.h: with the finish kept, sub-assemblies are built as late as their buffers allow.
 *
 * Private to plan/.
 */
#ifndef PLAN_JUST_IN_TIME_H
#define PLAN_JUST_IN_TIME_H

#include "plan/solve.h"

/* Puts new starts into `together` (with an array of their own; the old one stays as it is) where that keeps less on the
 * shelf. p->buffers tells the buffers that are kept. */
MUST_USE bool just_in_time(planner *p, solve_answer *together, err *e);

/* Fills units and shelves of the plan; `early` are the starts before just_in_time. */
void just_in_time_tell(planner *p, const int32_t *early, const solve_answer *together, plan *out);

#endif
