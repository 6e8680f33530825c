/* solve.c: runs the kernel; a schedule that cannot be named is handed back with the reason, and the kernel goes on. */
#include "plan/solve.h"

#include <string.h>

#include "plan/repair.h"

/* Without other limits: effort for the plan, and schedules for the plan that does one step after another, where the
 * order hardly matters. */
enum { OWN_EFFORT = 40000, ALONE_SCHEDULES = 2000 };

typedef struct {
    planner *p;
    /* Schedules were refused without a proof that they cannot be named; all that were so refused end here or later. INT32_MAX:
     * none. */
    int32_t unproven_from;
} naming_check;

static void refuse(const planner *p, const people_conflict *why, sched_refusal *to) {
    if (why->together) {
        int32_t *tasks = arena_array(p->memory, int32_t, why->n);
        for (uint32_t k = 0; k < why->n; k++)
            tasks[k] = (int32_t)why->jobs[k];
        sched_refuse_overlap(to, tasks, why->n);
        return;
    }
    sched_start_bound *bounds = arena_array(p->memory, sched_start_bound, 2 * (size_t)why->n);
    for (size_t k = 0; k < why->n; k++) {
        bounds[2 * k] = (sched_start_bound){(int32_t)why->jobs[k], false, why->ranges[k].first};
        bounds[2 * k + 1] = (sched_start_bound){(int32_t)why->jobs[k], true, why->ranges[k].last};
    }
    sched_refuse_bounds(to, bounds, 2 * (size_t)why->n);
}

static bool can_be_named(void *user, const int32_t *starts, sched_refusal *why) {
    naming_check *check = user;
    planner *p = check->p;
    arena *scratch = arena_open();
    people_work w = planner_people(p);
    people_stretch *named;
    uint32_t n;
    people_conflict conflict;
    people_answer answer = people_name(scratch, &w, starts, &named, &n, &conflict);
    if (answer != PEOPLE_NAMED) {
        refuse(p, &conflict, why);
        int32_t *repaired = arena_array(scratch, int32_t, p->n_jobs);
        if (repair_schedule(scratch, p, starts, repaired))
            sched_suggest_instead(why, repaired);
    }
    int32_t end = 0; /* of the jobs refused at just these starts: what is refused with them ends no earlier */
    for (uint32_t k = 0; answer == PEOPLE_GAVE_UP && k < conflict.n; k++) {
        int32_t own = job_end(&p->calendar, &p->jobs[conflict.jobs[k]], starts[conflict.jobs[k]]);
        end = own > end ? own : end;
    }
    if (answer == PEOPLE_GAVE_UP && end < check->unproven_from)
        check->unproven_from = end;
    arena_close(scratch);
    return answer == PEOPLE_NAMED;
}

static void tell_progress(void *user, const sched_progress *now) {
    const plan_input *in = &((const naming_check *)user)->p->in;
    if (in->progress)
        in->progress(in->user, now->best, now->lower_bound, now->seconds);
}

/* A step begun at the end of a session that would end no later when begun at the start of the next, since taking it up
 * again costs minutes, begins there: it then needs its people, tools and places during a part of the time it had. */
static void begin_no_stubs(const planner *p, int32_t *starts) {
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        const plan_job *it = &p->jobs[j];
        int32_t end = job_end(&p->calendar, it, starts[j]);
        for (uint32_t s = 0; s < p->calendar.n_sessions && it->resume > 0; s++) {
            int32_t begin = p->calendar.sessions[s].from_min;
            if (begin <= starts[j] || begin >= end || job_next_start(it, begin) != begin)
                continue;
            int32_t then = job_end(&p->calendar, it, begin);
            if (then >= 0 && then <= end)
                starts[j] = begin;
        }
    }
}

static bool objectives_proven(const sched_result *r) {
    for (int32_t k = 0; k < r->objective_count; k++)
        if (r->objective_bound[k] != r->objective[k])
            return false;
    return true;
}

int32_t solve_last_end(const planner *p, const int32_t *starts) {
    int32_t last = 0;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        int32_t end = job_end(&p->calendar, &p->jobs[j], starts[j]);
        last = end > last ? end : last;
    }
    return last;
}

static void take_result(planner *p, const sched_result *r, solve_answer *out) {
    *out = (solve_answer){.found = r->starts != NULL,
                          .infeasible = r->status == SCHED_INFEASIBLE,
                          .optimal = r->status == SCHED_OPTIMAL,
                          .makespan = r->makespan,
                          .lower_bound = r->lower_bound,
                          .shelf_least = objectives_proven(r)};
    out->starts = arena_array(p->memory, int32_t, p->n_jobs);
    if (r->starts)
        memcpy(out->starts, r->starts, p->n_jobs * sizeof *out->starts);
    if (!r->starts)
        return;
    begin_no_stubs(p, out->starts);
    out->makespan =
        solve_last_end(p, out->starts); /* less its minutes to resume, the last step can end earlier */
}

