/* risk_try.c: who is there, and what can begin. */
#include "plan/risk_state.h"

/* ---- who is there ---------------------------------------------------------------------------------------------------- */

static bool room_allows(const risk_model *m, people_set there, uint32_t more_adults) {
    people_set adults = there & m->p->calendar.adults;
    uint32_t n_adults = people_count(adults) + more_adults,
             learners = people_count(there & ~m->p->calendar.adults);
    return n_adults >= (uint32_t)m->p->workshop->minimum_adults && n_adults + learners > 0 &&
           !(n_adults == 1 && learners == 1);
}

void risk_enter_session(risk_run *r, uint32_t session, uint64_t key, uint32_t reserve) {
    const risk_model *m = r->m;
    const calendar *c = &m->p->calendar;
    uint64_t draws = m->n + 2 * (uint64_t)m->n_arrivals + (uint64_t)session * (PLAN_MAX_CREW + 1);
    people_set away = 0;
    for (kit_index p = 0; p < m->p->workshop->n_crew; p++)
        if (m->misses[p] && risk_draw(key, draws + p) <= m->misses[p])
            away |= one_person(p);
    r->session = session;
    r->to = c->sessions[session].to_min;
    r->pieces = c->presence + m->first_piece[session];
    r->n_pieces = m->first_piece[session + 1] - m->first_piece[session];
    r->reserve = session == reserve;
    r->held_up = false;
    bool off = m->cancelled && risk_draw(key, draws + PLAN_MAX_CREW) <= m->cancelled;
    for (uint32_t k = 0; k < r->n_pieces; k++) {
        people_set came = off ? 0 : r->pieces[k].there & ~away;
        r->came[k] = came;
        if (off || !r->pieces[k].there || !room_allows(m, came, r->reserve))
            r->there[k] = 0;
        else
            r->there[k] = came | (r->reserve ? RISK_RESERVE : 0);
    }
}

/* Who is there from a to b, all of it in the session. With `reserve`: as if one adult more had come. */
static people_set there_between(const risk_run *r, int32_t a, int32_t b, bool reserve) {
    people_set there = ~(people_set)0;
    for (uint32_t k = 0; k < r->n_pieces; k++) {
        if (r->pieces[k].to <= a)
            continue;
        if (r->pieces[k].from >= b)
            break;
        bool works = reserve && r->pieces[k].there && room_allows(r->m, r->came[k], 1);
        there &= !reserve ? r->there[k] : works ? r->came[k] | RISK_RESERVE : 0;
    }
    return there;
}

/* ---- people ---------------------------------------------------------------------------------------------------------- */

/* Can those running keep their seats (perhaps with others on them) when this team sits down too? */
static bool can_seat(risk_run *r, const people_set *team, uint32_t n_seats, people_set there, bool reserve) {
    uint32_t n = 0;
    for (uint32_t k = 0; k < n_seats; k++)
        r->gathered[n++] = team[k] & there;
    people_set all = there;
    for (uint32_t k = 0; k < r->n_running; k++) {
        const risk_progress *other = &r->tasks[r->running[k]];
        people_set can = other->there | (reserve ? RISK_RESERVE : 0);
        all |= can;
        for (uint32_t s = 0; s < r->m->tasks[r->running[k]].job->n_seats; s++)
            r->gathered[n++] = other->seats[s] & can;
    }
    return seats_can_fill(r->gathered, n, all);
}

/* Of the teams of the task one that can be seated, or NULL. */
static const people_set *find_team(risk_run *r, const risk_task *t, people_set there, bool reserve) {
    for (uint32_t k = 0; k < t->job->n_teams; k++) {
        const people_set *team = t->seats + (size_t)k * t->job->n_seats;
        if (can_seat(r, team, t->job->n_seats, there, reserve))
            return team;
    }
    return NULL;
}

/* Would one adult more who may supervise everything have let it begin? Asked once a session. */
static void note_held_up(risk_run *r, const risk_task *t, int32_t a, int32_t b) {
    if (r->held_up || r->reserve || r->m->p->workshop->n_crew >= PLAN_MAX_CREW)
        return;
    r->held_up = find_team(r, t, there_between(r, a, b, true), true) != NULL;
}

/* The end of the stretch that begins at t: the task's end, the session's, or the next change-over point. */
static int32_t stretch_end(const risk_run *r, const risk_task *t, const risk_progress *p, int32_t at) {
    int32_t end = at + p->getting_in + p->work;
    end = end < r->to ? end : r->to;
    int32_t done = p->all - p->work;
    for (uint32_t k = 0; k < t->job->n_change_over; k++) {
        int64_t point = (int64_t)t->job->change_over[k] * p->all / t->job->duration;
        if (point <= done)
            continue;
        int64_t then = at + p->getting_in + point - done;
        return then < end ? (int32_t)then : end;
    }
    return end;
}

