/* watches.c: where the watches of learned clauses hang.
 *
 * A literal (y, v) becomes false when node y ^ 1 reaches 1 - v: that is where it "falls". Its watch hangs on that node, in one of at
 * most 64 buckets by that value, so that a rising bound visits only the buckets it passes. A bucket is a run of one array, read in
 * order; most visits end there, at the value or at the clause's other watched literal, without a look at the clause.
 *
 * A full run moves to one twice as long, and the run it leaves is used again. Room for many moves is made when a clause is added, so
 * that propagation allocates only should all of it be used up between two conflicts. */
#include "sched/prover.h"

#define LEAST_ROOM 4U
#define AHEAD 4096U /* watches of free room kept when a clause is added */

bool watches_open(prover *p) {
    p->bucket_at = memory_array(p->mem, int32_t, p->nodes + 1);
    p->bucket_base = memory_array(p->mem, int32_t, p->nodes);
    p->bucket_shift = memory_array(p->mem, int32_t, p->nodes);
    p->bucket_used = memory_array(p->mem, uint64_t, p->nodes);
    if (!p->bucket_at || !p->bucket_base || !p->bucket_shift || !p->bucket_used)
        return false;
    for (int32_t x = 0; x < p->nodes; x++) {
        p->bucket_base[x] = p->bound[x];
        int64_t range =
            -(int64_t)p->bound[x ^ 1] - p->bound[x] + 1; /* one more: a value that is never reached */
        while ((range >> p->bucket_shift[x]) >= WATCH_BUCKETS)
            p->bucket_shift[x]++;
        p->bucket_at[x + 1] = p->bucket_at[x] + (int32_t)(range >> p->bucket_shift[x]) + 1;
    }
    p->bucket = memory_array(p->mem, watch_bucket, p->bucket_at[p->nodes]);
    p->watch_room = 2 * AHEAD;
    p->watch = memory_array(p->mem, watch, p->watch_room);
    p->watch_top = LEAST_ROOM; /* 0 means none in the lists of free runs */
    return p->bucket && p->watch;
}

int32_t watch_bucket_of(const prover *p, int32_t node, int32_t value) {
    int32_t k = (value - p->bucket_base[node]) >> p->bucket_shift[node];
    int32_t last = p->bucket_at[node + 1] - p->bucket_at[node] - 1;
    return k < 0 ? 0 : k > last ? last : k;
}

static bool grow(prover *p, uint32_t wanted) {
    uint32_t room = 2 * p->watch_room + wanted;
    watch *bigger = room >> 30 ? NULL : memory_grow(p->mem, p->watch, p->watch_top, room, sizeof *bigger);
    if (!bigger) {
        p->out_of_memory = true;
        return false;
    }
    p->watch = bigger;
    p->watch_room = room;
    return true;
}

bool watches_reserve(prover *p) {
    return p->watch_top + AHEAD <= p->watch_room || grow(p, AHEAD);
}

void watches_clear(prover *p) {
    for (int32_t k = 0; k < p->bucket_at[p->nodes]; k++)
        p->bucket[k] = (watch_bucket){0};
    for (int32_t x = 0; x < p->nodes; x++)
        p->bucket_used[x] = 0;
    for (int32_t k = 0; k < WATCH_SIZES; k++)
        p->free_run[k] = 0;
    p->watch_top = LEAST_ROOM;
}

/* Runs of `room` watches are kept in a list of their own when free, linked through `at` of their first. */
static uint32_t *free_list(prover *p, uint32_t room) {
    return &p->free_run[__builtin_ctz(room / LEAST_ROOM)];
}

static bool move_to_longer_run(prover *p, watch_bucket *b) {
    uint32_t room = b->room ? 2 * b->room : LEAST_ROOM, *list = free_list(p, room), to = *list;
    if (to) {
        *list = p->watch[to].at;
    } else {
        if (p->watch_top + room > p->watch_room && !grow(p, room))
            return false;
        to = p->watch_top;
        p->watch_top += room;
    }
    for (uint32_t k = 0; k < b->n; k++)
        p->watch[to + k] = p->watch[b->at + k];
    if (b->room) {
        uint32_t *old = free_list(p, b->room);
        p->watch[b->at].at = *old;
        *old = b->at;
    }
    b->at = to;
    b->room = room;
    return true;
}

void watch_hang(prover *p, uint32_t at, literal mine, literal other) {
    int32_t node = mine.node ^ 1, falls_at = 1 - mine.at_least, k = watch_bucket_of(p, node, falls_at);
    watch_bucket *b = &p->bucket[p->bucket_at[node] + k];
    if (b->n == b->room && !move_to_longer_run(p, b))
        return; /* without memory the solve winds up: nothing is decided without this watch */
    p->watch[b->at + b->n++] = (watch){other, falls_at, at};
    p->bucket_used[node] |= (uint64_t)1 << k;
}
