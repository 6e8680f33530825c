/* breed.h: new lists of tasks from those of good schedules. Private to sched/. */
#ifndef SCHED_BREED_H
#define SCHED_BREED_H

#include "sched/model.h"
#include "sched/rng.h"

typedef struct {
    int32_t makespan;
    int64_t
        late; /* sum of the starts, on the side where the list was read from its end: of minus the starts */
    uint64_t hash; /* of the starts */
    int32_t *list, *start;
} individual;

/* What making lists needs besides: a place for each task, reused from call to call. */
typedef struct {
    const model *m;
    rng *r;
    int64_t *work; /* by task: duration times share of each resource */
    int64_t *work_before;
    bool *taken;
    int32_t *key, *heap, *waiting;
    int32_t longest; /* duration */
} breeder;

MUST_USE bool breeder_open(breeder *b, const model *m, rng *r, memory *mem);

/* A list drawn at random, with a bias to what must start early. */
void breed_random(breeder *b, int32_t *list);

/* The list of a, with a stretch of it in the order that c has its tasks in. */
void breed_cross(breeder *b, const individual *a, const individual *c, int32_t *list);

/* The list of a with a stretch of it stirred: what stands there moves back by less than its length. */
void breed_stir(breeder *b, const individual *a, int32_t *list);

#endif
