/* answer.c: fills the plan that everybody reads. */
#include "plan/answer.h"

#include <stdlib.h>
#include <string.h>

#include "plan/turns.h"

/* ---- what does not go ahead ------------------------------------------------------------------------------------------ */

static void tell_held_up(const planner *p, plan *out) {
    uint32_t n = p->kit->n_steps;
    out->stopped = p->supply.stopped;
    out->n_stopped = p->supply.n_stopped;
    out->waiting = arena_array(p->memory, plan_waiting, n);
    out->impossible = arena_array(p->memory, plan_impossible, n);
    for (uint32_t k = 0; k < n; k++) {
        kit_index step = p->build_order[k];
        if (p->supply.fate[step] == STOCK_FATE_WAITING)
            out->waiting[out->n_waiting++] = (plan_waiting){step, p->supply.waits_for[step]};
        if (p->supply.fate[step] == STOCK_FATE_IMPOSSIBLE)
            out->impossible[out->n_impossible++] =
                (plan_impossible){step, p->reasons[step], p->remedies[step]};
    }
}

/* ---- steps ------------------------------------------------------------------------------------------------------------ */

static void tell_when(const calendar *c, plan_step *s) {
    s->session = calendar_session(c, s->start_min, false);
    s->last_session = calendar_session(c, s->end_min, true);
    s->start_dated = c->sessions[s->session].dated;
    s->end_dated = c->sessions[s->last_session].dated;
    s->start = calendar_moment(c, s->start_min, false);
    s->end = calendar_moment(c, s->end_min, true);
}

/* A change-over point at which everybody stays is none. */
static bool nobody_changes(const plan_stretch *a, const plan_stretch *b) {
    return a->session == b->session && a->supervisor == b->supervisor &&
           memcmp(a->people, b->people, a->n_people * sizeof *a->people) == 0;
}

static void tell_people(const planner *p, const people_stretch *named, uint32_t n, plan_step *s) {
    const plan_job *j = &p->jobs[named[0].job];
    uint32_t first = j->beside ? 1 : 0;
    plan_stretch *list = arena_array(p->memory, plan_stretch, n);
    uint32_t kept = 0;
    for (uint32_t k = 0; k < n; k++) {
        kit_index *people = arena_array(p->memory, kit_index, j->n_seats);
        list[kept] = (plan_stretch){.session = named[k].when.session,
                                    .start_min = named[k].when.from,
                                    .end_min = named[k].when.to,
                                    .people = people,
                                    .n_people = j->n_seats - first,
                                    .supervisor = first ? named[k].seats[0] : KIT_NONE};
        for (uint32_t seat = first; seat < j->n_seats; seat++) { /* in the order of the crew */
            uint32_t x = seat - first;
            for (; x > 0 && people[x - 1] > named[k].seats[seat]; x--)
                people[x] = people[x - 1];
            people[x] = named[k].seats[seat];
        }
        if (kept > 0 && nobody_changes(&list[kept - 1], &list[kept]))
            list[kept - 1].end_min = list[kept].end_min;
        else
            kept++;
    }
    s->stretches = list;
    s->n_stretches = kept;
}

static int compare_steps(const void *a, const void *b) {
    const plan_step *x = a, *y = b;
    if (x->start_min != y->start_min)
        return x->start_min < y->start_min ? -1 : 1;
    if (x->end_min != y->end_min)
        return x->end_min < y->end_min ? -1 : 1;
    return x->step < y->step ? -1 : x->step > y->step;
}

static void tell_network(planner *p, plan *out) {
    network n = {.calendar = &p->calendar,
                 .jobs = p->jobs,
                 .n_jobs = p->n_jobs,
                 .links = p->links,
                 .n_links = p->n_links,
                 .order = p->order,
                 .release = p->release};
    network_times *times = arena_array(p->memory, network_times, p->n_jobs);
    if (network_forward(&n, times) != UINT32_MAX)
        return; /* cannot be: there is a plan */
    int32_t finish = 0, *earliest = arena_array(p->memory, int32_t, p->n_jobs);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        earliest[j] = times[j].early_start;
        finish = times[j].early_end > finish ? times[j].early_end : finish;
    }
    network_backward(&n, finish, earliest, times);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        out->steps[j].early_start_min = times[j].early_start;
        out->steps[j].early_end_min = times[j].early_end;
        out->steps[j].late_start_min = times[j].late_start;
        out->steps[j].late_end_min = times[j].late_end;
    }
    if (finish > out->lower_bound_min)
        out->lower_bound_min = finish;
}

/* The part whose pieces come at the minute at which the job may start at last; KIT_NONE when none does. */
static kit_index part_awaited(const planner *p, uint32_t job) {
    const kit *k = p->kit;
    for (uint32_t x = 0; x < k->n_step_parts; x++)
        for (uint32_t y = 0; y < p->in.n_arrivals && k->step_parts[x].step == p->jobs[job].step; y++)
            if (p->in.arrivals[y].part == k->step_parts[x].part &&
                calendar_minute_from(&p->calendar, p->in.arrivals[y].at) == p->release[job])
                return k->step_parts[x].part;
    return KIT_NONE;
}

