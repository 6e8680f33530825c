/* stay.h: a new plan keeps to what was announced as far as its finish allows.
 *
 * Private to plan/.
 */
#ifndef PLAN_STAY_H
#define PLAN_STAY_H

#include "plan/solve.h"

/* Lets the naming know who was told to be where; and gives the search the announced starts to begin with, when every job has one and
 * the caller knows nothing better. */
void stay_begin(planner *p);

/* Puts new starts into `together` (an array of their own) that are nearer to what was announced, the finish kept. */
MUST_USE bool stay_close(planner *p, solve_answer *together, err *e);

#endif
