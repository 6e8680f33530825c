/* prop_timetable.c: the time table: capacity less what certainly runs, by time unit.
 *
 * A task certainly runs from its latest start to its earliest end. The table holds, for each task, the part known at the
 * last update; updates only ever add, undoing gives back what the restored bounds no longer support. A task whose
 * window meets a time that is too full is pushed past the furthest such time.
 *
 * Explanation of a push of i past time t on resource r: i would cover t from every start it had left, and a set of other
 * tasks that certainly cover t and leave too little. Each of these is two bounds: start <= t and start > t - d. The set is
 * thinned, first of tasks whose bounds are neither root facts nor needed already. (Schutt et al. 2011, "pointwise".) */
#include "sched/prover.h"

#include <string.h>

bool table_open(prover *p) {
    const model *m = p->m;
    size_t words = (size_t)m->words;
    p->words = m->words;
    p->free = memory_array(p->mem, uint64_t, ((size_t)p->horizon + 1) * words);
    p->part_from = memory_array(p->mem, int32_t, p->n);
    p->part_to = memory_array(p->mem, int32_t, p->n);
    p->dirty = memory_array(p->mem, bool, p->n);
    p->dirty_task = memory_array(p->mem, int32_t, p->n);
    p->table_task = memory_array(p->mem, int32_t, p->n);
    if (!p->free || !p->part_from || !p->part_to || !p->dirty || !p->dirty_task || !p->table_task)
        return false;
    for (int32_t t = 0, step = 0; t <= p->horizon; t++) {
        while (step + 1 < m->lane_steps && m->lane_from[step + 1] <= t)
            step++;
        memcpy(p->free + (size_t)t * words, m->lane_free + (size_t)step * words, words * sizeof *p->free);
    }
    for (int32_t i = 0; i < p->n; i++) {
        p->dirty[i] = true;
        p->dirty_task[p->dirty_n++] = i;
        if (m->demand_at[i] < m->demand_at[i + 1])
            p->table_task[p->table_tasks++] = i;
    }
    p->changed_from = 0;
    p->changed_to = p->horizon;
    return true;
}

static const uint64_t *need_of(const prover *p, int32_t i) {
    return p->m->need + (size_t)i * (size_t)p->words;
}

/* A lane whose guard bit says "less than nothing left", as a resource. */
static int32_t resource_of_guard(const prover *p, int32_t word, uint64_t guards) {
    int32_t bit = __builtin_ctzll(guards);
    int32_t best = SCHED_NONE;
    for (int32_t r = 0; r < p->m->resources; r++) /* the lane that begins last before the bit */
        if (p->m->lane_word[r] == word && p->m->lane_shift[r] <= bit &&
            (best == SCHED_NONE || p->m->lane_shift[r] > p->m->lane_shift[best]))
            best = r;
    return best;
}

/* Which resource has less than `need` left at time t; SCHED_NONE: none. */
static inline int32_t short_resource(const prover *p, const uint64_t *need, int32_t t) {
    const uint64_t *guard = p->m->guard, *left = p->free + (size_t)t * (size_t)p->words;
    for (int32_t w = 0; w < p->words; w++) {
        uint64_t ok = ((left[w] | guard[w]) - need[w]) & guard[w];
        if (ok != guard[w])
            return resource_of_guard(p, w, ok ^ guard[w]);
    }
    return SCHED_NONE;
}

static bool fits(const prover *p, const uint64_t *need, int32_t t) {
    const uint64_t *guard = p->m->guard, *left = p->free + (size_t)t * (size_t)p->words;
    for (int32_t w = 0; w < p->words; w++)
        if ((((left[w] | guard[w]) - need[w]) & guard[w]) != guard[w])
            return false;
    return true;
}

/* Takes need off the times [from, to). On overload nothing at or after the failing time is taken: *done is where. */
static bool take(prover *p, int32_t i, int32_t from, int32_t to, int32_t *done) {
    const uint64_t *need = need_of(p, i);
    p->steps += (uint64_t)(to - from);
    for (int32_t t = from; t < to; t++) {
        int32_t r = short_resource(p, need, t);
        if (r != SCHED_NONE) {
            *done = t;
            fail_with(p, WHY_TABLE, r, t);
            return false;
        }
        for (int32_t w = 0; w < p->words; w++)
            p->free[(size_t)t * (size_t)p->words + (size_t)w] -= need[w];
    }
    *done = to;
    return true;
}

