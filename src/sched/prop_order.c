/* prop_order.c: two tasks that cannot overlap come one after the other.
 *
 * Each such pair has a 0/1 variable: 1, a before b; 0, b before a. Learned clauses speak of orders through it. An order
 * whose first task cannot end before the second must start is excluded; an order that holds is an arc. */
#include "sched/prover.h"

/* Order `first` before `second` cannot hold any more. */
static bool too_late(const prover *p, int32_t first, int32_t second) {
    return lower(p, first) + p->m->duration[first] > upper(p, second);
}

static bool check_pair(prover *p, int32_t k) {
    const order_pair *pair = &p->pair[k];
    if (too_late(p, pair->a, pair->b) && !set_bound(p, 2 * pair->order + 1, 0, WHY_TOO_LATE, k, 0))
        return false;
    if (too_late(p, pair->b, pair->a) && !set_bound(p, 2 * pair->order, 1, WHY_TOO_LATE, k, 0))
        return false;
    return true;
}

static bool is_on(const prover *p, int32_t when) {
    /* Node 2x "at least 1": a before b. Node 2x+1 "at least 0": b before a. */
    return p->bound[when] >= ((when & 1) ? 0 : 1);
}

bool propagate_orders(prover *p, const trail_entry *e) {
    int32_t x = e->node >> 1;
    if (x >= p->first_cost)
        return true;
    if (x > p->makespan) { /* an order became fixed: its two arcs */
        int32_t first = 4 * (x - p->makespan - 1) + ((e->node & 1) ? 2 : 0);
        for (int32_t k = first; k < first + 2; k++) {
            const order_arc *arc = &p->order_arc[k];
            if (!set_bound(p, arc->to, p->bound[arc->from] + arc->distance, WHY_ORDER, k, 0))
                return false;
        }
        return true;
    }
    if (x == p->makespan)
        return true;
    p->steps += (uint64_t)(p->order_at[e->node + 1] - p->order_at[e->node]) / 2;
    for (int32_t k = p->order_at[e->node]; k < p->order_at[e->node + 1]; k++) {
        const order_arc *arc = &p->order_arc[p->order_of[k]];
        if (is_on(p, arc->when) &&
            !set_bound(p, arc->to, p->bound[e->node] + arc->distance, WHY_ORDER, p->order_of[k], 0))
            return false;
    }
    for (int32_t k = p->pair_at[x]; k < p->pair_at[x + 1]; k++) {
        const order_pair *pair = &p->pair[p->pair_of[k]];
        if (lower(p, pair->order) < upper(p, pair->order) && !check_pair(p, p->pair_of[k]))
            return false;
    }
    return true;
}

/* start(first) >= v and start(second) <= v + duration(first) - 1 exclude first before second; any v between the two
 * bounds will do. Take one that is needed already, else the weakest for `first`. */
void explain_too_late(prover *p, int32_t k, literal l) {
    const order_pair *pair = &p->pair[k];
    bool a_first_excluded = (l.node & 1) != 0;
    int32_t first = a_first_excluded ? pair->a : pair->b, second = a_first_excluded ? pair->b : pair->a;
    int32_t d = p->m->duration[first];
    int32_t least = -p->past[2 * second + 1] - d + 1, most = p->past[2 * first];
    int32_t v = least;
    if (most <= p->root[2 * first] || p->need[2 * first] >= most)
        v = most;
    else if (p->root[2 * first] > v)
        v = p->root[2 * first];
    if (p->need[2 * first] > v && p->need[2 * first] <= most)
        v = p->need[2 * first];
    add_why(p, 2 * first, v);
    add_why(p, 2 * second + 1, -(v + d - 1));
}
