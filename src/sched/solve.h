/* solve.h: what the techniques of one solve share: limits, the best schedule, the bound. Private to sched/.
 *
 * The best schedule only gets shorter and the lower bound only rises. Everything that changes them goes through
 * solve_offer and solve_raise_bound, so that there is one place where a schedule is checked and progress told.
 */
#ifndef SCHED_SOLVE_H
#define SCHED_SOLVE_H

#include "sched/model.h"
#include "sched/refusal.h"

typedef struct portfolio portfolio;

/* Tasks and resources that cannot be had together, and a sentence. */
typedef struct {
    int32_t *task, *resource;
    int32_t tasks, resources;
    char text[192];
} solve_reason;

typedef struct {
    const sched_problem *problem;
    sched_options options;
    portfolio *portfolio; /* the other threads; NULL: none */
    unsigned met_version;
    int32_t met_makespan, met_bound;
    int32_t style; /* 0: as with one thread; others vary the search */
    uint64_t threads_peak;
    memory keep; /* for the whole solve */
    memory mem;  /* for the model and what is built on it; made anew when a refusal changes the model */
    model m;
    int32_t known_sets, known_bound_sets; /* refusals the model knows */

    int32_t *best; /* starts, valid when makespan != SCHED_NONE */
    int32_t makespan, lower_bound;

    int64_t *value, *value_bound; /* of each objective in the best schedule; proven bounds, INT64_MIN: none */
    int32_t closed_objectives;    /* so many are proven */
    bool second_stage;
    bool out_of_memory;

    double began;
    double next_progress;
    uint64_t effort, schedules, conflicts;
    bool stopped;            /* a limit was reached or cancel asked */
    bool broken;             /* the checker refused a schedule, or the caller's check gave no reason */
    bool infeasible;         /* proven */
    struct carried *carried; /* learned before a refusal; carry.h */
    bool first_only;         /* any schedule will do */
    solve_reason reason;     /* of `infeasible`, filled at the end */
    sched_fault fault;       /* of `broken` */
    sched_refusal *refusal;
} solve;

/* Sets up limits and memory of a solve whose problem and options are filled in. false: no memory. */
bool solve_open(solve *s, sched_refusal *refusal);

/* True when it is time to end: limits, cancel, or proven. Cheap enough to ask at every conflict. */
bool solve_is_over(solve *s);

/* A refusal has come that the model does not know: wind up, it will be built anew. */
bool solve_is_stale(const solve *s);

/* Adds to the counted effort, in elementary steps. */
void solve_spend(solve *s, uint64_t steps);

/* A schedule somebody found. Takes it when it is better than the best, right, and not refused; true if taken. */
bool solve_offer(solve *s, const int32_t *starts);

/* The same in the second stage: not longer, no objective before `row` worse, that of `row` better. */
bool solve_offer_value(solve *s, int32_t row, const int32_t *starts);

/* No schedule ends before `bound`. */
void solve_raise_bound(solve *s, int32_t bound);

/* Seconds on the clock of the options since the start; ask from the thread that solves. solve_open has started it. */
void solve_start_clock(solve *s);
double solve_seconds(const solve *s);

#endif
