/* construct.h: a first schedule. Private to sched/. */
#ifndef SCHED_CONSTRUCT_H
#define SCHED_CONSTRUCT_H

#include "sched/solve.h"

/* Tries a few priority rules with the serial generator and repairs the list where a deadline is missed. Offers what it
 * finds. */
void construct(solve *s);

#endif