static bool run(planner *p, sched_problem *problem, const sched_options *o, solve_answer *out, err *e) {
    if (!problem)
        return err_run(e, "plan", "close other programs", "no memory to plan with");
    sched_result *r;
    sched_fault failure;
    bool solved = sched_solve(problem, o, &r, &failure);
    if (solved)
        take_result(p, r, out);
    else if (failure.code == SCHED_FAULT_INTERNAL || failure.code == SCHED_FAULT_MEMORY)
        err_run(e, "plan", "tell us, with the build file", "the scheduling kernel failed: %s", failure.text);
    else
        err_input(e, "plan", "look for minutes or quantities far too large", "it cannot be scheduled: %s",
                  failure.text);
    sched_result_close(r);
    sched_close(problem);
    return solved;
}

bool solve_can_name(planner *p, const int32_t *starts) {
    arena *scratch = arena_open();
    people_work w = planner_people(p);
    people_stretch *named;
    uint32_t n;
    people_conflict conflict;
    people_answer answer = people_name(scratch, &w, starts, &named, &n, &conflict);
    arena_close(scratch);
    return answer == PEOPLE_NAMED;
}

/* No limit of time: it is over soon, and must not come out another way on a slow machine. */
bool solve_alone(planner *p, solve_answer *out, err *e) {
    sched_options o = sched_default_options();
    o.schedules = ALONE_SCHEDULES;
    o.effort = p->in.effort ? p->in.effort : OWN_EFFORT / 8;
    o.seed = p->in.seed ? p->in.seed : 1;
    return run(p, problem_build(p, true), &o, out, e);
}

static int32_t latest_end(const planner *p, const int32_t *starts) {
    int32_t latest = 0;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        int32_t end = job_end(&p->calendar, &p->jobs[j], starts[j]);
        if (end < 0)
            return INT32_MAX;
        latest = end > latest ? end : latest;
    }
    return latest;
}

/* Of the plan that does one step after another and the one the caller knows, the one that ends earlier; NULL without either. */
static const int32_t *best_known(const planner *p, const int32_t *alone) {
    if (!p->in.known_starts)
        return alone;
    int32_t *given = arena_array(p->memory, int32_t, p->n_jobs);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        given[j] = p->in.known_starts[p->jobs[j].step];
        if (job_next_start(&p->jobs[j], given[j]) != given[j])
            return alone;
    }
    return alone && latest_end(p, alone) <= latest_end(p, given) ? alone : given;
}

bool solve_together(planner *p, const int32_t *known, solve_answer *out, err *e) {
    naming_check check = {.p = p, .unproven_from = INT32_MAX};
    sched_options o = sched_default_options();
    o.seconds = p->in.seconds;
    o.effort = p->in.effort ? p->in.effort : p->in.seconds > 0 ? 0 : OWN_EFFORT;
    o.seed = p->in.seed ? p->in.seed : 1;
    o.cancel = p->in.cancel;
    o.progress = p->in.progress ? tell_progress : NULL;
    o.check = can_be_named;
    o.user = &check;
    o.known_starts = best_known(p, known);
    o.known_lower_bound = p->in.known_bound_min;
    if (!run(p, problem_build(p, false), &o, out, e))
        return false;
    bool teams_cut = false;
    for (uint32_t j = 0; j < p->n_jobs; j++)
        teams_cut = teams_cut || p->jobs[j].teams_cut;
    int32_t proven_to =
        teams_cut ? 0 : check.unproven_from; /* what was refused or left out without proof proves nothing */
    if (out->lower_bound > proven_to)
        out->lower_bound = proven_to > p->in.known_bound_min ? proven_to : p->in.known_bound_min;
    out->optimal = out->optimal && out->makespan <= proven_to;
    out->infeasible = out->infeasible && proven_to == INT32_MAX;
    return true;
}

bool solve_put_off(planner *p, sched_problem *problem, const int32_t *known, int32_t makespan,
                   uint64_t effort, solve_answer *out, err *e) {
    naming_check check = {.p = p, .unproven_from = INT32_MAX};
    sched_options o = sched_default_options();
    o.effort = effort;
    o.seconds = p->in.seconds > 0 ? p->in.seconds / 50 : 0;
    o.seed = p->in.seed ? p->in.seed : 1;
    o.cancel = p->in.cancel;
    o.check = can_be_named;
    o.user = &check;
    o.known_starts = known;
    o.known_lower_bound = makespan; /* an earlier finish is not looked for here */
    if (problem)
        sched_set_horizon(problem, makespan);
    if (!run(p, problem, &o, out, e))
        return false;
    out->shelf_least = out->shelf_least && check.unproven_from == INT32_MAX;
    return true;
}
