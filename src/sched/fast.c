/* fast.c: see fast.h. Forward-backward improvement: Valls, Ballestin, Quintanilla, "Justification and RCPSP: a technique
 * that pays", 2005. */
#include "sched/fast.h"

#include <string.h>

#define ALWAYS_INLINE inline __attribute__((always_inline))

bool fast_suits(const model *m) {
    if (m->reservoirs > 0)
        return false;
    for (int32_t i = 0; i < m->n; i++) {
        if (m->extra[i] > 0)
            return false;
        for (int32_t k = m->after_at[i]; k < m->after_at[i + 1]; k++)
            if (m->after[k].map != SCHED_NONE)
                return false;
    }
    return true;
}

bool fast_turns_round(const model *m) {
    if (!fast_suits(m) || m->lane_steps > 1)
        return false;
    for (int32_t i = 0; i < m->n; i++) {
        const problem_task *task = &m->problem->tasks.at[i];
        if (m->domain[i] || task->release > 0 || task->deadline < SCHED_TIME_MAX || task->fixed != SCHED_NONE)
            return false;
        for (int32_t k = m->after_at[i]; k < m->after_at[i + 1]; k++)
            if (m->after[k].kind != SCHED_END_START)
                return false;
    }
    return true;
}

static void copy_arcs(const model *m, const int32_t *at, const model_arc *from, fast_arc *to, bool forward) {
    for (int32_t i = 0; i < m->n; i++)
        for (int32_t k = at[i]; k < at[i + 1]; k++) {
            int32_t first = forward ? i : from[k].task;
            int32_t length = from[k].kind == SCHED_END_START ? m->duration[first] : 0;
            to[k] = (fast_arc){from[k].task, from[k].delay + length};
        }
}

bool fast_open(fast *f, const model *m, int32_t limit, memory *mem) {
    size_t w = (size_t)m->words, arcs = (size_t)m->after_at[m->n];
    *f = (fast){.m = m, .limit = limit, .after_at = m->after_at, .before_at = m->before_at};
    f->fresh = memory_array(mem, uint64_t, ((size_t)limit + 1) * w);
    f->free = memory_array(mem, uint64_t, ((size_t)limit + 1) * w);
    f->after = memory_array(mem, fast_arc, arcs);
    f->before = memory_array(mem, fast_arc, arcs);
    f->bin = memory_array(mem, int32_t, (size_t)limit + 2);
    f->sorted = memory_array(mem, int32_t, m->n);
    f->end = memory_array(mem, int32_t, m->n);
    if (!f->fresh || !f->free || !f->after || !f->before || !f->bin || !f->sorted || !f->end)
        return false;
    copy_arcs(m, m->after_at, m->after, f->after, true);
    copy_arcs(m, m->before_at, m->before, f->before, false);
    for (int32_t t = 0, step = 0; t <= limit; t++) {
        while (step + 1 < m->lane_steps && m->lane_from[step + 1] <= t)
            step++;
        memcpy(f->fresh + (size_t)t * w, m->lane_free + (size_t)step * w, w * sizeof *f->fresh);
    }
    memcpy(f->free, f->fresh, ((size_t)limit + 1) * w * sizeof *f->free);
    return true;
}

static ALWAYS_INLINE bool fits(const uint64_t *free, const uint64_t *need, const uint64_t *guard, int words) {
    for (int w = 0; w < words; w++)
        if ((((free[w] | guard[w]) - need[w]) & guard[w]) != guard[w])
            return false;
    return true;
}

static ALWAYS_INLINE void occupy(fast *f, const uint64_t *need, int32_t s, int32_t e, int words) {
    uint64_t *free = f->free + (size_t)s * (size_t)words;
    for (int32_t t = s; t < e; t++, free += words)
        for (int w = 0; w < words; w++)
            free[w] -= need[w];
}

/* Empties the calendar of the last schedule; the next one will lie in [from, to). */
static void clear(fast *f, int32_t from, int32_t to) {
    size_t w = (size_t)f->m->words, at = (size_t)f->touched_from * w;
    if (f->touched_from < f->touched_to)
        memcpy(f->free + at, f->fresh + at, (size_t)(f->touched_to - f->touched_from) * w * sizeof *f->free);
    f->touched_from = from;
    f->touched_to = to;
}

