/* turns_shares.c: the fair share of each learner, and who waits how long. */
#include "plan/turns.h"

people_set turns_hands(const planner *p, const people_stretch *s) {
    const plan_job *j = &p->jobs[s->job];
    people_set hands = 0;
    for (uint32_t k = j->beside; k < j->n_seats; k++)
        hands |= one_person(s->seats[k]);
    return hands;
}

/* Seats of a job at which learners can be, in the team that takes most of them. */
static uint32_t seats_for_learners(const planner *p, const plan_job *j) {
    uint32_t most = 0;
    for (uint32_t t = 0; t < j->n_teams; t++) {
        uint32_t n = 0;
        for (uint32_t k = j->beside; k < j->n_seats; k++)
            n += (j->teams[t].seats[k] & ~p->calendar.adults) != 0;
        most = n > most ? n : most;
    }
    return most;
}

/* Minutes of the workshop's own sessions before the plan's first minute at which the person was to come. */
static int64_t present_before(const planner *p, kit_index person) {
    const kit_workshop *w = p->workshop;
    arena *scratch = arena_open();
    calendar all;
    err unused;
    int64_t sum = 0;
    if (calendar_open(scratch, w, INT64_MIN, 0, &all, &unused)) {
        date_moment begins = p->calendar.n_sessions > 0 ? p->calendar.sessions[0].begins : INT64_MAX;
        for (uint32_t k = 0; k < all.n_presence; k++) {
            const calendar_presence *x = &all.presence[k];
            date_moment from = calendar_moment(&all, x->from, false), to = from + (x->to - x->from);
            to = to < begins ? to : begins;
            sum += to > from && (x->there & one_person(person)) ? to - from : 0;
        }
    }
    arena_close(scratch);
    return sum;
}

static int64_t present_until(const planner *p, kit_index person, int32_t finish) {
    int64_t sum = 0;
    for (uint32_t k = 0; k < p->calendar.n_presence; k++) {
        const calendar_presence *x = &p->calendar.presence[k];
        int32_t to = x->to < finish ? x->to : finish;
        sum += to > x->from && (x->there & one_person(person)) ? to - x->from : 0;
    }
    return sum;
}

turns_person *turns_shares(const planner *p, const people_stretch *named, uint32_t n, int32_t finish) {
    const kit_workshop *w = p->workshop;
    turns_person *list = arena_array(p->memory, turns_person, w->n_crew);
    int64_t pool = 0, present = 0;
    for (uint32_t k = 0; k < n; k++)
        pool +=
            (int64_t)(named[k].when.to - named[k].when.from) * seats_for_learners(p, &p->jobs[named[k].job]);
    for (kit_index q = 0; q < w->n_crew; q++) {
        turns_person *x = &list[q];
        int64_t there = present_until(p, q, finish);
        x->learner = !w->crew[q].adult;
        x->own_before = p->in.own_before_min ? p->in.own_before_min[q] : 0;
        there += p->in.own_before_min ? present_before(p, q) : 0;
        x->present = (int32_t)there;
        pool += x->learner ? x->own_before : 0;
        present += x->learner ? there : 0;
    }
    for (kit_index q = 0; q < w->n_crew && present > 0; q++)
        if (list[q].learner)
            list[q].share = (int32_t)(pool * list[q].present / present);
    return list;
}

static int32_t add_wait(turns_wait *w, int32_t from, int32_t to, int32_t limit) {
    int32_t length = to - from;
    w->longest = length > w->longest ? length : w->longest;
    w->beyond += length > limit ? length - limit : 0;
    return to;
}

/* Does the person work in one of the stretches at the minute? Its end then, else the minute itself. */
static int32_t works_until(const planner *p, const people_stretch *const *list, uint32_t n, kit_index person,
                           int32_t minute) {
    for (uint32_t k = 0; k < n; k++) {
        const people_stretch *s = list[k];
        if (s->when.from > minute || s->when.to <= minute)
            continue;
        for (uint32_t x = 0; x < p->jobs[s->job].n_seats; x++)
            if (s->seats[x] == person)
                return s->when.to;
    }
    return minute;
}

/* The next minute after this one at which a stretch of the person begins, at most `end`. */
static int32_t works_from(const planner *p, const people_stretch *const *list, uint32_t n, kit_index person,
                          int32_t minute, int32_t end) {
    for (uint32_t k = 0; k < n; k++) {
        const people_stretch *s = list[k];
        if (s->when.from <= minute || s->when.from >= end)
            continue;
        for (uint32_t x = 0; x < p->jobs[s->job].n_seats; x++)
            if (s->seats[x] == person)
                end = s->when.from;
    }
    return end;
}

turns_wait turns_waiting(const planner *p, const people_stretch *const *list, uint32_t n, uint32_t session,
                         kit_index person, int32_t finish, int32_t limit) {
    const calendar *c = &p->calendar;
    int32_t from = c->sessions[session].from_min, to = c->sessions[session].to_min;
    turns_wait wait = {0};
    to = to < finish ? to : finish;
    for (int32_t at = from; at < to;) {
        int32_t worked = works_until(p, list, n, person, at);
        if (worked > at) {
            at = worked;
            continue;
        }
        int32_t until = works_from(p, list, n, person, at, to), since = at;
        for (uint32_t k = 0; k < c->n_presence; k++) { /* only while the person is there */
            const calendar_presence *x = &c->presence[k];
            int32_t a = x->from > at ? x->from : at, b = x->to < until ? x->to : until;
            if (a >= b)
                continue;
            if (!(x->there & one_person(person))) {
                if (a > since)
                    (void)add_wait(&wait, since, a, limit);
                since = b;
            }
        }
        if (until > since)
            (void)add_wait(&wait, since, until, limit);
        at = until;
    }
    return wait;
}
