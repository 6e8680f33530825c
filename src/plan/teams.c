/* teams.c: which groups of people can do a step.
 *
 * The rules of a step are minima: so many of those at work must have this skill, one must be an adult who supervises
 * this work. One person may answer for several. A team writes that down as seats: each way of laying the demands on
 * the seats gives one team, and ways that only ask for more than another are dropped. For a step with one skill there
 * is one way. Skills with people of their own get seats of their own, which no other skill is laid on; so a step with
 * nothing but these has one team too.
 */
#include <string.h>

#include "plan/jobs.h"

typedef struct {
    people_set who;
    int64_t people;
    uint32_t from; /* the first seat it may be laid on */
} demand;

typedef struct {
    arena *memory;
    uint32_t first, n; /* the seats that demands are laid on: first .. n - 1 */
    const demand *demands;
    uint32_t n_demands;
    plan_job *out;
    people_set *seats; /* of the team being made */
} maker;

/* Sorted copies compare equal when two teams differ only in the order of seats. */
static void sort_seats(people_set *seats, uint32_t first, uint32_t n) {
    for (uint32_t i = first + 1; i < n; i++)
        for (uint32_t k = i; k > first && seats[k - 1] > seats[k]; k--) {
            people_set t = seats[k];
            seats[k] = seats[k - 1];
            seats[k - 1] = t;
        }
}

static void keep_team(maker *m) {
    plan_job *j = m->out;
    people_set *seats = arena_array(m->memory, people_set, m->n);
    memcpy(seats, m->seats, m->n * sizeof *seats);
    sort_seats(seats, m->first, m->n);
    for (uint32_t t = 0; t < j->n_teams; t++)
        if (memcmp(j->teams[t].seats, seats, m->n * sizeof *seats) == 0)
            return;
    if (j->n_teams == JOBS_MAX_TEAMS) {
        j->teams_cut = true;
        return;
    }
    j->teams[j->n_teams++].seats = seats;
}

/* Lays demand d on `left` more seats from `seat` on, then the demands after it. */
static void lay(maker *m, uint32_t d, int64_t left, uint32_t seat) {
    if (m->out->teams_cut)
        return;
    if (left == 0) {
        if (d + 1 == m->n_demands)
            keep_team(m);
        else
            lay(m, d + 1, m->demands[d + 1].people, m->demands[d + 1].from);
        return;
    }
    for (uint32_t s = seat; (int64_t)s + left <= (int64_t)m->n; s++) {
        bool same = false; /* a seat that looks like an earlier choice gives the same team */
        for (uint32_t k = seat; k < s && !same; k++)
            same = m->seats[k] == m->seats[s];
        if (same)
            continue;
        people_set before = m->seats[s];
        m->seats[s] &= m->demands[d].who;
        if (m->seats[s])
            lay(m, d, left - 1, s + 1);
        m->seats[s] = before;
    }
}

static people_set skilled_people(const kit_workshop *w, kit_index skill) {
    people_set who = 0;
    for (kit_index p = 0; p < w->n_crew; p++)
        for (uint32_t y = 0; y < w->crew[p].skills.n; y++)
            if (w->crew[p].skills.list[y] == skill)
                who |= one_person(p);
    return who;
}

/* Seats of their own for the skills that want them, from m->first on; the first seat after these. */
static uint32_t take_own_seats(const maker *m, const kit *k, const kit_workshop *w, kit_index step) {
    uint32_t seat = m->first;
    for (uint32_t x = 0; x < k->n_step_skills; x++)
        for (int64_t n = 0; k->step_skills[x].step == step && k->step_skills[x].own_people &&
                            n < k->step_skills[x].people && seat < m->n;
             n++)
            m->seats[seat++] &= skilled_people(w, k->step_skills[x].skill);
    return seat;
}

/* The others, and the adult who may; they are laid on seats from `after_own` on, and on any. */
static uint32_t collect_demands(arena *a, const kit *k, const kit_workshop *w, kit_index step,
                                people_set supervisors, uint32_t first, uint32_t after_own, demand **out) {
    const kit_step *s = &k->steps[step];
    demand *list = arena_array(a, demand, (size_t)k->n_step_skills + 1);
    uint32_t n = 0;
    if (s->supervision == KIT_ADULT_DOES && s->work != KIT_NONE)
        list[n++] = (demand){supervisors, 1, first};
    for (uint32_t x = 0; x < k->n_step_skills; x++)
        if (k->step_skills[x].step == step && !k->step_skills[x].own_people)
            list[n++] =
                (demand){skilled_people(w, k->step_skills[x].skill), k->step_skills[x].people, after_own};
    *out = list;
    return n;
}

