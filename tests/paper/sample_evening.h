/* sample_evening.h: a crew and the plan of two sessions, made up in memory for sample_kit. */
#ifndef TESTS_PAPER_SAMPLE_EVENING_H
#define TESTS_PAPER_SAMPLE_EVENING_H

#include "plan/plan.h"

/* Eight people, three of them adults; person 7 does not come to session 1, person 6 leaves early. Session 2 is
 * undated. The kit must have six steps: S01 and S02 run beside each other, S03 changes hands, S04 goes on in session 2
 * with a supervisor beside. */
const plan *sample_plan(arena *a, const kit *k);

#endif
