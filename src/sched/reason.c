/* reason.c: why there is no schedule, in few tasks and resources.
 *
 * Leaves out halves, then quarters, ... down to single tasks and resources: whatever the rest still has no schedule without (a
 * deletion filter: Chinneck and Dravnieks, ORSA Journal on Computing 3, 1991). Each trial is a solve of its own with little effort; one that
 * decides nothing keeps what it would have left out. So the reason is sufficient whatever the effort, and where no trial ran
 * out of it, nothing in it is superfluous. */
#include "sched/reason.h"

#include <stdio.h>
#include <string.h>

#include "sched/subset.h"

#define EFFORT_AT_LEAST 20000000 /* elementary steps */

/* What may be left out: resources, then tasks. */
typedef struct {
    solve *s;
    void (*run)(solve *s);
    int32_t resources, all;
    bool *keep; /* by element */
    int32_t *name;
    uint64_t budget, trial; /* steps left; steps for one trial */
} filter;

static uint64_t size_of(const sched_problem *p) {
    return p->tasks.n + p->relations.n + p->demands.n + p->windows.n + p->changes.n;
}

/* Limits of a trial: never past those of the solve itself. */
static sched_options limits_of(const filter *f) {
    sched_options o = f->s->options;
    o.threads = 1;
    o.progress = NULL;
    o.check = NULL;
    o.known_starts = NULL;
    o.known_lower_bound = 0;
    o.schedules = 0;
    o.effort = (f->budget < f->trial ? f->budget : f->trial) / 1000 + 1;
    if (o.seconds > 0)
        o.seconds -= solve_seconds(f->s);
    return o;
}

/* True when what is kept has no schedule. */
static bool still_infeasible(filter *f) {
    const solve *s = f->s;
    solve t = {.problem = NULL, .options = limits_of(f), .makespan = SCHED_NONE, .first_only = true};
    uint64_t cost = 20 * size_of(s->problem);
    if (f->budget <= cost || (s->options.seconds > 0 && t.options.seconds <= 0))
        return false;
    sched_problem *part = subset_open(s->problem, f->keep + f->resources, f->keep, s->m.horizon, f->name);
    if (!part)
        return false;
    t.problem = part;
    sched_refusal refusal;
    if (solve_open(&t, &refusal)) {
        subset_refusals(s->refusal, f->name, &refusal);
        f->run(&t);
    }
    bool infeasible = t.infeasible && !t.broken && t.makespan == SCHED_NONE;
    cost += t.effort;
    f->budget -= cost < f->budget ? cost : f->budget;
    memory_close(&t.mem);
    memory_close(&t.keep);
    sched_close(part);
    return infeasible;
}

/* Leaves out the kept elements number from .. to - 1 if that changes nothing. */
static bool leave_out(filter *f, const int32_t *kept, int32_t from, int32_t to) {
    for (int32_t k = from; k < to; k++)
        f->keep[kept[k]] = false;
    if (still_infeasible(f))
        return true;
    for (int32_t k = from; k < to; k++)
        f->keep[kept[k]] = true;
    return false;
}

static int32_t list_kept(const filter *f, int32_t *kept) {
    int32_t n = 0;
    for (int32_t k = 0; k < f->all; k++)
        if (f->keep[k])
            kept[n++] = k;
    return n;
}

static void shrink(filter *f, int32_t *kept) {
    int32_t n = list_kept(f, kept);
    for (int32_t size = (n + 1) / 2; f->budget > 0; size = (size + 1) / 2) {
        n = list_kept(f, kept);
        for (int32_t at = 0; at < n && f->budget > 0; at += size)
            (void)leave_out(f, kept, at, at + size < n ? at + size : n);
        if (size <= 1)
            break;
    }
}

/* Begin with the plain reason of the model, where that is all it takes. */
static void begin(filter *f, const int32_t *task, int32_t tasks) {
    for (int32_t k = 0; k < f->all; k++)
        f->keep[k] = tasks == 0 || k < f->resources;
    for (int32_t k = 0; k < tasks; k++)
        f->keep[f->resources + task[k]] = true;
    if (tasks > 0 && !still_infeasible(f))
        for (int32_t k = 0; k < f->all; k++)
            f->keep[k] = true;
}

static void write_down(const filter *f, solve_reason *out) {
    for (int32_t k = 0; k < f->all; k++)
        if (f->keep[k] && k < f->resources)
            out->resource[out->resources++] = k;
        else if (f->keep[k])
            out->task[out->tasks++] = k - f->resources;
}

/* "task 3", "tasks 3, 5 and 8", "tasks 3, 5, 8 and 40 more" */
static size_t list_in_words(char *out, size_t room, const char *what, const int32_t *number, int32_t n) {
    const int32_t most = n <= 8 ? n : 6;
    size_t at = (size_t)snprintf(out, room, "%s%s", what, n == 1 ? "" : "s");
    for (int32_t k = 0; k < most; k++)
        at += (size_t)snprintf(out + at, room - at, "%s%d",
                               k == 0                    ? " "
                               : k + 1 == n && most == n ? " and "
                                                         : ", ",
                               number[k]);
    if (most < n)
        at += (size_t)snprintf(out + at, room - at, " and %d more", n - most);
    return at;
}

static void tell(solve *s) {
    solve_reason *why = &s->reason;
    size_t room = sizeof why->text;
    if (s->m.infeasible) {
        snprintf(why->text, room, "%s", s->m.reason);
        return;
    }
    size_t at = list_in_words(why->text, room, "task", why->task, why->tasks);
    at += (size_t)snprintf(why->text + at, room - at, " cannot all be done in the time they have");
    if (why->resources > 0) {
        at += (size_t)snprintf(why->text + at, room - at, " with ");
        (void)list_in_words(why->text + at, room - at, "resource", why->resource, why->resources);
    }
}

void reason_find(solve *s, void (*run)(solve *s)) {
    memory *mem = &s->keep;
    int32_t n = s->m.n, tasks = s->m.reason_tasks;
    filter f = {.s = s, .run = run, .resources = (int32_t)s->problem->capacities.n};
    f.all = f.resources + n;
    f.keep = memory_array(mem, bool, f.all);
    f.name = memory_array(mem, int32_t, n);
    int32_t *kept = memory_array(mem, int32_t, f.all);
    s->reason.task = memory_array(mem, int32_t, n + tasks);
    s->reason.resource = memory_array(mem, int32_t, f.resources);
    if (!f.keep || !f.name || !kept || !s->reason.task || !s->reason.resource) {
        snprintf(s->reason.text, sizeof s->reason.text, "the search has excluded every schedule");
        return;
    }
    int32_t *hint = s->reason.task + n;
    memcpy(hint, s->m.reason_task, (size_t)tasks * sizeof *hint);
    memory_close(&s->mem); /* room for the trials */
    f.trial = s->effort + EFFORT_AT_LEAST / 10;
    f.budget = 2 * s->effort + EFFORT_AT_LEAST;
    uint64_t limit = 1000 * s->options.effort, had = s->effort;
    if (limit > 0 && f.budget + had > limit)
        f.budget = limit > had ? limit - had : 0;
    uint64_t given = f.budget;
    begin(&f, hint, tasks);
    shrink(&f, kept);
    s->effort += given - f.budget;
    write_down(&f, &s->reason);
    tell(s);
}
