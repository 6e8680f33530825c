/* simulate.c: Monte Carlo of a plan's policy.
 *
 * Each sample draws durations and capacities from a stream of its own and starts the tasks in the plan's order, none before the one
 * in front of it has started, each as soon as relations, resources, cuts and stock allow (an activity-based policy: Stork, "Stochastic
 * resource-constrained project scheduling", 2001). Nothing is decided with knowledge of what comes later. Samples are independent, so
 * threads share nothing but the arrays they write to. */
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#include "sched/exact.h"
#include "sched/generate.h"
#include "sched/rng.h"

typedef struct {
    const sched_problem *problem; /* the caller's, eased: see ease_problem */
    const sched_simulation *what;
    const model *planned;
    const int32_t *order;
    bool *kept; /* by task: keeps its cuts */
    int32_t longest_stretch;
    int32_t *makespan, *decides; /* decides: by thread and task */
} study;

typedef struct {
    pthread_t thread;
    const study *all;
    int32_t number, step; /* samples number, number + step, ... */
    int32_t *decides;
    bool ok, started;
} runner;

/* ---- drawing ----------------------------------------------------------------------------------------------- */

static double triangular(rng *r, double a, double m, double b) {
    double u = rng_unit(r), split = (m - a) / (b - a);
    return u < split ? a + sqrt(u * (b - a) * (m - a)) : b - sqrt((1 - u) * (b - a) * (b - m));
}

/* The beta distribution of network planning: with x in [0, 1] and the likely value at m its density is x^4m (1 - x)^(4 - 4m)
 * up to a factor (Malcolm, Roseboom, Clark, Fazar, 1959); drawn by rejection below its peak. */
static double beta_three_point(rng *r, double a, double likely, double b) {
    double m = (likely - a) / (b - a);
    for (;;) {
        double x = rng_unit(r), u = 1 - rng_unit(r);
        double left = m > 0 ? 4 * m : 0, right = m < 1 ? 4 * (1 - m) : 0, height = 0;
        if ((x <= 0 && left > 0) || (x >= 1 && right > 0))
            continue;
        if (left > 0)
            height += left * exact_log(x / m);
        if (right > 0)
            height += right * exact_log((1 - x) / (1 - m));
        if (exact_log(u) <= height)
            return a + x * (b - a);
    }
}

static int32_t draw_duration(rng *r, const sched_duration *d) {
    if (d->low >= d->high)
        return d->likely;
    double x = d->shape == SCHED_TRIANGULAR ? triangular(r, d->low, d->likely, d->high)
                                            : beta_three_point(r, d->low, d->likely, d->high);
    return (int32_t)(x + 0.5);
}

static void draw_durations(const study *all, rng *r, int32_t *duration) {
    for (int32_t i = 0; i < all->planned->n; i++) {
        int32_t d = draw_duration(r, &all->what->durations[i]);
        if (all->kept[i] && d > all->longest_stretch)
            d = all->longest_stretch; /* it would never fit between two cuts */
        duration[i] = d;
    }
}

/* Which of the caller's events happen: one draw for all rows of an event, in the order of the events. */
static void draw_changes(const study *all, rng *r, generator *g) {
    const sched_simulation *what = all->what;
    int32_t event = SCHED_NONE;
    bool happens = false;
    for (size_t k = 0; k < what->change_count; k++) {
        const sched_random_change *c = &what->changes[k];
        if (k == 0 || c->event != event) {
            event = c->event;
            happens = rng_unit(r) < c->probability;
        }
        if (happens)
            generator_change_capacity(g, c->resource, c->from, c->to, c->capacity);
    }
}

/* ---- what decided ------------------------------------------------------------------------------------------ */

static bool share_resource(const model *m, int32_t a, int32_t b) {
    for (int32_t k = m->demand_at[a]; k < m->demand_at[a + 1]; k++)
        for (int32_t q = m->demand_at[b]; q < m->demand_at[b + 1]; q++)
            if (m->demand[k].resource == m->demand[q].resource)
                return true;
    return false;
}

/* From the last ends backwards: a task decides the finish when one that does starts the moment this lets it: by a relation, or by
 * giving back a resource both need. Tasks in order of start, so that one pass from the back is enough. */
