/* evening.h: one session of a plan as its run sheet wants it; part of plan.h, which includes it. */
#ifndef PLAN_EVENING_H
#define PLAN_EVENING_H

#include "plan/plan.h"

/* What a group does at one step without a change of people, in the order of beginning. */
typedef struct {
    const plan_step *step;
    const plan_stretch *stretch;
    bool begins;      /* the step begins here */
    bool goes_on;     /* it was left at an earlier session and goes on */
    bool change_over; /* other people took it over within the session */
    bool ends;        /* the step is done at the end */
    bool left;        /* the session ends before the step does */
} plan_duty;

/* Somebody of the crew at the session. */
typedef struct {
    kit_index person;
    bool comes;
    int32_t from_min, until_min; /* is there, in minutes of the line */
    int32_t hands_on_min;        /* at work on steps */
    int32_t beside_min;          /* beside the work of others */
} plan_presence;

typedef struct {
    uint32_t session; /* in plan.sessions */
    plan_duty *turns;
    uint32_t n_turns;
    plan_presence *people; /* the whole crew, in its order */
    uint32_t n_people;
} plan_evening;

/* The session at that place of plan.sessions, all in `a`. */
void plan_evening_of(arena *a, const plan *p, uint32_t session, plan_evening *out);

/* The place in plan.sessions of the session with that number; UINT32_MAX when the plan has none. */
uint32_t plan_find_session(const plan *p, int64_t number);

/* The session as docs/json.md gives it. */
void plan_write_evening_json(const plan *p, const plan_evening *e, buf *out);

#endif
