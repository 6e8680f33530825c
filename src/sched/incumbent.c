/* incumbent.c: the best schedule, the bound, the limits: what solve.h promises. */
#include <string.h>
#include <time.h>

#include "sched/portfolio.h"
#include "sched/solve.h"

#define STEPS_PER_EFFORT 1000

static double clock_now(sched_clock clock) {
    struct timespec t;
    clock_gettime(clock == SCHED_CLOCK_PROCESSOR ? CLOCK_THREAD_CPUTIME_ID : CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

void solve_start_clock(solve *s) {
    s->began = clock_now(s->options.clock);
}

double solve_seconds(const solve *s) {
    return clock_now(s->options.clock) - s->began;
}

void solve_spend(solve *s, uint64_t steps) {
    s->effort += steps;
}

static void tell_progress(solve *s, double seconds) {
    if (!s->options.progress)
        return;
    sched_progress now = {s->makespan, s->lower_bound, seconds, s->schedules, s->conflicts};
    s->options.progress(s->options.user, &now);
}

bool solve_is_over(solve *s) {
    if (s->portfolio)
        portfolio_meet(s);
    if (s->stopped || s->broken || s->infeasible)
        return true;
    if (s->makespan != SCHED_NONE && !s->second_stage && (s->first_only || s->lower_bound >= s->makespan))
        return true;
    const sched_options *o = &s->options;
    /* With objectives the makespan may have this much of the limits, so that something is left for them. */
    double share = s->problem->objectives > 0 && !s->second_stage ? 0.6 : 1;
    if ((o->cancel && atomic_load_explicit(&o->cancel->asked, memory_order_relaxed)) ||
        (o->effort && (double)s->effort >= share * STEPS_PER_EFFORT * (double)o->effort) ||
        (o->schedules && s->schedules >= o->schedules) || s->mem.refused)
        s->stopped = true;
    if (o->seconds > 0 || o->progress) {
        double seconds = solve_seconds(s);
        if (o->seconds > 0 && seconds >= share * o->seconds)
            s->stopped = true;
        if (seconds >= s->next_progress) {
            s->next_progress = seconds + 0.1;
            tell_progress(s, seconds);
        }
    }
    return s->stopped;
}

bool solve_is_stale(const solve *s) {
    return s->refusal->sets != s->known_sets || s->refusal->bound_sets != s->known_bound_sets;
}

void solve_raise_bound(solve *s, int32_t bound) {
    if (bound <= s->lower_bound)
        return;
    s->lower_bound = bound;
    tell_progress(s, solve_seconds(s));
}

static void take(solve *s, const int32_t *starts, int32_t makespan) {
    memcpy(s->best, starts, (size_t)s->m.n * sizeof *starts);
    s->makespan = makespan;
    for (int32_t k = 0; k < s->problem->objectives; k++)
        s->value[k] = sched_objective_value(s->problem, k, starts);
    tell_progress(s, solve_seconds(s));
}

/* What the caller's check would have instead. A wrong one is no fault: the caller may leave it to us to find out. */
static void take_suggested(solve *s) {
    sched_refusal *why = s->refusal;
    sched_fault fault;
    int32_t makespan;
    if (!why->has_suggested || s->second_stage)
        return;
    why->has_suggested = false;
    if (sched_check(s->problem, why->suggested, &makespan, &fault) &&
        !refusal_applies(why, s->problem, why->suggested, 0, 0) &&
        (s->makespan == SCHED_NONE || makespan < s->makespan))
        take(s, why->suggested, makespan);
}

/* The checker, what was refused before, and the caller's check. */
static bool accepted(solve *s, const int32_t *starts, int32_t *makespan) {
    if (!sched_check(s->problem, starts, makespan, &s->fault)) {
        s->broken = true;
        return false;
    }
    sched_refusal *why = s->refusal;
    int32_t sets = why->sets, bounds = why->bound_sets;
    if (!s->options.check)
        return true;
    if (refusal_applies(why, s->problem, starts, 0, 0))
        return false; /* said before: do not ask again */
    why->has_suggested = false;
    if (s->options.check(s->options.user, starts, why))
        return true;
    if (why->failed) {
        s->stopped = true;
    } else if (!refusal_applies(why, s->problem, starts, sets, bounds)) {
        s->broken = true;
        fault_set(&s->fault, SCHED_FAULT_INTERNAL, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0,
                  "the caller's check refused a schedule without a reason that holds in it");
    } else {
        take_suggested(s);
    }
    return false;
}

bool solve_offer(solve *s, const int32_t *starts) {
    int32_t makespan = 0;
    if (s->makespan != SCHED_NONE) { /* most offers are no better: do not check those */
        for (int32_t i = 0; i < s->m.n; i++) {
            int32_t end = model_end(&s->m, i, starts[i]);
            makespan = end > makespan ? end : makespan;
        }
        if (makespan >= s->makespan)
            return false;
    }
    if (!accepted(s, starts, &makespan))
        return false;
    take(s, starts, makespan);
    return true;
}

bool solve_offer_value(solve *s, int32_t row, const int32_t *starts) {
    int32_t makespan;
    for (int32_t k = 0; k <= row; k++)
        if (sched_objective_value(s->problem, k, starts) + (k == row) > s->value[k])
            return false;
    if (!accepted(s, starts, &makespan) || makespan > s->makespan)
        return false;
    take(s, starts, makespan);
    return true;
}
