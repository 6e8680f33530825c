/* curve.h: the finish against the size of the crew; part of plan.h, which includes it.
 *
 * Crews of 1 to 12 people with 1 to 4 adults among them, drawn up from the workshop's own people: first those who supervise and know what
 * the others chosen do not, then more like them. Everybody is taken to come to all of every session, so that the curve tells what
 * people buy and not when they come. A crew holds every smaller one that has no more adults and no more learners, so that it never does
 * worse: each point has the bounds of the larger crews and the plans of the smaller ones. (But two people, one adult and one learner,
 * may not work at all.)
 */
#ifndef PLAN_CURVE_H
#define PLAN_CURVE_H

#include "plan/plan.h"

enum { PLAN_CURVE_CREW = 12, PLAN_CURVE_ADULTS = 4 };

typedef enum {
    PLAN_CURVE_PROVEN, /* no plan of this crew ends before finish_min */
    PLAN_CURVE_RANGE,  /* the best plan ends between bound_min and finish_min */
    PLAN_CURVE_OPEN,   /* stopped before a plan was found; not before bound_min */
    PLAN_CURVE_CANNOT  /* this crew cannot do all steps that the pieces suffice for: `reason` */
} plan_curve_status;

typedef struct {
    uint32_t crew, adults; /* crew: all, adults included */
    plan_curve_status status;
    int32_t finish_min, bound_min; /* sub-assemblies in parallel, working minutes; -1 where there is none */
    int32_t alone_min;             /* one step after another, a plan found quickly; -1: none */
    uint32_t sessions, alone_sessions;
    text reason; /* CANNOT: a sentence */
} plan_curve_point;

typedef struct {
    plan_curve_point at[PLAN_CURVE_ADULTS]
                       [PLAN_CURVE_CREW]; /* [adults - 1][crew - 1]; crew below adults: CANNOT */
    text adults[PLAN_CURVE_ADULTS];       /* in the order in which they are taken: names */
    text learners[PLAN_CURVE_CREW];
    uint32_t n_plans; /* made for the answer */
} plan_curve;

/* Makes the curve. in->effort is for each plan; asking in->cancel leaves the points not reached as ranges or open. `told` (or NULL) is
 * called with in->user after each point: how many of them have their answer. Failing as plan_make; ERR_INPUT when the crew has no
 * adult. */
MUST_USE bool plan_make_curve(arena *a, const plan_input *in,
                              void (*told)(void *user, uint32_t done, uint32_t all), plan_curve **out,
                              err *e);

/* The curve as docs/json.md gives it. */
void plan_write_curve_json(const plan_curve *c, buf *out);

#endif
