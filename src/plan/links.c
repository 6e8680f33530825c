/* links.c: slack in a finished plan.
 *
 * In a plan steps wait for people, tools and places as well as for the steps before them. Each such wait is written down
 * as a link (the order in which a person, tool or place goes from step to step: Artigues, Michelon and Reusser,
 * "Insertion techniques for static and dynamic resource-constrained project scheduling", 2003, call it a resource flow),
 * and network planning's backward pass over all links gives how late each step may start while everybody keeps their
 * steps and the order of them. All steps at their late starts are a right plan again, with the same finish.
 */
#include "plan/planner.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    planner *p;
    const int32_t *starts;
    int32_t *ends;
    const people_stretch *named;
    uint32_t n_named;
    uint32_t *first; /* by job: its first stretch in named; n_jobs + 1 */
    int32_t *
        latest; /* by job: a bound on its late start: work handed over in the middle of another, or it is held */
    uint32_t *order; /* jobs by start */
    network_link *links;
    size_t n, cap;
    job_stretches shifted; /* room for may_start */
} linking;

static void add_link(linking *l, uint32_t before, uint32_t after, bool from_start, int32_t delay) {
    arena_room(l->p->memory, l->links, l->n, l->cap, network_link);
    l->links[l->n++] =
        (network_link){.before = before, .after = after, .from_start = from_start, .delay = delay};
}

/* ---- people ------------------------------------------------------------------------------------------------------- */

static bool has_person(const linking *l, const people_stretch *s, kit_index person) {
    for (uint32_t k = 0; k < l->p->jobs[s->job].n_seats; k++)
        if (s->seats[k] == person)
            return true;
    return false;
}

/* The person goes from stretch x to stretch y of another job. */
static void link_person(linking *l, const people_stretch *x, const people_stretch *y) {
    uint32_t i = x->job, j = y->job;
    bool last = x->when.to == l->ends[i], first = y->when.from == l->starts[j];
    if (last && first) {
        add_link(l, i, j, false, 0);
        return;
    }
    bool leaves_with_session = x->when.to == l->p->calendar.sessions[x->when.session].to_min;
    if (!last && leaves_with_session)
        return; /* later starts of job i change nothing of that */
    if (!last && first) {
        add_link(l, i, j, true, x->when.to - l->starts[i]);
        return;
    }
    int32_t bound = l->starts[i] + (y->when.from - x->when.to);
    if (bound < l->latest[i])
        l->latest[i] = bound;
}

static void link_people(linking *l, const people_stretch *by_time) {
    for (kit_index person = 0; person < l->p->workshop->n_crew; person++) {
        const people_stretch *x = NULL;
        for (uint32_t k = 0; k < l->n_named; k++) {
            const people_stretch *y = &by_time[k];
            if (!has_person(l, y, person))
                continue;
            if (x && x->job != y->job)
                link_person(l, x, y);
            x = y;
        }
    }
}

/* ---- tools and places ---------------------------------------------------------------------------------------------- */

/* Hands `owned` units from job to job by time; amount[job] of them to each. Units that are back already and were used
 * last are taken first, which keeps links few. */
static void link_units(linking *l, int64_t owned, const int64_t *amount) {
    int64_t wanted = 0;
    for (uint32_t j = 0; j < l->p->n_jobs; j++)
        wanted += amount[j];
    if (wanted <= owned)
        return;
    uint32_t *holder = arena_array(l->p->memory, uint32_t, (size_t)owned);
    memset(holder, 0xff, (size_t)owned * sizeof *holder);
    for (uint32_t k = 0; k < l->p->n_jobs; k++) {
        uint32_t j = l->order[k];
        for (int64_t need = amount[j]; need > 0; need--) {
            int64_t best = -1;
            for (int64_t u = 0; u < owned; u++) {
                bool back = holder[u] == NO_JOB || (holder[u] != j && l->ends[holder[u]] <= l->starts[j]);
                if (!back)
                    continue;
                int32_t since = holder[u] == NO_JOB ? -1 : l->ends[holder[u]];
                int32_t best_since = best < 0 || holder[best] == NO_JOB ? -1 : l->ends[holder[best]];
                if (best < 0 || since > best_since)
                    best = u;
            }
            if (best < 0)
                return; /* cannot be: the schedule keeps the capacity */
            if (holder[best] != NO_JOB)
                add_link(l, holder[best], j, false, 0);
            holder[best] = j;
        }
    }
}

static void link_things(linking *l) {
    const kit *k = l->p->kit;
    int64_t *amount = arena_array(l->p->memory, int64_t, l->p->n_jobs);
    for (kit_index t = 0; t < k->n_tools; t++) {
        memset(amount, 0, l->p->n_jobs * sizeof *amount);
        for (uint32_t x = 0; x < k->n_step_tools; x++)
            if (k->step_tools[x].tool == t && l->p->job_of[k->step_tools[x].step] != NO_JOB)
                amount[l->p->job_of[k->step_tools[x].step]] += k->step_tools[x].quantity;
        link_units(l, limits_tools(l->p->workshop, t), amount);
    }
    for (kit_index z = 0; z < k->n_zones; z++) {
        for (uint32_t j = 0; j < l->p->n_jobs; j++)
            amount[j] = k->steps[l->p->jobs[j].step].zone == z;
        link_units(l,
                   k->zones[z].kind == KIT_ZONE ? k->zones[z].groups : limits_workplaces(l->p->workshop, z),
                   amount);
    }
}

