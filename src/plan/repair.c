/* repair.c: one job after the other, each at the first minute at which people are free for all of its stretches.
 *
 * Of those free the least versatile are taken who can fill the seats (greedily, which is best for one job: the sets of people that
 * can be seated are a matroid). A job tries its start in the schedule that could not be named, then the ends of jobs placed, the
 * beginnings of sessions and of its own possible starts.
 */
#include "plan/repair.h"

#include <stdlib.h>
#include <string.h>

typedef struct {
    const planner *p;
    arena *memory;
    int32_t *start, *end;                   /* by job; end -1: not placed yet */
    people_set **who;                       /* by job and stretch */
    job_stretches *runs;                    /* by job */
    uint32_t *beside;                       /* room for jobs_beside */
    uint32_t by_versatility[PLAN_MAX_CREW]; /* the crew, the least wanted first */
} repair;

/* ---- people ------------------------------------------------------------------------------------------------------ */

static void order_crew(repair *r) {
    const planner *p = r->p;
    int64_t wanted[PLAN_MAX_CREW] = {0};
    for (uint32_t j = 0; j < p->n_jobs; j++)
        for (uint32_t seat = 0; seat < p->jobs[j].n_seats; seat++) {
            people_set can = p->jobs[j].teams[0].seats[seat];
            int64_t share = can ? INT64_C(100000) / people_count(can) * p->jobs[j].duration : 0;
            for (; can; can &= can - 1)
                wanted[__builtin_ctzll(can)] += share;
        }
    for (uint32_t q = 0; q < p->workshop->n_crew; q++) {
        uint32_t x = q;
        for (; x > 0 && wanted[r->by_versatility[x - 1]] > wanted[q]; x--)
            r->by_versatility[x] = r->by_versatility[x - 1];
        r->by_versatility[x] = q;
    }
}

/* Those who are there and at no placed job between two minutes. */
static people_set free_between(const repair *r, int32_t from, int32_t to) {
    people_set free = calendar_there(&r->p->calendar, from, to);
    for (uint32_t j = 0; j < r->p->n_jobs && free; j++) {
        if (r->end[j] <= from || r->start[j] >= to)
            continue;
        for (size_t k = 0; k < r->runs[j].n; k++)
            if (r->runs[j].list[k].from < to && r->runs[j].list[k].to > from)
                free &= ~r->who[j][k];
    }
    return free;
}

/* Can these people, all of them, sit on different seats? Seats and people change sides for it. */
static bool can_all_sit(const job_team *team, uint32_t n_seats, people_set people) {
    people_set seats_of[PLAN_MAX_CREW], all = 0;
    uint32_t n = 0;
    for (; people; people &= people - 1) {
        people_set own = 0;
        for (uint32_t seat = 0; seat < n_seats; seat++)
            own |= team->seats[seat] & people & -people ? (people_set)1 << seat : 0;
        seats_of[n++] = own;
        all |= own;
    }
    return seats_can_fill(seats_of, n, all);
}

/* The least wanted of those free who can fill the seats of one of the teams; 0: nobody can. */
static people_set choose_people(const repair *r, const plan_job *j, people_set free) {
    for (uint32_t t = 0; t < j->n_teams; t++) {
        if (!seats_can_fill(j->teams[t].seats, j->n_seats, free))
            continue;
        people_set chosen = 0;
        for (uint32_t x = 0; x < r->p->workshop->n_crew && people_count(chosen) < j->n_seats; x++) {
            people_set with = chosen | (people_set)1 << r->by_versatility[x];
            if ((free >> r->by_versatility[x] & 1) && can_all_sit(&j->teams[t], j->n_seats, with))
                chosen = with;
        }
        return chosen;
    }
    return 0;
}

/* ---- the rest ------------------------------------------------------------------------------------------------------ */

static int64_t tools_of(const planner *p, uint32_t job, kit_index tool) {
    int64_t sum = 0;
    for (uint32_t x = 0; x < p->kit->n_step_tools; x++)
        if (p->kit->step_tools[x].step == p->jobs[job].step && p->kit->step_tools[x].tool == tool)
            sum += p->kit->step_tools[x].quantity;
    return sum;
}

/* Most of a tool (or, with KIT_NONE, of the zone) in use at any minute from `from` on by the `n` jobs beside, all of which overlap. */
static int64_t most_in_use(const repair *r, const uint32_t *beside, uint32_t n, kit_index tool,
                           kit_index zone, int32_t from) {
    const planner *p = r->p;
    int64_t most = 0;
    for (uint32_t at = 0; at < n; at++) { /* use rises only at starts */
        int32_t minute = r->start[beside[at]] > from ? r->start[beside[at]] : from;
        int64_t sum = 0;
        for (uint32_t x = 0; x < n; x++)
            if (r->end[beside[x]] > minute && r->start[beside[x]] <= minute)
                sum += tool != KIT_NONE ? tools_of(p, beside[x], tool)
                                        : p->kit->steps[p->jobs[beside[x]].step].zone == zone;
        most = sum > most ? sum : most;
    }
    return most;
}

