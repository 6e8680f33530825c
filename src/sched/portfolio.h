/* portfolio.h: several threads on the first stage. Private to sched/. */
#ifndef SCHED_PORTFOLIO_H
#define SCHED_PORTFOLIO_H

#include <pthread.h>

#include "sched/solve.h"

/* What the threads of one solve share. `version` rises with every change, so that the others look only when there is something
 * to see; everything else is behind the lock. */
struct portfolio {
    pthread_mutex_t lock;
    atomic_uint version;
    atomic_bool over; /* closed by one of them, or the first thread has come to its end */
    int32_t *best;
    int32_t makespan, lower_bound;
    bool infeasible;
};

/* Runs `stage` in s->options.threads threads: in this one on `s`, in the others on solves of their own with other seeds and
 * styles. Best, bound, counters and a proof of infeasibility come back in `s`. Returns when this thread's stage has ended. */
void portfolio_run(solve *s, void (*stage)(solve *s));

/* Takes over what the others have found since the last look, and tells them what `s` has. */
void portfolio_meet(solve *s);

#endif
