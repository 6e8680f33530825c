/* reason.h: which tasks and resources leave no schedule. Private to sched/. */
#ifndef SCHED_REASON_H
#define SCHED_REASON_H

#include "sched/solve.h"

/* For a solve that has proved that there is no schedule: fills s->reason. What is left out of it could be left out of the
 * problem, and there would still be none. `run` solves a problem that is set up. Uses up the memory of the model. */
void reason_find(solve *s, void (*run)(solve *s));

#endif