/* Work that may not be next to the other keeps its order. */
static void link_not_beside(linking *l) {
    const kit *k = l->p->kit;
    for (uint32_t a = 0; a < l->p->n_jobs; a++) {
        const kit_step *x = &k->steps[l->p->jobs[a].step];
        for (uint32_t b = 0; b < l->p->n_jobs; b++) {
            const kit_step *y = &k->steps[l->p->jobs[b].step];
            for (uint32_t w = 0; w < x->not_beside.n && a != b && y->work != KIT_NONE; w++) {
                if (x->not_beside.list[w] != y->work)
                    continue;
                if (l->starts[a] < l->starts[b])
                    add_link(l, a, b, false, 0);
                else
                    add_link(l, b, a, false, 0);
            }
        }
    }
}

/* ---- the pass ------------------------------------------------------------------------------------------------------- */

/* A later start keeps the plan's people when every stretch lies in the session it lay in (a job of one stretch may go
 * to another) and they are there all the time. */
static bool may_start(void *user, uint32_t job, int32_t start) {
    linking *l = user;
    const people_stretch *own = l->named + l->first[job];
    uint32_t n = l->first[job + 1] - l->first[job];
    if (start > l->latest[job] ||
        !job_stretch_out(l->p->memory, &l->p->calendar, &l->p->jobs[job], start, &l->shifted) ||
        l->shifted.n != n)
        return false;
    for (uint32_t k = 0; k < n; k++) {
        const job_stretch *now = &l->shifted.list[k];
        if (n > 1 && now->session != own[k].when.session)
            return false;
        people_set there = calendar_there(&l->p->calendar, now->from, now->to);
        for (uint32_t seat = 0; seat < l->p->jobs[job].n_seats; seat++)
            if (!(there & one_person(own[k].seats[seat])))
                return false;
    }
    return true;
}

static int compare_stretches(const void *a, const void *b) {
    const people_stretch *x = a, *y = b;
    if (x->when.from != y->when.from)
        return x->when.from < y->when.from ? -1 : 1;
    return x->job < y->job ? -1 : x->job > y->job;
}

static const int32_t *later_by(const planner *p, const int32_t *reaches, int32_t minutes) {
    int32_t end = p->calendar.end, *table = arena_array(p->memory, int32_t, (size_t)end + 1);
    for (int32_t x = 0; x <= end; x++)
        table[x] = reaches[x] + minutes < end ? reaches[x] + minutes : end;
    return table;
}

/* The after-relations, longer by the buffers when these are to be kept. */
static void link_relations(linking *l, const int32_t *buffers) {
    for (uint32_t k = 0; k < l->p->n_links; k++) {
        const network_link *it = &l->p->links[k];
        arena_room(l->p->memory, l->links, l->n, l->cap, network_link);
        l->links[l->n++] = *it;
        if (buffers && buffers[k] > 0)
            add_link(l, it->before, it->after, false, it->delay + buffers[k]);
        if (buffers && buffers[k] > 0 && it->reaches)
            l->links[l->n - 1].reaches = later_by(l->p, it->reaches, buffers[k]);
    }
}

static void open_linking(linking *l) {
    planner *p = l->p;
    l->ends = arena_array(p->memory, int32_t, p->n_jobs);
    l->latest = arena_array(p->memory, int32_t, p->n_jobs);
    l->order = arena_array(p->memory, uint32_t, p->n_jobs);
    l->first = arena_array(p->memory, uint32_t, (size_t)p->n_jobs + 1);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        l->ends[j] = job_end(&p->calendar, &p->jobs[j], l->starts[j]);
        l->latest[j] = INT32_MAX;
        uint32_t k = j; /* insertion by start */
        for (; k > 0 && l->starts[l->order[k - 1]] > l->starts[j]; k--)
            l->order[k] = l->order[k - 1];
        l->order[k] = j;
    }
    for (uint32_t k = 0; k < l->n_named; k++)
        l->first[l->named[k].job + 1] = k + 1;
}

void links_late_starts(planner *p, const int32_t *starts, const people_stretch *named, uint32_t n_named,
                       int32_t finish, const bool *movable, int32_t *late) {
    linking l = {.p = p, .starts = starts, .named = named, .n_named = n_named};
    open_linking(&l);
    link_relations(&l, movable ? p->buffers : NULL);
    for (uint32_t j = 0; movable && j < p->n_jobs; j++)
        if (!movable[j])
            l.latest[j] = starts[j];
    people_stretch *by_time = arena_array(p->memory, people_stretch, n_named);
    if (n_named > 0)
        memcpy(by_time, named, n_named * sizeof *by_time);
    qsort(by_time, n_named, sizeof *by_time, compare_stretches);
    link_people(&l, by_time);
    link_things(&l);
    link_not_beside(&l);
    network n = {.calendar = &p->calendar,
                 .jobs = p->jobs,
                 .n_jobs = p->n_jobs,
                 .links = l.links,
                 .n_links = (uint32_t)l.n,
                 .order = l.order,
                 .may_start = may_start,
                 .user = &l};
    network_times *times = arena_array(p->memory, network_times, p->n_jobs);
    network_backward(&n, finish, starts, times);
    for (uint32_t j = 0; j < p->n_jobs; j++)
        late[j] = times[j].late_start;
}
