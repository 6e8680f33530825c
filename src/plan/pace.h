/* pace.h: how long this crew takes, learned from what it has done; part of plan.h, which includes it.
 *
 * Each step done tells a ratio: its real minutes over the kit's likely ones. A few steps tell little, so their mean is drawn towards what
 * was thought before ("shrinkage"): first the whole crew's towards the workshop's beginners' factor, then each kind of work's towards the
 * crew's. Means are of logarithms, so that twice and half as long weigh alike:
 *
 *     crew = Z m + (1 - Z) ln(beginners' factor),   m the mean of ln(minutes / likely) over all n steps done, Z = n / (n + K)
 *     work = Z m + (1 - Z) crew,                    the same over the steps of that kind of work
 *
 * Z is Buehlmann's credibility (Buehlmann, "Experience rating and credibility", ASTIN Bulletin 4, 1967); K is the variance within
 * over the variance between. K = PLAN_PACE_STEPS for both: after so many steps what was seen weighs as much as what was thought.
 * Common practice, no source. One ratio counts as at least a quarter and at most four, so that one forgotten clock does not
 * decide.
 */
#ifndef PLAN_PACE_H
#define PLAN_PACE_H

#include "plan/plan.h"

enum { PLAN_PACE_STEPS = 4, PLAN_PACE_MOST = 4 };

typedef struct {
    kit_index step;
    int64_t minutes; /* that it really took, >= 1 */
} plan_worked;

typedef struct {
    kit_index work;       /* KIT_NONE: steps without a kind of work */
    uint32_t steps;       /* done, of that kind */
    int64_t percent;      /* this crew's minutes for a hundred of the kit's */
    int64_t seen_percent; /* the mean of the ratios alone; 0 without steps */
} plan_pace;

typedef struct plan_paces {
    plan_pace crew;   /* all steps; its work means nothing */
    plan_pace *works; /* those of which a step was done, in the order of the kit's table */
    uint32_t n_works;
    int64_t *percent_of_step;
} plan_paces;

/* Steps with less than a minute are left out. All in `a`. */
void plan_learn_pace(arena *a, const kit *k, const kit_workshop *w, const plan_worked *done, uint32_t n,
                     plan_paces *out);

#endif
