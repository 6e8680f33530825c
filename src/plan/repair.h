/* repair.h: from a schedule that cannot be named to one near it that can.
 *
 * Private to plan/.
 */
#ifndef PLAN_REPAIR_H
#define PLAN_REPAIR_H

#include "plan/planner.h"

/* Starts by job into `out`, of a schedule in which each job has its people all along, set up in the order of `starts` (a schedule
 * that keeps every rule but naming). false: some job finds no place on the line. Scratch memory in `a`. */
bool repair_schedule(arena *a, const planner *p, const int32_t *starts, int32_t *out);

#endif