static void give_back(prover *p, int32_t i, int32_t from, int32_t to) {
    const uint64_t *need = need_of(p, i);
    for (int32_t t = from; t < to; t++)
        for (int32_t w = 0; w < p->words; w++)
            p->free[(size_t)t * (size_t)p->words + (size_t)w] += need[w];
}

static int32_t earliest_end(const prover *p, int32_t i) {
    return model_least_end(p->m, i, lower(p, i), upper(p, i));
}

static void note_change(prover *p, int32_t from, int32_t to) {
    if (p->changed_from >= p->changed_to) {
        p->changed_from = from;
        p->changed_to = to;
        return;
    }
    p->changed_from = from < p->changed_from ? from : p->changed_from;
    p->changed_to = to > p->changed_to ? to : p->changed_to;
}

/* Brings the part of task i in the table up to its bounds. */
static bool update_task(prover *p, int32_t i) {
    int32_t from = upper(p, i), to = earliest_end(p, i), done;
    if (from >= to)
        return true;
    if (p->part_from[i] >= p->part_to[i])
        p->part_from[i] = p->part_to[i] = from;
    if (to > p->part_to[i]) {
        int32_t begin = p->part_to[i];
        bool ok = take(p, i, begin, to, &done);
        p->part_to[i] = done;
        note_change(p, begin, done);
        if (!ok)
            return false;
    }
    while (p->part_from[i] > from) { /* downwards, so that the part stays one stretch whatever happens */
        int32_t t = p->part_from[i] - 1;
        if (!take(p, i, t, t + 1, &done))
            return false;
        p->part_from[i] = t;
        note_change(p, t, t + 1);
    }
    return true;
}

bool table_update(prover *p) {
    for (int32_t k = 0; k < p->dirty_n; k++) {
        int32_t i = p->dirty_task[k];
        if (p->m->demand_at[i] < p->m->demand_at[i + 1] && !update_task(p, i))
            return false; /* the rest stays dirty and is undone before it matters */
    }
    return true;
}

void table_undo(prover *p, int32_t i) {
    if (p->part_from[i] >= p->part_to[i])
        return;
    int32_t from = upper(p, i), to = earliest_end(p, i);
    if (from >= to) {
        give_back(p, i, p->part_from[i], p->part_to[i]);
        p->part_from[i] = p->part_to[i] = 0;
        return;
    }
    if (p->part_from[i] < from) {
        int32_t end = from < p->part_to[i] ? from : p->part_to[i];
        give_back(p, i, p->part_from[i], end);
        p->part_from[i] = end;
    }
    if (p->part_to[i] > to) {
        int32_t begin = to > p->part_from[i] ? to : p->part_from[i];
        give_back(p, i, begin, p->part_to[i]);
        p->part_to[i] = begin;
    }
}

static bool push_start(prover *p, int32_t i) {
    const uint64_t *need = need_of(p, i);
    for (;;) {
        int32_t s = lower(p, i), u = upper(p, i);
        int32_t end = model_least_end(p->m, i, s, u);
        int32_t top = u < end ? u : end; /* from its latest start on the task is in the table itself */
        int32_t t = top - 1;
        p->steps += (uint64_t)(top > s ? top - s : 0) / 4;
        while (t >= s && fits(p, need, t))
            t--;
        if (t < s)
            return true;
        if (!set_bound(p, 2 * i, t + 1, WHY_TABLE, short_resource(p, need, t), t))
            return false;
    }
}

static bool pull_start(prover *p, int32_t i) {
    const uint64_t *need = need_of(p, i);
    for (;;) {
        int32_t s = lower(p, i), u = upper(p, i);
        int32_t end = model_end(p->m, i, u), own = model_least_end(p->m, i, s, u);
        int32_t t = own > u ? own : u;
        p->steps += (uint64_t)(end > t ? end - t : 0) / 4;
        while (t < end && fits(p, need, t))
            t++;
        if (t >= end)
            return true;
        int32_t by = model_start_ending_by(p->m, i, t, u);
        if (!set_bound(p, 2 * i + 1, by < 0 ? 1 : -by, WHY_TABLE, short_resource(p, need, t), t))
            return false;
    }
}

static bool meets_change(const prover *p, int32_t i) {
    if (p->changed_from >= p->changed_to)
        return false;
    int32_t to = model_end(p->m, i, upper(p, i));
    return lower(p, i) < p->changed_to && to > p->changed_from;
}

