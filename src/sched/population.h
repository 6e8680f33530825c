/* population.h: a population of schedules that improve by crossing. Private to sched/. */
#ifndef SCHED_POPULATION_H
#define SCHED_POPULATION_H

#include "sched/rng.h"
#include "sched/solve.h"

/* Generates up to `schedules` schedules (a pass of the generator counts as one) and offers what is better than the best.
 * Ends early when the solve is over. */
void population_run(solve *s, rng *r, uint64_t schedules);

#endif
