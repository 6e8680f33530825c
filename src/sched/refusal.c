/* refusal.c: collecting what the caller's check says. */
#include "sched/solve.h"

static bool room_for(sched_refusal *r, void **at, int32_t used, int32_t more, int32_t *room, size_t size) {
    if (used + more <= *room)
        return true;
    int32_t wanted = 2 * (used + more) + 16;
    void *bigger = memory_grow(r->mem, *at, (size_t)used, (size_t)wanted, size);
    if (!bigger) {
        r->failed = true;
        return false;
    }
    *at = bigger;
    *room = wanted;
    return true;
}

void sched_refuse_overlap(sched_refusal *r, const int32_t *tasks, size_t n) {
    void *task = r->task, *set_at = r->set_at;
    if (!room_for(r, &task, r->tasks, (int32_t)n, &r->task_room, sizeof *r->task))
        return;
    r->task = task;
    if (!room_for(r, &set_at, r->sets, 1, &r->set_room, sizeof *r->set_at))
        return;
    r->set_at = set_at;
    for (size_t k = 0; k < n; k++)
        r->task[r->tasks++] = tasks[k];
    r->set_at[r->sets++] = r->tasks;
}

void sched_refuse_bounds(sched_refusal *r, const sched_start_bound *bounds, size_t n) {
    void *bound = r->bound, *bound_at = r->bound_at;
    if (!room_for(r, &bound, r->bounds, (int32_t)n, &r->bound_room, sizeof *r->bound))
        return;
    r->bound = bound;
    if (!room_for(r, &bound_at, r->bound_sets, 1, &r->bound_set_room, sizeof *r->bound_at))
        return;
    r->bound_at = bound_at;
    for (size_t k = 0; k < n; k++)
        r->bound[r->bounds++] = bounds[k];
    r->bound_at[r->bound_sets++] = r->bounds;
}

void sched_ask_cancel(sched_cancel *c) {
    atomic_store(&c->asked, true);
}
