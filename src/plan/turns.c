/* turns.c: moves of one seat and exchanges between two, until none is better. */
#include "plan/turns.h"

#include <string.h>

#include "plan/turns_inside.h"

enum { MOST_MOVES = 2000000 };

/* ---- the state ------------------------------------------------------------------------------------------------------ */

static void open_sessions(turns *t) {
    planner *p = t->p;
    uint32_t sessions = p->calendar.n_sessions;
    t->of_session = arena_array(p->memory, const people_stretch **, sessions);
    t->in_session = arena_array(p->memory, uint32_t, sessions);
    for (uint32_t k = 0; k < t->n; k++)
        t->in_session[t->s[k].when.session]++;
    for (uint32_t s = 0; s < sessions; s++)
        t->of_session[s] = arena_array(p->memory, const people_stretch *, t->in_session[s]);
    memset(t->in_session, 0, sessions * sizeof *t->in_session);
    for (uint32_t k = 0; k < t->n; k++) { /* insertion by start */
        const people_stretch **list = t->of_session[t->s[k].when.session];
        uint32_t at = t->in_session[t->s[k].when.session]++;
        for (; at > 0 && list[at - 1]->when.from > t->s[k].when.from; at--)
            list[at] = list[at - 1];
        list[at] = &t->s[k];
    }
}

int32_t turns_length(const turns *t, uint32_t x) {
    return t->s[x].when.to - t->s[x].when.from;
}

int32_t turns_lack(const turns *t, kit_index person) {
    return t->who[person].share - t->own[person];
}

people_set turns_on(const turns *t, uint32_t x) {
    people_set on = 0;
    for (uint32_t k = 0; k < t->p->jobs[t->s[x].job].n_seats; k++)
        on |= one_person(t->s[x].seats[k]);
    return on;
}

int64_t turns_beyond(const turns *t, uint32_t session, kit_index person) {
    return turns_waiting(t->p, t->of_session[session], t->in_session[session], session, person, t->finish,
                         t->limit)
        .beyond;
}

static void open_turns(turns *t, planner *p, people_stretch *named, uint32_t n, int32_t finish) {
    *t = (turns){.p = p, .s = named, .n = n, .finish = finish};
    t->limit = (int32_t)p->workshop->longest_wait_min;
    t->who = turns_shares(p, named, n, finish);
    t->own = arena_array(p->memory, int32_t, PLAN_MAX_CREW);
    t->together = arena_array(p->memory, int32_t, (size_t)PLAN_MAX_CREW * PLAN_MAX_CREW);
    t->there = arena_array(p->memory, people_set, n);
    t->skills = arena_array(p->memory, bool, p->kit->n_skills);
    open_sessions(t);
    for (kit_index q = 0; q < p->workshop->n_crew; q++)
        t->own[q] = t->who[q].own_before;
    for (uint32_t x = 0; x < n; x++) {
        t->there[x] = calendar_there(&p->calendar, named[x].when.from, named[x].when.to);
        turns_count(t, x, 1);
    }
    for (uint32_t s = 0; s < p->calendar.n_sessions; s++)
        for (kit_index q = 0; q < p->workshop->n_crew && t->in_session[s] > 0; q++)
            t->waits += t->who[q].learner ? turns_beyond(t, s, q) : 0;
}

/* Counts the stretch's people in (sign 1) or out (-1). */
void turns_count(turns *t, uint32_t x, int32_t sign) {
    people_set hands = turns_hands(t->p, &t->s[x]);
    int32_t length = turns_length(t, x) * sign;
    for (people_set a = hands; a; a &= a - 1) {
        uint32_t q = (uint32_t)__builtin_ctzll(a);
        t->own[q] += length;
        for (people_set b = hands & ~t->p->calendar.adults; b; b &= b - 1) {
            uint32_t r = (uint32_t)__builtin_ctzll(b);
            if (r != q && t->who[q].learner)
                t->together[q * PLAN_MAX_CREW + r] += length;
        }
    }
}

/* ---- is a naming of one stretch right? -------------------------------------------------------------------------------- */

bool turns_team_fits(const planner *p, const people_stretch *s) {
    const plan_job *j = &p->jobs[s->job];
    people_set hands = turns_hands(p, s);
    if (people_count(hands) != j->n_seats - j->beside || (j->beside && (hands & one_person(s->seats[0]))))
        return false;
    for (uint32_t k = 0; k < j->n_teams; k++)
        if ((!j->beside || (j->teams[k].seats[0] & one_person(s->seats[0]))) &&
            seats_can_fill(j->teams[k].seats + j->beside, j->n_seats - j->beside, hands))
            return true;
    return false;
}

