/* plan_rules.h: judges a plan by the rules of a build, minute by minute.
 *
 * Written from docs/planning.md and shares no code with src/plan: it looks at every working minute of a plan, who is
 * in the room by the attendance table, what is running, and whether each rule holds. Slow and plain on purpose.
 */
#ifndef TESTS_PLAN_RULES_H
#define TESTS_PLAN_RULES_H

#include "plan/plan.h"

typedef enum {
    RULE_NONE,
    RULE_SESSIONS,    /* sessions laid end to end as the workshop says */
    RULE_STEPS_ONCE,  /* each step planned, done, stopped, waiting or impossible: exactly one of these */
    RULE_STRETCHES,   /* stretches of a step follow each other without gap, each in its session */
    RULE_DURATION,    /* minutes of work and of taking up again */
    RULE_PAUSE,       /* left only when it may be */
    RULE_CHANGE_OVER, /* people change only at a session's end or a change-over point */
    RULE_ORDER,       /* after what it follows, and its delay */
    RULE_TEAM,        /* so many people, each once */
    RULE_SUPERVISOR,  /* an adult who may, beside the work */
    RULE_ADULT_DOES,  /* only adults, one of them may supervise it */
    RULE_SKILL,
    RULE_PRESENT,    /* there at that minute */
    RULE_TWO_PLACES, /* at one place at a time */
    RULE_ADULTS_IN_ROOM,
    RULE_ALONE_WITH_LEARNER,
    RULE_PLACE, /* workplaces and zones */
    RULE_TOOL,
    RULE_NOT_BESIDE,
    RULE_PARTS,   /* pieces there when the step starts */
    RULE_STOPPED, /* stopped and waiting steps, and the missing numbers */
    RULE_CLOCK,   /* the wall clock of starts and ends */
    RULE_FINISH,  /* finish, bound, status */
    RULE_SLACK
} plan_rule;

typedef struct {
    plan_rule rule;
    char text[256];
    bool late; /* for callers: it was the plan with all steps at their late starts */
} broken_rule;

/* true when every rule holds; else the first broken one. */
bool plan_rules_hold(const plan *p, const plan_input *in, broken_rule *why);

/* A copy of `p` in which each step starts at starts[k] (k counts p->steps), with the people it has, laid into the sessions
 * minute by minute. false when a step does not fit so. Slack is left 0. */
bool plan_rules_shift(arena *a, const plan *p, const int32_t *starts, plan *out);

#endif
