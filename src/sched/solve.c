/* solve.c: from a problem to a result: the order in which the techniques have their turn. */
#include "sched/solve.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sched/bound.h"
#include "sched/construct.h"
#include "sched/objectives.h"
#include "sched/population.h"
#include "sched/portfolio.h"
#include "sched/prove.h"
#include "sched/reason.h"
#include "sched/scale.h"

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
    const solve_reason *why = &s->reason;
    if (r->status == SCHED_INFEASIBLE) {
        if (why->tasks > 0)
            memcpy(fill32(r->reason_tasks), why->task, (size_t)why->tasks * sizeof(int32_t));
        if (why->resources > 0)
            memcpy(fill32(r->reason_resources), why->resource, (size_t)why->resources * sizeof(int32_t));
        snprintf(r->reason, sizeof r->reason, "%s", why->text);
    } else if (r->status != SCHED_OPTIMAL) {
        const char *ended = s->mem.refused || s->keep.refused ? "the memory limit was reached"
                            : s->options.cancel && atomic_load(&s->options.cancel->asked) ? "it was cancelled"
                            : s->stopped ? "its limit was reached"
                                         : "nothing more was tried";
        snprintf(r->reason, sizeof r->reason, "%s", ended);
    }
}

static sched_result *make_result(const solve *s) {
    const model *m = &s->m;
    bool infeasible = m->infeasible || s->infeasible;
    bool found = s->makespan != SCHED_NONE;
    sched_result *r = result_open(m->n, s->problem->objectives, s->reason.tasks, s->reason.resources);
    if (!r)
        return NULL;
    r->status = found        ? s->lower_bound >= s->makespan ? SCHED_OPTIMAL : SCHED_FEASIBLE
                : infeasible ? SCHED_INFEASIBLE
                             : SCHED_UNKNOWN;
    r->makespan = s->makespan;
    r->lower_bound = s->lower_bound;
    for (int32_t k = 0; k < r->objective_count; k++) {
        fill64(r->objective)[k] = found ? s->value[k] : 0;
        fill64(r->objective_bound)[k] = s->value_bound ? s->value_bound[k] : INT64_MIN;
    }
    for (int32_t i = 0; found && i < m->n; i++) {
        fill32(r->starts)[i] = s->best[i];
        fill32(r->ends)[i] = sched_end_of(s->problem, i, s->best[i]);
    }
    if (!found)
        r->starts = r->ends = NULL;
    tell_reason(s, r);
    r->seconds = solve_seconds(s);
    r->effort = s->effort / 1000;
    r->schedules = s->schedules;
    r->conflicts = s->conflicts;
    r->memory_peak = s->mem.peak + s->keep.peak + s->threads_peak;
    return r;
}

/* What the caller brings along. */
static void take_known(solve *s) {
    const sched_options *o = &s->options;
    sched_fault ignored;
    int32_t makespan;
    if (o->known_lower_bound > s->lower_bound)
        solve_raise_bound(s, o->known_lower_bound);
    if (o->known_starts && sched_check(s->problem, o->known_starts, &makespan, &ignored))
        (void)solve_offer(s, o->known_starts);
}

static void find_makespan(solve *s, rng *r) {
    const sched_options *o = &s->options;
    if (!solve_is_over(s))
        construct(s);
    if (o->schedules > 0) { /* generation only */
        population_run(s, r, o->schedules);
        return;
    }
    if (!solve_is_over(s) && !solve_is_stale(s))
        population_run(s, r, 1000);
    if (!solve_is_over(s) && !solve_is_stale(s))
        prove(s, r);
}

static bool build(solve *s) {
    s->out_of_memory = s->out_of_memory || s->mem.refused;
    memory_close(&s->mem);
    s->known_sets = s->refusal->sets;
    s->known_bound_sets = s->refusal->bound_sets;
    if (!model_build(&s->m, s->problem, s->refusal, &s->mem)) {
        s->m = (model){.n = s->m.n, .problem = s->problem, .reason_resource = SCHED_NONE};
        s->stopped = true;
        return false;
    }
    s->infeasible = s->m.infeasible;
    return !s->m.infeasible;
}

/* One round on one model: until closed, over, or a refusal asks for another model. */
static void run_round(solve *s, rng *r) {
    solve_raise_bound(s, bound_critical_path(&s->m));
    solve_raise_bound(s, bound_energy(&s->m, &s->mem));
    take_known(s);
    if (s->second_stage)
        improve_objectives(s);
    else
        find_makespan(s, r);
}

/* The first stage has ended with a schedule and objectives are left: begin the second. */
static bool goes_on(solve *s) {
    if (s->second_stage || s->makespan == SCHED_NONE || s->problem->objectives == 0 ||
        s->options.schedules > 0 || s->broken || s->infeasible)
        return false;
    s->second_stage = true;
    s->stopped = false;
    return true;
}

static void run(solve *s) {
    rng r = rng_open(s->options.seed, 0);
    do {
        if (!build(s))
            return;
        run_round(s, &r);
    } while (!s->broken && ((solve_is_stale(s) && !s->stopped) || (!s->portfolio && goes_on(s))));
}

