/* solve.c: from a problem to a result: the order in which the techniques have their turn. */
#include "sched/solve.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sched/construct.h"
#include "sched/population.h"
#include "sched/prove.h"

#define DEFAULT_MEMORY ((uint64_t)256 << 20)

sched_options sched_default_options(void) {
    return (sched_options){.seed = 1, .threads = 1};
}

/* Everything a result owns is one block: the struct, then its arrays. */
typedef struct {
    sched_result result;
    int64_t wide[]; /* objectives and their bounds, then the int32 arrays */
} result_block;

static sched_result *result_open(int32_t tasks, int32_t objectives, int32_t reason_tasks,
                                 int32_t reason_resources) {
    size_t narrow = 2 * (size_t)tasks + (size_t)reason_tasks + (size_t)reason_resources;
    size_t bytes = sizeof(result_block) + 2 * (size_t)objectives * sizeof(int64_t) + narrow * sizeof(int32_t);
    result_block *b = calloc(1, bytes);
    if (!b)
        return NULL;
    sched_result *r = &b->result;
    r->objective = b->wide;
    r->objective_bound = b->wide + objectives;
    r->starts = (int32_t *)(b->wide + 2 * objectives);
    r->ends = r->starts + tasks;
    r->reason_tasks = r->ends + tasks;
    r->reason_resources = r->reason_tasks + reason_tasks;
    r->task_count = tasks;
    r->objective_count = objectives;
    r->reason_task_count = reason_tasks;
    r->reason_resource_count = reason_resources;
    return r;
}

void sched_result_close(sched_result *r) {
    free(r);
}

/* The arrays are const to callers; this file fills them. */
static int32_t *fill32(const int32_t *at) {
    union {
        const int32_t *from;
        int32_t *to;
    } u = {at};
    return u.to;
}

static int64_t *fill64(const int64_t *at) {
    union {
        const int64_t *from;
        int64_t *to;
    } u = {at};
    return u.to;
}

static void tell_reason(const solve *s, sched_result *r) {
    const model *m = &s->m;
    if (r->status == SCHED_INFEASIBLE) {
        memcpy(fill32(r->reason_tasks), m->reason_task, (size_t)r->reason_task_count * sizeof(int32_t));
        if (r->reason_resource_count)
            fill32(r->reason_resources)[0] = m->reason_resource;
        snprintf(r->reason, sizeof r->reason, "%s", m->reason);
    } else if (r->status != SCHED_OPTIMAL) {
        const char *why = s->mem.refused ? "the memory limit was reached"
                          : s->options.cancel && atomic_load(&s->options.cancel->asked) ? "it was cancelled"
                          : s->stopped ? "its limit was reached"
                                       : "nothing more was tried";
        snprintf(r->reason, sizeof r->reason, "%s", why);
    }
}

static sched_result *make_result(const solve *s) {
    const model *m = &s->m;
    bool infeasible = m->infeasible || s->infeasible;
    bool found = s->makespan != SCHED_NONE;
    sched_result *r = result_open(m->n, s->problem->objectives, infeasible ? m->reason_tasks : 0,
                                  infeasible && m->reason_resource != SCHED_NONE);
    if (!r)
        return NULL;
    r->status = found        ? s->lower_bound >= s->makespan ? SCHED_OPTIMAL : SCHED_FEASIBLE
                : infeasible ? SCHED_INFEASIBLE
                             : SCHED_UNKNOWN;
    r->makespan = s->makespan;
    r->lower_bound = s->lower_bound;
    for (int32_t k = 0; k < r->objective_count; k++) {
        fill64(r->objective)[k] = found ? sched_objective_value(s->problem, k, s->best) : 0;
        fill64(r->objective_bound)[k] = INT64_MIN;
    }
    for (int32_t i = 0; found && i < m->n; i++) {
        fill32(r->starts)[i] = s->best[i];
        fill32(r->ends)[i] = model_end(m, i, s->best[i]);
    }
    if (!found)
        r->starts = r->ends = NULL;
    tell_reason(s, r);
    r->seconds = solve_seconds(s);
    r->effort = s->effort / 1000;
    r->schedules = s->schedules;
    r->conflicts = s->conflicts;
    r->memory_peak = s->mem.peak;
    return r;
}

static int32_t critical_path(const model *m) {
    int32_t latest = 0;
    for (int32_t i = 0; i < m->n; i++) {
        int32_t end = model_least_end(m, i, m->est[i], m->lst[i]);
        latest = end > latest ? end : latest;
    }
    return latest;
}

static void run(solve *s) {
    const sched_options *o = &s->options;
    solve_raise_bound(s, critical_path(&s->m));
    if (o->known_lower_bound > s->lower_bound)
        solve_raise_bound(s, o->known_lower_bound);
    sched_fault ignored;
    int32_t makespan;
    if (o->known_starts && sched_check(s->problem, o->known_starts, &makespan, &ignored))
        solve_offer(s, o->known_starts);
    if (!solve_is_over(s))
        construct(s);
    rng r = rng_open(o->seed, 0);
    if (o->schedules > 0) { /* generation only */
        population_run(s, &r, o->schedules);
        return;
    }
    if (!solve_is_over(s))
        population_run(s, &r, 1000);
    /* Not yet known to the prover: reservoirs, sets that may not all overlap, refusals. */
    if (!solve_is_over(s) && s->m.reservoirs == 0 && s->m.sets == 0 && !s->options.check)
        prove(s);
}

bool sched_solve(const sched_problem *p, const sched_options *o, sched_result **out, sched_fault *fault) {
    *out = NULL;
    if (sched_validate(p, fault, 1) > 0)
        return false;
    solve s = {.problem = p, .options = *o, .makespan = SCHED_NONE};
    sched_refusal refusal = {.mem = &s.mem};
    s.refusal = &refusal;
    memory_open(&s.mem, o->memory_bytes ? o->memory_bytes : DEFAULT_MEMORY);
    s.began = solve_seconds(&s);
    bool built = model_build(&s.m, p, &s.mem);
    s.best = memory_array(&s.mem, int32_t, p->tasks.n);
    if (built && s.best && !s.m.infeasible)
        run(&s);
    if (!s.broken) {
        *out = make_result(&s);
        if (!*out)
            fault_set(fault, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0,
                      "no memory for a result");
    } else {
        *fault = s.fault;
    }
    memory_close(&s.mem);
    return *out != NULL;
}