static bool seat(risk_run *r, uint32_t task, int32_t t) {
    const risk_task *it = &r->m->tasks[task];
    risk_progress *p = &r->tasks[task];
    int32_t until = stretch_end(r, it, p, t);
    people_set there = there_between(r, t, until, false);
    const people_set *team = there ? find_team(r, it, there, false) : NULL;
    if (!team) {
        p->wait = WAIT_PEOPLE;
        note_held_up(r, it, t, until);
        return false;
    }
    p->state = TASK_RUNS;
    p->there = there;
    p->seats = team;
    p->until = until;
    r->running[r->n_running++] = task;
    r->wake = until < r->wake ? until : r->wake;
    return true;
}

/* ---- things ---------------------------------------------------------------------------------------------------------- */

static bool nothing_excludes(const risk_run *r, uint32_t task, uint32_t *who) {
    const risk_task *it = &r->m->tasks[task];
    for (uint32_t k = 0; k < it->excludes.n; k++) {
        *who = r->m->excluded[it->excludes.first + k];
        if (r->tasks[*who].state == TASK_RUNS)
            return false;
    }
    return true;
}

static bool things_there(risk_run *r, uint32_t task) {
    const risk_task *it = &r->m->tasks[task];
    risk_progress *p = &r->tasks[task];
    for (uint32_t k = 0; k < it->needs.n; k++) {
        const risk_need *n = &r->m->needs[it->needs.first + k];
        if (r->used[n->what] + n->amount <= r->m->capacity[n->what])
            continue;
        p->wait = WAIT_THING;
        p->wait_for = n->what;
        return false;
    }
    uint32_t who;
    if (nothing_excludes(r, task, &who))
        return true;
    p->wait = WAIT_THING;
    p->wait_for = r->m->n_resources + who;
    return false;
}

static void look_again(risk_run *r, int32_t minute) {
    r->wake = minute < r->wake ? minute : r->wake;
}

static bool pieces_there(risk_run *r, const risk_task *it, int32_t t) {
    for (uint32_t k = 0; k < it->draws.n; k++) {
        const risk_need *n = &r->m->draws[it->draws.first + k];
        int32_t there = r->stock[n->what], next = INT32_MAX;
        for (uint32_t a = 0; a < r->m->n_arrivals; a++) {
            if (r->m->arrivals[a].part != n->what)
                continue;
            if (r->arrives[a] <= t)
                there += r->m->arrivals[a].amount;
            else
                next = r->arrives[a] < next ? r->arrives[a] : next;
        }
        if (there >= n->amount)
            continue;
        look_again(r, next);
        return false;
    }
    return true;
}

/* Does what is left of it fit into the rest of the session, or may it and is it worth it to leave it at the end? */
static bool time_allows(const risk_run *r, const risk_task *it, const risk_progress *p, int32_t t) {
    int32_t left = p->getting_in + p->work, room = r->to - t;
    return left <= room || (it->job->may_pause && room > it->job->resume);
}

/* ---- beginning ------------------------------------------------------------------------------------------------------- */

static void take_things(risk_run *r, uint32_t task) {
    const risk_task *it = &r->m->tasks[task];
    for (uint32_t k = 0; k < it->needs.n; k++)
        r->used[r->m->needs[it->needs.first + k].what] += r->m->needs[it->needs.first + k].amount;
    for (uint32_t k = 0; k < it->draws.n; k++)
        r->stock[r->m->draws[it->draws.first + k].what] -= r->m->draws[it->draws.first + k].amount;
}

/* May it go ahead although `front`, whose turn it is, has not begun? When that one is late; or when this one, as planned, is done before
 * that one is to begin, and takes no pieces that it may want. */
static bool may_pass(const risk_run *r, const risk_task *it, int32_t t, uint32_t front) {
    int32_t turn = r->m->tasks[front].planned;
    return t >= turn || (it->draws.n == 0 && t + it->job->duration <= turn && t + it->job->duration <= r->to);
}

bool risk_try_begin(risk_run *r, uint32_t task, int32_t t, uint32_t front) {
    const risk_task *it = &r->m->tasks[task];
    risk_progress *p = &r->tasks[task];
    if (p->missing > 0)
        return false;
    if (p->ready > t) {
        look_again(r, p->ready);
        return false;
    }
    int32_t next = job_next_start(it->job, t);
    if (next != t) {
        look_again(r, next < 0 ? INT32_MAX : next);
        return false;
    }
    if (!time_allows(r, it, p, t) || !pieces_there(r, it, t))
        return false;
    if (front != NO_TASK && !may_pass(r, it, t, front)) {
        look_again(r, r->m->tasks[front].planned);
        p->wait = WAIT_FRONT;
        p->wait_for = front;
        return false;
    }
    if (!things_there(r, task) || !seat(r, task, t))
        return false;
    p->start = t;
    take_things(r, task);
    return true;
}

bool risk_try_again(risk_run *r, uint32_t task, int32_t t) {
    const risk_task *it = &r->m->tasks[task];
    uint32_t who;
    return time_allows(r, it, &r->tasks[task], t) && nothing_excludes(r, task, &who) && seat(r, task, t);
}
