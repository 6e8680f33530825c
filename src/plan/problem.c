/* problem.c: writes the jobs down as a problem for sched/.
 *
 * People are told to the kernel as sets (Hall's condition): for a set of people, the seats of the running jobs that
 * only they can fill are at most as many as they are. Taken over all sets that matter this makes nearly every schedule
 * one that can be named; what is left over is refused by naming (plan.c).
 */
#include <string.h>

#include "plan/planner.h"

/* What does not find room here is left to naming: it costs time, never a wrong answer. */
enum { MAX_PEOPLE_SETS = 400 };

static void add_sessions(const planner *p, sched_problem *s) {
    for (uint32_t k = 0; k + 1 < p->calendar.n_sessions; k++)
        sched_add_cut(s, p->calendar.sessions[k].to_min);
    sched_set_horizon(s, p->calendar.end);
}

static void add_jobs(const planner *p, sched_problem *s) {
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        const plan_job *it = &p->jobs[j];
        int32_t task = sched_add_task(s, it->duration);
        sched_set_crossing(s, task, it->may_pause ? SCHED_CUT_COSTS : SCHED_CUT_KEPT, it->resume);
        sched_set_release(s, task, p->release[j]);
        for (uint32_t k = 0; k < it->n_starts; k++)
            sched_allow_starts(s, task, it->starts[k].first, it->starts[k].last);
    }
}

/* ---- relations ---------------------------------------------------------------------------------------------------- */

/* The table as pieces of slope 0 or 1. */
static int32_t add_map(const planner *p, sched_problem *s, const int32_t *table) {
    int32_t end = p->calendar.end;
    sched_map_piece *pieces = arena_array(p->memory, sched_map_piece, (size_t)end + 2);
    size_t n = 0;
    for (int32_t x = 0; x <= end; x++) {
        if (n > 0) {
            sched_map_piece *last = &pieces[n - 1];
            if (x == last->from + 1 && (table[x] == last->value || table[x] == last->value + 1))
                last->slope = table[x] - last->value;
            if (table[x] == last->value + last->slope * (x - last->from))
                continue;
        }
        pieces[n++] = (sched_map_piece){x, table[x], 0};
    }
    if (n == 0 || pieces[n - 1].from != end)
        n++;
    pieces[n - 1] = (sched_map_piece){end, end, 1}; /* past the line nothing matters, but a map must go on */
    return sched_add_map(s, pieces, n);
}

static void add_relations(const planner *p, sched_problem *s) {
    int32_t *maps = arena_array(p->memory, int32_t, p->n_links);
    for (uint32_t x = 0; x < p->n_links; x++) {
        const network_link *l = &p->links[x];
        maps[x] = SCHED_NONE;
        for (uint32_t y = 0; y < x && l->reaches && maps[x] == SCHED_NONE; y++)
            if (p->links[y].reaches == l->reaches)
                maps[x] = maps[y];
        if (l->reaches && maps[x] == SCHED_NONE)
            maps[x] = add_map(p, s, l->reaches);
        sched_add_relation(s, SCHED_END_START, (int32_t)l->before, (int32_t)l->after,
                           (l->reaches ? 0 : l->delay) + (p->buffers ? p->buffers[x] : 0), maps[x]);
    }
}

static bool lists(kit_indices set, kit_index what) {
    for (uint32_t k = 0; k < set.n; k++)
        if (set.list[k] == what)
            return true;
    return false;
}

static void add_not_beside(const planner *p, sched_problem *s) {
    for (uint32_t a = 0; a < p->n_jobs; a++) {
        const kit_step *x = &p->kit->steps[p->jobs[a].step];
        for (uint32_t b = a + 1; b < p->n_jobs; b++) {
            const kit_step *y = &p->kit->steps[p->jobs[b].step];
            if ((y->work != KIT_NONE && lists(x->not_beside, y->work)) ||
                (x->work != KIT_NONE && lists(y->not_beside, x->work)))
                sched_forbid_overlap(s, (int32_t)a, (int32_t)b);
        }
    }
}

/* ---- people ------------------------------------------------------------------------------------------------------- */

/* Seats that a job fills from the set, whichever team does it. */
static int32_t seats_inside(const plan_job *j, people_set set) {
    int32_t least = INT32_MAX;
    for (uint32_t t = 0; t < j->n_teams; t++) {
        int32_t seats = 0;
        for (uint32_t k = 0; k < j->n_seats; k++)
            seats += (j->teams[t].seats[k] & ~set) == 0;
        least = seats < least ? seats : least;
    }
    return least == INT32_MAX ? 0 : least;
}

static void add_set(people_set *sets, uint32_t *n, people_set set) {
    for (uint32_t k = 0; k < *n; k++)
        if (sets[k] == set)
            return;
    if (*n < MAX_PEOPLE_SETS)
        sets[(*n)++] = set;
}

/* Everybody, the sets seats ask for, and unions of these as far as there is room. */
static uint32_t collect_sets(const planner *p, people_set *sets) {
    uint32_t n = 0;
    add_set(sets, &n, p->calendar.everybody);
    for (uint32_t j = 0; j < p->n_jobs; j++)
        for (uint32_t t = 0; t < p->jobs[j].n_teams; t++)
            for (uint32_t k = 0; k < p->jobs[j].n_seats; k++)
                add_set(sets, &n, p->jobs[j].teams[t].seats[k]);
    for (uint32_t x = 1; x < n; x++)
        for (uint32_t y = 1; y < x; y++)
            if (sets[x] & sets[y]) /* a union of strangers follows from the two */
                add_set(sets, &n, sets[x] | sets[y]);
    return n;
}

