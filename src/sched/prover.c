/* prover.c: setting a prover up from a model. */
#include "sched/prover.h"

#include <string.h>

/* Start to start distance of an arc without calendar in between, or false. */
static bool plain_distance(const model *m, int32_t from, const model_arc *arc, int32_t *distance) {
    if (arc->map != SCHED_NONE || (arc->kind == SCHED_END_START && m->extra[from] != 0))
        return false;
    *distance = arc->delay + (arc->kind == SCHED_END_START ? m->duration[from] : 0);
    return true;
}

/* Calls for every relation, and for the end of every task that something else does not end later than anyway. */
typedef void arc_visitor(prover *p, int32_t from, int32_t to, const model_arc *arc, int32_t *fill);

static void for_each_arc(prover *p, arc_visitor *visit, int32_t *fill) {
    const model *m = p->m;
    for (int32_t i = 0; i < p->n; i++) {
        bool followed = false;
        for (int32_t k = m->after_at[i]; k < m->after_at[i + 1]; k++) {
            visit(p, i, m->after[k].task, &m->after[k], fill);
            followed = followed || m->after[k].kind == SCHED_END_START;
        }
        model_arc last = {p->makespan, 0, SCHED_NONE, SCHED_END_START};
        if (!followed)
            visit(p, i, p->makespan, &last, fill);
    }
}

static void count_arc(prover *p, int32_t from, int32_t to, const model_arc *arc, int32_t *fill) {
    (void)fill;
    int32_t distance;
    if (plain_distance(p->m, from, arc, &distance)) {
        p->arc_at[2 * from + 1]++;
        p->arc_at[2 * to + 1 + 1]++;
    } else {
        p->general_arcs++;
        p->general_at[from + 1]++;
        p->general_at[to + 1]++;
    }
}

static void fill_arc(prover *p, int32_t from, int32_t to, const model_arc *arc, int32_t *fill) {
    int32_t distance;
    if (plain_distance(p->m, from, arc, &distance)) {
        p->arc[fill[2 * from]++] = (node_arc){2 * to, distance};
        p->arc[fill[2 * to + 1]++] = (node_arc){2 * from + 1, distance};
        return;
    }
    int32_t *general_fill = fill + p->nodes, k = p->general_arcs++;
    p->general[k] = (general_arc){from, to, *arc};
    p->general_of[general_fill[from]++] = k;
    p->general_of[general_fill[to]++] = k;
}

static void offsets(int32_t *at, int32_t n) {
    for (int32_t k = 0; k < n; k++)
        at[k + 1] += at[k];
}

static bool open_arcs(prover *p) {
    p->arc_at = memory_array(p->mem, int32_t, p->nodes + 1);
    p->general_at = memory_array(p->mem, int32_t, p->variables + 1);
    int32_t *fill = memory_array(p->mem, int32_t, p->nodes + p->variables);
    if (!p->arc_at || !p->general_at || !fill)
        return false;
    for_each_arc(p, count_arc, fill);
    offsets(p->arc_at, p->nodes);
    offsets(p->general_at, p->variables);
    p->arc = memory_array(p->mem, node_arc, p->arc_at[p->nodes]);
    p->general = memory_array(p->mem, general_arc, p->general_arcs);
    p->general_of = memory_array(p->mem, int32_t, p->general_at[p->variables]);
    if (!p->arc || !p->general || !p->general_of)
        return false;
    memcpy(fill, p->arc_at, (size_t)p->nodes * sizeof *fill);
    memcpy(fill + p->nodes, p->general_at, (size_t)p->variables * sizeof *fill);
    p->general_arcs = 0;
    for_each_arc(p, fill_arc, fill);
    memory_give_back(p->mem, fill);
    return true;
}

/* ---- pairs that cannot overlap ----------------------------------------------------------------------------- */

