/* stay.c: among plans with one finish, one near to what was announced.
 *
 * First all steps that can be are held where they were announced and only the others searched for; when that leaves no plan, those of the
 * sessions next to the moved ones are let go too, and so on. Then the kernel's second stage brings steps back, two sessions at
 * a time: first as many as can be into their announced sessions, then as near as can be to their announced minutes.
 */
#include "plan/stay.h"

#include <string.h>

/* Effort for each search. */
enum { HOLD_EFFORT = 300, WINDOW_EFFORT = 300, MOST_WINDOWS = 24 };

typedef struct {
    planner *p;
    int32_t *told; /* by job: announced start, -1: none on this line */
    int32_t makespan;
    bool *free;
} staying;

static const plan_told *find_told(const plan_input *in, kit_index step) {
    const plan_told *first = NULL;
    for (uint32_t k = 0; k < in->n_told; k++)
        if (in->told[k].step == step && (!first || in->told[k].from < first->from))
            first = &in->told[k];
    return first;
}

/* The minute of a moment when it lies in a session of the line; -1. What is late for its minute tonight is due now. */
static int32_t minute_of(const calendar *c, date_moment m) {
    if (c->n_dated > 0 && m < c->sessions[0].begins &&
        date_of_moment(m) == date_of_moment(c->sessions[0].begins))
        return 0;
    for (uint32_t s = 0; s < c->n_dated; s++)
        if (c->sessions[s].begins <= m && m < c->sessions[s].ends)
            return c->sessions[s].from_min + (int32_t)(m - c->sessions[s].begins);
    return -1;
}

static int32_t *told_starts(const planner *p, uint32_t *n) {
    int32_t *told = arena_array(p->memory, int32_t, p->n_jobs);
    *n = 0;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        const plan_told *it = find_told(&p->in, p->jobs[j].step);
        told[j] = it ? minute_of(&p->calendar, it->from) : -1;
        *n += told[j] >= 0;
    }
    return told;
}

/* By job: who was told to be at its first stretch, in the order of its seats (KIT_NONE: nobody); NULL when it was not announced. */
static const kit_index *const *told_people(const planner *p) {
    const kit_index **people = arena_array(p->memory, const kit_index *, p->n_jobs);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        const plan_job *job = &p->jobs[j];
        const plan_told *it = find_told(&p->in, job->step);
        kit_index *seats = arena_array(p->memory, kit_index, job->n_seats);
        for (uint32_t s = 0; s < job->n_seats; s++) {
            uint32_t hand = s - (job->beside ? 1 : 0);
            seats[s] = !it                     ? KIT_NONE
                       : job->beside && s == 0 ? it->supervisor
                       : hand < it->n_people   ? it->people[hand]
                                               : KIT_NONE;
        }
        people[j] = it ? seats : NULL;
    }
    return people;
}

void stay_begin(planner *p) {
    uint32_t n;
    if (p->in.n_told == 0 || p->n_jobs == 0)
        return;
    p->told_people = told_people(p);
    int32_t *told = told_starts(p, &n);
    if (n < p->n_jobs || p->in.known_starts)
        return;
    int32_t *starts = arena_array(p->memory, int32_t, p->kit->n_steps);
    memset(starts, 0xff, p->kit->n_steps * sizeof *starts);
    for (uint32_t j = 0; j < p->n_jobs; j++)
        starts[p->jobs[j].step] = told[j];
    p->in.known_starts = starts;
}

/* ---- searching -------------------------------------------------------------------------------------------------------- */

static void add_objectives(const staying *o, sched_problem *s) {
    int32_t session = sched_add_objective(s), minutes = sched_add_objective(s);
    for (uint32_t j = 0; j < o->p->n_jobs; j++) {
        if (o->told[j] < 0)
            continue;
        const plan_session *its =
            &o->p->calendar.sessions[calendar_session(&o->p->calendar, o->told[j], false)];
        sched_cost_piece away[] = {{0, 1, 0}, {its->from_min, 0, 0}, {its->to_min, 1, 0}};
        uint32_t skip = its->from_min == 0;
        sched_add_cost(s, session, (int32_t)j, away + skip, 3 - skip);
        sched_cost_piece far[] = {{0, o->told[j], -1}, {o->told[j], 0, 1}};
        skip = o->told[j] == 0;
        sched_add_cost(s, minutes, (int32_t)j, far + skip, 2 - skip);
    }
}

/* Those not free stand at `starts`; on success the new starts are there. */
static bool search(const staying *o, int32_t *starts, const int32_t *known, uint64_t effort, bool *found,
                   err *e) {
    planner *p = o->p;
    sched_problem *s = problem_build(p, false);
    if (s)
        add_objectives(o, s);
    for (uint32_t j = 0; s && j < p->n_jobs; j++)
        if (!o->free[j])
            sched_fix_start(s, (int32_t)j, starts[j]);
    solve_answer answer;
    uint64_t limit = p->in.effort && p->in.effort < effort ? p->in.effort : effort;
    if (!solve_put_off(p, s, known, o->makespan, limit, &answer, e))
        return false;
    *found = answer.found;
    if (answer.found)
        memcpy(starts, answer.starts, p->n_jobs * sizeof *starts);
    return true;
}

