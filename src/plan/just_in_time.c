/* just_in_time.c: what is half-built lies on a shelf, in the way and waiting to be lost; so nothing is begun before it must.
 *
 * The finish is kept as a limit. Between a sub-assembly's end (and the delay after it) and the step it joins at, the
 * buffer that the kit wants stays free; where the finish does not leave room for all buffers, each keeps what it has
 * and gets as much more as can be had, in the order of joining, all or nothing. Then the kernel's second stage minimises
 *   1. the minutes that units lie half-built, from the first start to the joining step, summed over the units;
 *   2. the minutes from each of their steps to the joining step, summed over the steps: ready as late as can be.
 * It begins from the plan that everybody's late starts give (links.c), the main machine's steps held where they are.
 */
#include "plan/just_in_time.h"

#include <stdlib.h>
#include <string.h>

/* Effort for one search over two sessions, for one over all, and for each attempt to have more buffer. */
enum { FEW_EFFORT = 300, ALL_EFFORT = 1000, BUFFER_EFFORT = 400, MOST_SEARCHES = 80 };

typedef struct {
    kit_index sub_assembly;
    uint32_t *work, n_work;   /* jobs */
    uint32_t *joins, n_joins; /* jobs elsewhere that follow one of them */
    int32_t join;             /* start of the first of these in the plan so far */
} unit;

typedef struct {
    planner *p;
    unit *units;
    uint32_t n_units;
    int32_t *buffers; /* by link */
    bool *movable;    /* by job: of a unit that joins */
    bool *free;       /* by job: the search at hand may move it; the others stay where they are */
    int32_t makespan;
} putting_off;

/* ---- units -------------------------------------------------------------------------------------------------------- */

static kit_index unit_of(const planner *p, uint32_t job) {
    return p->kit->steps[p->jobs[job].step].sub_assembly;
}

/* The link by which a finished sub-assembly leaves the shelf. */
static bool is_joining(const planner *p, const network_link *l) {
    kit_index from = unit_of(p, l->before);
    return from != KIT_NONE && from != unit_of(p, l->after);
}

static void collect_unit(const planner *p, kit_index sub_assembly, unit *u) {
    *u = (unit){.sub_assembly = sub_assembly,
                .work = arena_array(p->memory, uint32_t, p->n_jobs),
                .joins = arena_array(p->memory, uint32_t, p->n_jobs)};
    for (uint32_t j = 0; j < p->n_jobs; j++)
        if (unit_of(p, j) == sub_assembly)
            u->work[u->n_work++] = j;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        bool joins = false;
        for (uint32_t k = 0; k < p->n_links; k++)
            joins = joins || (p->links[k].after == j && unit_of(p, p->links[k].before) == sub_assembly &&
                              is_joining(p, &p->links[k]));
        if (joins)
            u->joins[u->n_joins++] = j;
    }
}

/* All sub-assemblies of which a step is planned. */
static unit *collect_units(const planner *p, uint32_t *n) {
    unit *units = arena_array(p->memory, unit, p->kit->n_sub_assemblies);
    *n = 0;
    for (kit_index s = 0; s < p->kit->n_sub_assemblies; s++) {
        collect_unit(p, s, &units[*n]);
        *n += units[*n].n_work > 0;
    }
    return units;
}

static int32_t wanted_buffer(const planner *p, kit_index sub_assembly) {
    return (int32_t)p->kit->sub_assemblies[sub_assembly].buffer_min;
}

/* Free minutes on a link in a schedule. */
static int32_t free_minutes(const planner *p, const network_link *l, const int32_t *starts) {
    int32_t end = job_end(&p->calendar, &p->jobs[l->before], starts[l->before]);
    return starts[l->after] - network_reach(l, end);
}

/* ---- the problem --------------------------------------------------------------------------------------------------- */

static void add_linear_cost(sched_problem *s, int32_t objective, int32_t task, int32_t slope) {
    sched_cost_piece piece = {0, 0, slope};
    sched_add_cost(s, objective, task, &piece, 1);
}

