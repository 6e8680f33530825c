/* prove.c: from both sides: better schedules from above, destructive bounds from below. */
#include "sched/prove.h"

#include <string.h>

#include "sched/carry.h"
#include "sched/population.h"
#include "sched/prover.h"

/* 1 1 2 1 1 2 4 ... (Luby, Sinclair, Zuckerman, "Optimal speedup of Las Vegas algorithms", 1993), k from 0. */
uint64_t prover_luby(uint64_t k) {
    uint64_t size = 1, power = 1;
    while (size < k + 1) {
        size = 2 * size + 1;
        power *= 2;
    }
    while (size > 1 && size - 1 != k) {
        size = (size - 1) / 2;
        power /= 2;
        k %= size;
    }
    return power;
}

/* Leans to the best schedule. */
void prover_lean(prover *p) {
    const solve *s = p->s;
    p->has_target = s->makespan != SCHED_NONE;
    for (int32_t i = 0; p->has_target && i < p->n; i++)
        p->target[i] = s->best[i];
    for (int32_t k = 0; p->has_target && k < p->pairs; k++)
        p->target[p->pair[k].order] = s->best[p->pair[k].a] < s->best[p->pair[k].b];
    p->target[p->makespan] = 0;
}

/* Only better than the best from now on. */
static void tighten(prover *p) {
    undo_to(p, 0);
    int32_t best = p->s->makespan;
    if (best != SCHED_NONE && !set_bound(p, 2 * p->makespan + 1, 1 - best, WHY_ROOT, 0, 0))
        p->inconsistent = true;
    if (!p->inconsistent && !set_bound(p, 2 * p->makespan, p->s->lower_bound, WHY_ROOT, 0, 0))
        p->inconsistent = true;
    prover_lean(p);
}

static void take_schedule(prover *p) {
    int32_t *start = p->past; /* free between analyses */
    for (int32_t i = 0; i < p->n; i++)
        start[i] = lower(p, i);
    (void)solve_offer(p->s, start);
}

static void close_from_above(prover *p, int32_t best) {
    if (best != SCHED_NONE)
        solve_raise_bound(p->s, best);
    else
        p->s->infeasible = true;
}

/* The caller's refusals of bounds, as clauses. false: no memory. */
bool prover_add_refused_bounds(prover *p) {
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

/* Now and then the population has another turn, twice as long each time: with a quarter of all effort as a rule, with two thirds after
 * a turn that found a better schedule. */
typedef struct {
    uint64_t schedules, spent;
    bool paid; /* the last turn did */
} improver;

static void improve_in_turn(solve *s, improver *m, rng *r) {
    if (2 * s->effort < (m->paid ? 3 : 8) * m->spent)
        return;
    uint64_t before = s->effort;
    int32_t makespan = s->makespan;
    population_run(s, r, m->schedules);
    m->spent += s->effort - before;
    m->paid = s->makespan < makespan;
    m->schedules = m->schedules < 100000 ? 2 * m->schedules : m->schedules;
}

void prove(solve *s, rng *r) {
    prover p;
    uint64_t n = (uint64_t)s->m.n;
    improver m = {2 * n * n < 2000     ? 2000
                  : 2 * n * n < 100000 ? 2 * n * n
                                       : 100000,
                  s->effort + 100000, false};
    if (s->m.n > PROVER_TASKS_MAX ||
        !prover_open(&p, s, 0, s->makespan != SCHED_NONE ? s->makespan : s->m.horizon))
        return;
    bool below = false;
    uint64_t period = s->style % 2 == 1 ? 2 : 8; /* mostly from above; every other thread half and half */
    p.energy_always = s->style % 4 == 2;
    tighten(&p);
    if (!prover_add_refused_bounds(&p) || !carry_in(&p))
        return;
    int32_t best = s->makespan; /* that the prover knows of */
    while (!solve_is_over(s) && !solve_is_stale(s)) {
        if (best != s->makespan) { /* found in between, by another technique or another thread */
            tighten(&p);
            best = s->makespan;
        }
        int32_t cap = below ? s->lower_bound : INT32_MAX;
        switch (search(&p, cap, prover_luby(p.restarts) * PROVER_RESTART)) {
        case SEARCH_SOLVED:
            take_schedule(&p);
            break;
        case SEARCH_REFUTED:
            if (p.inconsistent)
                close_from_above(&p, best);
            else
                solve_raise_bound(s, s->lower_bound + 1);
            break;
        case SEARCH_LIMIT:
            undo_to(&p, 0);
            p.by_activity = true;
            below = p.restarts % period == period - 1;
            p.restarts++;
            improve_in_turn(s, &m, r);
            break;
        }
        if (!p.inconsistent && p.level == 0 && p.bound[2 * p.makespan] > s->lower_bound)
            solve_raise_bound(s, p.bound[2 * p.makespan]);
        if (p.out_of_memory)
            return;
    }
    if (solve_is_stale(s))
        carry_out(&p);
}
