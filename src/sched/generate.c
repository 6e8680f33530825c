/* generate.c: the general serial generator (Kelley, "The critical path method: resources planning and scheduling",
 * 1963), for every kind of rule. The fast one for the inner loops of the search is another file. */
#include "sched/generate.h"

#include <string.h>

bool generator_open(generator *g, const model *m, memory *mem) {
    *g = (generator){.m = m, .mem = mem, .failed_task = SCHED_NONE};
    g->start = memory_array(mem, int32_t, m->n);
    g->end = memory_array(mem, int32_t, m->n);
    g->waiting = memory_array(mem, int32_t, m->n);
    g->placed = memory_array(mem, bool, m->n);
    g->stock_at = memory_array(mem, int32_t, m->reservoirs + 1);
    g->stock_n = memory_array(mem, int32_t, m->reservoirs);
    if (!g->start || !g->end || !g->waiting || !g->placed || !g->stock_at || !g->stock_n)
        return false;
    for (int32_t v = 0; v < m->reservoirs; v++)
        g->stock_at[v + 1] = g->stock_at[v] + m->stock_at[v + 1] - m->stock_at[v] + m->drawer_at[v + 1] -
                             m->drawer_at[v] + m->giver_at[v + 1] - m->giver_at[v];
    g->stock = memory_array(mem, stock_event, g->stock_at[m->reservoirs]);
    return g->stock != NULL;
}

/* Fills free[] from g->ready to `to` with the bare capacities. */
static void fill_free(generator *g, int32_t to) {
    const model *m = g->m;
    size_t w = (size_t)m->words;
    int32_t low = 0, high = m->lane_steps;
    while (low < high) { /* the first step after `ready` */
        int32_t mid = (low + high) / 2;
        if (m->lane_from[mid] > g->ready)
            high = mid;
        else
            low = mid + 1;
    }
    int32_t step = low - 1;
    for (int32_t t = g->ready; t < to; t++) {
        while (step + 1 < m->lane_steps && m->lane_from[step + 1] <= t)
            step++;
        memcpy(g->free + (size_t)t * w, m->lane_free + (size_t)step * w, w * sizeof *g->free);
    }
    g->ready = to;
}

/* Makes free[] good for times below `to`. */
static bool reach(generator *g, int32_t to) {
    if (to <= g->ready)
        return true;
    if (to > g->room) {
        int64_t wanted = (int64_t)to + to / 2 + 256;
        if (wanted > (int64_t)g->m->horizon + 1 && to <= g->m->horizon + 1)
            wanted = (int64_t)g->m->horizon + 1;
        size_t w = (size_t)g->m->words;
        uint64_t *bigger =
            memory_grow(g->mem, g->free, (size_t)g->ready * w, (size_t)wanted * w, sizeof *bigger);
        if (!bigger)
            return false;
        g->free = bigger;
        g->room = (int32_t)wanted;
    }
    int32_t to_fill = to + 256 < g->room ? to + 256 : g->room;
    fill_free(g, to_fill);
    return true;
}

static bool needs_nothing(const model *m, int32_t i) {
    return m->demand_at[i] == m->demand_at[i + 1];
}

/* The last time in [s, e) at which task i does not fit, or -1. */
static int32_t last_blocked(const generator *g, int32_t i, int32_t s, int32_t e) {
    const model *m = g->m;
    const uint64_t *need = m->need + (size_t)i * (size_t)m->words;
    if (m->words == 1) {
        for (int32_t t = e - 1; t >= s; t--)
            if ((((g->free[t] | m->guard[0]) - need[0]) & m->guard[0]) != m->guard[0])
                return t;
        return -1;
    }
    for (int32_t t = e - 1; t >= s; t--)
        for (int32_t w = 0; w < m->words; w++)
            if ((((g->free[(size_t)t * (size_t)m->words + (size_t)w] | m->guard[w]) - need[w]) &
                 m->guard[w]) != m->guard[w])
                return t;
    return -1;
}

/* A start later than s that one reservoir asks for, s when it fits, INT32_MAX when never as things stand. */
static int32_t past_shortage(const generator *g, int32_t v, int64_t draw, int64_t give, int32_t s,
                             int32_t e) {
    const stock_event *event = g->stock + g->stock_at[v];
    int32_t n = g->stock_n[v], late = s;
    int64_t stock = 0;
    for (int32_t k = 0; k < n;) {
        int32_t t = event[k].time;
        for (; k < n && event[k].time == t; k++)
            stock += event[k].change;
        int32_t until = k < n ? event[k].time : INT32_MAX; /* the stock holds in [t, until) */
        bool during = t < e && until > s && stock < draw;
        bool behind = until > e && stock < draw - give;
        if (during || behind)
            late = until;
    }
    return late;
}

