/* prop_precedence.c: what must come before what.
 *
 * A plain relation start(b) >= start(a) + w is an arc between nodes, twice: 2a -> 2b raises b's earliest start,
 * 2b+1 -> 2a+1 lowers a's latest. Its explanation of (to, v) is (from, v - w), whatever the state.
 * Relations through a delay map, or from the end of a task whose length depends on its start, are general arcs. */
#include "sched/prover.h"

bool propagate_arcs(prover *p, const trail_entry *e) {
    for (int32_t k = p->arc_at[e->node]; k < p->arc_at[e->node + 1]; k++)
        if (!set_bound(p, p->arc[k].to, e->value + p->arc[k].distance, WHY_ARC, e->node, p->arc[k].distance))
            return false;
    return true;
}

/* The earliest start over `g` when the time point it counts from is at x. */
static int32_t pushed_to(const prover *p, const general_arc *g, int32_t x) {
    int64_t t = (g->arc.map == SCHED_NONE ? x : model_map(p->m, g->arc.map, x)) + (int64_t)g->arc.delay;
    return t > SCHED_TIME_MAX ? SCHED_TIME_MAX : (int32_t)t;
}

/* The latest time point it may count from when the later task starts by s; -1: none. */
static int32_t pulled_to(const prover *p, const general_arc *g, int32_t s) {
    int32_t t = s - g->arc.delay;
    return t < 0 ? -1 : g->arc.map == SCHED_NONE ? t : model_map_back(p->m, g->arc.map, t);
}

static bool push_general(prover *p, int32_t k) {
    const general_arc *g = &p->general[k];
    int32_t a = lower(p, g->from), b = upper(p, g->from);
    int32_t x = g->arc.kind == SCHED_END_START ? model_least_end(p->m, g->from, a, b) : a;
    if (!set_bound(p, 2 * g->to, pushed_to(p, g, x), WHY_BEYOND, k, 0))
        return false;
    int32_t latest = pulled_to(p, g, upper(p, g->to)), s = latest;
    if (g->arc.kind == SCHED_END_START && latest >= 0)
        s = model_start_ending_by(p->m, g->from, latest, b);
    return set_bound(p, 2 * g->from + 1, s < 0 ? 1 : -s, WHY_BEYOND, k, 1);
}

bool propagate_all_general(prover *p) {
    for (int32_t k = 0; k < p->general_arcs; k++)
        if (!push_general(p, k))
            return false;
    return true;
}

bool propagate_general(prover *p, const trail_entry *e) {
    int32_t x = e->node >> 1;
    for (int32_t k = p->general_at[x]; k < p->general_at[x + 1]; k++)
        if (!push_general(p, p->general_of[k]))
            return false;
    return true;
}

/* Forward: with every start in [a, u] of `from` counting from at least the time that gives v. The bound u is needed
 * only where a later start could end earlier. Backward: the later task's latest start. */
void explain_general(prover *p, int32_t k, int32_t backward, literal l) {
    const general_arc *g = &p->general[k];
    if (!backward) {
        int32_t x = pulled_to(p, g, l.at_least - 1); /* a time point at or before x would allow v - 1 */
        if (g->arc.kind == SCHED_START_START) {
            add_why(p, 2 * g->from, x + 1);
            return;
        }
        int32_t a = model_start_ending_by(p->m, g->from, x, p->horizon);
        if (a < p->past[2 * g->from]) {
            add_why(p, 2 * g->from, a + 1);
            return;
        }
        int32_t u = -p->past[2 * g->from + 1];
        add_why(p, 2 * g->from, model_start_ending_by(p->m, g->from, x, u) + 1);
        add_why(p, 2 * g->from + 1, -u);
        return;
    }
    /* "from starts by u" was asked; every start in [u + 1, w] pushes the later task past its latest start. */
    int32_t u = -l.at_least, w = -p->past[2 * g->from + 1];
    int32_t x = g->arc.kind == SCHED_START_START ? u + 1 : model_least_end(p->m, g->from, u + 1, p->horizon);
    int32_t latest = pushed_to(p, g, x) - 1;
    if (latest < -p->past[2 * g->to + 1]) { /* only with the bound w */
        x = model_least_end(p->m, g->from, u + 1, w);
        latest = pushed_to(p, g, x) - 1;
        add_why(p, 2 * g->from + 1, -w);
    }
    add_why(p, 2 * g->to + 1, -latest);
}
