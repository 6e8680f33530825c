/* risk.c: many carryings-out on all cores, and what they tell. */
#include "plan/risk.h"

#include <math.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <unistd.h>

#include "plan/risk_run.h"
#include "trade/chance.h"

/* Samples that a thread takes at once; sessions for which a reserve is tried out, the samples for each, and how often (in a thousand
 * samples) one must have been wanted to be tried. */
enum { BLOCK = 256, MOST_TRIED = 3, TRY_SAMPLES = 4096, WORTH_TRYING = 10, MOST_THREADS = 64 };

/* A sample's finish before it was carried out; -1: it does not end on the line. */
#define NOT_DRAWN INT32_MIN

typedef struct {
    const risk_model *m;
    uint64_t seed;
    uint32_t samples, reserve;
    int32_t *finish; /* by sample */
    sched_cancel *cancel;
    atomic_uint next; /* block */
} study;

typedef struct {
    pthread_t thread;
    study *all;
    arena *memory;
    const risk_sums *sums;
    bool started;
} worker;

static void *work(void *at) {
    worker *me = at;
    study *all = me->all;
    risk_run *r = risk_run_open(me->memory, all->m);
    me->sums = risk_run_sums(r);
    for (;;) {
        uint32_t from = atomic_fetch_add(&all->next, 1) * BLOCK;
        if (from >= all->samples || (all->cancel && atomic_load(&all->cancel->asked)))
            return NULL;
        uint32_t to = all->samples - from > BLOCK ? from + BLOCK : all->samples;
        for (uint32_t k = from; k < to; k++)
            all->finish[k] = risk_run_sample(r, risk_key(all->seed, k), all->reserve);
    }
}

static void add_sums(const risk_model *m, const risk_sums *from, risk_sums *to) {
    for (uint32_t k = 0; k < m->n; k++) {
        to->decides[k] += from->decides[k];
        to->late[k] += from->late[k];
    }
    for (uint32_t s = 0; s < m->p->calendar.n_sessions; s++)
        to->held_up[s] += from->held_up[s];
    for (size_t k = 0; k < (size_t)m->n_joins * RISK_LATE_MINUTES; k++)
        to->join_late[k] += from->join_late[k];
    for (uint32_t k = 0; k < m->n_joins; k++)
        to->join_min[k] += from->join_min[k];
}

static uint32_t threads_of(const plan_risk_options *how, uint32_t samples) {
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    uint32_t n = how->threads ? how->threads : cores > 0 ? (uint32_t)cores : 1;
    n = n < MOST_THREADS ? n : MOST_THREADS;
    return n < samples / BLOCK + 1 ? n : samples / BLOCK + 1;
}

/* Runs the study on threads; one that cannot be started leaves its part to the others. Adds to `sums`. */
static void run_study(study *all, const plan_risk_options *how, risk_sums *sums) {
    worker workers[MOST_THREADS];
    uint32_t n = threads_of(how, all->samples);
    for (uint32_t k = 0; k < all->samples; k++)
        all->finish[k] = NOT_DRAWN;
    for (uint32_t k = 0; k < n; k++) {
        workers[k] = (worker){.all = all, .memory = arena_open()};
        workers[k].started = k > 0 && pthread_create(&workers[k].thread, NULL, work, &workers[k]) == 0;
    }
    work(&workers[0]);
    for (uint32_t k = 0; k < n; k++) {
        if (workers[k].started)
            pthread_join(workers[k].thread, NULL);
        if (workers[k].sums)
            add_sums(all->m, workers[k].sums, sums);
        arena_close(workers[k].memory);
    }
}

/* ---- the finish --------------------------------------------------------------------------------------------------- */

typedef struct {
    arena *memory;
    const plan *plan;
    const planner *p;
    const risk_model *m;
    const plan_risk_options *how;
    study base;
    risk_sums sums;
    plan_risk *out;
} asking;

static plan_share share_of(uint32_t count, uint32_t n) {
    interval i = share_wilson((int32_t)count, (int32_t)n, 0.95);
    return (plan_share){count, (double)count / n, i.low, i.high};
}

/* On a dated session by the wanted day. */
static bool in_time(const asking *q, int32_t finish) {
    if (finish < 0)
        return false;
    const plan_session *s = &q->p->calendar.sessions[calendar_session(&q->p->calendar, finish, true)];
    return s->dated && date_of_moment(s->ends) <= q->p->workshop->wanted_day;
}

