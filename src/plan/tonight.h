/* tonight.h: which steps one session cannot hold, whoever else comes; part of plan.h, which includes it. */
#ifndef PLAN_TONIGHT_H
#define PLAN_TONIGHT_H

#include "plan/plan.h"

typedef struct {
    kit_index step;
    text reason; /* "nobody who may supervise it is there" */
} plan_forbidden;

/* Of the steps that pieces and crew suffice for, those that could not begin at that session of the workshop even if nothing else was
 * done there; by build order. Failing as plan_make. */
MUST_USE bool plan_find_forbidden(arena *a, const plan_input *in, kit_index session, plan_forbidden **out,
                                  uint32_t *n, err *e);

#endif
