/* byte_problem.c: see byte_problem.h. */
#include "byte_problem.h"

#include <string.h>

typedef struct {
    const uint8_t *at;
    size_t n;
} bytes;

/* 0 .. below - 1; 0 when no bytes are left. */
static int32_t pick(bytes *b, int32_t below) {
    if (b->n == 0)
        return 0;
    b->n--;
    return *b->at++ % below;
}

static void add_tasks(bytes *b, sched_problem *p, int32_t n) {
    for (int32_t cuts = pick(b, 4); cuts > 0; cuts--)
        sched_add_cut(p, 1 + pick(b, BYTE_HORIZON - 1));
    for (int32_t i = 0; i < n; i++) {
        sched_add_task(p, pick(b, 5));
        int32_t crossing = pick(b, 4);
        if (crossing > 0)
            sched_set_crossing(p, i, crossing == 1 ? SCHED_CUT_KEPT : SCHED_CUT_COSTS,
                               crossing == 1 ? 0 : pick(b, 3));
        switch (pick(b, 10)) {
        case 1:
            sched_set_release(p, i, pick(b, 5));
            break;
        case 2:
            sched_set_deadline(p, i, 3 + pick(b, BYTE_HORIZON - 2));
            break;
        case 3:
            sched_fix_start(p, i, pick(b, 6));
            break;
        case 4:
            for (int32_t k = pick(b, 3); k >= 0; k--) {
                int32_t first = pick(b, BYTE_HORIZON);
                sched_allow_starts(p, i, first, first + pick(b, 3));
            }
            break;
        default:
            break;
        }
    }
}

static void add_resources(bytes *b, sched_problem *p, int32_t n) {
    for (int32_t r = 0, resources = pick(b, 3); r < resources; r++) {
        sched_add_resource(p, 1 + pick(b, 4));
        for (int32_t k = pick(b, 3); k > 0; k--) {
            int32_t from = pick(b, BYTE_HORIZON);
            sched_set_capacity(p, r, from, from + 1 + pick(b, 4), pick(b, 4));
        }
        for (int32_t i = 0; i < n; i++)
            sched_set_demand(p, i, r, pick(b, 4));
    }
    for (int32_t v = 0, reservoirs = pick(b, 3); v < reservoirs; v++) {
        sched_add_reservoir(p, pick(b, 4));
        if (pick(b, 2))
            sched_add_arrival(p, v, pick(b, BYTE_HORIZON), 1 + pick(b, 2));
        for (int32_t i = 0; i < n; i++) {
            sched_set_draw(p, i, v, pick(b, 3));
            sched_set_give(p, i, v, pick(b, 4) / 2);
        }
    }
}

static void add_order(bytes *b, sched_problem *p, int32_t n) {
    static const sched_map_piece night[] = {{0, 3, 0}, {3, 6, 0}, {6, 9, 0}, {9, 12, 1}};
    static const sched_map_piece later[] = {{1, 3, 1}, {4, 7, 0}, {7, 7, 1}};
    sched_add_map(p, night, 4);
    sched_add_map(p, later, 3);
    for (int32_t k = pick(b, 4); k > 0 && n > 1; k--) {
        int32_t before = pick(b, n - 1), after = before + 1 + pick(b, n - 1 - before);
        sched_add_relation(p, pick(b, 2) ? SCHED_START_START : SCHED_END_START, before, after, pick(b, 4),
                           pick(b, 3) - 1);
    }
    for (int32_t k = pick(b, 3); k > 0 && n > 1; k--) {
        int32_t set[] = {0, 1, 2, 3};
        int32_t gone = pick(b, n);
        if (n == 2 || pick(b, 2)) {
            sched_forbid_overlap(p, gone, (gone + 1 + pick(b, n - 1)) % n);
        } else {
            set[gone] = n - 1; /* all but one, or all */
            sched_forbid_all_overlap(p, set, (size_t)(gone == n - 1 ? n : n - 1));
        }
    }
}

static int32_t add_objectives(bytes *b, sched_problem *p, int32_t n) {
    int32_t objectives = pick(b, BYTE_OBJECTIVES + 1);
    for (int32_t k = 0; k < objectives; k++) {
        sched_add_objective(p);
        for (int32_t i = 0; i < n; i++) {
            int32_t from = pick(b, 5);
            const sched_cost_piece piece[] = {{from, pick(b, 9) - 4, pick(b, 5) - 2},
                                              {from + 1 + pick(b, 4), pick(b, 9) - 4, pick(b, 5) - 2}};
            size_t pieces = (size_t)pick(b, 3);
            if (pieces)
                sched_add_cost(p, k, i, piece, pieces);
        }
    }
    return objectives;
}

sched_problem *byte_problem(const uint8_t *at, size_t size, int32_t *objectives) {
    bytes b = {at, size};
    sched_problem *p = sched_open();
    int32_t n = 1 + pick(&b, BYTE_TASKS);
    sched_set_horizon(p, BYTE_HORIZON);
    add_tasks(&b, p, n);
    add_resources(&b, p, n);
    add_order(&b, p, n);
    *objectives = add_objectives(&b, p, n);
    return p;
}

static bool better(const byte_best *a, const byte_best *b, int32_t objectives) {
    if (!b->feasible || a->makespan != b->makespan)
        return !b->feasible || a->makespan < b->makespan;
    for (int32_t k = 0; k < objectives; k++)
        if (a->objective[k] != b->objective[k])
            return a->objective[k] < b->objective[k];
    return false;
}

byte_best byte_try_all(const sched_problem *p, int32_t objectives) {
    byte_best best = {.feasible = false};
    int32_t n = sched_task_count(p), starts[BYTE_TASKS] = {0}, i = 0;
    while (i < n) {
        byte_best now = {.feasible = true};
        sched_fault ignored;
        if (sched_check(p, starts, &now.makespan, &ignored)) {
            for (int32_t k = 0; k < objectives; k++)
                now.objective[k] = sched_objective_value(p, k, starts);
            if (better(&now, &best, objectives))
                best = now;
        }
        for (i = 0; i < n && ++starts[i] > BYTE_HORIZON; i++) /* count up, the first task fastest */
            starts[i] = 0;
    }
    return best;
}

bool byte_agrees(const sched_problem *p, const byte_best *best, int32_t threads) {
    sched_options o = sched_default_options();
    o.threads = threads;
    sched_result *r;
    sched_fault fault;
    if (!sched_solve(p, &o, &r, &fault))
        return false;
    bool same = r->status == (best->feasible ? SCHED_OPTIMAL : SCHED_INFEASIBLE);
    same = same && (!best->feasible || r->makespan == best->makespan);
    for (int32_t k = 0; same && best->feasible && k < r->objective_count; k++)
        same = r->objective[k] == best->objective[k] && r->objective_bound[k] == best->objective[k];
    sched_result_close(r);
    return same;
}
