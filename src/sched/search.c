/* search.c: propagate, learn, decide, restart. Reads like a table of contents. */
#include "sched/prover.h"

#include <string.h>

/* At level 0, everything propagated: the bounds are facts. */
static void settle_root(prover *p) {
    memcpy(p->root, p->bound, (size_t)p->nodes * sizeof *p->root);
    for (int32_t k = 0; k < p->trail_n; k++)
        p->latest[p->trail[k].node] = -1;
    p->trail_n = p->done = 0;
    p->notes = 0;
}

static bool learn(prover *p) {
    p->conflicts++;
    p->s->conflicts++;
    int32_t back = p->out_of_memory ? 0 : analyse(p);
    if (back < 0) {
        p->inconsistent = true;
        return false;
    }
    if (p->out_of_memory)
        return false;
    undo_to(p, back);
    literal first = p->lesson[0];
    uint32_t ref = 0;
    if (p->lesson_n > 1) {
        ref = clause_add(p, p->lesson, p->lesson_n, p->lesson_blocks);
        if (!ref)
            return false;
    }
    if (!set_bound(p, first.node, first.at_least, ref ? WHY_CLAUSE : WHY_ROOT, (int32_t)ref, 0)) {
        p->inconsistent = back == 0;
        return false;
    }
    return true;
}

static void report(prover *p) {
    solve_spend(p->s, p->steps);
    p->steps = 0;
}

static void forget(prover *p) {
    if (p->learned_n <= p->learned_limit)
        return;
    clauses_reduce(p);
    p->learned_limit += p->learned_limit / 50;
}

/* Room for what one propagation puts on the trail and notes down, so that it need not allocate: four rises of each bound, as a rule. */
static void make_room(prover *p) {
    while (!p->out_of_memory && p->trail_room - p->trail_n < 4 * p->nodes)
        (void)trail_reserve(p);
    while (!p->out_of_memory && p->note_room - p->notes < 4 * p->nodes)
        (void)energy_reserve(p);
}

static bool propagate_all(prover *p) {
    make_room(p);
    if (p->out_of_memory)
        return false;
    p->mem->in_loop = true;
    bool ok = propagate(p);
    p->mem->in_loop = false;
    return ok;
}

search_end search(prover *p, int32_t cap, uint64_t conflict_limit) {
    uint64_t end = p->conflicts + conflict_limit;
    uint32_t quiet = 0;
    undo_to(p, 0);
    while (!p->inconsistent) {
        if (p->out_of_memory)
            return SEARCH_LIMIT;
        if (!propagate_all(p)) {
            if (!learn(p))
                continue;
            if ((p->conflicts & 15) == 0) {
                report(p);
                if (solve_is_over(p->s))
                    return SEARCH_LIMIT;
            }
            continue;
        }
        if (p->level == 0) {
            settle_root(p);
            forget(p);
            if (lower(p, p->goal) > cap)
                return SEARCH_REFUTED;
            if (upper(p, p->goal) > cap) {
                if (new_level(p))
                    (void)set_bound(p, 2 * p->goal + 1, -cap, WHY_DECISION, 0, 0);
                continue;
            }
        }
        if (p->conflicts >= end)
            return SEARCH_LIMIT;
        if ((++quiet & 63) == 0) {
            report(p);
            if (solve_is_over(p->s))
                return SEARCH_LIMIT;
        }
        if (!decide(p))
            return SEARCH_SOLVED;
    }
    return SEARCH_REFUTED;
}
