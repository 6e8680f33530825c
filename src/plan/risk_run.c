/* risk_run.c: one carrying-out of a plan, session by session and event by event. */
#include "plan/risk_state.h"

static uint32_t most_pieces(const risk_model *m) {
    uint32_t most = 0;
    for (uint32_t s = 0; s < m->p->calendar.n_sessions; s++) {
        uint32_t n = m->first_piece[s + 1] - m->first_piece[s];
        most = n > most ? n : most;
    }
    return most;
}

risk_run *risk_run_open(arena *a, const risk_model *m) {
    risk_run *r = arena_new(a, risk_run);
    size_t seats = 0;
    for (uint32_t k = 0; k < m->n; k++)
        seats += m->tasks[k].job->n_seats;
    *r = (risk_run){.m = m};
    r->tasks = arena_array(a, risk_progress, m->n);
    r->running = arena_array(a, uint32_t, m->n);
    r->used = arena_array(a, int32_t, m->n_resources);
    r->last_holder = arena_array(a, uint32_t, m->n_resources);
    r->stock = arena_array(a, int32_t, m->n_parts);
    r->arrives = arena_array(a, int32_t, m->n_arrivals);
    r->gathered = arena_array(a, people_set, seats);
    r->came = arena_array(a, people_set, most_pieces(m));
    r->there = arena_array(a, people_set, most_pieces(m));
    r->marks = arena_array(a, bool, m->n);
    r->sums.decides = arena_array(a, uint64_t, m->n);
    r->sums.late = arena_array(a, int64_t, m->n);
    r->sums.held_up = arena_array(a, uint64_t, m->p->calendar.n_sessions);
    r->sums.join_late = arena_array(a, uint64_t, (size_t)m->n_joins * RISK_LATE_MINUTES);
    r->sums.join_min = arena_array(a, int64_t, m->n_joins);
    return r;
}

const risk_sums *risk_run_sums(const risk_run *r) {
    return &r->sums;
}

/* ---- beginning anew --------------------------------------------------------------------------------------------------- */

static int32_t draw_arrival(const risk_model *m, uint32_t arrival, uint64_t key) {
    uint64_t what = m->n + 2 * (uint64_t)arrival;
    if (!m->late || risk_draw(key, what) > m->late)
        return m->arrivals[arrival].minute[0];
    risk_minutes days = {1, RISK_MOST_LATE, m->late_upto};
    return m->arrivals[arrival].minute[risk_draw_minutes(&days, risk_draw(key, what + 1))];
}

static void clear(risk_run *r, uint64_t key) {
    const risk_model *m = r->m;
    r->n_running = r->n_done = 0;
    for (uint32_t k = 0; k < m->n; k++) {
        const risk_task *t = &m->tasks[k];
        int32_t minutes = risk_draw_minutes(&t->minutes, risk_draw(key, k));
        r->tasks[k] = (risk_progress){
            .driver = NO_TASK, .missing = t->before.n, .ready = t->release, .all = minutes, .work = minutes};
        r->marks[k] = false;
    }
    for (uint32_t k = 0; k < m->n_resources; k++) {
        r->used[k] = 0;
        r->last_holder[k] = NO_TASK;
    }
    for (uint32_t k = 0; k < m->n_parts; k++)
        r->stock[k] = m->usable[k];
    for (uint32_t k = 0; k < m->n_arrivals; k++)
        r->arrives[k] = draw_arrival(m, k, key);
}

/* ---- why only then ---------------------------------------------------------------------------------------------------- */

/* The task of those done that last gave back a seat which the task could have. */
static uint32_t last_with_people(const risk_run *r, uint32_t task) {
    uint32_t last = NO_TASK;
    for (uint32_t k = 0; k < r->m->n; k++)
        if (r->tasks[k].state == TASK_DONE && (r->m->tasks[k].anybody & r->m->tasks[task].anybody) &&
            (last == NO_TASK || r->tasks[k].end > r->tasks[last].end))
            last = k;
    return last;
}

/* It has begun: what it waited for last takes the place of what it follows, if that ended later. */
static void settle_driver(risk_run *r, uint32_t task) {
    risk_progress *p = &r->tasks[task];
    uint32_t freed = NO_TASK;
    if (p->wait == WAIT_NOTHING)
        return;
    if (p->wait == WAIT_FRONT) /* both went ahead at one minute, for one reason */
        freed = r->tasks[p->wait_for].state != TASK_WAITS ? r->tasks[p->wait_for].driver : NO_TASK;
    else if (p->wait == WAIT_PEOPLE)
        freed = last_with_people(r, task);
    else if (p->wait_for >= r->m->n_resources)
        freed = p->wait_for - r->m->n_resources;
    else
        freed = r->last_holder[p->wait_for];
    if (freed != NO_TASK && r->tasks[freed].state == TASK_DONE && freed != task &&
        r->tasks[freed].end >= p->ready)
        p->driver = freed;
}

static void count_deciding(risk_run *r, int32_t finish) {
    for (uint32_t k = 0; k < r->m->n; k++)
        for (uint32_t at = r->tasks[k].end == finish ? k : NO_TASK; at != NO_TASK && !r->marks[at];
             at = r->tasks[at].driver) {
            r->marks[at] = true;
            r->sums.decides[at]++;
        }
}