static void count_deciding(const generator *g, const int32_t *order, int32_t makespan, bool *marks,
                           int32_t *decides) {
    const model *m = g->m;
    for (int32_t i = 0; i < m->n; i++)
        marks[i] = g->end[i] == makespan;
    for (int32_t k = m->n - 1; k >= 0; k--) {
        int32_t i = order[k];
        if (!marks[i])
            continue;
        decides[i]++;
        for (int32_t a = m->before_at[i]; a < m->before_at[i + 1]; a++) {
            const model_arc *arc = &m->before[a];
            int32_t x = arc->kind == SCHED_END_START ? g->end[arc->task] : g->start[arc->task];
            if (arc->map != SCHED_NONE)
                x = model_map(m, arc->map, x);
            if (x + arc->delay == g->start[i])
                marks[arc->task] = true;
        }
        for (int32_t q = k - 1; q >= 0; q--)
            if (!marks[order[q]] && g->end[order[q]] == g->start[i] && share_resource(m, order[q], i))
                marks[order[q]] = true;
    }
}

/* ---- running ----------------------------------------------------------------------------------------------- */

static bool run_samples(runner *me, memory *mem) {
    const study *all = me->all;
    model mine = *all->planned;
    generator g;
    mine.duration = memory_array(mem, int32_t, mine.n);
    mine.est = memory_array(mem, int32_t, mine.n);
    bool *marks = memory_array(mem, bool, mine.n);
    for (int32_t i = 0; mine.est && i < mine.n; i++) /* the model's own counts on the longest durations */
        mine.est[i] = all->problem->tasks.at[i].release;
    if (!mine.duration || !mine.est || !marks || !generator_open(&g, &mine, mem))
        return false;
    g.kept = all->kept;
    g.in_order = true;
    for (uint64_t k = (uint64_t)me->number; k < all->what->samples; k += (uint64_t)me->step) {
        rng r = rng_open(all->what->seed, k);
        draw_durations(all, &r, mine.duration);
        if (!generator_clear(&g))
            return false;
        draw_changes(all, &r, &g);
        int32_t makespan = generate_in_order(&g, all->order);
        if (mem->refused)
            return false;
        all->makespan[k] = makespan;
        if (makespan != SCHED_NONE)
            count_deciding(&g, all->order, makespan, marks, me->decides);
    }
    return true;
}

static void *run_one(void *at) {
    runner *me = at;
    memory mem;
    memory_open(&mem, (uint64_t)1 << 30);
    me->ok = run_samples(me, &mem);
    memory_close(&mem);
    return NULL;
}

static bool run_threads(study *all, int32_t threads, memory *mem, sched_simulated *out) {
    runner *runs = memory_array(mem, runner, threads);
    int32_t n = all->planned->n;
    bool ok = runs != NULL;
    for (int32_t k = 0; ok && k < threads; k++) {
        runs[k] =
            (runner){.all = all, .number = k, .step = threads, .decides = memory_array(mem, int32_t, n)};
        ok = runs[k].decides != NULL;
    }
    for (int32_t k = 1; ok && k < threads; k++)
        runs[k].started = pthread_create(&runs[k].thread, NULL, run_one, &runs[k]) == 0;
    for (int32_t k = 0; ok && k < threads; k++)
        if (!runs[k].started) /* number 0, and any that found no thread */
            run_one(&runs[k]);
    for (int32_t k = 0; ok && k < threads; k++) {
        if (runs[k].started)
            pthread_join(runs[k].thread, NULL);
        for (int32_t i = 0; i < n; i++)
            out->decides[i] += (uint32_t)runs[k].decides[i];
    }
    for (int32_t k = 0; ok && k < threads; k++)
        ok = ok && runs[k].ok;
    return ok;
}

/* ---- setting up -------------------------------------------------------------------------------------------- */

/* A copy of the problem in which nothing is too late: no deadlines, fixed starts as releases, high durations for the horizon. Cuts
 * that are kept are looked after by the generator, since allowed starts depend on the duration drawn. */
static bool ease_problem(const sched_problem *p, const sched_simulation *what, sched_problem *eased,
                         bool *kept, memory *mem) {
    *eased = *p;
    eased->horizon = SCHED_NONE;
    eased->tasks.at = memory_array(mem, problem_task, p->tasks.n);
    if (!eased->tasks.at)
        return false;
    for (size_t i = 0; i < p->tasks.n; i++) {
        problem_task *t = &eased->tasks.at[i];
        *t = p->tasks.at[i];
        kept[i] = t->crossing == SCHED_CUT_KEPT;
        if (kept[i])
            t->crossing = SCHED_CUT_IGNORED;
        t->duration = what->durations[i].high > t->duration ? what->durations[i].high : t->duration;
        t->deadline = SCHED_TIME_MAX;
        t->release = t->fixed > t->release ? t->fixed : t->release;
        t->fixed = SCHED_NONE;
    }
    int64_t horizon = model_long_enough(eased);
    for (size_t k = 0; k < what->change_count; k++) /* all may have to wait until the last of these is past */
        horizon = what->changes[k].to > horizon ? what->changes[k].to : horizon;
    horizon += model_long_enough(eased);
    eased->horizon = horizon < SCHED_TIME_MAX ? (int32_t)horizon : SCHED_TIME_MAX;
    return true;
}

