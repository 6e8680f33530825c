/* trail.c: raising bounds and taking them back. */
#include "sched/prover.h"

/* A start bound moved to the next start that is allowed; the holes are facts and need no reason. */
static int32_t round_up(const prover *p, int32_t node, int32_t value) {
    int32_t i = node >> 1;
    if (i >= p->n || p->m->domain[i] == 0)
        return value;
    if ((node & 1) == 0)
        return value < 0 ? value : model_next_start(p->m, i, value);
    int32_t s = model_last_start(p->m, i, -value);
    return s < 0 ? 1 : -s;
}

int32_t weakest(const prover *p, int32_t node, int32_t v) {
    int32_t i = node >> 1;
    if (i >= p->n || p->m->domain[i] == 0)
        return v;
    if ((node & 1) == 0)
        return v <= 0 ? v : model_last_start(p->m, i, v - 1) + 1;
    int32_t s = model_next_start(p->m, i, 1 - v);
    return s == INT32_MAX ? v : 1 - s;
}

void fail_with(prover *p, why_kind kind, int32_t a, int32_t b) {
    p->failed = (literal){-1, 0};
    p->failed_kind = kind;
    p->failed_a = a;
    p->failed_b = b;
}

bool trail_reserve(prover *p) {
    int32_t room = 2 * p->trail_room + 1024;
    trail_entry *bigger = memory_grow(p->mem, p->trail, (size_t)p->trail_n, (size_t)room, sizeof *bigger);
    if (!bigger) {
        fail_with(p, WHY_ROOT, 0, 0);
        p->out_of_memory = true;
        return false;
    }
    p->trail = bigger;
    p->trail_room = room;
    return true;
}

bool set_bound(prover *p, int32_t node, int32_t value, why_kind kind, int32_t a, int32_t b) {
    int32_t old = p->bound[node];
    if (value <= old)
        return true;
    value = round_up(p, node, value);
    if (value > -p->bound[node ^ 1]) {
        fail_with(p, kind, a, b);
        p->failed = (literal){node, 1 - p->bound[node ^ 1]};
        return false;
    }
    if (p->trail_n == p->trail_room && !trail_reserve(p))
        return false;
    p->trail[p->trail_n] = (trail_entry){node, old, value, p->latest[node], p->level, kind, a, b};
    p->latest[node] = p->trail_n++;
    p->bound[node] = value;
    return true;
}

bool new_level(prover *p) {
    if (p->level + 1 >= p->level_room) {
        int32_t room = 2 * p->level_room + 256;
        int32_t *at = memory_grow(p->mem, p->level_at, (size_t)p->level, (size_t)room, sizeof *at);
        p->level_at = at ? at : p->level_at;
        int32_t *seen = memory_grow(p->mem, p->level_seen, (size_t)p->level + 1, (size_t)room, sizeof *seen);
        p->level_seen = seen ? seen : p->level_seen;
        if (!at || !seen) {
            p->out_of_memory = true;
            return false;
        }
        p->level_room = room;
    }
    p->level_at[p->level++] = p->trail_n;
    return true;
}

void undo_to(prover *p, int32_t level) {
    if (level >= p->level)
        return;
    int32_t to = p->level_at[level];
    while (p->trail_n > to) {
        const trail_entry *e = &p->trail[--p->trail_n];
        p->bound[e->node] = e->old;
        p->latest[e->node] = e->previous;
        if (e->kind == WHY_ENERGY)
            p->notes = e->b;
        int32_t task = e->node >> 1;
        if (task < p->n)
            table_undo(p, task);
    }
    p->done = p->trail_n;
    p->level = level;
    /* What is left had been propagated to the fixpoint before the next level was begun. */
    for (int32_t k = 0; k < p->dirty_n; k++)
        p->dirty[p->dirty_task[k]] = false;
    p->dirty_n = 0;
    p->changed_from = p->changed_to = 0;
    branch_undone(p);
}
