/* risk_run.h: one carrying-out of a plan.
 *
 * A run is the working memory of one thread and the sums of its samples; the sums of several runs are added. Sums are whole numbers, so
 * the order of adding does not matter.
 *
 * Private to plan/.
 */
#ifndef PLAN_RISK_RUN_H
#define PLAN_RISK_RUN_H

#include "plan/risk_model.h"

/* Lateness of joins is counted up to so many minutes; more is counted as the last. */
enum { RISK_LATE_MINUTES = 1024 };

typedef struct {
    uint64_t *decides;   /* by task */
    int64_t *late;       /* by task: starts after the planned ones */
    uint64_t *held_up;   /* by session */
    uint64_t *join_late; /* by join and minute, RISK_LATE_MINUTES of each; minute 0 is not counted */
    int64_t *join_min;   /* by join */
} risk_sums;

typedef struct risk_run risk_run;

/* In `a`, which must be the thread's own. */
risk_run *risk_run_open(arena *a, const risk_model *m);

/* Carries out the sample of this key. A supervisor in reserve comes to the session `reserve` (UINT32_MAX: to none). The finish in working
 * minutes, -1 when it does not end on the line. */
int32_t risk_run_sample(risk_run *r, uint64_t key, uint32_t reserve);

const risk_sums *risk_run_sums(const risk_run *r);

#endif