static int32_t past_shortages(const generator *g, int32_t i, int32_t s, int32_t e) {
    const model *m = g->m;
    for (int32_t k = m->draw_at[i]; k < m->draw_at[i + 1]; k++) {
        int64_t give = 0;
        for (int32_t q = m->give_at[i]; q < m->give_at[i + 1]; q++)
            if (m->give[q].resource == m->draw[k].resource)
                give = m->give[q].amount;
        int32_t late = past_shortage(g, m->draw[k].resource, m->draw[k].amount, give, s, e);
        if (late > s)
            return late;
    }
    return s;
}

static int32_t earliest_by_relations(const generator *g, int32_t i) {
    const model *m = g->m;
    int32_t s = m->est[i];
    for (int32_t k = m->before_at[i]; k < m->before_at[i + 1]; k++) {
        const model_arc *arc = &m->before[k];
        int32_t x = arc->kind == SCHED_END_START ? g->end[arc->task] : g->start[arc->task];
        if (arc->map != SCHED_NONE)
            x = model_map(m, arc->map, x);
        x = x > SCHED_TIME_MAX ? x : x + arc->delay;
        s = x > s ? x : s;
    }
    return s;
}

/* The earliest start of i among the tasks placed; INT32_MAX when none is left, INT32_MIN without memory. */
static int32_t find_start(generator *g, int32_t i) {
    const model *m = g->m;
    int32_t s = earliest_by_relations(g, i);
    if (g->in_order && s < g->last_start)
        s = g->last_start;
    for (;;) {
        if (s > m->lst[i])
            return INT32_MAX;
        s = model_next_start(m, i, s);
        if (s > m->lst[i])
            return INT32_MAX;
        if (g->kept && g->kept[i] && model_next_cut(m, s) < s + m->duration[i]) {
            s = model_next_cut(m, s);
            continue;
        }
        int32_t e = model_end(m, i, s), before = s;
        if (e > m->horizon) {
            s++; /* with costly cuts a later start may end earlier; lst ends this */
            continue;
        }
        if (!needs_nothing(m, i)) {
            if (!reach(g, e))
                return INT32_MIN;
            s = last_blocked(g, i, s, e) + 1;
            if (s > before && m->extra[i] > 0) { /* begun at a cut it may be over before what blocks it */
                int32_t cut = model_next_cut(m, before);
                s = cut < s ? cut : s;
            }
        }
        if (s <= before)
            s = past_shortages(g, i, before, e);
        if (s == before)
            return s;
    }
}

static void add_stock_event(generator *g, int32_t v, int32_t time, int64_t change) {
    stock_event *event = g->stock + g->stock_at[v];
    int32_t k = g->stock_n[v]++;
    for (; k > 0 && event[k - 1].time > time; k--)
        event[k] = event[k - 1];
    event[k] = (stock_event){time, change};
}

static void place(generator *g, int32_t i, int32_t s) {
    const model *m = g->m;
    g->start[i] = s;
    g->end[i] = model_end(m, i, s);
    g->placed[i] = true;
    g->last_start = s;
    const uint64_t *need = m->need + (size_t)i * (size_t)m->words;
    for (int32_t t = s; t < g->end[i] && !needs_nothing(m, i); t++)
        for (int32_t w = 0; w < m->words; w++)
            g->free[(size_t)t * (size_t)m->words + (size_t)w] -= need[w];
    if (g->end[i] > g->touched)
        g->touched = g->end[i];
    for (int32_t k = m->draw_at[i]; k < m->draw_at[i + 1]; k++)
        add_stock_event(g, m->draw[k].resource, s, -(int64_t)m->draw[k].amount);
    for (int32_t k = m->give_at[i]; k < m->give_at[i + 1]; k++)
        add_stock_event(g, m->give[k].resource, g->end[i], m->give[k].amount);
    for (int32_t k = m->after_at[i]; k < m->after_at[i + 1]; k++)
        g->waiting[m->after[k].task]--;
}

bool generator_clear(generator *g) {
    const model *m = g->m;
    int32_t ready = g->ready;
    g->ready = 0;
    fill_free(g, g->touched < ready ? g->touched : ready);
    g->ready = ready;
    g->touched = 0;
    g->last_start = 0;
    g->failed_task = SCHED_NONE;
    for (int32_t i = 0; i < m->n; i++) {
        g->placed[i] = false;
        g->waiting[i] = m->before_at[i + 1] - m->before_at[i];
    }
    for (int32_t v = 0; v < m->reservoirs; v++) {
        g->stock_n[v] = 0;
        for (int32_t k = m->stock_at[v]; k < m->stock_at[v + 1]; k++)
            add_stock_event(g, v, m->stock[k].time,
                            m->stock[k].stock - (k > m->stock_at[v] ? m->stock[k - 1].stock : 0));
    }
    return !g->mem->refused;
}

