/* population.c: genetic search over activity lists (Hartmann, "A competitive genetic algorithm for resource-constrained project
 * scheduling", 1998) with one double justification for each child (Valls et al. 2005).
 *
 * An individual is a list of the tasks, each after its predecessors, in the order of the starts of its own schedule. A child takes
 * the first and the last stretch of one parent and between them what the other has, in the other's order; or it is one parent with a
 * stretch stirred, which searches the neighbourhood of a window of time. A child that equals an
 * individual is dropped, a better one replaces the worst. */
#include "sched/population.h"

#include <string.h>

#include "sched/fast.h"
#include "sched/generate.h"

typedef struct {
    int32_t makespan;
    uint64_t hash; /* of the starts */
    int64_t sum;   /* of the starts: among equals the more compact schedule is the better stock */
    int32_t *list, *start;
} individual;

typedef struct {
    solve *s;
    rng *r;
    const model *m;
    bool quick; /* fast.h suits */
    fast f;
    generator g;
    individual *all;
    int32_t n, room, noise; /* noise: in longest durations, when sampling */
    individual child;
    bool *taken;
    int32_t *key, *heap, *waiting;
    uint64_t left;
} population;

static uint64_t hash_of(const int32_t *start, int32_t n) {
    uint64_t h = 0;
    for (int32_t i = 0; i < n; i++)
        h = (h ^ (uint64_t)(uint32_t)start[i]) * 0x9e3779b97f4a7c15U;
    return h;
}

static void spend(population *p, uint64_t passes) {
    p->s->schedules += passes;
    p->left = p->left > passes ? p->left - passes : 0;
    solve_spend(p->s, passes * (uint64_t)p->m->n * 12);
}

/* The child's list into a schedule, improved, and the list put in its order. False: no schedule. */
static bool decode(population *p) {
    individual *c = &p->child;
    int32_t n = p->m->n;
    if (!p->quick) {
        c->makespan = generate_serial(&p->g, c->list);
        spend(p, 1);
        if (c->makespan == SCHED_NONE)
            return false;
        memcpy(c->start, p->g.start, (size_t)n * sizeof *c->start);
        return true;
    }
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
    return true;
}

static bool better(const individual *a, const individual *b) {
    return a->makespan < b->makespan;
}

/* Takes the child in unless it is a double or the worst of all. */
static void admit(population *p) {
    individual *c = &p->child;
    c->hash = hash_of(c->start, p->m->n);
    c->sum = 0;
    for (int32_t i = 0; i < p->m->n; i++)
        c->sum += c->start[i];
    if (p->s->makespan == SCHED_NONE || c->makespan < p->s->makespan)
        (void)solve_offer(p->s, c->start);
    int32_t worst = 0;
    for (int32_t k = 0; k < p->n; k++) {
        if (p->all[k].hash == c->hash)
            return;
        if (better(&p->all[worst], &p->all[k]))
            worst = k;
    }
    if (p->n < p->room)
        worst = p->n++;
    else if (!better(c, &p->all[worst]))
        return;
    individual out = p->all[worst];
    p->all[worst] = *c;
    *c = out;
}

/* A random list: regret-biased draws from the latest starts, the classic sampling rule, by adding noise to the key. */
static void sample(population *p) {
    const model *m = p->m;
    int32_t spread = 1;
    for (int32_t i = 0; i < m->n; i++)
        spread = m->duration[i] > spread ? m->duration[i] : spread;
    for (int32_t i = 0; i < m->n; i++)
        p->key[i] = m->lst[i] + (int32_t)rng_below(p->r, (uint32_t)(p->noise * spread));
    order_by_key(m, p->key, p->child.list, p->heap, p->waiting);
}

static void cross(population *p, const individual *a, const individual *b) {
    int32_t n = p->m->n, at = 0;
    int32_t from = (int32_t)rng_below(p->r, (uint32_t)n + 1), to = (int32_t)rng_below(p->r, (uint32_t)n + 1);
    if (from > to) {
        int32_t t = from;
        from = to;
        to = t;
    }
    memset(p->taken, 0, (size_t)n * sizeof *p->taken);
    int32_t *list = p->child.list;
    for (; at < from; at++) {
        list[at] = a->list[at];
        p->taken[list[at]] = true;
    }
    for (int32_t k = 0; k < n && at < to; k++)
        if (!p->taken[b->list[k]]) {
            list[at] = b->list[k];
            p->taken[list[at++]] = true;
        }
    for (int32_t k = 0; k < n && at < n; k++)
        if (!p->taken[a->list[k]])
            list[at++] = a->list[k];
}

static bool follows(const model *m, int32_t first, int32_t second) {
    for (int32_t k = m->after_at[first]; k < m->after_at[first + 1]; k++)
        if (m->after[k].task == second)
            return true;
    return false;
}

