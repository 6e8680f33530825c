/* curve.c: the crew curve: few plans, and what follows from them for the other points.
 *
 * For each number of adults the largest crew and the smallest that can do it are planned, then the middle between two sizes that differ:
 * where both ends have one finish, all between have it. Each plan begins from the best of the smaller crews and with the bound of
 * the larger ones, and is not made at all when the two meet.
 */
#include "plan/curve.h"

#include <string.h>

/* Effort for each plan when the caller sets no limit. */
enum { EFFORT_EACH = 30000 };

typedef struct {
    arena *memory;
    const plan_input *in;
    void (*told)(void *user, uint32_t done, uint32_t all);
    plan_curve *out;
    kit_index adults[PLAN_CURVE_ADULTS], learners[PLAN_CURVE_CREW];
    bool settled[PLAN_CURVE_ADULTS][PLAN_CURVE_CREW];
    int32_t *starts[PLAN_CURVE_ADULTS]
                   [PLAN_CURVE_CREW]; /* by step, of the plan of the point; NULL: none of its own */
} curve;

/* ---- crews ---------------------------------------------------------------------------------------------------------- */

static bool lists(kit_indices set, kit_index what) {
    for (uint32_t k = 0; k < set.n; k++)
        if (set.list[k] == what)
            return true;
    return false;
}

/* How many skills and, of an adult, kinds of work this person brings that those chosen do not. */
static uint32_t brings(const kit_workshop *w, kit_index person, const kit_index *chosen, uint32_t n) {
    uint32_t new = 0;
    const kit_person *p = &w->crew[person];
    for (uint32_t k = 0; k < p->skills.n + p->supervises.n; k++) {
        bool skill = k < p->skills.n, known = false;
        kit_index what = skill ? p->skills.list[k] : p->supervises.list[k - p->skills.n];
        for (uint32_t x = 0; x < n && !known; x++)
            known = lists(skill ? w->crew[chosen[x]].skills : w->crew[chosen[x]].supervises, what);
        new += !known;
    }
    return new;
}

/* Those of age (or not) in the order in which they are taken; again from the first when they do not suffice. False: there is none. */
static bool choose(const kit_workshop *w, bool adult, kit_index *out, uint32_t n) {
    uint32_t there = 0;
    for (kit_index p = 0; p < w->n_crew; p++)
        there += w->crew[p].adult == adult;
    for (uint32_t k = 0; k < n && there > 0; k++) {
        if (k >= there) {
            out[k] = out[k - there];
            continue;
        }
        kit_index best = KIT_NONE;
        for (kit_index p = 0; p < w->n_crew; p++) {
            bool taken = w->crew[p].adult != adult;
            for (uint32_t x = 0; x < k; x++)
                taken = taken || out[x] == p;
            if (!taken && (best == KIT_NONE || brings(w, p, out, k) > brings(w, best, out, k)))
                best = p;
        }
        out[k] = best;
    }
    return there > 0;
}

static text person_name(const curve *c, kit_index person, bool again) {
    const kit_person *p = &c->in->workshop->crew[person];
    text name = p->name.len ? p->name : p->number;
    return again ? arena_format(c->memory, "somebody like %.*s", TEXT_ARG(name)) : name;
}

static void name_people(curve *c) {
    for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++) {
        bool again = false;
        for (uint32_t x = 0; x < k; x++)
            again = again || c->adults[x] == c->adults[k];
        c->out->adults[k] = person_name(c, c->adults[k], again);
    }
    for (uint32_t k = 0; k < PLAN_CURVE_CREW && c->learners[0] != KIT_NONE; k++) {
        bool again = false;
        for (uint32_t x = 0; x < k; x++)
            again = again || c->learners[x] == c->learners[k];
        c->out->learners[k] = person_name(c, c->learners[k], again);
    }
}

static plan_input input_of(const curve *c, arena *a, uint32_t adults, uint32_t crew) {
    plan_input in = *c->in;
    kit_workshop *w = arena_new(a, kit_workshop);
    *w = *c->in->workshop;
    kit_person *people = arena_array(a, kit_person, crew);
    for (uint32_t k = 0; k < crew; k++)
        people[k] = w->crew[k < adults ? c->adults[k] : c->learners[k - adults]];
    w->crew = people;
    w->n_crew = crew;
    w->n_attendance = 0;
    in.workshop = w;
    in.progress = NULL;
    in.finish_only = true;
    in.effort = in.effort == 0 && in.seconds <= 0 ? EFFORT_EACH : in.effort;
    return in;
}

