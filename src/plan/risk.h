/* risk.h: a plan carried out many times; part of plan.h, which includes it.
 *
 * One carrying-out ("sample") draws how long each step takes, who misses which session, which sessions are called off and how late
 * promised pieces come, and then does what a leader with the plan in hand does, knowing nothing of what is still to come but how
 * long the step in hand will take:
 *   - steps begin in the order of their planned starts, each as soon as what it follows, people, places, tools and pieces allow;
 *   - when one is held up past its planned start, those after it go ahead meanwhile if they can;
 *   - a step that may not be left is begun only when it fits into the rest of the session; one that may be left goes on at the first
 *     minute at which its people are there again;
 *   - people are seated anew whenever a step begins (they may trade seats then), so that who is there suffices when any seating does.
 * Nothing is planned anew in between: a leader who plans again each evening does no worse, mostly better.
 *
 * With nothing uncertain the plan itself comes out. docs/planning.md says the model in plain words and names its sources.
 */
#ifndef PLAN_RISK_H
#define PLAN_RISK_H

#include "plan/plan.h"

enum { PLAN_RISK_SAMPLES = 20000, PLAN_RISK_MOST_SAMPLES = 10000000 };

typedef struct {
    uint32_t samples; /* 0: PLAN_RISK_SAMPLES; at most PLAN_RISK_MOST_SAMPLES */
    uint64_t seed;
    uint32_t threads;     /* 0: one for each core. The answer does not depend on it. */
    sched_cancel *cancel; /* asked: what was drawn so far counts; or NULL */
} plan_risk_options;

/* A share of the samples with its sampling error: the 95 % interval of Wilson (1927). */
typedef struct {
    uint32_t count;
    double share, low, high;
} plan_share;

typedef struct {
    uint32_t session;   /* on the line, in plan_risk.sessions */
    plan_share last;    /* the build ends in it */
    plan_share by_then; /* it has ended by its end */
    plan_share
        held_up; /* a step waited that could have gone ahead with one adult more, who supervises everything */
    bool tried;  /* what such a reserve buys was tried out, on plan_risk.tried samples */
    double earlier_min,
        earlier_error; /* mean of the finish in working minutes; standard error of the difference */
    double sooner_share, sooner_error; /* of meeting the wanted day */
} plan_risk_session;

typedef struct {
    kit_index step;
    plan_share decides; /* it lies on a chain of waiting that leads back from the last end */
    double late_min;    /* mean start after the planned one; negative: before */
} plan_risk_step;

/* A sub-assembly and the step that joins it to something else. */
typedef struct {
    kit_index sub_assembly, step;
    int32_t planned_buffer_min; /* from its being ready to the joining step's start, as planned */
    plan_share late;            /* the joining step began after its planned time since it waited for this */
    double late_min;            /* by how much, mean over all samples */
    int32_t nine_of_ten_min;    /* so much more buffer, and it is late in one of ten at most */
} plan_risk_join;

typedef struct {
    uint32_t samples, tried;
    uint64_t seed;
    const plan_session *sessions; /* the line, as the plan's, with more undated ones */
    uint32_t n_sessions;
    uint32_t unfinished; /* samples that do not end on the line */

    bool wanted;
    plan_share met; /* ended on a dated session by the wanted day; only the steps of the plan */
    double mean_min,
        mean_error; /* finish in working minutes, of those that end on the line; standard error */
    int32_t planned_min, half_min,
        nine_of_ten_min; /* finish of the plan; half and nine of ten are finished by then */

    plan_risk_session *by_session; /* by the line; n_sessions */
    plan_risk_step *steps;         /* those that decide the finish most often first */
    uint32_t n_steps;
    plan_risk_join *joins; /* the greatest late_min first */
    uint32_t n_joins;
} plan_risk;

/* Carries the plan `p` of `in` out. Fails when there is none (ERR_INPUT) or no memory for threads (ERR_RUN). The same input, plan,
 * samples and seed give the same answer. */
MUST_USE bool plan_assess_risk(arena *a, const plan_input *in, const plan *p, const plan_risk_options *how,
                               plan_risk **out, err *e);

/* The answer as docs/json.md gives it. */
void plan_write_risk_json(const plan *p, const plan_risk *r, buf *out);

#endif
