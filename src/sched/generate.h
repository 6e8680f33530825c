/* generate.h: serial schedule generation: each task of a list as early as it fits. Private to sched/.
 *
 * Honours every rule of a problem except a caller's refusals of bounds. The free capacity is kept by time unit in the
 * model's lanes and grows with the schedule, so that a long horizon costs nothing until it is used.
 */
#ifndef SCHED_GENERATE_H
#define SCHED_GENERATE_H

#include "sched/model.h"

typedef struct {
    int32_t time;
    int64_t change;
} stock_event;

typedef struct {
    const model *m;
    memory *mem;
    uint64_t *free;  /* time * words */
    int32_t ready;   /* free[] is filled up to this time */
    int32_t room;    /* times allocated */
    int32_t touched; /* no task reaches further */
    int32_t *start, *end;
    int32_t *waiting; /* predecessors not yet placed */
    bool *placed;
    stock_event *stock; /* by reservoir, room for arrivals, draws and gives; ascending */
    int32_t *stock_at;  /* reservoirs + 1: places */
    int32_t *stock_n;
    const bool
        *kept; /* NULL, or by task: no cut may lie inside it; for models whose allowed starts do not say so */
    bool in_order;       /* none starts before the one in front of it in the list */
    int32_t last_start;  /* of the task placed last */
    int32_t failed_task; /* after a failure: which task found no start */
} generator;

MUST_USE bool generator_open(generator *g, const model *m, memory *mem);

/* Places all tasks in the order given (each after its predecessors). Returns the makespan, or SCHED_NONE when a task
 * finds no start (failed_task) or there is no memory (g->mem->refused). Starts are in g->start. O(n) placements. */
int32_t generate_serial(generator *g, const int32_t *order);

/* Its parts, for simulation. generator_clear empties the schedule; generator_change_capacity then overrides a capacity in [from, to)
 * until the next clear; generate_in_order places all tasks. */
bool generator_clear(generator *g);
void generator_change_capacity(generator *g, int32_t resource, int32_t from, int32_t to, int32_t capacity);
int32_t generate_in_order(generator *g, const int32_t *order);

/* Tasks sorted so that each stands after its predecessors and, where free, by smallest key. O(n log n). `heap` and
 * `waiting` have room for n. */
void order_by_key(const model *m, const int32_t *key, int32_t *order, int32_t *heap, int32_t *waiting);

#endif
