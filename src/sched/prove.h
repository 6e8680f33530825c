/* prove.h: the prover's turn in a solve. Private to sched/. */
#ifndef SCHED_PROVE_H
#define SCHED_PROVE_H

#include "sched/rng.h"
#include "sched/solve.h"

/* Improves and proves until the problem is closed or the solve is over. */
void prove(solve *s, rng *r);

#endif
