/* model.h: the problem compiled for solving. Private to sched/.
 *
 * Built once per solve, then only read, by several threads. Everything is flat arrays indexed by task; lists of lists
 * are one array with n + 1 offsets. The bounds (est, lst) already hold what relations, windows, cuts, fixed starts and
 * deadlines imply.
 *
 * Capacity is kept in lanes: each resource owns a few bits of a 64-bit word, as many as its greatest capacity needs and
 * one guard bit above them. "Does the demand fit below the free capacity" is then, for all resources of a word at
 * once, ((free | guard) - demand) & guard == guard. Most problems need one word.
 */
#ifndef SCHED_MODEL_H
#define SCHED_MODEL_H

#include "sched/memory.h"
#include "sched/problem.h"

typedef struct {
    int32_t task, delay, map; /* the other task; map SCHED_NONE: none */
    sched_relation_kind kind;
} model_arc;

typedef struct {
    int32_t first, last;
} model_interval;

typedef struct {
    int32_t resource, amount;
} model_demand;

typedef struct {
    int32_t from, capacity;
} model_step;

typedef struct {
    int32_t task, amount;
} model_user;

typedef struct {
    int32_t time;
    int64_t stock; /* initial and arrived up to this time */
} model_stock_step;

typedef struct {
    int32_t n;       /* tasks */
    int32_t horizon; /* no task ends later */
    const sched_problem *problem;
    const sched_refusal *refused; /* sets found while solving; NULL: none */

    /* tasks */
    int32_t *duration;
    int32_t *extra;     /* > 0: each cut inside costs this (the end then depends on the start) */
    int32_t *est, *lst; /* earliest and latest start at the root */
    int32_t *domain;    /* which of the lists of allowed starts; 0: everything */
    int32_t *order;     /* a topological order */

    int32_t *after_at, *before_at; /* n + 1 offsets */
    model_arc *after, *before;     /* arcs to successors; arcs to predecessors */

    int32_t domains;
    int32_t *interval_at; /* domains + 1 */
    model_interval *interval;

    int32_t cut_count;
    int32_t *cut; /* ascending, each once */

    /* resources: those of the problem, then one for each pair and set that may not all overlap: a set of k tasks is a
     * resource of capacity k - 1 of which each needs 1 */
    int32_t resources, own_resources;
    int32_t *peak;      /* greatest capacity */
    int32_t *step_at;   /* resources + 1 */
    model_step *step;   /* from 0 on, ascending */
    int32_t *user_at;   /* resources + 1 */
    model_user *user;   /* tasks of duration > 0 with a demand */
    int32_t *demand_at; /* n + 1 */
    model_demand *demand;

    /* lanes */
    int32_t words;
    int32_t *lane_word, *lane_shift; /* by resource */
    uint64_t *guard;                 /* by word */
    uint64_t *need;                  /* n * words */
    int32_t lane_steps;
    int32_t *lane_from;  /* ascending from 0 */
    uint64_t *lane_free; /* lane_steps * words: capacities from lane_from on */

    /* reservoirs */
    int32_t reservoirs;
    int32_t *stock_at; /* reservoirs + 1 */
    model_stock_step *stock;
    int32_t *draw_at, *give_at;    /* n + 1 */
    model_demand *draw, *give;     /* resource = reservoir */
    int32_t *drawer_at, *giver_at; /* reservoirs + 1 */
    model_user *drawer, *giver;

    /* Found while compiling: no schedule exists. */
    bool infeasible;
    int32_t *reason_task;
    int32_t reason_tasks, reason_resource; /* reason_resource SCHED_NONE: no resource is to blame */
    char reason[192];
} model;

/* Compiles a problem without faults, with the sets of tasks a caller's check refused. false: no memory. */
MUST_USE bool model_build(model *m, const sched_problem *p, const sched_refusal *refused, memory *mem);

/* Latest starts for everything to end by `horizon`, by relations, windows, deadlines and fixed starts; -1: none. pulled_by (or
 * NULL): the task that set it. */
void model_latest_starts(const model *m, int32_t horizon, int32_t *lst, int32_t *pulled_by);

/* A horizon within which every feasible problem without deadlines has a schedule. */
int64_t model_long_enough(const sched_problem *p);

/* Faults that only the whole problem shows (cycles, horizon), for sched_validate. Appends to out as sched_validate
 * does; returns the number found. */
size_t model_find_faults(const sched_problem *p, sched_fault *out, size_t room);

/* ---- calendar (calendar.c) --------------------------------------------------------------------------------- */

/* The end of task i started at s; more than the horizon when it never ends. */
int32_t model_end(const model *m, int32_t i, int32_t s);

/* The first cut after t, or INT32_MAX. */
int32_t model_next_cut(const model *m, int32_t t);

/* The first allowed start >= t, or INT32_MAX; the last one <= t, or -1. */
int32_t model_next_start(const model *m, int32_t i, int32_t t);
int32_t model_last_start(const model *m, int32_t i, int32_t t);

/* The least end of a start in [a, b], a <= b. */
int32_t model_least_end(const model *m, int32_t i, int32_t a, int32_t b);

/* The greatest start <= u (allowed or not) with an end <= t; -1 when none. */
int32_t model_start_ending_by(const model *m, int32_t i, int32_t t, int32_t u);

/* f(t) of a map, and the greatest x with f(x) <= t (-1: none). */
int32_t model_map(const model *m, int32_t map, int32_t t);
int32_t model_map_back(const model *m, int32_t map, int32_t t);

#endif