static void mutate(population *p) {
    int32_t *list = p->child.list, n = p->m->n;
    for (int32_t k = 0; k + 1 < n; k++)
        if (rng_below(p->r, 20) == 0 && !follows(p->m, list[k], list[k + 1])) {
            int32_t t = list[k];
            list[k] = list[k + 1];
            list[k + 1] = t;
        }
}

/* The list of one individual with a stretch of it stirred: what stands there moves back by less than its length. */
static void stir(population *p, const individual *a) {
    int32_t n = p->m->n, most = n / 3 > 4 ? n / 3 : 4;
    int32_t length = 3 + (int32_t)rng_below(p->r, (uint32_t)most);
    int32_t from = (int32_t)rng_below(p->r, (uint32_t)(n + length)) - length;
    for (int32_t k = 0; k < n; k++) {
        bool inside = k >= from && k < from + length;
        p->key[a->list[k]] = k + (inside ? (int32_t)rng_below(p->r, (uint32_t)length) : 0);
    }
    order_by_key(p->m, p->key, p->child.list, p->heap, p->waiting);
}

static const individual *choose(population *p) {
    const individual *a = &p->all[rng_below(p->r, (uint32_t)p->n)];
    const individual *b = &p->all[rng_below(p->r, (uint32_t)p->n)];
    return better(a, b) ? a : b;
}

static bool open_individual(individual *x, int32_t n, memory *mem) {
    x->list = memory_array(mem, int32_t, n);
    x->start = memory_array(mem, int32_t, n);
    return x->list && x->start;
}

static bool open_population(population *p, int32_t room) {
    memory *mem = &p->s->mem;
    int32_t n = p->m->n;
    p->room = room;
    p->noise = room <= 30 ? 3 : 5;
    p->quick = fast_suits(p->m);
    p->all = memory_array(mem, individual, room);
    p->taken = memory_array(mem, bool, n);
    p->key = memory_array(mem, int32_t, n);
    p->heap = memory_array(mem, int32_t, n);
    p->waiting = memory_array(mem, int32_t, n);
    if (!p->all || !p->taken || !p->key || !p->heap || !p->waiting || !open_individual(&p->child, n, mem))
        return false;
    for (int32_t k = 0; k < room; k++)
        if (!open_individual(&p->all[k], n, mem))
            return false;
    int32_t limit = p->s->makespan == SCHED_NONE ? p->m->horizon : 2 * p->s->makespan;
    limit = limit < p->m->horizon ? limit : p->m->horizon;
    return p->quick ? fast_open(&p->f, p->m, limit, mem) : generator_open(&p->g, p->m, mem);
}

static void close_population(population *p) {
    memory *mem = &p->s->mem;
    void *all[] = {p->taken,       p->key,      p->heap,    p->waiting,    p->child.list,
                   p->child.start, p->f.fresh,  p->f.free,  p->f.after,    p->f.before,
                   p->f.bin,       p->f.sorted, p->g.free,  p->g.start,    p->g.end,
                   p->g.waiting,   p->g.placed, p->g.stock, p->g.stock_at, p->g.stock_n};
    for (size_t k = 0; k < sizeof all / sizeof *all; k++)
        memory_give_back(mem, all[k]);
    for (int32_t k = 0; p->all && k < p->room; k++) {
        memory_give_back(mem, p->all[k].list);
        memory_give_back(mem, p->all[k].start);
    }
    memory_give_back(mem, p->all);
}

void population_run(solve *s, rng *r, uint64_t schedules) {
    population p = {.s = s, .r = r, .m = &s->m, .left = schedules};
    int32_t room = schedules < 2000 ? 30 : schedules < 20000 ? 100 : 400;
    uint32_t stirred = schedules < 20000 ? 15 : 40; /* per cent of the children; measured */
    if (s->m.n < 2 || !open_population(&p, room)) {
        close_population(&p);
        return;
    }
    for (int32_t k = 0; k < 2 * room && p.left > 0 && !solve_is_over(s) && !solve_is_stale(s); k++) {
        sample(&p);
        if (decode(&p))
            admit(&p);
        if (p.n == room)
            break;
    }
    if (s->makespan != SCHED_NONE && p.n > 0 && p.quick) { /* the best known, as one of them */
        memcpy(p.child.start, s->best, (size_t)s->m.n * sizeof *s->best);
        fast_order_by_start(&p.f, p.child.start, p.child.list);
        if (decode(&p))
            admit(&p);
    }
    while (p.n > 1 && p.left > 0 && !solve_is_over(s) && !solve_is_stale(s)) {
        if (rng_below(r, 100) < stirred) {
            stir(&p, choose(&p));
        } else {
            cross(&p, choose(&p), choose(&p));
            mutate(&p);
        }
        if (decode(&p))
            admit(&p);
    }
    close_population(&p);
}