void generator_change_capacity(generator *g, int32_t resource, int32_t from, int32_t to, int32_t capacity) {
    const model *m = g->m;
    int32_t word = m->lane_word[resource], shift = m->lane_shift[resource];
    to = to < m->horizon + 1 ? to : m->horizon + 1;
    if (word == SCHED_NONE || from >= to || !reach(g, to))
        return;
    uint64_t mask = ((uint64_t)1 << __builtin_ctzll(m->guard[word] >> shift)) - 1;
    uint64_t amount = (uint64_t)capacity < mask ? (uint64_t)capacity : mask;
    for (int32_t t = from; t < to; t++) {
        uint64_t *free = &g->free[(size_t)t * (size_t)m->words + (size_t)word];
        *free = (*free & ~(mask << shift)) | amount << shift;
    }
    g->touched = to > g->touched ? to : g->touched;
}

int32_t generate_in_order(generator *g, const int32_t *order) {
    int32_t makespan = 0;
    for (int32_t k = 0; k < g->m->n; k++) {
        int32_t i = order[k], s = find_start(g, i);
        if (s == INT32_MIN || s == INT32_MAX) {
            g->failed_task = i;
            return SCHED_NONE;
        }
        place(g, i, s);
        makespan = g->end[i] > makespan ? g->end[i] : makespan;
    }
    return makespan;
}

int32_t generate_serial(generator *g, const int32_t *order) {
    const model *m = g->m;
    (void)generator_clear(g);
    int32_t left = m->n, before = -1;
    /* One pass places everything, unless a draw waits for what a later task gives back: then further passes. */
    while (left > 0 && left != before) {
        before = left;
        for (int32_t k = 0; k < m->n; k++) {
            int32_t i = order[k];
            if (g->placed[i] || g->waiting[i] > 0)
                continue;
            int32_t s = find_start(g, i);
            if (s == INT32_MIN)
                return SCHED_NONE;
            if (s == INT32_MAX) {
                g->failed_task = i;
                if (m->draw_at[i] == m->draw_at[i + 1])
                    return SCHED_NONE;
                continue;
            }
            place(g, i, s);
            left--;
        }
    }
    if (left > 0)
        return SCHED_NONE;
    int32_t makespan = 0;
    for (int32_t i = 0; i < m->n; i++)
        makespan = g->end[i] > makespan ? g->end[i] : makespan;
    return makespan;
}

/* ---- orders ------------------------------------------------------------------------------------------------ */

static bool before_in_heap(const int32_t *key, int32_t a, int32_t b) {
    return key[a] != key[b] ? key[a] < key[b] : a < b;
}

static void sift_down(const int32_t *key, int32_t *heap, int32_t n) {
    int32_t item = heap[0], at = 0;
    for (int32_t child = 1; child < n; child = 2 * at + 1) {
        if (child + 1 < n && before_in_heap(key, heap[child + 1], heap[child]))
            child++;
        if (!before_in_heap(key, heap[child], item))
            break;
        heap[at] = heap[child];
        at = child;
    }
    heap[at] = item;
}

static void sift_up(const int32_t *key, int32_t *heap, int32_t at) {
    int32_t item = heap[at];
    for (; at > 0 && before_in_heap(key, item, heap[(at - 1) / 2]); at = (at - 1) / 2)
        heap[at] = heap[(at - 1) / 2];
    heap[at] = item;
}

void order_by_key(const model *m, const int32_t *key, int32_t *order, int32_t *heap, int32_t *waiting) {
    int32_t n = 0, done = 0;
    for (int32_t i = 0; i < m->n; i++) {
        waiting[i] = m->before_at[i + 1] - m->before_at[i];
        if (waiting[i] == 0) {
            heap[n++] = i;
            sift_up(key, heap, n - 1);
        }
    }
    while (n > 0) {
        int32_t i = heap[0];
        order[done++] = i;
        heap[0] = heap[--n];
        if (n > 0)
            sift_down(key, heap, n);
        for (int32_t k = m->after_at[i]; k < m->after_at[i + 1]; k++)
            if (--waiting[m->after[k].task] == 0) {
                heap[n++] = m->after[k].task;
                sift_up(key, heap, n - 1);
            }
    }
}
