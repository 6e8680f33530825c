/* population.c: genetic search over lists of tasks (Hartmann, "A competitive genetic algorithm for resource-constrained project
 * scheduling", 1998), one side or two.
 *
 * Two sides (Debels and Vanhoucke 2007), where time has no direction: the left one holds schedules built from the start, the right one
 * schedules built from the end. A child of two of the left, read in the order of their ends, is built from the end and goes to the
 * right, and the other way round, so that every pass of the generator justifies and crosses at once.
 *
 * One side, where calendars make the directions differ: a child is built from the start, justified to the right and to the left
 * (Valls et al. 2005) and joins its parents.
 *
 * On each side the worst makes room for a better child, unless the child is there already. */
#include "sched/population.h"

#include <string.h>

#include "sched/breed.h"
#include "sched/fast.h"
#include "sched/generate.h"

/* What suits a budget; measured on j60, j120 and the builds. */
typedef struct {
    uint64_t below; /* schedules */
    int32_t room[2], contest[2];
    uint32_t stirred[2]; /* per cent of the children */
} manner;

static const manner manners[] = {{2000, {30, 60}, {2, 4}, {15, 5}},
                                 {20000, {100, 250}, {2, 6}, {15, 10}},
                                 {UINT64_MAX, {400, 800}, {2, 6}, {40, 15}}};

typedef struct {
    individual *all; /* a heap: the worst is the first */
    int32_t n;
    uint8_t *marks; /* by the low bits of a hash: how many may have it (255: many) */
} side;

typedef struct {
    solve *s;
    const model *m;
    bool quick, two_sided; /* fast.h suits; time has no direction */
    fast f;
    generator g;
    breeder breeder;
    side side[2]; /* the left and the right; the right one only with two sides */
    int32_t room, contest;
    uint32_t stirred;
    individual child;
    uint64_t left;
} population;

#define MARKS (1 << 14)

static bool is_over(population *p) {
    return p->left == 0 || solve_is_over(p->s) || solve_is_stale(p->s);
}

static void spend(population *p, uint64_t passes) {
    p->s->schedules += passes;
    p->left = p->left > passes ? p->left - passes : 0;
    solve_spend(p->s, passes * (uint64_t)p->m->n * 12);
}

/* ---- from a list to a schedule ----------------------------------------------------------------------------- */

static bool decode_left(population *p) {
    individual *c = &p->child;
    c->makespan = fast_early(&p->f, c->list, c->start);
    spend(p, 1);
    if (c->makespan == SCHED_NONE)
        return false;
    (void)solve_offer(p->s, c->start);
    fast_order_by_end(&p->f, c->start, c->list);
    return true;
}

static bool decode_right(population *p) {
    individual *c = &p->child;
    c->makespan = fast_late_anew(&p->f, c->list, c->start, p->f.limit);
    spend(p, 1);
    if (c->makespan == SCHED_NONE)
        return false;
    for (int32_t i = 0; i < p->m->n; i++)
        c->start[i] -= p->f.limit - c->makespan;
    fast_order_by_start(&p->f, c->start, c->list);
    if (c->makespan < p->s->makespan)
        (void)solve_offer(p->s, c->start);
    return true;
}

static bool decode_justified(population *p) {
    individual *c = &p->child;
    c->makespan = fast_early(&p->f, c->list, c->start);
    spend(p, 1);
    if (c->makespan == SCHED_NONE)
        return false;
    fast_late(&p->f, c->start, c->makespan);
    fast_order_by_start(&p->f, c->start, c->list);
    c->makespan = fast_early(&p->f, c->list, c->start);
    spend(p, 2);
    if (c->makespan == SCHED_NONE)
        return false;
    fast_order_by_start(&p->f, c->start, c->list);
    (void)solve_offer(p->s, c->start);
    return true;
}

static bool decode_slowly(population *p) {
    individual *c = &p->child;
    c->makespan = generate_serial(&p->g, c->list);
    spend(p, 1);
    if (c->makespan == SCHED_NONE)
        return false;
    memcpy(c->start, p->g.start, (size_t)p->m->n * sizeof *c->start);
    (void)solve_offer(p->s, c->start);
    return true;
}

/* The child's list into a schedule for side `to`, offered, and the list put in its order. False: no schedule. */
static bool decode(population *p, int to) {
    individual *c = &p->child;
    bool ok = p->two_sided ? (to == 1 ? decode_right(p) : decode_left(p))
              : p->quick   ? decode_justified(p)
                           : decode_slowly(p);
    if (!ok)
        return false;
    c->hash = 0;
    c->late = 0;
    for (int32_t i = 0; i < p->m->n; i++) {
        c->hash = (c->hash ^ (uint64_t)(uint32_t)c->start[i]) * 0x9e3779b97f4a7c15U;
        c->hash ^= c->hash >> 32;
        c->late += to == 1 ? -c->start[i] : c->start[i];
    }
    return true;
}

/* ---- who stays --------------------------------------------------------------------------------------------- */

/* Of two that end at the same time the more compact one, seen from its side, is the better stock. */
static bool better(const individual *a, const individual *b) {
    return a->makespan != b->makespan ? a->makespan < b->makespan : a->late < b->late;
}

static void exchange(individual *a, individual *b) {
    individual t = *a;
    *a = *b;
    *b = t;
}

