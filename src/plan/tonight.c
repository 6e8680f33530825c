/* tonight.c: steps that a session cannot hold. */
#include "plan/tonight.h"

#include "plan/planner.h"

/* Everybody who is there at some time of it when work is allowed. */
static people_set ever_there(const calendar *c, const plan_session *s) {
    people_set there = 0;
    for (uint32_t k = 0; k < c->n_presence; k++)
        if (c->presence[k].from >= s->from_min && c->presence[k].to <= s->to_min)
            there |= c->presence[k].there;
    return there;
}

static text why_not(arena *a, const plan_job *j, people_set there) {
    if (there == 0)
        return TEXT("too few adults are there for any work");
    if (people_count(there) < j->n_seats)
        return arena_format(a, "it takes %u people%s and %u are there", (unsigned)j->n_seats,
                            j->beside ? " with the supervisor beside" : "", (unsigned)people_count(there));
    if (j->beside && j->n_teams > 0 && (j->teams[0].seats[0] & there) == 0)
        return TEXT("nobody who may supervise it is there");
    return job_can_staff(j, there) ? TEXT("it does not fit into the time that its people are there together")
                                   : TEXT("those who may do it are not there");
}

static const plan_session *find_session(const calendar *c, kit_index session) {
    for (uint32_t s = 0; s < c->n_dated; s++)
        if (c->sessions[s].session == session)
            return &c->sessions[s];
    return NULL;
}

bool plan_find_forbidden(arena *a, const plan_input *in, kit_index session, plan_forbidden **out, uint32_t *n,
                         err *e) {
    planner p;
    *n = 0;
    if (!planner_begin(&p, a, in, e))
        return false;
    *out = arena_array(a, plan_forbidden, p.n_jobs);
    const plan_session *s = find_session(&p.calendar, session);
    for (uint32_t j = 0; s && j < p.n_jobs; j++) {
        int32_t first = job_next_start(&p.jobs[j], s->from_min);
        if (first < 0 || first >= s->to_min)
            (*out)[(*n)++] =
                (plan_forbidden){p.jobs[j].step, why_not(a, &p.jobs[j], ever_there(&p.calendar, s))};
    }
    return true;
}
