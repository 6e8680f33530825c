/* announced.h: what the crew was told, and what a new plan changes of it; part of plan.h, which includes it.
 *
 * A plan made with plan_input.told keeps to it: of all plans with the earliest finish it takes one in which as few steps as could be found
 * leave the session they were announced for, and then as few minutes as could be found lie between announced and planned starts. People stay with
 * the steps they were told where the rules allow it. Such a plan is not put off to be just in time: what people were told outweighs the
 * shelf.
 */
#ifndef PLAN_ANNOUNCED_H
#define PLAN_ANNOUNCED_H

#include "plan/plan.h"

/* In the order of time. */
typedef enum {
    PLAN_SHIFT_DROPPED, /* it does not go ahead now */
    PLAN_SHIFT_SESSION, /* it begins at another session */
    PLAN_SHIFT_TIME,    /* at another minute of its session */
    PLAN_SHIFT_PEOPLE,  /* other people are at it when it begins */
    PLAN_SHIFT_ADDED    /* it begins at a session that was announced without it */
} plan_shift_kind;

typedef struct plan_shift {
    plan_shift_kind kind;
    kit_index step;
    date_moment told, now; /* its starts; told is not valid for ADDED, now not for DROPPED */
    bool now_dated;
    text why; /* a sentence part: "Otter is away"; empty when nothing but the others' moves explains it */
} plan_shift;

/* What the plan `p` of `in` changes of in->told, by announced start; steps that were done meanwhile are no change. */
void plan_find_shifts(arena *a, const plan_input *in, const plan *p, plan_shift **out, uint32_t *n);

/* "dropped", "session", "time", "people", "added" */
const char *plan_shift_word(plan_shift_kind k);

#endif