/* The adults who may supervise this step's work; all adults when it has none. */
static people_set supervisors_of(const kit_workshop *w, const kit_step *s) {
    people_set set = 0;
    for (kit_index p = 0; p < w->n_crew; p++) {
        bool may = w->crew[p].adult && s->work == KIT_NONE;
        for (uint32_t x = 0; x < w->crew[p].supervises.n; x++)
            may = may || (w->crew[p].adult && w->crew[p].supervises.list[x] == s->work);
        set |= may ? one_person(p) : 0;
    }
    return set;
}

static void make_teams(arena *a, const kit *k, const calendar *c, kit_index step, plan_job *j) {
    const kit_step *s = &k->steps[step];
    people_set supervisors = supervisors_of(c->workshop, s);
    j->beside = s->supervision == KIT_BESIDE;
    j->n_seats = (uint32_t)s->people + (j->beside ? 1 : 0);
    j->teams = arena_array(a, job_team, JOBS_MAX_TEAMS);
    people_set hands = s->supervision == KIT_ADULT_DOES ? c->adults : c->everybody;
    maker m = {.memory = a,
               .first = j->beside ? 1 : 0,
               .n = j->n_seats,
               .out = j,
               .seats = arena_array(a, people_set, j->n_seats)};
    for (uint32_t seat = 0; seat < j->n_seats; seat++)
        m.seats[seat] = seat < m.first ? supervisors : hands;
    uint32_t after_own = take_own_seats(&m, k, c->workshop, step);
    demand *demands;
    m.n_demands = collect_demands(a, k, c->workshop, step, supervisors, m.first, after_own, &demands);
    m.demands = demands;
    if (m.n_demands == 0)
        keep_team(&m);
    else
        lay(&m, 0, demands[0].people, demands[0].from);
}

static int32_t with_factor(int64_t minutes, int64_t percent) {
    int64_t all = (minutes * percent + 99) / 100;
    return (int32_t)(all < 1 ? 1 : all);
}

void job_of_step(arena *a, const kit *k, const calendar *c, kit_index step, int64_t percent, plan_job *out) {
    const kit_step *s = &k->steps[step];
    *out = (plan_job){.step = step, .may_pause = s->may_pause};
    out->duration = with_factor(s->likely_min, percent);
    out->resume = s->may_pause ? (int32_t)s->resume_min : 0;
    out->change_over = arena_array(a, int32_t, s->change_over_min.n);
    int32_t last = 0;
    for (uint32_t x = 0; x < s->change_over_min.n; x++) {
        int32_t at = with_factor(s->change_over_min.list[x], percent);
        if (at > last && at < out->duration)
            out->change_over[out->n_change_over++] = last = at;
    }
    make_teams(a, k, c, step, out);
}

/* ---- filling seats --------------------------------------------------------------------------------------------- */

typedef struct {
    const people_set *seats;
    people_set there, tried;
    uint32_t taken_by[PLAN_MAX_CREW]; /* seat of a person */
    people_set taken;
} filling;

/* Finds a person for the seat, moving others on if need be (Kuhn's augmenting paths). */
static bool fill_seat(filling *f, uint32_t seat) {
    for (;;) {
        people_set can = f->seats[seat] & f->there & ~f->tried;
        if (!can)
            return false;
        people_set free = can & ~f->taken;
        uint32_t person = (uint32_t)__builtin_ctzll(free ? free : can);
        f->tried |= one_person(person);
        if (free || fill_seat(f, f->taken_by[person])) {
            f->taken |= one_person(person);
            f->taken_by[person] = seat;
            return true;
        }
    }
}

static bool fill_all(filling *f, uint32_t n) {
    if (n > people_count(f->there))
        return false;
    for (uint32_t s = 0; s < n; s++) {
        f->tried = 0;
        if (!fill_seat(f, s))
            return false;
    }
    return true;
}

bool seats_can_fill(const people_set *seats, uint32_t n, people_set there) {
    filling f = {.seats = seats, .there = there};
    return fill_all(&f, n);
}

bool seats_fill(const people_set *seats, uint32_t n, people_set there, kit_index *people) {
    filling f = {.seats = seats, .there = there};
    if (!fill_all(&f, n))
        return false;
    for (people_set taken = f.taken; taken; taken &= taken - 1) {
        kit_index person = (kit_index)__builtin_ctzll(taken);
        people[f.taken_by[person]] = person;
    }
    return true;
}

bool job_can_staff(const plan_job *j, people_set there) {
    for (uint32_t t = 0; t < j->n_teams; t++)
        if (seats_can_fill(j->teams[t].seats, j->n_seats, there))
            return true;
    return false;
}