static int32_t longest_stretch(const model *m) {
    int32_t longest = m->cut_count > 0 ? m->cut[0] : SCHED_TIME_MAX;
    for (int32_t k = 1; k < m->cut_count; k++)
        longest = m->cut[k] - m->cut[k - 1] > longest ? m->cut[k] - m->cut[k - 1] : longest;
    return longest > 0 ? longest : SCHED_TIME_MAX;
}

static bool durations_ok(const sched_problem *p, const sched_simulation *what, sched_fault *fault) {
    for (size_t i = 0; i < p->tasks.n; i++) {
        const sched_duration *d = &what->durations[i];
        if (d->low < 0 || d->low > d->likely || d->likely > d->high || d->high > SCHED_TIME_MAX) {
            fault_set(fault, SCHED_FAULT_VALUE, (int32_t)i, SCHED_NONE, SCHED_NONE, d->likely,
                      "durations of task %zu: 0 <= low <= likely <= high must hold", i);
            return false;
        }
    }
    for (size_t k = 0; k < what->change_count; k++) {
        const sched_random_change *c = &what->changes[k];
        if (c->resource < 0 || (size_t)c->resource >= p->capacities.n || c->from < 0 || c->from > c->to ||
            c->capacity < 0 || c->capacity > SCHED_AMOUNT_MAX ||
            !(c->probability >= 0 && c->probability <= 1)) {
            fault_set(fault, SCHED_FAULT_VALUE, SCHED_NONE, SCHED_NONE, c->resource, (int64_t)k,
                      "random change %zu has a value out of range", k);
            return false;
        }
    }
    return true;
}

/* The tasks by planned start; of equal ones those that must come first. */
static void plan_order(const model *m, const int32_t *starts, int32_t *order, memory *mem, bool *ok) {
    int32_t *heap = memory_array(mem, int32_t, m->n), *waiting = memory_array(mem, int32_t, m->n);
    *ok = heap && waiting;
    if (*ok)
        order_by_key(m, starts, order, heap, waiting);
}

static bool simulate(const sched_problem *p, const sched_simulation *what, sched_simulated *out,
                     memory *mem) {
    sched_problem eased;
    model m;
    study all = {.what = what, .kept = memory_array(mem, bool, p->tasks.n)};
    if (!all.kept || !ease_problem(p, what, &eased, all.kept, mem) || !model_build(&m, &eased, NULL, mem))
        return false;
    int32_t *order = memory_array(mem, int32_t, m.n);
    bool ok = order != NULL;
    if (ok)
        plan_order(&m, what->starts, order, mem, &ok);
    if (!ok || m.infeasible)
        return ok;
    all.problem = &eased;
    all.planned = &m;
    all.order = order;
    all.longest_stretch = longest_stretch(&m);
    all.makespan = out->makespans;
    return run_threads(&all, what->threads > 1 ? what->threads : 1, mem, out);
}

bool sched_simulate(const sched_problem *p, const sched_simulation *what, sched_simulated **out,
                    sched_fault *fault) {
    *out = NULL;
    if (sched_validate(p, fault, 1) > 0 || !durations_ok(p, what, fault))
        return false;
    size_t bytes = sizeof(sched_simulated) + what->samples * sizeof(int32_t) + p->tasks.n * sizeof(uint32_t);
    sched_simulated *r = what->samples > SIZE_MAX / 16 ? NULL : calloc(1, bytes);
    if (r) {
        r->samples = what->samples;
        r->task_count = (int32_t)p->tasks.n;
        r->makespans = (int32_t *)(r + 1);
        r->decides = (uint32_t *)(r->makespans + what->samples);
        for (uint64_t k = 0; k < what->samples; k++)
            r->makespans[k] = SCHED_NONE;
    }
    memory mem;
    memory_open(&mem, (uint64_t)1 << 30);
    bool ok = r && simulate(p, what, r, &mem);
    memory_close(&mem);
    if (!ok) {
        free(r);
        fault_set(fault, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0, "no memory to simulate");
        return false;
    }
    *out = r;
    return true;
}

void sched_simulated_close(sched_simulated *r) {
    free(r);
}