/* Rows of bits: which tasks certainly start after the end of task i, by relations. */
static uint64_t *followers(const prover *p, size_t row) {
    const model *m = p->m;
    uint64_t *bits = memory_get(p->mem, (size_t)p->n * row, sizeof *bits);
    for (int32_t q = p->n - 1; bits && q >= 0; q--) {
        int32_t i = m->order[q];
        for (int32_t k = m->after_at[i]; k < m->after_at[i + 1]; k++) {
            int32_t j = m->after[k].task;
            /* After a start: only what follows with at least the whole duration counts. */
            if (m->after[k].kind == SCHED_START_START && m->after[k].delay < m->duration[i])
                continue;
            bits[(size_t)i * row + (size_t)j / 64] |= (uint64_t)1 << (j % 64);
            for (size_t w = 0; w < row; w++)
                bits[(size_t)i * row + w] |= bits[(size_t)j * row + w];
        }
    }
    return bits;
}

static bool cannot_overlap(const model *m, int32_t a, int32_t b) {
    for (int32_t k = m->demand_at[a]; k < m->demand_at[a + 1]; k++)
        for (int32_t q = m->demand_at[b]; q < m->demand_at[b + 1]; q++)
            if (m->demand[k].resource == m->demand[q].resource &&
                (int64_t)m->demand[k].amount + m->demand[q].amount > m->peak[m->demand[k].resource])
                return true;
    return false;
}

static bool has_order(const model *m, int32_t i) {
    return m->duration[i] > 0 && m->extra[i] == 0;
}

static bool add_pair(prover *p, int32_t a, int32_t b, int32_t *room) {
    if (p->pairs == *room) {
        int32_t wanted = 2 * *room + 256;
        order_pair *bigger = memory_grow(p->mem, p->pair, (size_t)p->pairs, (size_t)wanted, sizeof *bigger);
        if (!bigger)
            return false;
        p->pair = bigger;
        *room = wanted;
    }
    p->pair[p->pairs] = (order_pair){a, b, p->n + 1 + p->pairs};
    p->pairs++;
    return true;
}

/* All pairs by demand that relations and windows leave open, and those of the sets of two. */
static bool find_pairs(prover *p) {
    const model *m = p->m;
    size_t row = ((size_t)p->n + 63) / 64;
    uint64_t *after = followers(p, row);
    int32_t room = 0;
    if (!after)
        return false;
    for (int32_t a = 0; a < p->n; a++)
        for (int32_t b = a + 1; b < p->n; b++) {
            bool ordered = ((after[(size_t)a * row + (size_t)b / 64] >> (b % 64)) & 1) ||
                           ((after[(size_t)b * row + (size_t)a / 64] >> (a % 64)) & 1);
            if (ordered || !has_order(m, a) || !has_order(m, b) || !cannot_overlap(m, a, b))
                continue;
            if (!add_pair(p, a, b, &room))
                return false;
        }
    memory_give_back(p->mem, after);
    return true;
}

static bool open_pairs(prover *p) {
    p->order_arcs = 4 * p->pairs;
    p->order_arc = memory_array(p->mem, order_arc, p->order_arcs);
    p->order_at = memory_array(p->mem, int32_t, p->nodes + 1);
    p->order_of = memory_array(p->mem, int32_t, p->order_arcs);
    p->pair_at = memory_array(p->mem, int32_t, p->n + 2);
    p->pair_of = memory_array(p->mem, int32_t, 2 * p->pairs);
    int32_t *fill = memory_array(p->mem, int32_t, p->nodes);
    if (!p->order_arc || !p->order_at || !p->order_of || !p->pair_at || !p->pair_of || !fill)
        return false;
    for (int32_t k = 0; k < p->pairs; k++) {
        const order_pair *q = &p->pair[k];
        int32_t da = p->m->duration[q->a], db = p->m->duration[q->b], on = 2 * q->order;
        order_arc *arc = p->order_arc + 4 * k;
        arc[0] = (order_arc){2 * q->a, 2 * q->b, da, on};
        arc[1] = (order_arc){2 * q->b + 1, 2 * q->a + 1, da, on};
        arc[2] = (order_arc){2 * q->b, 2 * q->a, db, on + 1};
        arc[3] = (order_arc){2 * q->a + 1, 2 * q->b + 1, db, on + 1};
        for (int32_t j = 0; j < 4; j++)
            p->order_at[arc[j].from + 1]++;
        p->pair_at[q->a + 1]++;
        p->pair_at[q->b + 1]++;
    }
    offsets(p->order_at, p->nodes);
    offsets(p->pair_at, p->n);
    p->pair_at[p->n + 1] = p->pair_at[p->n];
    memcpy(fill, p->order_at, (size_t)p->nodes * sizeof *fill);
    for (int32_t k = 0; k < p->order_arcs; k++)
        p->order_of[fill[p->order_arc[k].from]++] = k;
    memcpy(fill, p->pair_at, (size_t)p->n * sizeof *fill);
    for (int32_t k = 0; k < p->pairs; k++) {
        p->pair_of[fill[p->pair[k].a]++] = k;
        p->pair_of[fill[p->pair[k].b]++] = k;
    }
    memory_give_back(p->mem, fill);
    return true;
}

