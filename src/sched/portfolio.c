/* portfolio.c: threads that differ in seed and style and share the best schedule and the bound (Hamadi, Jabbour, Sais, "ManySAT",
 * 2009, without sharing clauses). A proven makespan is the same whoever proves it. */
#include "sched/portfolio.h"

#include <string.h>

enum { THREADS_MAX = 64 };

void portfolio_meet(solve *s) {
    portfolio *all = s->portfolio;
    if (atomic_load_explicit(&all->over, memory_order_relaxed))
        s->stopped = true;
    unsigned version = atomic_load_explicit(&all->version, memory_order_acquire);
    bool news = s->makespan != s->met_makespan || s->lower_bound != s->met_bound || s->infeasible;
    if (!news && version == s->met_version)
        return;
    pthread_mutex_lock(&all->lock);
    size_t bytes = (size_t)s->m.n * sizeof *s->best;
    bool mine_better =
        s->makespan != SCHED_NONE && (all->makespan == SCHED_NONE || s->makespan < all->makespan);
    bool theirs_better =
        all->makespan != SCHED_NONE && (s->makespan == SCHED_NONE || all->makespan < s->makespan);
    bool changed = mine_better || s->lower_bound > all->lower_bound || (s->infeasible && !all->infeasible);
    if (mine_better) {
        memcpy(all->best, s->best, bytes);
        all->makespan = s->makespan;
    } else if (theirs_better) {
        memcpy(s->best, all->best, bytes);
        s->makespan = all->makespan;
        for (int32_t k = 0; k < s->problem->objectives; k++)
            s->value[k] = sched_objective_value(s->problem, k, s->best);
    }
    if (s->lower_bound > all->lower_bound)
        all->lower_bound = s->lower_bound;
    s->lower_bound = all->lower_bound;
    all->infeasible = all->infeasible || s->infeasible;
    s->infeasible = all->infeasible;
    if (changed)
        atomic_fetch_add_explicit(&all->version, 1, memory_order_release);
    s->met_version = atomic_load_explicit(&all->version, memory_order_relaxed);
    s->met_makespan = s->makespan;
    s->met_bound = s->lower_bound;
    pthread_mutex_unlock(&all->lock);
}

typedef struct {
    pthread_t thread;
    solve s;
    sched_refusal refusal;
    void (*stage)(solve *s);
    bool started;
} worker;

static void *work(void *at) {
    worker *w = at;
    solve_start_clock(&w->s); /* a thread's processor time is its own */
    w->stage(&w->s);
    portfolio_meet(&w->s);
    solve *s = &w->s;
    if (s->infeasible || (s->makespan != SCHED_NONE && s->lower_bound >= s->makespan))
        atomic_store(&s->portfolio->over, true);
    return NULL;
}

static bool start(worker *w, const solve *s, int32_t number, uint64_t memory_bytes, void (*stage)(solve *s)) {
    w->s = (solve){.problem = s->problem, .options = s->options, .makespan = SCHED_NONE};
    w->stage = stage;
    w->s.options.threads = 1;
    w->s.options.progress = NULL; /* the first thread tells it for all */
    w->s.options.seed = s->options.seed + (uint64_t)number * 1000003;
    w->s.options.memory_bytes = memory_bytes;
    w->s.style = number;
    w->s.portfolio = s->portfolio;
    if (!solve_open(&w->s, &w->refusal))
        return false;
    w->started = pthread_create(&w->thread, NULL, work, w) == 0;
    return w->started;
}

static void end(worker *w, solve *s) {
    if (w->started) {
        pthread_join(w->thread, NULL);
        s->effort += w->s.effort;
        s->schedules += w->s.schedules;
        s->conflicts += w->s.conflicts;
        if (w->s.broken && !s->broken) {
            s->broken = true;
            s->fault = w->s.fault;
        }
    }
    s->threads_peak += w->s.mem.peak + w->s.keep.peak;
    memory_close(&w->s.mem);
    memory_close(&w->s.keep);
}

void portfolio_run(solve *s, void (*stage)(solve *s)) {
    int32_t others = s->options.threads - 1 < THREADS_MAX ? s->options.threads - 1 : THREADS_MAX;
    portfolio all = {.makespan = SCHED_NONE};
    all.best = memory_array(&s->keep, int32_t, s->problem->tasks.n);
    worker *w = memory_array(&s->keep, worker, others);
    if (!all.best || !w || pthread_mutex_init(&all.lock, NULL) != 0) {
        stage(s);
        return;
    }
    s->portfolio = &all;
    for (int32_t k = 0; k < others; k++)
        if (!start(&w[k], s, k + 1, s->keep.limit * 8, stage))
            break;
    stage(s);
    portfolio_meet(s);
    atomic_store(&all.over, true);
    for (int32_t k = 0; k < others; k++)
        end(&w[k], s);
    portfolio_meet(s);
    s->portfolio = NULL;
    pthread_mutex_destroy(&all.lock);
}
