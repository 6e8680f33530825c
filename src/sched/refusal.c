/* refusal.c: collecting what the caller's check says. */
#include "sched/refusal.h"

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

void sched_suggest_instead(sched_refusal *r, const int32_t *starts) {
    if (!r->suggested)
        r->suggested = memory_array(r->mem, int32_t, r->n);
    r->has_suggested = r->suggested != NULL; /* without memory for it there is none */
    for (int32_t i = 0; i < r->n && r->has_suggested; i++)
        r->suggested[i] = starts[i];
}

void sched_ask_cancel(sched_cancel *c) {
    atomic_store(&c->asked, true);
}

static bool overlap_at_once(const sched_problem *p, const int32_t *task, int32_t n, const int32_t *starts) {
    int32_t from = 0, to = INT32_MAX;
    for (int32_t k = 0; k < n; k++) {
        int32_t s = starts[task[k]], e = sched_end_of(p, task[k], s);
        from = s > from ? s : from;
        to = e < to ? e : to;
    }
    return from < to;
}

static bool all_hold(const sched_start_bound *b, int32_t n, const int32_t *starts) {
    for (int32_t k = 0; k < n; k++)
        if (b[k].at_most ? starts[b[k].task] > b[k].value : starts[b[k].task] < b[k].value)
            return false;
    return true;
}

bool refusal_applies(const sched_refusal *r, const sched_problem *p, const int32_t *starts, int32_t sets,
                     int32_t bound_sets) {
    for (int32_t k = sets; k < r->sets; k++) {
        int32_t from = k > 0 ? r->set_at[k - 1] : 0;
        if (overlap_at_once(p, r->task + from, r->set_at[k] - from, starts))
            return true;
    }
    for (int32_t k = bound_sets; k < r->bound_sets; k++) {
        int32_t from = k > 0 ? r->bound_at[k - 1] : 0;
        if (all_hold(r->bound + from, r->bound_at[k] - from, starts))
            return true;
    }
    return false;
}
