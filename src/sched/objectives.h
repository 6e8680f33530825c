/* objectives.h: the second stage. Private to sched/. */
#ifndef SCHED_OBJECTIVES_H
#define SCHED_OBJECTIVES_H

#include "sched/solve.h"

/* With the makespan kept, minimises the objectives in order, each without spoiling those before. Ends early like prove(). */
void improve_objectives(solve *s);

#endif