static int compare_minutes(const void *a, const void *b) {
    const int32_t *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

static void tell_finish(asking *q) {
    plan_risk *out = q->out;
    int32_t *ended = arena_array(q->memory, int32_t, q->base.samples);
    uint32_t n = 0, met = 0;
    double sum = 0, squares = 0;
    for (uint32_t k = 0; k < q->base.samples; k++) {
        int32_t finish = q->base.finish[k];
        out->samples += finish != NOT_DRAWN;
        out->unfinished += finish == -1;
        met += in_time(q, finish);
        if (finish >= 0)
            ended[n++] = finish;
    }
    for (uint32_t k = 0; k < n; k++)
        sum += ended[k];
    out->mean_min = n ? sum / n : 0;
    for (uint32_t k = 0; k < n; k++)
        squares += (ended[k] - out->mean_min) * (ended[k] - out->mean_min);
    out->mean_error = n > 1 ? sqrt(squares / (n - 1) / n) : 0;
    qsort(ended, n, sizeof *ended, compare_minutes);
    uint32_t half = (out->samples + 1) / 2, most = (uint32_t)((9 * (uint64_t)out->samples + 9) / 10);
    out->half_min = half > 0 && half <= n ? ended[half - 1] : -1;
    out->nine_of_ten_min = most > 0 && most <= n ? ended[most - 1] : -1;
    out->planned_min = q->plan->makespan_min;
    out->wanted = q->p->workshop->wanted_day != INT32_MAX;
    out->met = share_of(met, out->samples);
}

/* ---- sessions ------------------------------------------------------------------------------------------------------- */

static void tell_sessions(asking *q) {
    plan_risk *out = q->out;
    const calendar *c = &q->p->calendar;
    out->sessions = c->sessions;
    out->n_sessions = c->n_sessions;
    out->by_session = arena_array(q->memory, plan_risk_session, c->n_sessions);
    uint32_t *last = arena_array(q->memory, uint32_t, c->n_sessions), by_then = 0;
    for (uint32_t k = 0; k < q->base.samples; k++)
        if (q->base.finish[k] >= 0)
            last[calendar_session(c, q->base.finish[k], true)]++;
    for (uint32_t s = 0; s < c->n_sessions; s++) {
        by_then += last[s];
        out->by_session[s] =
            (plan_risk_session){.session = s,
                                .last = share_of(last[s], out->samples),
                                .by_then = share_of(by_then, out->samples),
                                .held_up = share_of((uint32_t)q->sums.held_up[s], out->samples)};
    }
}

/* The same samples with and without the reserve: the differences and their standard errors. */
static void compare_reserve(const asking *q, const study *with, plan_risk_session *s) {
    uint32_t n = 0;
    int64_t sooner = 0, changed = 0;
    double sum = 0, squares = 0;
    for (uint32_t k = 0; k < with->samples; k++) {
        int32_t before = q->base.finish[k], then = with->finish[k];
        if (before < 0 || then < 0)
            continue;
        int met = in_time(q, then) - in_time(q, before);
        sooner += met;
        changed += met != 0;
        sum += before - then;
        squares += ((double)before - then) * ((double)before - then);
        n++;
    }
    if (n < 2)
        return;
    s->earlier_min = sum / n;
    s->earlier_error = sqrt((squares - sum * sum / n) / (n - 1) / n);
    s->sooner_share = (double)sooner / n;
    s->sooner_error = sqrt(((double)changed - (double)sooner * (double)sooner / n) / (n - 1) / n);
    s->tried = true;
}

/* Of the sessions not tried yet the one at which an adult was wanted most often. */
static plan_risk_session *worth_trying(const asking *q) {
    plan_risk_session *best = NULL;
    for (uint32_t s = 0; s < q->out->n_sessions; s++) {
        plan_risk_session *it = &q->out->by_session[s];
        if (!it->tried && it->held_up.share * 1000 >= WORTH_TRYING &&
            (!best || it->held_up.count > best->held_up.count))
            best = it;
    }
    return best;
}

static risk_sums new_sums(const asking *q) {
    return (risk_sums){.decides = arena_array(q->memory, uint64_t, q->m->n),
                       .late = arena_array(q->memory, int64_t, q->m->n),
                       .held_up = arena_array(q->memory, uint64_t, q->p->calendar.n_sessions),
                       .join_late =
                           arena_array(q->memory, uint64_t, (size_t)q->m->n_joins * RISK_LATE_MINUTES),
                       .join_min = arena_array(q->memory, int64_t, q->m->n_joins)};
}

static void try_reserves(asking *q) {
    for (uint32_t k = 0; k < MOST_TRIED; k++) {
        plan_risk_session *s = worth_trying(q);
        if (!s || (q->how->cancel && atomic_load(&q->how->cancel->asked)))
            return;
        study with = {.m = q->m, .seed = q->base.seed, .reserve = s->session, .cancel = q->how->cancel};
        with.samples = q->base.samples < TRY_SAMPLES ? q->base.samples : TRY_SAMPLES;
        with.finish = arena_array(q->memory, int32_t, with.samples);
        risk_sums unused = new_sums(q);
        run_study(&with, q->how, &unused);
        compare_reserve(q, &with, s);
        if (!s->tried)
            return;
        q->out->tried = with.samples;
    }
}

/* ---- steps and joins --------------------------------------------------------------------------------------------------- */

static int compare_steps(const void *a, const void *b) {
    const plan_risk_step *x = a, *y = b;
    if (x->decides.count != y->decides.count)
        return x->decides.count > y->decides.count ? -1 : 1;
    return x->step < y->step ? -1 : x->step > y->step;
}

static void tell_steps(asking *q) {
    plan_risk *out = q->out;
    out->n_steps = q->m->n;
    out->steps = arena_array(q->memory, plan_risk_step, out->n_steps);
    for (uint32_t k = 0; k < out->n_steps; k++)
        out->steps[k] = (plan_risk_step){.step = q->m->tasks[k].step,
                                         .decides = share_of((uint32_t)q->sums.decides[k], out->samples),
                                         .late_min = (double)q->sums.late[k] / out->samples};
    if (out->n_steps > 1)
        qsort(out->steps, out->n_steps, sizeof *out->steps, compare_steps);
}

static int compare_joins(const void *a, const void *b) {
    const plan_risk_join *x = a, *y = b;
    if (x->late_min > y->late_min || x->late_min < y->late_min)
        return x->late_min > y->late_min ? -1 : 1;
    return x->step < y->step ? -1 : x->step > y->step;
}

/* From the planned end of the sub-assembly's last step to the joining step's planned start. */
static int32_t planned_buffer(const asking *q, const risk_join *j) {
    int32_t ready = 0;
    const risk_task *t = &q->m->tasks[j->task];
    for (uint32_t k = 0; k < t->before.n; k++) {
        const risk_link *l = &q->m->links[t->before.first + k];
        const plan_step *s = &q->plan->steps[l->before];
        network_link as = {.delay = l->delay, .reaches = l->reaches};
        if (q->p->kit->steps[s->step].sub_assembly == j->sub_assembly &&
            network_reach(&as, s->end_min) > ready)
            ready = network_reach(&as, s->end_min);
    }
    return t->planned > ready ? t->planned - ready : 0;
}

static void tell_joins(asking *q) {
    plan_risk *out = q->out;
    out->n_joins = q->m->n_joins;
    out->joins = arena_array(q->memory, plan_risk_join, out->n_joins);
    for (uint32_t k = 0; k < out->n_joins; k++) {
        const uint64_t *late = q->sums.join_late + (size_t)k * RISK_LATE_MINUTES;
        plan_risk_join *j = &out->joins[k];
        uint64_t all = 0, beyond = 0;
        for (uint32_t x = 0; x < RISK_LATE_MINUTES; x++)
            all += late[x];
        *j = (plan_risk_join){.sub_assembly = q->m->joins[k].sub_assembly,
                              .step = q->m->tasks[q->m->joins[k].task].step,
                              .planned_buffer_min = planned_buffer(q, &q->m->joins[k]),
                              .late = share_of((uint32_t)all, out->samples),
                              .late_min = (double)q->sums.join_min[k] / out->samples};
        for (int32_t x = RISK_LATE_MINUTES - 1; x > 0; x--) {
            beyond += late[x];
            if (beyond * 10 > out->samples) {
                j->nine_of_ten_min = x;
                break;
            }
        }
    }
    if (out->n_joins > 1)
        qsort(out->joins, out->n_joins, sizeof *out->joins, compare_joins);
}

/* ---- the whole ---------------------------------------------------------------------------------------------------------- */

bool plan_assess_risk(arena *a, const plan_input *in, const plan *p, const plan_risk_options *how,
                      plan_risk **out, err *e) {
    if (p->n_steps == 0)
        return err_input(e, "risk", "see kitbench plan for what is in the way",
                         "there is no plan to carry out");
    planner line;
    if (!planner_begin(&line, a, in, e))
        return false;
    risk_model m;
    risk_model_make(a, &line, p, &m);
    plan_risk *r = arena_new(a, plan_risk);
    *r = (plan_risk){.seed = how->seed ? how->seed : 1};
    asking q = {.memory = a, .plan = p, .p = &line, .m = &m, .how = how, .out = r};
    q.base = (study){.m = &m, .seed = r->seed, .reserve = UINT32_MAX, .cancel = how->cancel};
    q.base.samples = how->samples == 0 ? PLAN_RISK_SAMPLES : how->samples;
    q.base.samples = q.base.samples < PLAN_RISK_MOST_SAMPLES ? q.base.samples : PLAN_RISK_MOST_SAMPLES;
    q.base.finish = arena_array(a, int32_t, q.base.samples);
    q.sums = new_sums(&q);
    run_study(&q.base, how, &q.sums);
    tell_finish(&q);
    if (r->samples == 0)
        return err_run(e, "risk", "let it go on a little longer", "it was stopped before anything was drawn");
    tell_sessions(&q);
    tell_steps(&q);
    tell_joins(&q);
    try_reserves(&q);
    *out = r;
    return true;
}
