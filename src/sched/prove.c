/* prove.c: from both sides: better schedules from above, destructive bounds from below. */
#include "sched/prove.h"

#include <string.h>

#include "sched/prover.h"

#define RESTART_BASE 250

/* 1 1 2 1 1 2 4 ... (Luby, Sinclair, Zuckerman, "Optimal speedup of Las Vegas algorithms", 1993), k from 0. */
static uint64_t luby(uint64_t k) {
    uint64_t size = 1, power = 1;
    while (size < k + 1) {
        size = 2 * size + 1;
        power *= 2;
    }
    while (size - 1 != k) {
        size = (size - 1) / 2;
        power /= 2;
        k %= size;
    }
    return power;
}

#define PROVER_TASKS_MAX 3000 /* pairs of tasks are looked at: quadratic */

/* Only better than the best from now on. */
static void tighten(prover *p) {
    undo_to(p, 0);
    if (p->s->makespan != SCHED_NONE &&
        !set_bound(p, 2 * p->makespan + 1, 1 - p->s->makespan, WHY_ROOT, 0, 0))
        p->inconsistent = true;
    if (!p->inconsistent && !set_bound(p, 2 * p->makespan, p->s->lower_bound, WHY_ROOT, 0, 0))
        p->inconsistent = true;
    for (int32_t i = 0; p->s->makespan != SCHED_NONE && i < p->n; i++)
        p->target[i] = p->s->best[i];
    p->target[p->makespan] = 0;
    for (int32_t k = 0; k < p->pairs && p->s->makespan != SCHED_NONE; k++)
        p->target[p->pair[k].order] = p->s->best[p->pair[k].a] < p->s->best[p->pair[k].b];
    p->has_target = p->s->makespan != SCHED_NONE;
}

static void take_schedule(prover *p) {
    int32_t *start = p->past; /* free between analyses */
    for (int32_t i = 0; i < p->n; i++)
        start[i] = lower(p, i);
    (void)solve_offer(p->s, start);
}

static void close_from_above(prover *p) {
    if (p->s->makespan != SCHED_NONE)
        solve_raise_bound(p->s, p->s->makespan);
    else
        p->s->infeasible = true;
}

/* The caller's refusals of bounds, as clauses. false: no memory. */
static bool add_refused_bounds(prover *p) {
    const sched_refusal *r = p->s->refusal;
    for (int32_t k = 0; k < r->bound_sets && !p->inconsistent; k++) {
        int32_t from = k > 0 ? r->bound_at[k - 1] : 0, n = 0;
        literal *l = p->lesson;
        bool satisfied = false;
        for (int32_t j = from; j < r->bound_at[k]; j++) {
            const sched_start_bound *b = &r->bound[j];
            literal holds =
                b->at_most ? (literal){2 * b->task + 1, -b->value} : (literal){2 * b->task, b->value};
            satisfied = satisfied || is_false(p, holds);
            if (!is_true(p, holds) && n < p->nodes)
                l[n++] = opposite(holds);
        }
        if (satisfied)
            continue;
        if (n == 0 || (n == 1 && !set_bound(p, l[0].node, l[0].at_least, WHY_ROOT, 0, 0)))
            p->inconsistent = true;
        else if (n > 1 && !clause_add(p, l, n, 0))
            return false;
    }
    return true;
}

void prove(solve *s) {
    prover p;
    if (s->m.n > PROVER_TASKS_MAX || !prover_open(&p, s))
        return;
    bool below = false;
    tighten(&p);
    if (!add_refused_bounds(&p))
        return;
    while (!solve_is_over(s) && !solve_is_stale(s)) {
        int32_t cap = below ? s->lower_bound : INT32_MAX;
        switch (search(&p, cap, luby(p.restarts) * RESTART_BASE)) {
        case SEARCH_SOLVED:
            take_schedule(&p);
            tighten(&p);
            break;
        case SEARCH_REFUTED:
            if (p.inconsistent)
                close_from_above(&p);
            else
                solve_raise_bound(s, s->lower_bound + 1);
            break;
        case SEARCH_LIMIT:
            undo_to(&p, 0);
            p.by_activity = true;
            below = p.restarts > 3 && !below;
            p.restarts++;
            break;
        }
        if (!p.inconsistent && p.level == 0 && p.bound[2 * p.makespan] > s->lower_bound)
            solve_raise_bound(s, p.bound[2 * p.makespan]);
        if (p.out_of_memory)
            return;
    }
}