/* Who is at another stretch than x (and y) while x runs. */
people_set turns_busy(const turns *t, uint32_t x, uint32_t y) {
    const job_stretch *at = &t->s[x].when;
    people_set busy = 0;
    for (uint32_t k = 0; k < t->in_session[at->session]; k++) {
        uint32_t z = (uint32_t)(t->of_session[at->session][k] - t->s);
        const job_stretch *other = &t->s[z].when;
        if (other->from >= at->to)
            break;
        if (z != x && z != y && other->to > at->from)
            busy |= turns_on(t, z);
    }
    return busy;
}

/* ---- what a naming is worth --------------------------------------------------------------------------------------------- */

/* Skills that the learner practises for the first time. */
static int32_t practised(const turns *t, kit_index person) {
    const kit *k = t->p->kit;
    const kit_person *who = &t->p->workshop->crew[person];
    bool *now = t->skills;
    int32_t count = 0;
    memset(now, 0, k->n_skills * sizeof *now);
    for (uint32_t x = 0; x < t->n; x++) {
        if (!(turns_hands(t->p, &t->s[x]) & one_person(person)))
            continue;
        for (uint32_t y = 0; y < k->n_step_skills; y++)
            if (k->step_skills[y].step == t->p->jobs[t->s[x].job].step)
                now[k->step_skills[y].skill] = true;
    }
    for (uint32_t y = 0; y < who->skills.n; y++)
        now[who->skills.list[y]] = false;
    for (uint32_t y = 0; y < k->n_skills; y++)
        count += now[y];
    return count;
}

/* Squares of the minutes that the learner is together with each other. */
static int64_t squares(const turns *t, kit_index person) {
    const int32_t *row = t->together + (size_t)person * PLAN_MAX_CREW;
    int64_t sum = 0;
    for (uint32_t r = 0; r < t->p->workshop->n_crew; r++)
        sum += (int64_t)row[r] * row[r];
    return sum;
}

/* People of the job's stretches who were not at it when the session before ended. */
static int32_t takeovers(const turns *t, uint32_t job) {
    int32_t count = 0;
    for (uint32_t x = 1; x < t->n; x++)
        if (t->s[x].job == job && t->s[x - 1].job == job && t->s[x].when.session != t->s[x - 1].when.session)
            count += (int32_t)people_count(turns_hands(t->p, &t->s[x]) & ~turns_hands(t->p, &t->s[x - 1]));
    return count;
}

typedef struct {
    uint32_t x, i;        /* stretch and seat */
    uint32_t y, j;        /* the second one; y == x: none */
    kit_index to_x, to_y; /* who comes there */
    kit_index a, b;       /* who is concerned */
} move;

/* What a move can change: waits and lacks of the two concerned; then the rest, which only decides when those are equal. */
typedef struct {
    int64_t waits;
    int32_t lacks[2]; /* the larger first */
} first_worth;

typedef struct {
    int32_t practised;
    int64_t squares;
    int32_t takeovers;
} further_worth;

static first_worth first_of(const turns *t, const move *m) {
    first_worth w = {0, {INT32_MIN, INT32_MIN}};
    kit_index both[2] = {m->a, m->b};
    uint32_t sessions[2] = {t->s[m->x].when.session, t->s[m->y].when.session};
    for (uint32_t k = 0; k < 2; k++) {
        kit_index q = both[k];
        if (!t->who[q].learner)
            continue;
        w.lacks[k] = turns_lack(t, q);
        w.waits += turns_beyond(t, sessions[0], q);
        w.waits += sessions[1] != sessions[0] ? turns_beyond(t, sessions[1], q) : 0;
    }
    if (w.lacks[0] < w.lacks[1]) {
        int32_t less = w.lacks[0];
        w.lacks[0] = w.lacks[1];
        w.lacks[1] = less;
    }
    return w;
}

static further_worth further_of(const turns *t, const move *m) {
    further_worth w = {0};
    for (kit_index q = 0; q < t->p->workshop->n_crew; q++) {
        w.practised += t->who[q].learner && (q == m->a || q == m->b) ? practised(t, q) : 0;
        w.squares += t->who[q].learner ? squares(t, q) : 0;
    }
    w.takeovers = takeovers(t, t->s[m->x].job);
    w.takeovers += t->s[m->y].job != t->s[m->x].job ? takeovers(t, t->s[m->y].job) : 0;
    return w;
}

static int compare_first(const first_worth *a, const first_worth *b) {
    if (a->waits != b->waits)
        return a->waits < b->waits ? -1 : 1;
    for (uint32_t k = 0; k < 2; k++)
        if (a->lacks[k] != b->lacks[k])
            return a->lacks[k] < b->lacks[k] ? -1 : 1;
    return 0;
}

static int compare_further(const further_worth *a, const further_worth *b) {
    if (a->practised != b->practised)
        return a->practised > b->practised ? -1 : 1;
    if (a->squares != b->squares)
        return a->squares < b->squares ? -1 : 1;
    return a->takeovers < b->takeovers ? -1 : a->takeovers > b->takeovers;
}

/* ---- moves --------------------------------------------------------------------------------------------------------------- */