static uint32_t session_of(const staying *o, int32_t start) {
    return calendar_session(&o->p->calendar, start, false);
}

/* Those that cannot stand where they were announced. */
static void free_impossible(staying *o) {
    const planner *p = o->p;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        int32_t end = o->told[j] < 0 ? -1 : job_end(&p->calendar, &p->jobs[j], o->told[j]);
        o->free[j] = end < 0 || end > o->makespan || o->told[j] < p->release[j] ||
                     job_next_start(&p->jobs[j], o->told[j]) != o->told[j];
    }
    for (uint32_t x = 0; x < p->n_links; x++) { /* and those whose predecessor has moved past them */
        const network_link *l = &p->links[x];
        if (o->free[l->before] || o->told[l->after] < 0)
            continue;
        int32_t end = job_end(&p->calendar, &p->jobs[l->before], o->told[l->before]);
        o->free[l->after] = o->free[l->after] || network_reach(l, end) > o->told[l->after];
    }
}

/* Lets those of the sessions next to the free ones go too. False: all are free. */
static bool free_more(staying *o, const int32_t *starts) {
    const planner *p = o->p;
    bool *touched = arena_array(p->memory, bool, (size_t)p->calendar.n_sessions + 1), more = false;
    for (uint32_t j = 0; j < p->n_jobs; j++)
        if (o->free[j]) {
            uint32_t s = session_of(o, o->told[j] >= 0 ? o->told[j] : starts[j]);
            touched[s] = touched[s + 1] = true;
            touched[s > 0 ? s - 1 : 0] = true;
        }
    for (uint32_t j = 0; j < p->n_jobs; j++)
        if (!o->free[j] && touched[session_of(o, o->told[j])])
            more = o->free[j] = true;
    return more;
}

/* Sessions left and minutes between, in one number; announced steps only. */
static int64_t distance(const staying *o, const int32_t *starts) {
    int64_t away = 0, minutes = 0;
    for (uint32_t j = 0; j < o->p->n_jobs; j++) {
        if (o->told[j] < 0)
            continue;
        away += session_of(o, o->told[j]) != session_of(o, starts[j]);
        minutes += starts[j] > o->told[j] ? starts[j] - o->told[j] : o->told[j] - starts[j];
    }
    return away * SCHED_TIME_MAX + minutes;
}

/* A plan with as many as can be held in place; `starts` stays as it is when there is none. */
static bool hold_places(staying *o, int32_t *starts, err *e) {
    const planner *p = o->p;
    bool found = false;
    int32_t *held = arena_array(p->memory, int32_t, p->n_jobs);
    free_impossible(o);
    for (uint32_t round = 0; !found && round <= p->calendar.n_sessions; round++) {
        for (uint32_t j = 0; j < p->n_jobs; j++)
            held[j] = o->free[j] ? starts[j] : o->told[j];
        if (!search(o, held, NULL, HOLD_EFFORT, &found, e))
            return false;
        if (!found && !free_more(o, starts))
            return true;
    }
    if (found && distance(o, held) < distance(o, starts))
        memcpy(starts, held, p->n_jobs * sizeof *starts);
    return true;
}

/* Brings steps back: two sessions at a time, those in which something is away. */
static bool bring_back(staying *o, int32_t *starts, err *e) {
    const planner *p = o->p;
    uint32_t last = calendar_session(&p->calendar, o->makespan, true), windows = 0;
    for (bool gained = true; gained && distance(o, starts) > 0;) {
        gained = false;
        for (uint32_t s = 0; s <= last && windows < MOST_WINDOWS; s++) {
            bool away = false, found;
            for (uint32_t j = 0; j < p->n_jobs; j++) {
                uint32_t its = session_of(o, starts[j]);
                uint32_t home = o->told[j] < 0 ? its : session_of(o, o->told[j]);
                o->free[j] = its == s || its == s + 1 || home == s;
                away = away || (o->free[j] && o->told[j] >= 0 && o->told[j] != starts[j]);
            }
            if (!away)
                continue;
            windows++;
            int64_t before = distance(o, starts);
            int32_t *known = arena_array(p->memory, int32_t, p->n_jobs);
            memcpy(known, starts, p->n_jobs * sizeof *known);
            if (!search(o, starts, known, WINDOW_EFFORT, &found, e))
                return false;
            if (found && distance(o, starts) > before) /* cannot be: it began from there */
                memcpy(starts, known, p->n_jobs * sizeof *starts);
            gained = gained || distance(o, starts) < before;
        }
        if (windows >= MOST_WINDOWS)
            return true;
    }
    return true;
}

bool stay_close(planner *p, solve_answer *together, err *e) {
    uint32_t n;
    staying o = {.p = p, .makespan = together->makespan, .told = told_starts(p, &n)};
    if (n == 0)
        return true;
    o.free = arena_array(p->memory, bool, p->n_jobs);
    int32_t *starts = arena_array(p->memory, int32_t, p->n_jobs);
    memcpy(starts, together->starts, p->n_jobs * sizeof *starts);
    if (distance(&o, starts) > 0 && (!hold_places(&o, starts, e) || !bring_back(&o, starts, e)))
        return false;
    together->starts = starts;
    return true;
}
