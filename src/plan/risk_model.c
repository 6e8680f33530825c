/* risk_model.c: a plan and its planner as flat arrays. */
#include "plan/risk_model.h"

typedef struct {
    arena *memory;
    const planner *p;
    risk_model *out;
    uint32_t *task_of; /* by job; NO_JOB: not in the plan */
    size_t links_cap, needs_cap, draws_cap, excluded_cap, arrivals_cap, joins_cap;
    size_t n_links, n_needs, n_draws, n_excluded;
} making;

/* ---- tasks ---------------------------------------------------------------------------------------------------------- */

/* The kit's low and high minutes by the factor that the plan took the likely ones by, at least a minute. */
static int32_t in_proportion(const plan_job *j, int64_t minutes, int64_t likely) {
    int64_t all = likely > 0 ? (minutes * j->duration + likely - 1) / likely : j->duration;
    return (int32_t)(all < 1 ? 1 : all);
}

static risk_minutes minutes_of(const making *m, const plan_job *j) {
    const kit_step *s = &m->p->kit->steps[j->step];
    int32_t low = in_proportion(j, s->low_min, s->likely_min),
            high = in_proportion(j, s->high_min, s->likely_min);
    return risk_minutes_of(m->memory, low < j->duration ? low : j->duration, j->duration,
                           high > j->duration ? high : j->duration);
}

static void take_seats(const making *m, risk_task *t) {
    const plan_job *j = t->job;
    t->seats = arena_array(m->memory, people_set, (size_t)j->n_teams * j->n_seats);
    bool room = m->p->workshop->n_crew < PLAN_MAX_CREW;
    for (uint32_t k = 0; k < j->n_teams; k++)
        for (uint32_t s = 0; s < j->n_seats; s++) {
            people_set can = j->teams[k].seats[s];
            bool adults_only = (can & ~m->p->calendar.adults) == 0;
            t->seats[(size_t)k * j->n_seats + s] = can | (room && adults_only ? RISK_RESERVE : 0);
            t->anybody |= can;
        }
}

static void make_tasks(making *m, const plan *made) {
    risk_model *out = m->out;
    out->n = made->n_steps;
    out->tasks = arena_array(m->memory, risk_task, out->n);
    m->task_of = arena_array(m->memory, uint32_t, m->p->n_jobs);
    for (uint32_t j = 0; j < m->p->n_jobs; j++)
        m->task_of[j] = NO_JOB;
    for (uint32_t k = 0; k < made->n_steps; k++) {
        uint32_t job = m->p->job_of[made->steps[k].step];
        risk_task *t = &out->tasks[k];
        *t = (risk_task){.job = &m->p->jobs[job],
                         .step = made->steps[k].step,
                         .planned = made->steps[k].start_min,
                         .release = m->p->release[job]};
        t->minutes = minutes_of(m, t->job);
        take_seats(m, t);
        m->task_of[job] = k;
    }
}

/* ---- order ---------------------------------------------------------------------------------------------------------- */

static void make_links(making *m) {
    risk_model *out = m->out;
    out->links = arena_array(m->memory, risk_link, m->p->n_links);
    out->followers = arena_array(m->memory, uint32_t, m->p->n_links);
    for (uint32_t k = 0; k < out->n; k++) {
        uint32_t job = (uint32_t)(out->tasks[k].job - m->p->jobs);
        out->tasks[k].before.first = (uint32_t)m->n_links;
        for (uint32_t x = 0; x < m->p->n_links; x++) {
            const network_link *l = &m->p->links[x];
            if (l->after == job && m->task_of[l->before] != NO_JOB)
                out->links[m->n_links++] = (risk_link){m->task_of[l->before], l->delay, l->reaches};
        }
        out->tasks[k].before.n = (uint32_t)m->n_links - out->tasks[k].before.first;
    }
    uint32_t n = 0;
    for (uint32_t k = 0; k < out->n; k++) {
        out->tasks[k].after.first = n;
        for (uint32_t other = 0; other < out->n; other++)
            for (uint32_t x = 0; x < out->tasks[other].before.n; x++)
                if (out->links[out->tasks[other].before.first + x].before == k)
                    out->followers[n++] = other;
        out->tasks[k].after.n = n - out->tasks[k].after.first;
    }
}

