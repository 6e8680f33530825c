/* turns_search.c: every naming of a small plan, by branch and bound.
 *
 * Stretches in the order of time; for each every team that is free. A branch is left when even with all the work that
 * each learner could still do the waits and lacks would not be better than the best known, compared in that order.
 */
#include "plan/turns_inside.h"

#include <string.h>

enum { MOST_NODES = 20000 };

typedef struct {
    turns *t;
    uint32_t *order; /* stretches by time */
    int32_t *still;  /* n + 1 rows by person: minutes that can still come from the stretches from here on */
    people_set *on;  /* by stretch: who has been put there */
    kit_index *best; /* seats of all stretches, one after the other */
    uint32_t *first_seat;        /* by stretch: in best */
    int32_t *best_lacks, *lacks; /* of learners, the largest first */
    uint32_t n_learners;
    int64_t best_waits;
    uint32_t nodes;
} tree;

static void sort_down(int32_t *list, uint32_t n) {
    for (uint32_t i = 1; i < n; i++)
        for (uint32_t k = i; k > 0 && list[k - 1] < list[k]; k--) {
            int32_t less = list[k - 1];
            list[k - 1] = list[k];
            list[k] = less;
        }
}

/* Lacks when each learner did all that is still open to them, into r->lacks. */
static void hoped_lacks(tree *r, uint32_t depth) {
    const turns *t = r->t;
    uint32_t n = 0;
    for (kit_index q = 0; q < t->p->workshop->n_crew; q++)
        if (t->who[q].learner)
            r->lacks[n++] = turns_lack(t, q) - r->still[(size_t)depth * PLAN_MAX_CREW + q];
    sort_down(r->lacks, n);
}

static bool can_be_better(tree *r, uint32_t depth, int64_t waits) {
    if (waits != r->best_waits)
        return waits < r->best_waits;
    hoped_lacks(r, depth);
    for (uint32_t k = 0; k < r->n_learners; k++)
        if (r->lacks[k] != r->best_lacks[k])
            return r->lacks[k] < r->best_lacks[k];
    return false;
}

static void keep_best(tree *r, int64_t waits) {
    turns *t = r->t;
    hoped_lacks(r, t->n);
    memcpy(r->best_lacks, r->lacks, r->n_learners * sizeof *r->lacks);
    r->best_waits = waits;
    for (uint32_t x = 0; x < t->n; x++)
        memcpy(r->best + r->first_seat[x], t->s[x].seats, t->p->jobs[t->s[x].job].n_seats * sizeof *r->best);
}

static people_set free_people(const tree *r, uint32_t depth) {
    const turns *t = r->t;
    uint32_t x = r->order[depth];
    people_set free = t->there[x];
    for (uint32_t k = depth; k-- > 0;) {
        const job_stretch *other = &t->s[r->order[k]].when;
        if (other->session != t->s[x].when.session)
            break;
        if (other->to > t->s[x].when.from)
            free &= ~r->on[r->order[k]];
    }
    return free;
}

/* Waits of the session that ends with the stretch at `depth`; 0 while it goes on. */
static int64_t waits_after(const tree *r, uint32_t depth) {
    const turns *t = r->t;
    uint32_t session = t->s[r->order[depth]].when.session;
    int64_t waits = 0;
    if (depth + 1 < t->n && t->s[r->order[depth + 1]].when.session == session)
        return 0;
    for (kit_index q = 0; q < t->p->workshop->n_crew; q++)
        waits += t->who[q].learner ? turns_beyond(t, session, q) : 0;
    return waits;
}

static void branch(tree *r, uint32_t depth, int64_t waits);

/* Puts people on seat `seat` of the stretch at `depth` and on those after it. Hands are taken in the order of the crew, since
 * only who is there counts. */
