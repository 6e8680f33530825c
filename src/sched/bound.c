/* bound.c: critical path and energy. */
#include "sched/bound.h"

#include <stdlib.h>

int32_t bound_critical_path(const model *m) {
    int32_t latest = 0;
    for (int32_t i = 0; i < m->n; i++) {
        int32_t end = model_least_end(m, i, m->est[i], m->lst[i]);
        latest = end > latest ? end : latest;
    }
    return latest;
}

/* At least so long after the end of each task something else still ends. */
static void find_tails(const model *m, int32_t *tail) {
    for (int32_t k = m->n - 1; k >= 0; k--) {
        int32_t i = m->order[k], longest = 0;
        for (int32_t a = m->after_at[i]; a < m->after_at[i + 1]; a++) {
            const model_arc *arc = &m->after[a];
            int32_t behind = arc->delay + m->duration[arc->task] + tail[arc->task];
            if (arc->kind == SCHED_START_START)
                behind = m->extra[i] > 0 ? 0 : behind - m->duration[i];
            longest = behind > longest ? behind : longest;
        }
        tail[i] = longest;
    }
}

/* The earliest time by which the resource has offered `energy` from `from` on. */
static int64_t offered_by(const model *m, int32_t r, int32_t from, int64_t energy) {
    for (int32_t k = m->step_at[r]; k < m->step_at[r + 1]; k++) {
        int32_t to = k + 1 < m->step_at[r + 1] ? m->step[k + 1].from : INT32_MAX;
        if (to <= from)
            continue;
        int32_t begin = m->step[k].from > from ? m->step[k].from : from;
        int64_t here = (int64_t)m->step[k].capacity * (to - begin);
        if (here >= energy)
            return begin + (energy + m->step[k].capacity - 1) / m->step[k].capacity;
        energy -= here;
    }
    return m->horizon;
}

typedef struct {
    int32_t est, tail;
    int64_t energy;
} piece;

static int latest_first(const void *x, const void *y) {
    const piece *a = x, *b = y;
    return a->est != b->est ? (a->est > b->est ? -1 : 1) : 0;
}

int32_t bound_energy(const model *m, memory *mem) {
    int32_t *tail = memory_array(mem, int32_t, m->n);
    piece *all = memory_array(mem, piece, m->n);
    int64_t best = 0;
    if (tail && all)
        find_tails(m, tail);
    for (int32_t r = 0; tail && all && r < m->resources; r++) {
        int32_t n = 0, least_tail = INT32_MAX;
        int64_t energy = 0;
        for (int32_t k = m->user_at[r]; k < m->user_at[r + 1]; k++) {
            int32_t i = m->user[k].task;
            all[n++] = (piece){m->est[i], tail[i], (int64_t)m->user[k].amount * m->duration[i]};
        }
        qsort(all, (size_t)n, sizeof *all, latest_first);
        for (int32_t k = 0; k < n; k++) {
            energy += all[k].energy;
            least_tail = all[k].tail < least_tail ? all[k].tail : least_tail;
            if (k + 1 < n && all[k + 1].est == all[k].est)
                continue;
            int64_t end = offered_by(m, r, all[k].est, energy) + least_tail;
            best = end > best ? end : best;
        }
    }
    memory_give_back(mem, tail);
    memory_give_back(mem, all);
    return best < m->horizon ? (int32_t)best : m->horizon;
}