/* By set and job: seats inside. Sets that follow from a smaller one, which every job asks for as much, are taken out. */
static uint32_t weigh_sets(const planner *p, people_set *sets, uint32_t n, int32_t *seats) {
    for (uint32_t k = 0; k < n; k++)
        for (uint32_t j = 0; j < p->n_jobs; j++)
            seats[k * p->n_jobs + j] = seats_inside(&p->jobs[j], sets[k]);
    size_t row = p->n_jobs * sizeof *seats;
    for (uint32_t k = 0; k < n;) {
        bool follows = false;
        for (uint32_t x = 0; x < n && !follows; x++)
            follows = x != k && (sets[x] & ~sets[k]) == 0 &&
                      memcmp(seats + (size_t)x * p->n_jobs, seats + (size_t)k * p->n_jobs, row) == 0;
        if (!follows) {
            k++;
            continue;
        }
        n--;
        memmove(sets + k, sets + k + 1, (n - k) * sizeof *sets);
        memmove(seats + (size_t)k * p->n_jobs, seats + (size_t)(k + 1) * p->n_jobs, (n - k) * row);
    }
    return n;
}

static void add_people(const planner *p, sched_problem *s) {
    people_set sets[MAX_PEOPLE_SETS];
    int32_t *seats = arena_array(p->memory, int32_t, (size_t)MAX_PEOPLE_SETS * p->n_jobs);
    uint32_t n = weigh_sets(p, sets, collect_sets(p, sets), seats);
    for (uint32_t k = 0; k < n; k++) {
        int32_t capacity = (int32_t)people_count(sets[k]);
        int32_t resource = sched_add_resource(s, capacity);
        for (uint32_t x = 0; x < p->calendar.n_presence; x++) {
            const calendar_presence *there = &p->calendar.presence[x];
            int32_t now = (int32_t)people_count(there->there & sets[k]);
            if (now != capacity)
                sched_set_capacity(s, resource, there->from, there->to, now);
        }
        for (uint32_t j = 0; j < p->n_jobs; j++)
            if (seats[k * p->n_jobs + j] > 0)
                sched_set_demand(s, (int32_t)j, resource, seats[k * p->n_jobs + j]);
    }
}

/* ---- places, tools, parts ----------------------------------------------------------------------------------------- */

static void add_places(const planner *p, sched_problem *s) {
    for (kit_index z = 0; z < p->kit->n_zones; z++) {
        int64_t owned =
            p->kit->zones[z].kind == KIT_ZONE ? p->kit->zones[z].groups : limits_workplaces(p->workshop, z);
        if (owned >= p->n_jobs)
            continue;
        int32_t resource = sched_add_resource(s, (int32_t)owned);
        for (uint32_t j = 0; j < p->n_jobs; j++)
            if (p->kit->steps[p->jobs[j].step].zone == z)
                sched_set_demand(s, (int32_t)j, resource, 1);
    }
}

static void add_tools(const planner *p, sched_problem *s) {
    const kit *k = p->kit;
    for (kit_index t = 0; t < k->n_tools; t++) {
        int64_t owned = limits_tools(p->workshop, t), wanted = 0;
        for (uint32_t x = 0; x < k->n_step_tools; x++)
            if (k->step_tools[x].tool == t && p->job_of[k->step_tools[x].step] != NO_JOB)
                wanted += k->step_tools[x].quantity;
        if (wanted <= owned)
            continue;
        int32_t resource = sched_add_resource(s, (int32_t)owned);
        for (uint32_t x = 0; x < k->n_step_tools; x++)
            if (k->step_tools[x].tool == t && p->job_of[k->step_tools[x].step] != NO_JOB)
                sched_set_demand(s, (int32_t)p->job_of[k->step_tools[x].step], resource,
                                 (int32_t)k->step_tools[x].quantity);
    }
}

/* Only parts that are not all there from the start. */
static void add_part(const planner *p, sched_problem *s, kit_index part) {
    const kit *k = p->kit;
    int64_t usable = supply_usable(&p->in, part);
    if (p->supply.drawn[part] <= usable)
        return;
    int32_t reservoir = sched_add_reservoir(s, (int32_t)usable);
    for (uint32_t x = 0; x < p->in.n_arrivals; x++) {
        const plan_arrival *arrival = &p->in.arrivals[x];
        int32_t at = calendar_minute_from(&p->calendar, arrival->at);
        if (arrival->part == part && at < p->calendar.end)
            sched_add_arrival(s, reservoir, at, (int32_t)arrival->quantity);
    }
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        int64_t need = 0;
        for (uint32_t x = 0; x < k->n_step_parts; x++)
            if (k->step_parts[x].part == part && k->step_parts[x].step == p->jobs[j].step)
                need += k->step_parts[x].quantity;
        if (need > 0)
            sched_set_draw(s, (int32_t)j, reservoir, (int32_t)need);
    }
}

static void add_one_at_a_time(const planner *p, sched_problem *s) {
    int32_t turn = sched_add_resource(s, 1);
    for (uint32_t j = 0; j < p->n_jobs; j++)
        sched_set_demand(s, (int32_t)j, turn, 1);
}

sched_problem *problem_build(const planner *p, bool alone) {
    sched_problem *s = sched_open();
    if (!s)
        return NULL;
    add_sessions(p, s);
    add_jobs(p, s);
    add_relations(p, s);
    for (kit_index part = 0; part < p->kit->n_parts; part++)
        add_part(p, s, part);
    if (alone) { /* possible starts hold all that one job needs of people, places and tools */
        add_one_at_a_time(p, s);
        return s;
    }
    add_not_beside(p, s);
    add_people(p, s);
    add_places(p, s);
    add_tools(p, s);
    return s;
}
