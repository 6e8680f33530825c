/* objectives.c: the second stage: the same prover with the makespan as a limit and a variable for each objective so far.
 *
 * From above: only cheaper schedules; and every other run from below, capped half way between bound and best, which either finds a
 * much better schedule or lifts the bound. */
#include "sched/objectives.h"

#include "sched/prover.h"

static bool keep_limit(prover *p, int32_t node, int64_t value) {
    if (value > INT32_MAX / 2)
        return true;
    return set_bound(p, node, (int32_t)value, WHY_ROOT, 0, 0);
}

/* The limits of this stage at the root: makespan, objectives before, and the one at work strictly better. */
static void tighten(prover *p, int32_t row) {
    const solve *s = p->s;
    undo_to(p, 0);
    bool ok = set_bound(p, 2 * p->makespan + 1, -s->makespan, WHY_ROOT, 0, 0);
    for (int32_t k = 0; ok && k <= row; k++) {
        int64_t best = s->value[k] - p->row_base[k] - (k == row);
        ok = keep_limit(p, 2 * (p->first_cost + k) + 1, -best);
    }
    if (ok && s->value_bound[row] != INT64_MIN)
        ok = keep_limit(p, 2 * p->goal, s->value_bound[row] - p->row_base[row]);
    p->inconsistent = p->inconsistent || !ok;
    prover_lean(p);
}

static void take(prover *p, int32_t row) {
    int32_t *start = p->past; /* free between analyses */
    for (int32_t i = 0; i < p->n; i++)
        start[i] = lower(p, i);
    (void)solve_offer_value(p->s, row, start);
}

/* True when the objective is closed. */
static bool work_on(prover *p, int32_t row) {
    solve *s = p->s;
    bool below = false;
    p->goal = p->first_cost + row;
    tighten(p, row);
    if (!prover_add_refused_bounds(p))
        return false;
    while (!p->inconsistent && !solve_is_over(s) && !solve_is_stale(s) && !p->out_of_memory) {
        int32_t low = lower(p, p->goal), high = upper(p, p->goal),
                cap = below ? low + (high - low) / 2 : INT32_MAX;
        switch (search(p, cap, prover_luby(p->restarts) * PROVER_RESTART)) {
        case SEARCH_SOLVED:
            take(p, row);
            tighten(p, row);
            break;
        case SEARCH_REFUTED:
            if (p->inconsistent)
                break;
            undo_to(p, 0);
            p->inconsistent = !set_bound(p, 2 * p->goal, cap + 1, WHY_ROOT, 0, 0);
            break;
        case SEARCH_LIMIT:
            undo_to(p, 0);
            p->by_activity = true;
            p->restarts++;
            below = !below;
            break;
        }
        int64_t bound = p->row_base[row] + p->bound[2 * p->goal];
        if (!p->inconsistent && p->level == 0 && bound > s->value_bound[row])
            s->value_bound[row] = bound;
    }
    if (p->inconsistent)
        s->value_bound[row] = s->value[row];
    return p->inconsistent;
}

void improve_objectives(solve *s) {
    if (s->m.n > PROVER_TASKS_MAX)
        return;
    for (int32_t row = s->closed_objectives; row < s->problem->objectives; row++) {
        prover *p = memory_array(&s->mem, prover, 1);
        if (!p || !prover_open(p, s, row + 1, s->makespan) || !work_on(p, row))
            return;
        s->closed_objectives = row + 1;
    }
}