/* A task without duration for "the first of these starts" or "the last of these starts"; the task itself when it is one. */
static int32_t add_event(sched_problem *s, const uint32_t *jobs, uint32_t n, bool first) {
    if (n == 1)
        return (int32_t)jobs[0];
    int32_t event = sched_add_task(s, 0);
    for (uint32_t k = 0; k < n; k++)
        sched_add_relation(s, SCHED_START_START, first ? event : (int32_t)jobs[k],
                           first ? (int32_t)jobs[k] : event, 0, SCHED_NONE);
    return event;
}

static void add_objectives(const putting_off *o, sched_problem *s) {
    int32_t shelf = sched_add_objective(s), late = sched_add_objective(s);
    for (uint32_t k = 0; k < o->n_units; k++) {
        const unit *u = &o->units[k];
        if (u->n_joins == 0)
            continue;
        int32_t joined = add_event(s, u->joins, u->n_joins, false);
        add_linear_cost(s, shelf, add_event(s, u->work, u->n_work, true), -1);
        add_linear_cost(s, shelf, joined, 1);
        add_linear_cost(s, late, joined, (int32_t)u->n_work);
        for (uint32_t x = 0; x < u->n_work; x++)
            add_linear_cost(s, late, (int32_t)u->work[x], -1);
    }
}

/* The starts of all tasks of the problem: jobs, then the events in the order of adding. */
static int32_t *with_events(const putting_off *o, const int32_t *starts) {
    const planner *p = o->p;
    int32_t *all = arena_array(p->memory, int32_t, (size_t)p->n_jobs + 2 * (size_t)o->n_units);
    memcpy(all, starts, p->n_jobs * sizeof *all);
    uint32_t at = p->n_jobs;
    for (uint32_t k = 0; k < o->n_units; k++) {
        const unit *u = &o->units[k];
        if (u->n_joins == 0)
            continue;
        int32_t first = INT32_MAX, last = 0;
        for (uint32_t x = 0; x < u->n_joins; x++)
            last = starts[u->joins[x]] > last ? starts[u->joins[x]] : last;
        for (uint32_t x = 0; x < u->n_work; x++)
            first = starts[u->work[x]] < first ? starts[u->work[x]] : first;
        if (u->n_joins > 1)
            all[at++] = last;
        if (u->n_work > 1)
            all[at++] = first;
    }
    return all;
}

/* ---- solving -------------------------------------------------------------------------------------------------------- */

/* Every step of the units as late as the order of work allows, the others held. */
static void hold_back(putting_off *o, int32_t *starts) {
    planner *p = o->p;
    people_work w = planner_people(p);
    people_stretch *named;
    uint32_t n;
    people_conflict why;
    if (people_name(p->memory, &w, starts, &named, &n, &why) != PEOPLE_NAMED)
        return;
    int32_t *late = arena_array(p->memory, int32_t, p->n_jobs);
    links_late_starts(p, starts, named, n, o->makespan, o->movable, late);
    if (solve_can_name(p, late))
        memcpy(starts, late, p->n_jobs * sizeof *late);
}

/* Solves with o->buffers and o->free, beginning from `starts`; on success the new starts stand there. */
static bool search(putting_off *o, int32_t *starts, uint64_t effort, bool *found, bool *least, err *e) {
    planner *p = o->p;
    p->buffers = o->buffers;
    sched_problem *s = problem_build(p, false);
    if (s)
        add_objectives(o, s);
    for (uint32_t j = 0; s && j < p->n_jobs; j++)
        if (!o->free[j])
            sched_fix_start(s, (int32_t)j, starts[j]);
    solve_answer answer;
    if (!solve_put_off(p, s, with_events(o, starts), o->makespan, effort, &answer, e))
        return false;
    *found = answer.found;
    *least = answer.found && answer.shelf_least;
    if (answer.found)
        memcpy(starts, answer.starts, p->n_jobs * sizeof *starts);
    return true;
}

/* Gives the unit's links its whole buffer (as far as `starts` leaves it when not `whole`). */
static void set_buffers(putting_off *o, const unit *u, const int32_t *starts, bool whole) {
    const planner *p = o->p;
    for (uint32_t k = 0; k < p->n_links; k++) {
        if (!is_joining(p, &p->links[k]) || unit_of(p, p->links[k].before) != u->sub_assembly)
            continue;
        int32_t wanted = wanted_buffer(p, u->sub_assembly), there = free_minutes(p, &p->links[k], starts);
        o->buffers[k] = whole || there > wanted ? wanted : there;
    }
}