/* ---- what points say of each other ------------------------------------------------------------------------------------ */

static bool holds(const plan_curve_point *large, const plan_curve_point *small) {
    return large->adults >= small->adults && large->crew - large->adults >= small->crew - small->adults;
}

/* The best plan of the crews within this one, and the best bound of those around it. */
static void share(curve *c, plan_curve_point *p, const int32_t **starts) {
    for (uint32_t a = 0; a < PLAN_CURVE_ADULTS; a++)
        for (uint32_t n = 0; n < PLAN_CURVE_CREW; n++) {
            const plan_curve_point *other = &c->out->at[a][n];
            if (other->status == PLAN_CURVE_CANNOT || p->status == PLAN_CURVE_CANNOT)
                continue;
            if (holds(p, other) && other->finish_min >= 0 &&
                (p->finish_min < 0 || other->finish_min < p->finish_min)) {
                p->finish_min = other->finish_min;
                p->sessions = other->sessions;
                *starts = c->starts[a][n] ? c->starts[a][n] : *starts;
            }
            if (holds(other, p) && other->bound_min > p->bound_min)
                p->bound_min = other->bound_min;
        }
    if (p->status == PLAN_CURVE_CANNOT || p->finish_min < 0)
        return;
    p->bound_min = p->bound_min < p->finish_min ? p->bound_min : p->finish_min;
    p->status = p->bound_min == p->finish_min ? PLAN_CURVE_PROVEN : PLAN_CURVE_RANGE;
}

/* ---- points ------------------------------------------------------------------------------------------------------------ */

static void settle(curve *c, plan_curve_point *p) {
    uint32_t done = 0, all = 0;
    c->settled[p->adults - 1][p->crew - 1] = true;
    for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++)
        for (uint32_t n = k; n < PLAN_CURVE_CREW; n++) {
            all++;
            done += c->settled[k][n];
        }
    if (c->told)
        c->told(c->in->user, done, all);
}

static void cannot(curve *c, plan_curve_point *p, text reason) {
    p->status = PLAN_CURVE_CANNOT;
    p->finish_min = p->bound_min = -1;
    p->reason = reason;
    settle(c, p);
}

/* Crews that the rules of the room forbid. */
static bool allowed(curve *c, plan_curve_point *p) {
    if (p->adults < (uint32_t)c->in->workshop->minimum_adults)
        cannot(c, p,
               arena_format(c->memory, "the workshop asks for at least %lld adults in the room",
                            (long long)c->in->workshop->minimum_adults));
    else if (p->crew == 2 && p->adults == 1)
        cannot(c, p, TEXT("one adult may not be alone with one learner"));
    else if (p->crew > p->adults && c->learners[0] == KIT_NONE)
        cannot(c, p, TEXT("the crew has no learner to take more of"));
    return p->status != PLAN_CURVE_CANNOT;
}

static void take_plan(curve *c, plan_curve_point *p, const plan *made) {
    const kit *k = c->in->kit;
    bool found = made->status == PLAN_OPTIMAL || made->status == PLAN_FEASIBLE;
    if (made->n_impossible > 0) {
        const plan_impossible *it = &made->impossible[0];
        cannot(
            c, p,
            arena_format(c->memory, "%.*s: %.*s", TEXT_ARG(k->steps[it->step].number), TEXT_ARG(it->reason)));
        return;
    }
    p->bound_min = made->lower_bound_min > p->bound_min ? made->lower_bound_min : p->bound_min;
    p->alone_min = made->one_after_another_min;
    p->alone_sessions = made->one_after_another_sessions;
    if (!found || made->n_steps == 0)
        return;
    p->finish_min = made->makespan_min;
    p->sessions = plan_session_at(made, made->makespan_min, true) + 1;
    int32_t *starts = arena_array(c->memory, int32_t, k->n_steps);
    for (kit_index s = 0; s < k->n_steps; s++)
        starts[s] = -1;
    for (uint32_t n = 0; n < made->n_steps; n++)
        starts[made->steps[n].step] = made->steps[n].start_min;
    c->starts[p->adults - 1][p->crew - 1] = starts;
}

static bool asked_to_stop(const curve *c) {
    return c->in->cancel && atomic_load(&c->in->cancel->asked);
}