static void make_joins(making *m) {
    risk_model *out = m->out;
    const kit_step *steps = m->p->kit->steps;
    for (uint32_t k = 0; k < out->n; k++) {
        uint32_t from = out->n_joins;
        for (uint32_t x = 0; x < out->tasks[k].before.n; x++) {
            const risk_task *before = &out->tasks[out->links[out->tasks[k].before.first + x].before];
            kit_index unit = steps[before->step].sub_assembly;
            bool known = unit == KIT_NONE || unit == steps[out->tasks[k].step].sub_assembly;
            for (uint32_t y = from; y < out->n_joins; y++)
                known = known || out->joins[y].sub_assembly == unit;
            if (known)
                continue;
            arena_room(m->memory, out->joins, out->n_joins, m->joins_cap, risk_join);
            out->joins[out->n_joins++] = (risk_join){k, unit};
        }
    }
}

/* Tasks that may not run next to each other. */
static bool lists(kit_indices set, kit_index what) {
    for (uint32_t k = 0; k < set.n; k++)
        if (set.list[k] == what)
            return true;
    return false;
}

static void make_excludes(making *m) {
    risk_model *out = m->out;
    const kit_step *steps = m->p->kit->steps;
    for (uint32_t a = 0; a < out->n; a++) {
        out->tasks[a].excludes.first = (uint32_t)m->n_excluded;
        const kit_step *x = &steps[out->tasks[a].step];
        for (uint32_t b = 0; b < out->n; b++) {
            const kit_step *y = &steps[out->tasks[b].step];
            if (a == b || !((y->work != KIT_NONE && lists(x->not_beside, y->work)) ||
                            (x->work != KIT_NONE && lists(y->not_beside, x->work))))
                continue;
            arena_room(m->memory, out->excluded, m->n_excluded, m->excluded_cap, uint32_t);
            out->excluded[m->n_excluded++] = b;
        }
        out->tasks[a].excludes.n = (uint32_t)m->n_excluded - out->tasks[a].excludes.first;
    }
}

/* ---- places, tools, parts ------------------------------------------------------------------------------------------- */

static void need(making *m, uint32_t what, int64_t amount) {
    arena_room(m->memory, m->out->needs, m->n_needs, m->needs_cap, risk_need);
    m->out->needs[m->n_needs++] = (risk_need){what, (int32_t)amount};
}

/* Places first, then tools, by the kit's indices. */
static void make_needs(making *m) {
    risk_model *out = m->out;
    const kit *k = m->p->kit;
    out->n_resources = k->n_zones + k->n_tools;
    out->capacity = arena_array(m->memory, int32_t, out->n_resources);
    for (kit_index z = 0; z < k->n_zones; z++)
        out->capacity[z] = (int32_t)(k->zones[z].kind == KIT_ZONE ? k->zones[z].groups
                                                                  : limits_workplaces(m->p->workshop, z));
    for (kit_index t = 0; t < k->n_tools; t++)
        out->capacity[k->n_zones + t] = (int32_t)limits_tools(m->p->workshop, t);
    for (uint32_t n = 0; n < out->n; n++) {
        risk_task *t = &out->tasks[n];
        t->needs.first = (uint32_t)m->n_needs;
        if (k->steps[t->step].zone != KIT_NONE)
            need(m, k->steps[t->step].zone, 1);
        for (uint32_t x = 0; x < k->n_step_tools; x++)
            if (k->step_tools[x].step == t->step)
                need(m, k->n_zones + k->step_tools[x].tool, k->step_tools[x].quantity);
        t->needs.n = (uint32_t)m->n_needs - t->needs.first;
    }
}

static const int32_t *minutes_when_late(const making *m, date_moment at) {
    int32_t *list = arena_array(m->memory, int32_t, RISK_MOST_LATE + 1);
    for (int32_t days = 0; days <= RISK_MOST_LATE; days++)
        list[days] = calendar_minute_from(&m->p->calendar, at + (date_moment)days * MINUTES_PER_DAY);
    return list;
}