static void fill_seats(tree *r, uint32_t depth, uint32_t seat, kit_index least, people_set free,
                       int64_t waits) {
    turns *t = r->t;
    uint32_t x = r->order[depth];
    people_stretch *s = &t->s[x];
    const plan_job *j = &t->p->jobs[s->job];
    if (r->nodes >= MOST_NODES)
        return;
    if (seat == j->n_seats) {
        r->nodes++;
        if (!turns_team_fits(t->p, s))
            return;
        r->on[x] = turns_on(t, x);
        turns_count(t, x, 1);
        branch(r, depth + 1, waits + waits_after(r, depth));
        turns_count(t, x, -1);
        return;
    }
    for (kit_index q = least; q < t->p->workshop->n_crew; q++) {
        if (!(free & one_person(q)))
            continue;
        s->seats[seat] = q;
        fill_seats(r, depth, seat + 1, seat < j->beside ? 0 : q + 1, free & ~one_person(q), waits);
    }
}

static void branch(tree *r, uint32_t depth, int64_t waits) {
    if (!can_be_better(r, depth, waits))
        return;
    if (depth == r->t->n) {
        keep_best(r, waits);
        return;
    }
    kit_index before[PLAN_MAX_CREW];
    people_stretch *s = &r->t->s[r->order[depth]];
    uint32_t seats = r->t->p->jobs[s->job].n_seats;
    memcpy(before, s->seats, seats * sizeof *before);
    fill_seats(r, depth, 0, 0, free_people(r, depth), waits);
    memcpy(s->seats, before, seats * sizeof *before);
}

/* Can the person be among the hands of a stretch? */
static bool could_work(const turns *t, uint32_t x, kit_index person) {
    const plan_job *j = &t->p->jobs[t->s[x].job];
    for (uint32_t k = 0; k < j->n_teams; k++)
        for (uint32_t seat = j->beside; seat < j->n_seats; seat++)
            if (j->teams[k].seats[seat] & t->there[x] & one_person(person))
                return true;
    return false;
}

static void open_tree(tree *r, turns *t) {
    planner *p = t->p;
    uint32_t n = 0, seats = 0;
    *r = (tree){.t = t, .best_waits = t->waits};
    r->order = arena_array(p->memory, uint32_t, t->n);
    r->first_seat = arena_array(p->memory, uint32_t, t->n);
    r->on = arena_array(p->memory, people_set, t->n);
    r->still = arena_array(p->memory, int32_t, ((size_t)t->n + 1) * PLAN_MAX_CREW);
    r->lacks = arena_array(p->memory, int32_t, p->workshop->n_crew);
    r->best_lacks = arena_array(p->memory, int32_t, p->workshop->n_crew);
    for (uint32_t s = 0; s < p->calendar.n_sessions; s++)
        for (uint32_t k = 0; k < t->in_session[s]; k++)
            r->order[n++] = (uint32_t)(t->of_session[s][k] - t->s);
    for (uint32_t x = 0; x < t->n; x++) {
        r->first_seat[x] = seats;
        seats += p->jobs[t->s[x].job].n_seats;
    }
    r->best = arena_array(p->memory, kit_index, seats);
    for (kit_index q = 0; q < p->workshop->n_crew; q++) {
        r->n_learners += t->who[q].learner;
        for (uint32_t depth = t->n; depth-- > 0;) {
            uint32_t x = r->order[depth];
            int32_t after = r->still[((size_t)depth + 1) * PLAN_MAX_CREW + q];
            r->still[(size_t)depth * PLAN_MAX_CREW + q] =
                after + (could_work(t, x, q) ? turns_length(t, x) : 0);
        }
    }
}

bool turns_search(turns *t) {
    tree r;
    open_tree(&r, t);
    keep_best(&r, t->waits);
    for (uint32_t x = 0; x < t->n; x++)
        turns_count(t, x, -1);
    branch(&r, 0, 0);
    for (uint32_t x = 0; x < t->n; x++) {
        memcpy(t->s[x].seats, r.best + r.first_seat[x], t->p->jobs[t->s[x].job].n_seats * sizeof *r.best);
        turns_count(t, x, 1);
    }
    t->waits = r.best_waits;
    return r.nodes < MOST_NODES;
}