static bool solve_point(curve *c, uint32_t adults, uint32_t crew, err *e) {
    plan_curve_point *p = &c->out->at[adults - 1][crew - 1];
    const int32_t *starts = NULL;
    if (c->settled[adults - 1][crew - 1] || !allowed(c, p) || asked_to_stop(c))
        return true;
    share(c, p, &starts);
    if (p->status == PLAN_CURVE_PROVEN && p->alone_min >= 0) {
        settle(c, p);
        return true;
    }
    arena *scratch = arena_open();
    plan_input in = input_of(c, scratch, adults, crew);
    in.known_starts = starts;
    in.known_bound_min = p->bound_min > 0 ? p->bound_min : 0;
    plan *made;
    bool ok = plan_make(scratch, &in, &made, e);
    c->out->n_plans++;
    if (ok)
        take_plan(c, p, made);
    arena_close(scratch);
    if (!ok || p->status == PLAN_CURVE_CANNOT)
        return ok;
    share(c, p, &starts);
    settle(c, p);
    return true;
}

/* Both ends have their answer. What lies between two equal ones is equal too. */
static bool solve_between(curve *c, uint32_t adults, uint32_t low, uint32_t high, err *e) {
    plan_curve_point *row = c->out->at[adults - 1], *a = &row[low - 1], *b = &row[high - 1];
    if (high <= low + 1)
        return true;
    if (a->status == PLAN_CURVE_PROVEN && b->status == PLAN_CURVE_PROVEN && a->finish_min == b->finish_min &&
        a->alone_min == b->alone_min) {
        for (uint32_t n = low + 1; n < high; n++) {
            const int32_t *starts = NULL;
            row[n - 1].alone_min = a->alone_min;
            row[n - 1].alone_sessions = a->alone_sessions;
            share(c, &row[n - 1], &starts);
            settle(c, &row[n - 1]);
        }
        return true;
    }
    uint32_t middle = (low + high) / 2;
    return solve_point(c, adults, middle, e) && solve_between(c, adults, low, middle, e) &&
           solve_between(c, adults, middle, high, e);
}

static bool solve_row(curve *c, uint32_t adults, err *e) {
    uint32_t low = adults;
    if (!solve_point(c, adults, PLAN_CURVE_CREW, e))
        return false;
    while (low < PLAN_CURVE_CREW) {
        if (!solve_point(c, adults, low, e))
            return false;
        if (c->out->at[adults - 1][low - 1].status != PLAN_CURVE_CANNOT)
            break;
        low++;
    }
    return solve_between(c, adults, low, PLAN_CURVE_CREW, e);
}

bool plan_make_curve(arena *a, const plan_input *in, void (*told)(void *user, uint32_t done, uint32_t all),
                     plan_curve **out, err *e) {
    if (!in->workshop)
        return err_input(e, "workshop", "make the build file with --workshop FOLDER",
                         "the build has no workshop: no crew and no sessions to plan with");
    curve c = {.memory = a, .in = in, .told = told, .out = arena_new(a, plan_curve)};
    memset(c.learners, 0xff, sizeof c.learners); /* KIT_NONE */
    if (!choose(in->workshop, true, c.adults, PLAN_CURVE_ADULTS))
        return err_input(e, "crew", "name the adults in crew.csv", "the crew has no adult");
    (void)choose(in->workshop, false, c.learners,
                 PLAN_CURVE_CREW); /* without learners the crews are all adults */
    name_people(&c);
    for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++)
        for (uint32_t n = 0; n < PLAN_CURVE_CREW; n++)
            c.out->at[k][n] = (plan_curve_point){.crew = n + 1,
                                                 .adults = k + 1,
                                                 .status = n < k ? PLAN_CURVE_CANNOT : PLAN_CURVE_OPEN,
                                                 .finish_min = -1,
                                                 .bound_min = -1,
                                                 .alone_min = -1};
    for (uint32_t adults = PLAN_CURVE_ADULTS; adults > 0; adults--)
        if (!solve_row(&c, adults, e))
            return false;
    for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++) /* what later points say of those before */
        for (uint32_t n = 0; n < PLAN_CURVE_CREW; n++) {
            const int32_t *starts = NULL;
            share(&c, &c.out->at[k][n], &starts);
        }
    *out = c.out;
    return true;
}