static void sink_first(side *x) {
    int32_t at = 0;
    for (int32_t child = 1; child < x->n; child = 2 * at + 1) {
        if (child + 1 < x->n && better(&x->all[child], &x->all[child + 1]))
            child++;
        if (!better(&x->all[at], &x->all[child]))
            return;
        exchange(&x->all[at], &x->all[child]);
        at = child;
    }
}

static void rise_last(side *x) {
    for (int32_t at = x->n - 1; at > 0 && better(&x->all[(at - 1) / 2], &x->all[at]); at = (at - 1) / 2)
        exchange(&x->all[at], &x->all[(at - 1) / 2]);
}

static bool is_there(const side *x, uint64_t hash) {
    if (x->marks[hash % MARKS] == 0)
        return false;
    for (int32_t k = 0; k < x->n; k++)
        if (x->all[k].hash == hash)
            return true;
    return false;
}

static void mark(side *x, uint64_t hash, bool there) {
    uint8_t *m = &x->marks[hash % MARKS];
    if (*m < UINT8_MAX)
        *m = (uint8_t)(there ? *m + 1 : *m - 1);
}

static void admit(population *p, side *x) {
    individual *c = &p->child;
    if (is_there(x, c->hash) || (x->n == p->room && !better(c, &x->all[0])))
        return;
    mark(x, c->hash, true);
    if (x->n < p->room) {
        exchange(&x->all[x->n++], c);
        rise_last(x);
    } else {
        mark(x, x->all[0].hash, false);
        exchange(&x->all[0], c);
        sink_first(x);
    }
}

/* The best of a few. */
static const individual *choose(population *p, const side *x) {
    const individual *a = &x->all[rng_below(p->breeder.r, (uint32_t)x->n)];
    for (int32_t k = 1; k < p->contest; k++) {
        const individual *b = &x->all[rng_below(p->breeder.r, (uint32_t)x->n)];
        a = better(b, a) ? b : a;
    }
    return a;
}

/* ---- the search -------------------------------------------------------------------------------------------- */

static bool open_individual(individual *x, int32_t n, memory *mem) {
    x->list = memory_array(mem, int32_t, n);
    x->start = memory_array(mem, int32_t, n);
    return x->list && x->start;
}

static bool open_side(population *p, side *x, memory *mem) {
    x->all = memory_array(mem, individual, p->room);
    x->marks = memory_array(mem, uint8_t, MARKS);
    for (int32_t k = 0; x->all && k < p->room; k++)
        if (!open_individual(&x->all[k], p->m->n, mem))
            return false;
    return x->all && x->marks;
}

static bool open_population(population *p, rng *r, memory *mem) {
    const solve *s = p->s;
    const manner *how = manners;
    p->quick = fast_suits(p->m);
    p->two_sided = s->makespan != SCHED_NONE && fast_turns_round(p->m);
    while (p->left >= how->below)
        how++;
    p->room = how->room[p->two_sided];
    p->contest = how->contest[p->two_sided];
    p->stirred = how->stirred[p->two_sided];
    int32_t limit = s->makespan == SCHED_NONE ? p->m->horizon : 2 * s->makespan;
    limit = limit < p->m->horizon ? limit : p->m->horizon;
    return breeder_open(&p->breeder, p->m, r, mem) && open_individual(&p->child, p->m->n, mem) &&
           open_side(p, &p->side[0], mem) && (!p->two_sided || open_side(p, &p->side[1], mem)) &&
           (p->quick ? fast_open(&p->f, p->m, limit, mem) : generator_open(&p->g, p->m, mem));
}

static void take_in(population *p, int to) {
    if (decode(p, to))
        admit(p, &p->side[to]);
}

/* Random ones, the best known, and on the right what the left ones become when built from the end. */
static void begin(population *p) {
    side *left = &p->side[0];
    for (int32_t k = 0; k < 2 * p->room && left->n < p->room && !is_over(p); k++) {
        breed_random(&p->breeder, p->child.list);
        take_in(p, 0);
    }
    if (p->s->makespan != SCHED_NONE && p->quick && !is_over(p)) {
        fast_order_by_start(&p->f, p->s->best, p->child.list);
        take_in(p, 0);
    }
    for (int32_t k = 0; p->two_sided && k < left->n && !is_over(p); k++) {
        memcpy(p->child.list, left->all[k].list, (size_t)p->m->n * sizeof *p->child.list);
        take_in(p, 1);
    }
}

static void make_child(population *p, const side *from, int to) {
    const individual *a = choose(p, from);
    if (rng_below(p->breeder.r, 100) < p->stirred)
        breed_stir(&p->breeder, a, p->child.list);
    else
        breed_cross(&p->breeder, a, choose(p, from), p->child.list);
    take_in(p, to);
}

void population_run(solve *s, rng *r, uint64_t schedules) {
    population p = {.s = s, .m = &s->m, .left = schedules};
    memory mem;
    memory_open(&mem, s->mem.limit - s->mem.used);
    if (s->m.n > 1 && open_population(&p, r, &mem)) {
        begin(&p);
        int last = p.two_sided ? 1 : 0;
        while (p.side[0].n > 1 && p.side[last].n > 1 && !is_over(&p))
            for (int to = last; to >= 0; to--)
                for (int32_t k = 0; k < p.room && !is_over(&p); k++)
                    make_child(&p, &p.side[last - to], to);
    }
    s->mem.peak = s->mem.used + mem.peak > s->mem.peak ? s->mem.used + mem.peak : s->mem.peak;
    memory_close(&mem);
}