/* Only parts of which not all is there from the start. */
static void make_part(making *m, kit_index part) {
    risk_model *out = m->out;
    int64_t usable = supply_usable(&m->p->in, part);
    if (m->p->supply.drawn[part] <= usable)
        return;
    uint32_t number = out->n_parts++;
    out->usable[number] = (int32_t)usable;
    for (uint32_t x = 0; x < m->p->in.n_arrivals; x++) {
        const plan_arrival *it = &m->p->in.arrivals[x];
        if (it->part != part)
            continue;
        arena_room(m->memory, out->arrivals, out->n_arrivals, m->arrivals_cap, risk_arrival);
        out->arrivals[out->n_arrivals++] =
            (risk_arrival){number, (int32_t)it->quantity, minutes_when_late(m, it->at)};
    }
}

static void make_draws(making *m) {
    risk_model *out = m->out;
    const kit *k = m->p->kit;
    out->usable = arena_array(m->memory, int32_t, k->n_parts);
    uint32_t *number_of = arena_array(m->memory, uint32_t, k->n_parts);
    for (kit_index part = 0; part < k->n_parts; part++) {
        uint32_t before = out->n_parts;
        make_part(m, part);
        number_of[part] = out->n_parts > before ? before : NO_JOB;
    }
    for (uint32_t n = 0; n < out->n; n++) {
        risk_task *t = &out->tasks[n];
        t->draws.first = (uint32_t)m->n_draws;
        for (uint32_t x = 0; x < k->n_step_parts; x++) {
            if (k->step_parts[x].step != t->step || number_of[k->step_parts[x].part] == NO_JOB)
                continue;
            arena_room(m->memory, out->draws, m->n_draws, m->draws_cap, risk_need);
            out->draws[m->n_draws++] =
                (risk_need){number_of[k->step_parts[x].part], (int32_t)k->step_parts[x].quantity};
        }
        t->draws.n = (uint32_t)m->n_draws - t->draws.first;
    }
}

/* ---- habits ---------------------------------------------------------------------------------------------------------- */

/* Days late when late: 1, 2, ... each day as likely to be the last as the one before (geometric), so that the mean is as the workshop
 * says. Common practice, no source. */
static const uint64_t *days_late(arena *a, int64_t mean) {
    uint64_t *upto = arena_array(a, uint64_t, RISK_MOST_LATE);
    double still = 1;
    for (int32_t k = 0; k + 1 < RISK_MOST_LATE; k++) {
        still *= 1 - 1.0 / (double)(mean > 1 ? mean : 1);
        upto[k] = risk_limit(1 - still);
    }
    upto[RISK_MOST_LATE - 1] = UINT64_MAX;
    return upto;
}

static void make_habits(making *m) {
    const kit_workshop *w = m->p->workshop;
    risk_model *out = m->out;
    out->misses = arena_array(m->memory, uint64_t, w->n_crew);
    for (kit_index p = 0; p < w->n_crew; p++)
        out->misses[p] = risk_limit((double)w->crew[p].misses_percent / 100);
    out->cancelled = risk_limit((double)w->cancelled_percent / 100);
    out->late = risk_limit((double)w->late_percent / 100);
    out->late_upto = days_late(m->memory, w->late_days);
}

static void make_pieces(making *m) {
    const calendar *c = &m->p->calendar;
    m->out->first_piece = arena_array(m->memory, uint32_t, (size_t)c->n_sessions + 1);
    uint32_t piece = 0;
    for (uint32_t s = 0; s <= c->n_sessions; s++) {
        while (s < c->n_sessions && piece < c->n_presence &&
               c->presence[piece].from < c->sessions[s].from_min)
            piece++;
        m->out->first_piece[s] = s < c->n_sessions ? piece : c->n_presence;
    }
}

void risk_model_make(arena *a, const planner *p, const plan *made, risk_model *out) {
    making m = {.memory = a, .p = p, .out = out};
    *out = (risk_model){.p = p};
    make_tasks(&m, made);
    make_links(&m);
    make_joins(&m);
    make_excludes(&m);
    make_needs(&m);
    make_draws(&m);
    make_habits(&m);
    make_pieces(&m);
}