bool table_filter(prover *p) {
    bool ok = true;
    for (int32_t k = 0; k < p->table_tasks && ok; k++) {
        int32_t i = p->table_task[k];
        if (lower(p, i) == upper(p, i) || !(p->dirty[i] || meets_change(p, i)))
            continue;
        ok = push_start(p, i) && pull_start(p, i);
    }
    if (!ok)
        return false; /* dirty marks stay: undoing comes next */
    for (int32_t k = 0; k < p->dirty_n; k++)
        p->dirty[p->dirty_task[k]] = false;
    p->dirty_n = 0;
    p->changed_from = p->changed_to = 0;
    return true;
}

/* ---- explanations ------------------------------------------------------------------------------------------ */

/* The two bounds by which j certainly covers t. */
typedef struct {
    int32_t task, amount, at_least, at_most, cost;
} cover;

static bool certainly_covers(const prover *p, int32_t j, int32_t t, cover *c) {
    int32_t s = p->past[2 * j], u = -p->past[2 * j + 1];
    if (u > t)
        return false;
    int32_t before = model_start_ending_by(p->m, j, t, t); /* the latest start that is over by t */
    if (before < s) {
        c->at_least = before + 1;
        c->at_most = t;
        return true;
    }
    if (p->m->extra[j] == 0)
        return false;
    before = model_start_ending_by(p->m, j, t, u);
    c->at_least = before + 1;
    c->at_most = u;
    return before < s;
}

static int32_t cost_of(const prover *p, int32_t node, int32_t v) {
    if (v <= p->root[node])
        return 0;
    return v <= p->need[node] ? 1 : 4;
}

static int32_t capacity_at(const model *m, int32_t r, int32_t t) {
    int32_t low = m->step_at[r], high = m->step_at[r + 1];
    while (low < high) {
        int32_t mid = (low + high) / 2;
        if (m->step[mid].from > t)
            high = mid;
        else
            low = mid + 1;
    }
    return m->step[low - 1].capacity;
}

/* Covers of t on r by tasks other than `but` that leave less than `amount`; the least costly that do. */
static void explain_full(prover *p, int32_t r, int32_t t, int32_t but, int32_t amount) {
    const model *m = p->m;
    cover c[64];
    int32_t n = 0;
    int64_t sum = 0, enough = (int64_t)capacity_at(m, r, t) - amount + 1;
    p->steps += (uint64_t)(m->user_at[r + 1] - m->user_at[r]);
    for (int pass = 0; pass < 2 && (pass == 0 || sum < enough); pass++) {
        /* More than 64 tasks at one instant: then all that are found, unthinned, on the second pass. */
        n = 0;
        sum = 0;
        for (int32_t k = m->user_at[r]; k < m->user_at[r + 1]; k++) {
            cover one = {.task = m->user[k].task, .amount = m->user[k].amount};
            if (one.task == but || !certainly_covers(p, one.task, t, &one))
                continue;
            sum += one.amount;
            if (pass == 1) {
                add_why(p, 2 * one.task, one.at_least);
                add_why(p, 2 * one.task + 1, -one.at_most);
                continue;
            }
            one.cost = cost_of(p, 2 * one.task, one.at_least) + cost_of(p, 2 * one.task + 1, -one.at_most);
            c[n++] = one;
            if (n == 64)
                break;
        }
    }
    for (int32_t cost = 8; cost > 0 && sum > enough; cost--)
        for (int32_t k = n - 1; k >= 0; k--)
            if (c[k].cost == cost && sum - c[k].amount >= enough) {
                sum -= c[k].amount;
                c[k] = c[--n];
            }
    for (int32_t k = 0; k < n; k++) {
        add_why(p, 2 * c[k].task, c[k].at_least);
        add_why(p, 2 * c[k].task + 1, -c[k].at_most);
    }
}

static int32_t amount_of(const model *m, int32_t i, int32_t r) {
    for (int32_t k = m->demand_at[i]; k < m->demand_at[i + 1]; k++)
        if (m->demand[k].resource == r)
            return m->demand[k].amount;
    return 0;
}

void explain_table(prover *p, int32_t r, int32_t t, literal l) {
    if (l.node < 0) { /* overload */
        explain_full(p, r, t, SCHED_NONE, 0);
        return;
    }
    int32_t i = l.node >> 1;
    if ((l.node & 1) == 0) { /* every start in [own, v - 1] covers t */
        add_why(p, l.node, model_start_ending_by(p->m, i, t, l.at_least - 1) + 1);
    } else { /* every start in [u + 1, own] covers t */
        int32_t u = -l.at_least, own = t;
        if (p->m->extra[i] != 0 && model_start_ending_by(p->m, i, t, t) > u)
            own = -p->past[l.node];
        add_why(p, l.node, -own);
    }
    explain_full(p, r, t, i, amount_of(p->m, i, r));
}