/* ---- joins ------------------------------------------------------------------------------------------------------------ */

static int32_t reach(const risk_run *r, const risk_link *l) {
    network_link as = {.delay = l->delay, .reaches = l->reaches};
    return network_reach(&as, r->tasks[l->before].end);
}

/* How much later than planned the joining step could begin only because of this sub-assembly. */
static void count_join(risk_run *r, uint32_t join) {
    const risk_join *j = &r->m->joins[join];
    const risk_task *t = &r->m->tasks[j->task];
    int32_t ready = 0, others = t->planned;
    for (uint32_t k = 0; k < t->before.n; k++) {
        const risk_link *l = &r->m->links[t->before.first + k];
        int32_t at = reach(r, l);
        bool of_it = r->m->p->kit->steps[r->m->tasks[l->before].step].sub_assembly == j->sub_assembly;
        ready = of_it && at > ready ? at : ready;
        others = !of_it && at > others ? at : others;
    }
    int32_t late = ready - others;
    if (late <= 0)
        return;
    r->sums.join_min[join] += late;
    r->sums.join_late[(size_t)join * RISK_LATE_MINUTES +
                      (size_t)(late < RISK_LATE_MINUTES ? late : RISK_LATE_MINUTES - 1)]++;
}

/* ---- a session -------------------------------------------------------------------------------------------------------- */

static void complete(risk_run *r, uint32_t task, int32_t t) {
    const risk_model *m = r->m;
    const risk_task *it = &m->tasks[task];
    r->tasks[task].state = TASK_DONE;
    r->tasks[task].end = t;
    r->n_done++;
    for (uint32_t k = 0; k < it->needs.n; k++) {
        const risk_need *n = &m->needs[it->needs.first + k];
        r->used[n->what] -= n->amount;
        r->last_holder[n->what] = task;
    }
    for (uint32_t k = 0; k < it->after.n; k++) {
        uint32_t next = m->followers[it->after.first + k];
        r->tasks[next].missing--;
        for (uint32_t x = 0; x < m->tasks[next].before.n; x++) {
            const risk_link *l = &m->links[m->tasks[next].before.first + x];
            if (l->before != task)
                continue;
            int32_t at = reach(r, l);
            if (at >= r->tasks[next].ready) {
                r->tasks[next].ready = at;
                r->tasks[next].driver = task;
            }
        }
    }
}

/* Stretches that end at t: the task is done, or rests at a change-over point or the session's end. */
static void end_stretches(risk_run *r, int32_t from, int32_t t) {
    for (uint32_t k = 0; k < r->n_running; k++) {
        uint32_t task = r->running[k];
        risk_progress *p = &r->tasks[task];
        int32_t passed = t - from, getting_in = passed < p->getting_in ? passed : p->getting_in;
        p->getting_in -= getting_in;
        p->work -= passed - getting_in;
        if (p->until > t)
            continue;
        r->running[k--] = r->running[--r->n_running];
        if (p->work == 0) {
            complete(r, task, t);
            continue;
        }
        p->state = TASK_RESTS;
        p->getting_in += t == r->to ? r->m->tasks[task].job->resume : 0;
    }
}

/* What rested goes on first; then the plan's order. */
static void begin_all(risk_run *r, int32_t t) {
    uint32_t front = NO_TASK;
    for (uint32_t k = 0; k < r->m->n; k++)
        if (r->tasks[k].state == TASK_RESTS)
            (void)risk_try_again(r, k, t);
    for (uint32_t k = 0; k < r->m->n; k++) {
        if (r->tasks[k].state != TASK_WAITS)
            continue;
        if (!risk_try_begin(r, k, t, front)) {
            front = front == NO_TASK ? k : front;
            continue;
        }
        settle_driver(r, k);
        r->sums.late[k] += t - r->m->tasks[k].planned;
    }
}

static void work_through(risk_run *r) {
    int32_t t = r->m->p->calendar.sessions[r->session].from_min;
    while (t < r->to && r->n_done < r->m->n) {
        r->wake = r->to;
        for (uint32_t k = 0; k < r->n_running; k++)
            r->wake = r->tasks[r->running[k]].until < r->wake ? r->tasks[r->running[k]].until : r->wake;
        for (uint32_t k = 0; k < r->n_pieces; k++)
            if (r->pieces[k].from > t && r->pieces[k].from < r->wake)
                r->wake = r->pieces[k].from;
        begin_all(r, t);
        int32_t from = t;
        t = r->wake;
        end_stretches(r, from, t);
    }
}

int32_t risk_run_sample(risk_run *r, uint64_t key, uint32_t reserve) {
    const risk_model *m = r->m;
    clear(r, key);
    for (uint32_t s = 0; s < m->p->calendar.n_sessions && r->n_done < m->n; s++) {
        risk_enter_session(r, s, key, reserve);
        work_through(r);
        r->sums.held_up[s] += r->held_up;
    }
    if (r->n_done < m->n)
        return -1;
    int32_t finish = 0;
    for (uint32_t k = 0; k < m->n; k++)
        finish = r->tasks[k].end > finish ? r->tasks[k].end : finish;
    count_deciding(r, finish);
    for (uint32_t k = 0; k < m->n_joins; k++)
        count_join(r, k);
    return finish;
}
