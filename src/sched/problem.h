/* problem.h: a problem as its caller wrote it down. Private to sched/.
 *
 * Plain growing lists in the order of the calls; nothing is derived here, so that the checker can judge a schedule by
 * the caller's own words, and the solver compiles what it needs into a model (model.h).
 */
#ifndef SCHED_PROBLEM_H
#define SCHED_PROBLEM_H

#include "sched/sched.h"

typedef struct {
    int32_t duration, release, deadline; /* deadline: latest end, SCHED_TIME_MAX when none */
    int32_t fixed;                       /* SCHED_NONE when free */
    sched_crossing crossing;
    int32_t extra;
} problem_task;

typedef struct {
    int32_t task, first, last;
} problem_window;

typedef struct {
    int32_t before, after, delay, map;
    sched_relation_kind kind;
} problem_relation;

typedef struct {
    int32_t resource, from, to, capacity;
} problem_change;

/* A demand (owner: a resource), a draw or a give (owner: a reservoir). */
typedef struct {
    int32_t task, owner, amount;
} problem_amount;

typedef struct {
    int32_t task[2];
} problem_pair;

typedef struct {
    int32_t reservoir, time, amount;
} problem_arrival;

/* A run of items in another list. */
typedef struct {
    size_t at, n;
} problem_span;

typedef struct {
    int32_t objective, task;
    problem_span pieces;
} problem_cost;

#define PROBLEM_LIST(type)                                                                                   \
    struct {                                                                                                 \
        type *at;                                                                                            \
        size_t n, room;                                                                                      \
    }

struct sched_problem {
    PROBLEM_LIST(problem_task) tasks;
    PROBLEM_LIST(problem_window) windows;
    PROBLEM_LIST(int32_t) cuts;
    PROBLEM_LIST(int32_t) capacities; /* by resource */
    PROBLEM_LIST(problem_change) changes;
    PROBLEM_LIST(problem_amount) demands;
    PROBLEM_LIST(sched_map_piece) map_pieces;
    PROBLEM_LIST(problem_span) maps;
    PROBLEM_LIST(problem_relation) relations;
    PROBLEM_LIST(problem_pair) pairs;
    PROBLEM_LIST(int32_t) set_members;
    PROBLEM_LIST(problem_span) sets;  /* of set_members: not all at one instant */
    PROBLEM_LIST(int32_t) reservoirs; /* initial stock */
    PROBLEM_LIST(problem_arrival) arrivals;
    PROBLEM_LIST(problem_amount) draws;
    PROBLEM_LIST(problem_amount) gives;
    PROBLEM_LIST(sched_cost_piece) cost_pieces;
    PROBLEM_LIST(problem_cost) costs;
    PROBLEM_LIST(sched_fault) faults; /* found while building */
    int32_t objectives;
    int32_t horizon; /* SCHED_NONE when not given */
    int32_t unit;    /* times are told to people that many times as large (scale.h) */
    bool out_of_memory;
};

/* The amounts that count: of several for one task and owner the last. Sorted by task, then owner; those of 0 are
 * left out. `out` has room for list_n items and gets *n. false: no memory. */
bool problem_last_amounts(const problem_amount *list, size_t list_n, problem_amount *out, size_t *n);

/* Fills a fault; text by printf. */
void fault_set(sched_fault *f, sched_fault_code code, int32_t task, int32_t other, int32_t resource,
               int64_t value, const char *format, ...) PRINTF_LIKE(7, 8);

#endif
