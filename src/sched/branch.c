/* branch.c: what to assume next.
 *
 * Until the first restart the unfixed task with the earliest possible start is started then. Afterwards the atom "x >= v" most
 * active in recent conflicts is decided (Moskewicz et al. 2001, on exact bounds), towards the best schedule known.
 * An atom found decided is put aside and comes back when the level at which it was seen so is undone. */
#include "sched/prover.h"

#define RESCALE 1e30F

bool branch_open(prover *p) {
    p->atom_at = memory_array(p->mem, int32_t, p->variables + 1);
    p->atom_base = memory_array(p->mem, int32_t, p->variables);
    if (!p->atom_at || !p->atom_base)
        return false;
    int64_t atoms = 0;
    for (int32_t x = 0; x < p->first_cost; x++) { /* costs are not decided */
        p->atom_at[x] = (int32_t)atoms;
        p->atom_base[x] = lower(p, x);
        atoms += upper(p, x) - lower(p, x) + 2;
        if (atoms > INT32_MAX / 2)
            return false;
    }
    p->atoms = (int32_t)atoms;
    p->atom_at[p->first_cost] = p->atoms;
    p->activity = memory_array(p->mem, float, p->atoms);
    p->heap = memory_array(p->mem, int32_t, p->atoms);
    p->heap_place = memory_array(p->mem, int32_t, p->atoms);
    p->aside = memory_array(p->mem, int32_t, p->atoms);
    p->aside_level = memory_array(p->mem, int32_t, p->atoms);
    p->target = memory_array(p->mem, int32_t, p->variables);
    p->bump = 1;
    return p->activity && p->heap && p->heap_place && p->aside && p->aside_level && p->target;
}

/* heap_place: 0 never in the heap, > 0 place + 1, -1 aside. */
static void put(prover *p, int32_t place, int32_t atom) {
    p->heap[place] = atom;
    p->heap_place[atom] = place + 1;
}

static void rise(prover *p, int32_t place) {
    int32_t atom = p->heap[place];
    while (place > 0 && p->activity[p->heap[(place - 1) / 2]] < p->activity[atom]) {
        put(p, place, p->heap[(place - 1) / 2]);
        place = (place - 1) / 2;
    }
    put(p, place, atom);
}

static void sink(prover *p, int32_t place) {
    int32_t atom = p->heap[place];
    for (int32_t child = 2 * place + 1; child < p->heap_n; child = 2 * place + 1) {
        if (child + 1 < p->heap_n && p->activity[p->heap[child + 1]] > p->activity[p->heap[child]])
            child++;
        if (p->activity[p->heap[child]] <= p->activity[atom])
            break;
        put(p, place, p->heap[child]);
        place = child;
    }
    put(p, place, atom);
}

static void push(prover *p, int32_t atom) {
    p->heap[p->heap_n] = atom;
    rise(p, p->heap_n++);
}

static int32_t pop(prover *p) {
    int32_t atom = p->heap[0];
    p->heap[0] = p->heap[--p->heap_n];
    if (p->heap_n > 0)
        sink(p, 0);
    return atom;
}

static void rescale(prover *p) {
    for (int32_t k = 0; k < p->atoms; k++)
        p->activity[k] /= RESCALE;
    p->bump /= RESCALE;
}

/* The atom "x >= v" that l or its opposite is. */
static int32_t atom_of(const prover *p, literal l) {
    int32_t x = l.node >> 1, v = (l.node & 1) ? 1 - l.at_least : l.at_least;
    return p->atom_at[x] + weakest(p, 2 * x, v) - p->atom_base[x];
}

void branch_bump(prover *p, literal l) {
    if (l.node >= 2 * p->first_cost)
        return;
    int32_t atom = atom_of(p, l);
    p->activity[atom] += p->bump;
    int32_t place = p->heap_place[atom];
    if (place == 0)
        push(p, atom);
    else if (place > 0)
        rise(p, place - 1);
    if (p->activity[atom] > RESCALE)
        rescale(p);
}

void branch_decay(prover *p) {
    p->bump *= 1.0F / 0.95F;
}

void branch_undone(prover *p) {
    while (p->aside_n > 0 && p->aside_level[p->aside_n - 1] > p->level)
        push(p, p->aside[--p->aside_n]);
}

static int32_t variable_of(const prover *p, int32_t atom) {
    int32_t low = 0, high = p->first_cost;
    while (high - low > 1) {
        int32_t mid = (low + high) / 2;
        if (p->atom_at[mid] <= atom)
            low = mid;
        else
            high = mid;
    }
    return low;
}

static void assume(prover *p, int32_t node, int32_t value) {
    if (!new_level(p))
        return;
    p->decisions++;
    (void)set_bound(p, node, value, WHY_DECISION, 0, 0); /* both sides are still open: cannot fail */
}

static bool decide_by_activity(prover *p) {
    while (p->heap_n > 0) {
        int32_t atom = pop(p), x = variable_of(p, atom), v = p->atom_base[x] + atom - p->atom_at[x];
        p->heap_place[atom] = -1;
        p->aside[p->aside_n] = atom;
        if (lower(p, x) >= v || upper(p, x) < v) {
            p->aside_level[p->aside_n++] = p->level;
            continue;
        }
        p->aside_level[p->aside_n++] = p->level + 1;
        bool up = p->has_target ? p->target[x] >= v : false;
        if (up)
            assume(p, 2 * x, v);
        else
            assume(p, 2 * x + 1, 1 - v);
        return true;
    }
    return false;
}

static bool decide_by_start(prover *p) {
    int32_t best = SCHED_NONE;
    for (int32_t i = 0; i < p->n; i++) {
        int32_t s = lower(p, i), u = upper(p, i);
        if (s == u)
            continue;
        if (best == SCHED_NONE || s < lower(p, best) || (s == lower(p, best) && u < upper(p, best)))
            best = i;
    }
    p->steps += (uint64_t)p->n / 4;
    if (best != SCHED_NONE && p->rows > 0) { /* where it costs least */
        int32_t at = cost_best_start(p, p->rows - 1, best);
        if (at == lower(p, best))
            assume(p, 2 * best + 1, -at);
        else
            assume(p, 2 * best, at);
        return true;
    }
    if (best != SCHED_NONE) {
        assume(p, 2 * best + 1, -lower(p, best));
        return true;
    }
    if (lower(p, p->makespan) < upper(p, p->makespan)) {
        assume(p, 2 * p->makespan + 1, -lower(p, p->makespan));
        return true;
    }
    return false;
}

bool decide(prover *p) {
    return (p->by_activity && decide_by_activity(p)) || decide_by_start(p);
}