/* ---- bounds and scratch ------------------------------------------------------------------------------------ */

static bool open_bounds(prover *p) {
    const model *m = p->m;
    p->bound = memory_array(p->mem, int32_t, p->nodes);
    p->root = memory_array(p->mem, int32_t, p->nodes);
    p->first_bound = memory_array(p->mem, int32_t, p->nodes);
    p->latest = memory_array(p->mem, int32_t, p->nodes);
    p->past = memory_array(p->mem, int32_t, p->nodes);
    p->need = memory_array(p->mem, int32_t, p->nodes);
    p->needed = memory_array(p->mem, int32_t, p->nodes);
    p->needed_stamp = memory_array(p->mem, int32_t, p->nodes);
    p->lesson = memory_array(p->mem, literal, p->nodes + 2);
    p->level_bound = memory_array(p->mem, int32_t, p->nodes);
    p->level_bound_stamp = memory_array(p->mem, int32_t, p->nodes);
    p->why_room = 4 * p->nodes + 1024;
    p->why = memory_array(p->mem, literal, p->why_room);
    p->level_room = 256;
    p->level_at = memory_array(p->mem, int32_t, p->level_room);
    p->level_seen = memory_array(p->mem, int32_t, p->level_room);
    if (!p->bound || !p->root || !p->first_bound || !p->latest || !p->past || !p->need || !p->needed ||
        !p->needed_stamp || !p->lesson || !p->level_bound || !p->level_bound_stamp || !p->why ||
        !p->level_at || !p->level_seen || !trail_reserve(p))
        return false;
    int32_t *lst = p->past; /* free until the first analysis */
    model_latest_starts(m, p->horizon, lst, NULL);
    for (int32_t x = 0; x < p->variables; x++) {
        bool task = x < p->n, span = x == p->makespan;
        p->bound[2 * x] = task ? m->est[x] : 0;
        p->bound[2 * x + 1] = task ? -lst[x] : span ? -p->horizon : -1;
        if (task && lst[x] < m->est[x]) {
            p->inconsistent = true;
            p->bound[2 * x + 1] = -m->est[x];
        }
    }
    for (int32_t row = 0; row < p->rows; row++) {
        int64_t range = costs_range(p, row);
        if (range > INT32_MAX / 4)
            return false;
        p->bound[2 * (p->first_cost + row) + 1] = -(int32_t)range;
    }
    memcpy(p->root, p->bound, (size_t)p->nodes * sizeof *p->root);
    memcpy(p->first_bound, p->bound, (size_t)p->nodes * sizeof *p->first_bound);
    for (int32_t k = 0; k < p->nodes; k++) {
        p->latest[k] = -1;
        p->need[k] = INT32_MIN;
    }
    return true;
}

bool prover_open(prover *p, solve *s, int32_t rows, int32_t horizon) {
    *p = (prover){.s = s, .m = &s->m, .mem = &s->mem, .n = s->m.n, .makespan = s->m.n, .goal = s->m.n};
    p->horizon = horizon;
    if (!find_pairs(p) || !costs_open(p, rows))
        return false;
    p->first_cost = p->n + 1 + p->pairs;
    p->variables = p->first_cost + rows;
    p->nodes = 2 * p->variables;
    p->learned_limit = 4000;
    p->energy_on = true;
    return open_bounds(p) && open_arcs(p) && open_pairs(p) && table_open(p) && energy_open(p) &&
           clauses_open(p) && branch_open(p);
}