static bool buffers_hold(const putting_off *o, const int32_t *starts) {
    for (uint32_t k = 0; k < o->p->n_links; k++)
        if (o->buffers[k] > 0 && free_minutes(o->p, &o->p->links[k], starts) < o->buffers[k])
            return false;
    return true;
}

/* Buffers within the finish, and a schedule that keeps them. */
static bool find_buffers(putting_off *o, int32_t *starts, err *e) {
    bool found, least;
    for (uint32_t k = 0; k < o->n_units; k++)
        set_buffers(o, &o->units[k], starts, true);
    if (buffers_hold(o, starts))
        return true;
    if (!search(o, starts, BUFFER_EFFORT, &found, &least, e))
        return false;
    if (found)
        return true;
    for (uint32_t k = 0; k < o->n_units; k++)
        set_buffers(o, &o->units[k], starts, false);
    for (uint32_t k = 0; k < o->n_units; k++) {
        int32_t *before = arena_array(o->p->memory, int32_t, o->p->n_links);
        memcpy(before, o->buffers, o->p->n_links * sizeof *before);
        set_buffers(o, &o->units[k], starts, true);
        if (memcmp(before, o->buffers, o->p->n_links * sizeof *before) == 0)
            continue;
        if (!search(o, starts, BUFFER_EFFORT, &found, &least, e))
            return false;
        if (!found)
            memcpy(o->buffers, before, o->p->n_links * sizeof *before);
    }
    return true;
}

/* Frees every step that starts in the session or the one after it. */
static void free_window(putting_off *o, const int32_t *starts, uint32_t session) {
    for (uint32_t j = 0; j < o->p->n_jobs; j++) {
        uint32_t its = calendar_session(&o->p->calendar, starts[j], false);
        o->free[j] = its == session || its == session + 1;
    }
}

/* Two sessions at a time, from the last backward, again and again while that gains anything; then all at once. */
static bool search_all(putting_off *o, int32_t *starts, bool *least, err *e) {
    planner *p = o->p;
    bool found, gained = true;
    int32_t *before = arena_array(p->memory, int32_t, p->n_jobs);
    uint64_t limit = p->in.effort ? p->in.effort : UINT64_MAX;
    uint32_t last = calendar_session(&p->calendar, o->makespan, true);
    for (uint32_t searches = 0; searches < MOST_SEARCHES && gained;) {
        memcpy(before, starts, p->n_jobs * sizeof *before);
        for (uint32_t session = last + 1; session-- > 0 && searches < MOST_SEARCHES; searches++) {
            free_window(o, starts, session);
            if (!search(o, starts, FEW_EFFORT < limit ? FEW_EFFORT : limit, &found, least, e))
                return false;
        }
        gained = memcmp(before, starts, p->n_jobs * sizeof *before) != 0;
    }
    memset(o->free, true, p->n_jobs * sizeof *o->free);
    return search(o, starts, ALL_EFFORT < limit ? ALL_EFFORT : limit, &found, least, e);
}

static int compare_joining(const void *a, const void *b) {
    const unit *x = a, *y = b;
    if (x->join != y->join)
        return x->join < y->join ? -1 : 1;
    return x->sub_assembly < y->sub_assembly ? -1 : 1;
}

static void open_putting_off(putting_off *o, const int32_t *starts) {
    const planner *p = o->p;
    o->units = collect_units(p, &o->n_units);
    o->buffers = arena_array(p->memory, int32_t, p->n_links);
    o->movable = arena_array(p->memory, bool, p->n_jobs);
    o->free = arena_array(p->memory, bool, p->n_jobs);
    memset(o->free, true, p->n_jobs * sizeof *o->free);
    for (uint32_t k = 0; k < o->n_units; k++) {
        unit *u = &o->units[k];
        u->join = INT32_MAX;
        for (uint32_t x = 0; x < u->n_joins; x++)
            u->join = starts[u->joins[x]] < u->join ? starts[u->joins[x]] : u->join;
        for (uint32_t x = 0; x < u->n_work && u->n_joins > 0; x++)
            o->movable[u->work[x]] = true;
    }
    if (o->n_units > 1)
        qsort(o->units, o->n_units, sizeof *o->units, compare_joining);
}