static void tell_waits(const planner *p, const int32_t *starts, uint32_t job, plan_step *s) {
    const plan_job *it = &p->jobs[job];
    s->waits_delay_of = s->waits_part = KIT_NONE;
    if (p->release[job] > 0 && job_next_start(it, p->release[job]) == starts[job])
        s->waits_part = part_awaited(p, job);
    for (uint32_t k = 0; k < p->n_links; k++) {
        const network_link *l = &p->links[k];
        if (l->after != job || l->delay == 0)
            continue;
        int32_t end = job_end(&p->calendar, &p->jobs[l->before], starts[l->before]);
        int32_t reach = network_reach(l, end);
        if (reach > end && job_next_start(it, reach) == starts[job])
            s->waits_delay_of = p->jobs[l->before].step;
    }
}

/* Steps in the order of the jobs first; sorted at the end. */
static void tell_steps(planner *p, const solve_answer *alone, const solve_answer *together, plan *out) {
    out->steps = arena_array(p->memory, plan_step, p->n_jobs);
    out->n_steps = p->n_jobs;
    people_work w = planner_people(p);
    people_stretch *named;
    uint32_t n, at = 0;
    people_conflict why;
    (void)people_name(p->memory, &w, together->starts, &named, &n,
                      &why); /* the same search found names before */
    if (!p->in.finish_only) {
        if (p->in.n_told == 0) /* people stay where they were told */
            turns_spread(p, named, n, together->makespan);
        turns_tell(p, named, n, together->makespan, out);
    }
    int32_t *late = arena_array(p->memory, int32_t, p->n_jobs);
    links_late_starts(p, together->starts, named, n, together->makespan, NULL, late);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        plan_step *s = &out->steps[j];
        uint32_t stretches = 0;
        while (at + stretches < n && named[at + stretches].job == j)
            stretches++;
        *s = (plan_step){.step = p->jobs[j].step, .start_min = together->starts[j]};
        s->end_min = job_end(&p->calendar, &p->jobs[j], s->start_min);
        s->slack_min = late[j] - s->start_min;
        s->decides_finish = s->slack_min == 0;
        s->alone_start_min = alone->found ? alone->starts[j] : -1;
        s->alone_end_min = alone->found ? job_end(&p->calendar, &p->jobs[j], alone->starts[j]) : -1;
        tell_when(&p->calendar, s);
        tell_waits(p, together->starts, j, s);
        tell_people(p, named + at, stretches, s);
        at += stretches;
    }
    tell_network(p, out);
    qsort(out->steps, out->n_steps, sizeof *out->steps, compare_steps);
}

/* ---- the whole ---------------------------------------------------------------------------------------------------------- */

static void tell_one_after_another(const planner *p, const solve_answer *alone, plan *out) {
    out->one_after_another_min = -1;
    if (!alone->found)
        return;
    uint32_t session = calendar_session(&p->calendar, alone->makespan, true);
    out->one_after_another_min = alone->makespan;
    out->one_after_another_sessions = session + 1;
    out->one_after_another_finish = calendar_moment(&p->calendar, alone->makespan, true);
    out->one_after_another_dated = p->calendar.sessions[session].dated;
}

static void tell_finish(const planner *p, const solve_answer *together, plan *out) {
    uint32_t session = calendar_session(&p->calendar, together->makespan, true);
    out->makespan_min = together->makespan;
    out->finish = calendar_moment(&p->calendar, together->makespan, true);
    out->finish_dated = p->calendar.sessions[session].dated;
    if (!out->finish_dated)
        out->n_undated_used = session + 1 - p->calendar.n_dated;
    if (out->lower_bound_min > out->makespan_min) /* the network's bound never is */
        out->lower_bound_min = out->makespan_min;
    out->proven = together->optimal || out->lower_bound_min == out->makespan_min;
    if (out->proven)
        out->lower_bound_min = out->makespan_min;
    out->status = out->proven ? PLAN_OPTIMAL : PLAN_FEASIBLE;
}

plan *answer_make(planner *p, const solve_answer *alone, const solve_answer *together) {
    plan *out = arena_new(p->memory, plan);
    *out = (plan){.kit = p->kit, .workshop = p->workshop, .one_after_another_min = -1};
    out->sessions = p->calendar.sessions;
    out->n_sessions = p->calendar.n_sessions;
    tell_held_up(p, out);
    if (p->n_jobs == 0) {
        bool all_done = out->n_stopped + out->n_waiting + out->n_impossible == 0;
        out->status = all_done ? PLAN_OPTIMAL : PLAN_INFEASIBLE;
        out->proven = all_done;
        out->n_sessions = p->calendar.n_dated;
        out->one_after_another_min = 0;
        return out;
    }
    out->lower_bound_min = together->lower_bound > 0 ? together->lower_bound : 0;
    if (!together->found) {
        out->status = together->infeasible ? PLAN_INFEASIBLE : PLAN_UNKNOWN;
        return out;
    }
    tell_one_after_another(p, alone, out);
    tell_steps(p, alone, together, out);
    tell_finish(p, together, out);
    return out;
}

uint32_t plan_session_at(const plan *p, int32_t minute, bool is_end) {
    uint32_t s = 0;
    while (s + 1 < p->n_sessions &&
           (is_end ? p->sessions[s].to_min < minute : p->sessions[s].to_min <= minute))
        s++;
    return s;
}

const plan_step *plan_find_step(const plan *p, kit_index step) {
    for (uint32_t k = 0; k < p->n_steps; k++)
        if (p->steps[k].step == step)
            return &p->steps[k];
    return NULL;
}
