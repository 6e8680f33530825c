/* answer.h: start times back into sessions, names, days and slack.
 *
 * Private to plan/.
 */
#ifndef PLAN_ANSWER_H
#define PLAN_ANSWER_H

#include "plan/solve.h"

plan *answer_make(planner *p, const solve_answer *alone, const solve_answer *together);

#endif