bool just_in_time(planner *p, solve_answer *together, err *e) {
    putting_off o = {.p = p, .makespan = together->makespan};
    open_putting_off(&o, together->starts);
    if (o.n_units == 0)
        return true;
    int32_t *starts = arena_array(p->memory, int32_t, p->n_jobs);
    memcpy(starts, together->starts, p->n_jobs * sizeof *starts);
    if (!find_buffers(&o, starts, e))
        return false;
    p->buffers = o.buffers;
    hold_back(&o, starts);
    if (!search_all(&o, starts, &together->shelf_least, e))
        return false;
    hold_back(&o, starts);
    together->starts = starts;
    together->makespan = solve_last_end(p, starts);
    return true;
}

/* ---- telling -------------------------------------------------------------------------------------------------------- */

static void tell_times(const planner *p, const unit *u, const int32_t *starts, int32_t finish, int32_t *begun,
                       int32_t *ready, int32_t *joined) {
    *begun = INT32_MAX;
    *ready = 0;
    *joined = u->n_joins > 0 ? 0 : finish;
    for (uint32_t x = 0; x < u->n_work; x++) {
        int32_t start = starts[u->work[x]], end = job_end(&p->calendar, &p->jobs[u->work[x]], start);
        *begun = start < *begun ? start : *begun;
        *ready = end > *ready ? end : *ready;
    }
    for (uint32_t x = 0; x < u->n_joins; x++)
        *joined = starts[u->joins[x]] > *joined ? starts[u->joins[x]] : *joined;
}

static bool begun_before(const planner *p, kit_index sub_assembly) {
    for (uint32_t k = 0; k < p->in.n_done; k++)
        if (p->kit->steps[p->in.done[k].step].sub_assembly == sub_assembly)
            return true;
    return false;
}

static int32_t kept_buffer(const planner *p, const unit *u) {
    int32_t least = p->buffers ? wanted_buffer(p, u->sub_assembly) : 0;
    for (uint32_t k = 0; p->buffers && k < p->n_links; k++)
        if (is_joining(p, &p->links[k]) && unit_of(p, p->links[k].before) == u->sub_assembly &&
            p->buffers[k] < least)
            least = p->buffers[k];
    return least;
}

/* Most at one time: just after one of them is begun. */
static plan_shelf shelf_of(const plan *out, bool early) {
    plan_shelf shelf = {0};
    for (uint32_t k = 0; k < out->n_units; k++) {
        const plan_unit *u = &out->units[k];
        int32_t from = u->begun_before ? 0 : early ? u->early_begun_min : u->begun_min;
        shelf.unit_min += (early ? u->early_joined_min : u->joined_min) - from;
        uint32_t there = 0;
        for (uint32_t x = 0; x < out->n_units; x++) {
            const plan_unit *y = &out->units[x];
            int32_t begun = y->begun_before ? 0 : early ? y->early_begun_min : y->begun_min;
            there += begun <= from && from < (early ? y->early_joined_min : y->joined_min);
        }
        shelf.most = there > shelf.most ? there : shelf.most;
    }
    return shelf;
}

void just_in_time_tell(planner *p, const int32_t *early, const solve_answer *together, plan *out) {
    uint32_t n;
    unit *units = collect_units(p, &n);
    out->units = arena_array(p->memory, plan_unit, n);
    out->n_units = n;
    for (uint32_t k = 0; k < n; k++) {
        plan_unit *u = &out->units[k];
        *u = (plan_unit){.sub_assembly = units[k].sub_assembly,
                         .begun_before = begun_before(p, units[k].sub_assembly),
                         .joins = units[k].n_joins > 0,
                         .wanted_buffer_min = wanted_buffer(p, units[k].sub_assembly),
                         .buffer_min = kept_buffer(p, &units[k])};
        tell_times(p, &units[k], together->starts, together->makespan, &u->begun_min, &u->ready_min,
                   &u->joined_min);
        tell_times(p, &units[k], early, together->makespan, &u->early_begun_min, &u->early_ready_min,
                   &u->early_joined_min);
    }
    for (uint32_t k = 0; k < out->n_steps; k++) {
        uint32_t job = p->job_of[out->steps[k].step];
        out->steps[k].put_off_min = together->starts[job] - early[job];
    }
    out->shelf = shelf_of(out, false);
    out->early_shelf = shelf_of(out, true);
    out->shelf_least = together->shelf_least;
}