/* Threads share the first stage; refusals change the model, which one thread must do alone. */
static void run_all(solve *s) {
    if (s->options.threads > 1 && !s->options.check && s->options.schedules == 0) {
        portfolio_run(s, run);
        if (!goes_on(s))
            return;
    }
    run(s);
}

bool solve_open(solve *s, sched_refusal *refusal) {
    uint64_t limit = s->options.memory_bytes ? s->options.memory_bytes : DEFAULT_MEMORY;
    *refusal = (sched_refusal){.mem = &s->keep, .n = (int32_t)s->problem->tasks.n};
    s->refusal = refusal;
    if (s->options.threads > 1)
        limit /= (uint64_t)s->options.threads;
    memory_open(&s->keep, limit / 8);
    memory_open(&s->mem, limit - limit / 8);
    solve_start_clock(s);
    s->m = (model){.n = (int32_t)s->problem->tasks.n, .problem = s->problem, .reason_resource = SCHED_NONE};
    s->value = memory_array(&s->keep, int64_t, s->problem->objectives);
    s->value_bound = memory_array(&s->keep, int64_t, s->problem->objectives);
    for (int32_t k = 0; s->value_bound && k < s->problem->objectives; k++)
        s->value_bound[k] = INT64_MIN;
    s->best = memory_array(&s->keep, int32_t, s->problem->tasks.n);
    return s->best && s->value && s->value_bound;
}

/* Solves a problem without faults, in its own unit of time. */
static bool solve_as_it_is(const sched_problem *p, const sched_options *o, sched_result **out,
                           sched_fault *fault) {
    solve s = {.problem = p, .options = *o, .makespan = SCHED_NONE};
    sched_refusal refusal;
    if (solve_open(&s, &refusal))
        run_all(&s);
    if (!s.broken && s.makespan == SCHED_NONE && (s.infeasible || s.m.infeasible))
        reason_find(&s, run);
    if (!s.broken) {
        *out = make_result(&s);
        if (!*out)
            fault_set(fault, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0,
                      "no memory for a result");
    } else {
        *fault = s.fault;
    }
    memory_close(&s.mem);
    memory_close(&s.keep);
    return *out != NULL;
}

/* ---- in a coarser unit of time ----------------------------------------------------------------------------- */

typedef struct {
    const sched_options *options;
    int32_t unit;
} scaled_progress;

static void tell_scaled(void *user, const sched_progress *now) {
    const scaled_progress *to = user;
    sched_progress in_own_unit = *now;
    in_own_unit.best = now->best == SCHED_NONE ? SCHED_NONE : now->best * to->unit;
    in_own_unit.lower_bound = now->lower_bound * to->unit;
    to->options->progress(to->options->user, &in_own_unit);
}

static bool scale_back(const sched_problem *p, sched_result *r, int32_t unit, sched_fault *fault) {
    r->lower_bound *= unit;
    if (!r->starts)
        return true;
    for (int32_t i = 0; i < r->task_count; i++) {
        fill32(r->starts)[i] *= unit;
        fill32(r->ends)[i] *= unit;
    }
    return sched_check(p, r->starts, &r->makespan, fault);
}

static bool solve_scaled(const sched_problem *p, const sched_options *o, int32_t unit, sched_result **out,
                         sched_fault *fault) {
    sched_problem *q = scale_open(p, unit);
    int32_t *known = o->known_starts ? malloc((p->tasks.n + 1) * sizeof *known) : NULL;
    bool ok = q && (known || !o->known_starts);
    if (!ok)
        fault_set(fault, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0, "no memory to solve");
    for (size_t i = 0; known && i < p->tasks.n; i++)
        known[i] = o->known_starts[i] < 0 ? SCHED_NONE : o->known_starts[i] / unit;
    scaled_progress to = {o, unit};
    sched_options scaled = *o;
    scaled.known_starts = known;
    scaled.known_lower_bound = (int32_t)(((int64_t)o->known_lower_bound + unit - 1) / unit);
    scaled.progress = o->progress ? tell_scaled : NULL;
    scaled.user = &to;
    ok = ok && solve_as_it_is(q, &scaled, out, fault);
    if (ok && !scale_back(p, *out, unit, fault)) {
        fault->code = SCHED_FAULT_INTERNAL;
        sched_result_close(*out);
        *out = NULL;
        ok = false;
    }
    free(known);
    sched_close(q);
    return ok;
}

bool sched_solve(const sched_problem *p, const sched_options *o, sched_result **out, sched_fault *fault) {
    *out = NULL;
    if (sched_validate(p, fault, 1) > 0)
        return false;
    /* Costs count each unit of time, and a caller's check is about starts of its own. */
    int32_t unit = o->check || p->objectives > 0 ? 1 : scale_unit(p);
    return unit > 1 ? solve_scaled(p, o, unit, out, fault) : solve_as_it_is(p, o, out, fault);
}