static ALWAYS_INLINE int32_t early(fast *f, const int32_t *order, int32_t *start, int words) {
    const model *m = f->m;
    int32_t makespan = 0;
    clear(f, 0, f->limit); /* in case a task finds no start */
    for (int32_t k = 0; k < m->n; k++) {
        int32_t i = order[k], s = m->est[i], d = m->duration[i];
        const uint64_t *need = m->need + (size_t)i * (size_t)words;
        for (int32_t a = f->before_at[i]; a < f->before_at[i + 1]; a++) {
            int32_t t = start[f->before[a].task] + f->before[a].distance;
            s = t > s ? t : s;
        }
        if (m->domain[i])
            s = model_next_start(m, i, s);
        int32_t latest = f->limit - d < m->lst[i] ? f->limit - d : m->lst[i];
        if (s > latest)
            return SCHED_NONE;
        for (int32_t t = s + d - 1, low = s; t >= low;) { /* [s, low) and (t, s + d) are known to fit */
            if (fits(f->free + (size_t)t * (size_t)words, need, m->guard, words)) {
                t--;
                continue;
            }
            int32_t top = s + d;
            s = m->domain[i] ? model_next_start(m, i, t + 1) : t + 1;
            if (s > latest)
                return SCHED_NONE;
            low = top > s ? top : s;
            t = s + d - 1;
        }
        start[i] = s;
        occupy(f, need, s, s + d, words);
        if (s + d > makespan)
            makespan = s + d;
    }
    f->touched_to = makespan;
    return makespan;
}

int32_t fast_early(fast *f, const int32_t *order, int32_t *start) {
    return f->m->words == 1 ? early(f, order, start, 1) : early(f, order, start, f->m->words);
}

/* Late placement. Anew: as far as the root's bounds allow, and false when a task finds no start; else start[] is a schedule, its places
 * always fit, and none moves to before its own. */
static ALWAYS_INLINE bool late(fast *f, const int32_t *order, int32_t *start, int32_t end, bool anew,
                               int words) {
    const model *m = f->m;
    for (int32_t k = m->n - 1; k >= 0; k--) {
        int32_t i = order[k], d = m->duration[i], floor = anew ? m->est[i] - 1 : start[i];
        int32_t s = end - d < m->lst[i] ? end - d : m->lst[i];
        const uint64_t *need = m->need + (size_t)i * (size_t)words;
        for (int32_t a = f->after_at[i]; a < f->after_at[i + 1]; a++) {
            int32_t t = start[f->after[a].task] - f->after[a].distance;
            s = t < s ? t : s;
        }
        if (m->domain[i])
            s = model_last_start(m, i, s);
        for (int32_t t = s, high = s + d;
             t < high && s > floor;) { /* [s, t) and [high, s + d) are known to fit */
            if (fits(f->free + (size_t)t * (size_t)words, need, m->guard, words)) {
                t++;
                continue;
            }
            int32_t bottom = s;
            s = t - d;
            if (m->domain[i])
                s = model_last_start(m, i, s);
            high = bottom < s + d ? bottom : s + d;
            t = s;
        }
        if (s <= floor) {
            if (anew)
                return false;
            s = floor;
        }
        start[i] = s;
        occupy(f, need, s, s + d, words);
    }
    return true;
}

/* Counting sort of the tasks by key; equal ones stay in topological order, which matters when a task of duration 0 and one
 * behind it share a time. */
static void sort_by_time(fast *f, const int32_t *key, int32_t top, int32_t *order) {
    const model *m = f->m;
    memset(f->bin, 0, ((size_t)top + 2) * sizeof *f->bin);
    for (int32_t i = 0; i < m->n; i++)
        f->bin[key[i] + 1]++;
    for (int32_t t = 0; t <= top; t++)
        f->bin[t + 1] += f->bin[t];
    for (int32_t k = 0; k < m->n; k++) {
        int32_t i = m->order[k];
        order[f->bin[key[i]]++] = i;
    }
}

void fast_late(fast *f, int32_t *start, int32_t end) {
    const model *m = f->m;
    int32_t *order = f->sorted;
    fast_order_by_end(f, start, order);
    clear(f, 0, end);
    if (m->words == 1)
        (void)late(f, order, start, end, false, 1);
    else
        (void)late(f, order, start, end, false, m->words);
}

int32_t fast_late_anew(fast *f, const int32_t *order, int32_t *start, int32_t end) {
    const model *m = f->m;
    clear(f, 0, end); /* in case a task finds no start */
    bool ok =
        m->words == 1 ? late(f, order, start, end, true, 1) : late(f, order, start, end, true, m->words);
    int32_t first = end;
    for (int32_t i = 0; ok && i < m->n; i++)
        first = start[i] < first ? start[i] : first;
    if (!ok)
        return SCHED_NONE;
    f->touched_from = first;
    return end - first;
}

void fast_order_by_start(fast *f, const int32_t *start, int32_t *order) {
    int32_t top = 0;
    for (int32_t i = 0; i < f->m->n; i++)
        top = start[i] > top ? start[i] : top;
    sort_by_time(f, start, top, order);
}

void fast_order_by_end(fast *f, const int32_t *start, int32_t *order) {
    int32_t top = 0;
    for (int32_t i = 0; i < f->m->n; i++) {
        f->end[i] = start[i] + f->m->duration[i];
        top = f->end[i] > top ? f->end[i] : top;
    }
    sort_by_time(f, f->end, top, order);
}