static bool things_free(const repair *r, uint32_t job, const uint32_t *beside, uint32_t n, int32_t from) {
    const planner *p = r->p;
    const kit *k = p->kit;
    kit_index zone = k->steps[p->jobs[job].step].zone;
    if (zone != KIT_NONE) {
        int64_t owned =
            k->zones[zone].kind == KIT_ZONE ? k->zones[zone].groups : limits_workplaces(p->workshop, zone);
        if (owned < n + 1 && most_in_use(r, beside, n, KIT_NONE, zone, from) + 1 > owned)
            return false;
    }
    for (uint32_t x = 0; x < k->n_step_tools; x++) {
        const kit_step_tool *need = &k->step_tools[x];
        if (need->step == p->jobs[job].step &&
            most_in_use(r, beside, n, need->tool, KIT_NONE, from) + need->quantity >
                limits_tools(p->workshop, need->tool))
            return false;
    }
    return true;
}

static bool names_work(const kit_step *x, kit_index work) {
    for (uint32_t n = 0; n < x->not_beside.n && work != KIT_NONE; n++)
        if (x->not_beside.list[n] == work)
            return true;
    return false;
}

static bool may_be_beside(const repair *r, uint32_t job, const uint32_t *beside, uint32_t n) {
    const kit_step *steps = r->p->kit->steps, *x = &steps[r->p->jobs[job].step];
    for (uint32_t k = 0; k < n; k++) {
        const kit_step *y = &steps[r->p->jobs[beside[k]].step];
        if (names_work(x, y->work) || names_work(y, x->work))
            return false;
    }
    return true;
}

static uint32_t jobs_beside(const repair *r, int32_t from, int32_t to, uint32_t *out) {
    uint32_t n = 0;
    for (uint32_t j = 0; j < r->p->n_jobs; j++)
        if (r->end[j] > from && r->start[j] < to)
            out[n++] = j;
    return n;
}

static bool draws_scarce_part(const planner *p, uint32_t job) {
    for (uint32_t x = 0; x < p->kit->n_step_parts; x++) {
        const kit_step_part *row = &p->kit->step_parts[x];
        if (row->step == p->jobs[job].step && p->supply.drawn[row->part] > supply_usable(&p->in, row->part))
            return true;
    }
    return false;
}

/* ---- placing --------------------------------------------------------------------------------------------------------- */

static bool place_at(repair *r, uint32_t job, int32_t start) {
    const planner *p = r->p;
    const plan_job *j = &p->jobs[job];
    if (!job_stretch_out(r->memory, &p->calendar, j, start, &r->runs[job]))
        return false;
    int32_t end = r->runs[job].list[r->runs[job].n - 1].to;
    r->who[job] = arena_array(r->memory, people_set, r->runs[job].n);
    for (size_t k = 0; k < r->runs[job].n; k++) {
        const job_stretch *run = &r->runs[job].list[k];
        r->who[job][k] = choose_people(r, j, free_between(r, run->from, run->to));
        if (!r->who[job][k])
            return false;
    }
    uint32_t n = jobs_beside(r, start, end, r->beside);
    if (!may_be_beside(r, job, r->beside, n) || !things_free(r, job, r->beside, n, start))
        return false;
    r->start[job] = start;
    r->end[job] = end;
    return true;
}

/* The next minute after `t` worth trying: an end of a placed job, a beginning of a session or of a row of possible starts. */
static int32_t next_try(const repair *r, uint32_t job, int32_t t) {
    const planner *p = r->p;
    int32_t next = INT32_MAX;
    for (uint32_t j = 0; j < p->n_jobs; j++)
        if (r->end[j] > t && r->end[j] < next)
            next = r->end[j];
    uint32_t session = calendar_session(&p->calendar, t, false);
    if (session + 1 < p->calendar.n_sessions && p->calendar.sessions[session + 1].from_min < next)
        next = p->calendar.sessions[session + 1].from_min;
    int32_t own = job_next_start(&p->jobs[job], next < p->calendar.end ? next : t + 1);
    return own;
}

static bool place(repair *r, uint32_t job, int32_t wanted) {
    const planner *p = r->p;
    int32_t from = p->release[job];
    for (uint32_t x = 0; x < p->n_links; x++)
        if (p->links[x].after == job) {
            int32_t reach = network_reach(&p->links[x], r->end[p->links[x].before]);
            from = reach > from ? reach : from;
        }
    if (wanted > from && draws_scarce_part(p, job))
        from = wanted; /* nothing scarce is drawn earlier than in the schedule that kept the stock */
    for (int32_t t = job_next_start(&p->jobs[job], from); t >= 0; t = next_try(r, job, t))
        if (place_at(r, job, t))
            return true;
    return false;
}

typedef struct {
    int32_t start;
    uint32_t job;
} turn;

static int compare_turns(const void *a, const void *b) {
    const turn *x = a, *y = b;
    if (x->start != y->start)
        return x->start < y->start ? -1 : 1;
    return x->job < y->job ? -1 : x->job > y->job;
}

bool repair_schedule(arena *a, const planner *p, const int32_t *starts, int32_t *out) {
    repair r = {.p = p, .memory = a, .start = out};
    r.end = arena_array(a, int32_t, p->n_jobs);
    r.who = arena_array(a, people_set *, p->n_jobs);
    r.runs = arena_array(a, job_stretches, p->n_jobs);
    r.beside = arena_array(a, uint32_t, p->n_jobs);
    turn *turns = arena_array(a, turn, p->n_jobs);
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        r.end[j] = -1;
        r.start[j] = INT32_MAX;
        turns[j] = (turn){starts[j], j};
    }
    qsort(turns, p->n_jobs, sizeof *turns, compare_turns);
    order_crew(&r);
    for (uint32_t x = 0; x < p->n_jobs; x++)
        if (!place(&r, turns[x].job, turns[x].start))
            return false;
    return true;
}
