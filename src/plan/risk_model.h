/* risk_model.h: what all samples of a plan's risk share, in the form in which one is carried out quickly.
 *
 * Tasks are the plan's steps in the order of their planned starts; everything else is indices into flat arrays. Read by several threads,
 * changed by none.
 *
 * Private to plan/.
 */
#ifndef PLAN_RISK_MODEL_H
#define PLAN_RISK_MODEL_H

#include "plan/planner.h"
#include "plan/risk_draw.h"

/* The reserve supervisor's place in a set of people, above everybody of a crew of at most 63. */
#define RISK_RESERVE ((people_set)1 << 63)

typedef struct {
    uint32_t first, n; /* a part of one of the lists below */
} risk_span;

typedef struct {
    uint32_t before;        /* task */
    int32_t delay;          /* after its end */
    const int32_t *reaches; /* network_link's */
} risk_link;

typedef struct {
    uint32_t what; /* resource or part */
    int32_t amount;
} risk_need;

typedef struct {
    const plan_job *job;
    kit_index step;
    int32_t planned, release;
    risk_minutes minutes;
    risk_span before, after, needs, draws, excludes;
    people_set *seats;  /* n_teams teams of n_seats; those that only adults fill are the reserve's too */
    people_set anybody; /* who has a seat in any team */
} risk_task;

/* Pieces of a part that come later. minute[k]: when they come k days late, 0 <= k <= RISK_MOST_LATE. */
enum { RISK_MOST_LATE = 120 };
typedef struct {
    uint32_t part;
    int32_t amount;
    const int32_t *minute;
} risk_arrival;

typedef struct {
    uint32_t task, sub_assembly; /* the joining step, and what it joins */
} risk_join;

typedef struct {
    const planner *p;
    risk_task *tasks;
    uint32_t n;
    risk_link *links;
    uint32_t *followers; /* tasks */
    risk_need *needs, *draws;
    uint32_t *excluded; /* tasks */
    int32_t *capacity;  /* places and tools, then parts in no order: usable at the start */
    uint32_t n_resources;
    int32_t *usable;
    uint32_t n_parts;
    risk_arrival *arrivals;
    uint32_t n_arrivals;
    risk_join *joins;
    uint32_t n_joins;
    uint32_t *first_piece; /* by session, one more at the end: pieces of the calendar's presence */
    uint64_t *misses;      /* by person: a draw below it is a session missed */
    uint64_t cancelled, late;
    const uint64_t *late_upto; /* by days - 1: as risk_minutes.upto; the last is RISK_MOST_LATE */
} risk_model;

/* The model of the plan `made` of the planner, whose line reaches at least as far. All in `a`. */
void risk_model_make(arena *a, const planner *p, const plan *made, risk_model *out);

#endif
