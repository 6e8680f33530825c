/* relations.c: after-relations with their delays, and what came before the plan. */
#include "plan/planner.h"

/* For every minute as an end: the first minute that begins `delay` minutes of wall clock later. */
static const int32_t *wall_clock_table(const planner *p, int32_t delay) {
    const calendar *c = &p->calendar;
    for (uint32_t k = 0; k < p->n_links; k++)
        if (p->links[k].reaches && p->links[k].delay == delay)
            return p->links[k].reaches;
    int32_t *table = arena_array(p->memory, int32_t, (size_t)c->end + 1);
    for (int32_t x = 0; x <= c->end && c->n_sessions > 0; x++) {
        int32_t to = calendar_minute_from(c, calendar_moment(c, x, true) + delay);
        table[x] = to < c->end ? to : c->end;
    }
    return table;
}

static const plan_done *find_done(const plan_input *in, kit_index step) {
    for (uint32_t k = 0; k < in->n_done; k++)
        if (in->done[k].step == step)
            return &in->done[k];
    return NULL;
}

static void raise_release(planner *p, uint32_t job, int64_t minute) {
    int32_t at = minute < p->calendar.end ? (int32_t)minute : p->calendar.end;
    if (at > p->release[job])
        p->release[job] = at;
}

/* A step done before: its delay may reach into the plan. */
static void release_after_done(planner *p, uint32_t job, const plan_done *done) {
    const calendar *c = &p->calendar;
    const kit_step *before = &p->kit->steps[done->step];
    if (c->n_sessions == 0)
        return;
    if (before->delay_clock == KIT_WALL_CLOCK)
        raise_release(p, job, calendar_minute_from(c, done->at + before->delay_min));
    else if (done->at > c->sessions[0].begins)
        raise_release(p, job, (int64_t)calendar_minute_from(c, done->at) + before->delay_min);
    else
        raise_release(p, job,
                      before->delay_min -
                          calendar_working_between(p->workshop, done->at, c->sessions[0].begins));
}

/* Pieces of a part that have come by the minute. */
static int64_t supply_at(const planner *p, kit_index part, int32_t minute) {
    int64_t sum = supply_usable(&p->in, part);
    for (uint32_t k = 0; k < p->in.n_arrivals; k++)
        if (p->in.arrivals[k].part == part &&
            calendar_minute_from(&p->calendar, p->in.arrivals[k].at) <= minute)
            sum += p->in.arrivals[k].quantity;
    return sum;
}

/* Not before so many pieces have come that the job gets its own when nobody else draws any. */
static void release_for_part(planner *p, uint32_t job, kit_index part, int64_t need) {
    int32_t first = supply_at(p, part, 0) >= need ? 0 : p->calendar.end;
    for (uint32_t k = 0; k < p->in.n_arrivals && first > 0; k++) {
        int32_t minute = calendar_minute_from(&p->calendar, p->in.arrivals[k].at);
        if (p->in.arrivals[k].part == part && minute < first && supply_at(p, part, minute) >= need)
            first = minute;
    }
    raise_release(p, job, first);
}

void planner_relate(planner *p) {
    const kit *k = p->kit;
    p->links = arena_array(p->memory, network_link, k->n_step_after);
    p->n_links = 0;
    p->release = arena_array(p->memory, int32_t, p->n_jobs);
    for (uint32_t x = 0; x < k->n_step_after; x++) {
        kit_index before = k->step_after[x].after;
        uint32_t job = p->job_of[k->step_after[x].step];
        if (job == NO_JOB)
            continue;
        const plan_done *done = find_done(&p->in, before);
        if (done) {
            release_after_done(p, job, done);
            continue;
        }
        const kit_step *s = &k->steps[before];
        network_link l = {.before = p->job_of[before], .after = job, .delay = (int32_t)s->delay_min};
        if (s->delay_min > 0 && s->delay_clock == KIT_WALL_CLOCK)
            l.reaches = wall_clock_table(p, l.delay);
        p->links[p->n_links++] = l;
    }
    for (uint32_t x = 0; x < k->n_step_parts; x++)
        if (p->job_of[k->step_parts[x].step] != NO_JOB)
            release_for_part(p, p->job_of[k->step_parts[x].step], k->step_parts[x].part,
                             k->step_parts[x].quantity);
    p->order = arena_array(p->memory, uint32_t, p->n_jobs);
    for (uint32_t j = 0; j < p->n_jobs; j++)
        p->order[j] = j;
}