static void put(turns *t, const move *m, kit_index x, kit_index y) {
    turns_count(t, m->x, -1);
    if (m->y != m->x)
        turns_count(t, m->y, -1);
    t->s[m->x].seats[m->i] = x;
    if (m->y != m->x)
        t->s[m->y].seats[m->j] = y;
    turns_count(t, m->x, 1);
    if (m->y != m->x)
        turns_count(t, m->y, 1);
}

static bool is_hand(const turns *t, uint32_t x, uint32_t seat) {
    return seat >= t->p->jobs[t->s[x].job].beside;
}

/* Can the largest lack of the two concerned only grow? Minutes change where somebody works with their hands. */
static bool surely_worse(const turns *t, const move *m) {
    int32_t gain[2] = {0, 0}, before[2], after[2]; /* of a, of b */
    int32_t x = is_hand(t, m->x, m->i) ? turns_length(t, m->x) : 0;
    int32_t y = m->y != m->x && is_hand(t, m->y, m->j) ? turns_length(t, m->y) : 0;
    gain[0] = y - x;
    gain[1] = x - y;
    kit_index both[2] = {m->a, m->b};
    for (uint32_t k = 0; k < 2; k++) {
        before[k] = t->who[both[k]].learner ? turns_lack(t, both[k]) : INT32_MIN;
        after[k] = t->who[both[k]].learner ? before[k] - gain[k] : INT32_MIN;
    }
    int32_t most_before = before[0] > before[1] ? before[0] : before[1];
    int32_t most_after = after[0] > after[1] ? after[0] : after[1];
    return t->waits == 0 && most_after > most_before;
}

/* Makes the move when it is right and better. */
static bool try_move(turns *t, const move *m) {
    t->moves++;
    if (surely_worse(t, m))
        return false;
    kit_index at_x = t->s[m->x].seats[m->i], at_y = t->s[m->y].seats[m->j];
    t->s[m->x].seats[m->i] = m->to_x;
    if (m->y != m->x)
        t->s[m->y].seats[m->j] = m->to_y;
    bool fits = turns_team_fits(t->p, &t->s[m->x]) && (m->y == m->x || turns_team_fits(t->p, &t->s[m->y]));
    t->s[m->x].seats[m->i] = at_x;
    t->s[m->y].seats[m->j] = at_y;
    if (!fits)
        return false;
    first_worth before = first_of(t, m);
    put(t, m, m->to_x, m->to_y);
    first_worth after = first_of(t, m);
    int better = compare_first(&after, &before);
    if (better == 0) {
        further_worth then = further_of(t, m);
        put(t, m, at_x, at_y);
        further_worth now = further_of(t, m);
        put(t, m, m->to_x, m->to_y);
        better = compare_further(&then, &now);
    }
    if (better >= 0) {
        put(t, m, at_x, at_y);
        return false;
    }
    t->waits += after.waits - before.waits;
    return true;
}

/* Somebody else at seat i of stretch x. */
static bool replace(turns *t, uint32_t x, uint32_t i) {
    people_set can = t->there[x] & ~turns_busy(t, x, x) & ~turns_on(t, x);
    bool any = false;
    for (; can; can &= can - 1) {
        kit_index here = t->s[x].seats[i], other = (kit_index)__builtin_ctzll(can);
        move m = {.x = x, .i = i, .y = x, .j = i, .to_x = other, .a = here, .b = other};
        any = try_move(t, &m) || any;
    }
    return any;
}

/* Seat i of stretch x and the seats of stretch y change people. */
static bool exchange(turns *t, uint32_t x, uint32_t i, uint32_t y) {
    bool any = false;
    for (uint32_t j = 0; j < t->p->jobs[t->s[y].job].n_seats; j++) {
        kit_index a = t->s[x].seats[i], b = t->s[y].seats[j];
        move m = {.x = x, .i = i, .y = y, .j = j, .to_x = b, .to_y = a, .a = a, .b = b};
        if (a == b || !(t->there[x] & one_person(b)) || !(t->there[y] & one_person(a)) ||
            ((turns_busy(t, x, y) | turns_on(t, x)) & one_person(b)) ||
            ((turns_busy(t, y, x) | turns_on(t, y)) & one_person(a)))
            continue;
        any = try_move(t, &m) || any;
    }
    return any;
}

static bool improve(turns *t) {
    bool any = false;
    for (uint32_t x = 0; x < t->n; x++)
        for (uint32_t i = 0; i < t->p->jobs[t->s[x].job].n_seats; i++) {
            any = replace(t, x, i) || any;
            for (uint32_t y = 0; y < x; y++) {
                if (t->moves >= MOST_MOVES)
                    return false;
                any = exchange(t, x, i, y) || any;
            }
        }
    return any;
}

void turns_spread(planner *p, people_stretch *named, uint32_t n, int32_t finish) {
    turns t;
    open_turns(&t, p, named, n, finish);
    while (improve(&t)) {
    }
    p->turns_exact = turns_search(&t);
}
