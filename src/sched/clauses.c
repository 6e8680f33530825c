/* clauses.c: learned clauses, watched by two literals each (Moskewicz et al., "Chaff", 2001).
 *
 * A clause lies in cells of one array: {size, blocks and USED}, then its literals; the first two are watched. A watch is named
 * 2 * first cell + which of the two; watches.c says where it hangs. */
#include "sched/prover.h"

#include <stdlib.h>

#define HEAD 1          /* cells before the literals */
#define SPARED_BLOCKS 1 /* that a used clause may have above the middle; the long ones go all the same */
#define USED (1 << 30)  /* above the blocks: had a part in a conflict since the last reduction */

uint32_t clause_first(void) {
    return HEAD;
}

uint32_t clause_next(const prover *p, uint32_t ref) {
    return ref + HEAD + (uint32_t)p->cell[ref].node;
}

bool clause_read(const prover *p, uint32_t ref, int32_t *size, int32_t *blocks) {
    if (ref >= p->cells)
        return false;
    *size = p->cell[ref].node;
    *blocks = p->cell[ref].at_least & ~USED;
    return true;
}

int32_t clause_size(const prover *p, uint32_t ref) {
    return p->cell[ref].node;
}

const literal *clause_literals(const prover *p, uint32_t ref) {
    return p->cell + ref + HEAD;
}

bool clauses_open(prover *p) {
    p->cell_room = 1 << 14;
    p->cell = memory_array(p->mem, literal, p->cell_room);
    p->cells = HEAD; /* reference 0 means none */
    return p->cell && watches_open(p);
}

static void watch_first_two(prover *p, uint32_t ref) {
    const literal *l = p->cell + ref + HEAD;
    watch_hang(p, 2 * ref, l[0], l[1]);
    watch_hang(p, 2 * ref + 1, l[1], l[0]);
}

uint32_t clause_add(prover *p, const literal *l, int32_t n, int32_t blocks) {
    uint32_t cells = HEAD + (uint32_t)n;
    if (p->cells + cells > p->cell_room) {
        uint32_t room = 2 * p->cell_room + cells;
        literal *bigger = room >> 30 ? NULL : memory_grow(p->mem, p->cell, p->cells, room, sizeof *bigger);
        if (!bigger) {
            p->out_of_memory = true;
            return 0;
        }
        p->cell = bigger;
        p->cell_room = room;
    }
    if (!watches_reserve(p))
        return 0;
    uint32_t ref = p->cells;
    p->cells += cells;
    p->cell[ref] = (literal){n, blocks};
    for (int32_t k = 0; k < n; k++)
        p->cell[ref + HEAD + (uint32_t)k] = l[k];
    watch_first_two(p, ref);
    p->learned_n++;
    return p->out_of_memory ? 0 : ref;
}

void clause_mark_used(prover *p, uint32_t ref) {
    p->cell[ref].at_least |= USED;
}

/* One watch whose literal just became false. True: it hangs elsewhere now. *ok turns false on conflict. */
static bool find_other(prover *p, watch *w, bool *ok) {
    uint32_t ref = w->at >> 1, which = w->at & 1;
    literal *l = p->cell + ref + HEAD;
    literal other = l[1 - which];
    w->other = other;
    if (is_true(p, other))
        return false;
    int32_t n = p->cell[ref].node;
    for (int32_t k = 2; k < n; k++) {
        p->steps++;
        if (is_false(p, l[k]))
            continue;
        literal mine = l[which];
        l[which] = l[k];
        l[k] = mine;
        watch_hang(p, w->at, l[which], other);
        return true;
    }
    *ok = set_bound(p, other.node, other.at_least, WHY_CLAUSE, (int32_t)ref, 0);
    return false;
}

/* The watches of one bucket that fall in (old, now]. Others may be hung on here meanwhile, which may move the run. */
static bool visit_bucket(prover *p, watch_bucket *b, int32_t old, int32_t now) {
    bool ok = true;
    uint32_t kept = 0;
    p->steps += b->n;
    for (uint32_t k = 0; k < b->n; k++) {
        watch w = p->watch[b->at + k];
        bool falls = ok && w.falls_at > old && w.falls_at <= now && !is_true(p, w.other);
        if (!falls || !find_other(p, &w, &ok))
            p->watch[b->at + kept++] = w;
    }
    b->n = kept;
    return ok;
}

bool propagate_clauses(prover *p, int32_t node, int32_t old) {
    int32_t now = p->bound[node], first = watch_bucket_of(p, node, old + 1),
            last = watch_bucket_of(p, node, now);
    uint64_t todo =
        p->bucket_used[node] & (~(uint64_t)0 << first) & (~(uint64_t)0 >> (WATCH_BUCKETS - 1 - last));
    bool ok = true;
    for (; todo && ok; todo &= todo - 1) {
        int32_t k = __builtin_ctzll(todo);
        watch_bucket *b = &p->bucket[p->bucket_at[node] + k];
        ok = visit_bucket(p, b, old, now);
        if (b->n == 0)
            p->bucket_used[node] &= ~((uint64_t)1 << k);
    }
    return ok;
}

/* ---- reduction --------------------------------------------------------------------------------------------- */

/* Literals false at the root removed, true ones: the whole clause. Returns the new size, 0: superfluous. */
static int32_t shrink(const prover *p, literal *l, int32_t n) {
    int32_t kept = 0;
    for (int32_t k = 0; k < n; k++) {
        if (is_true(p, l[k]))
            return 0;
        if (!is_false(p, l[k]))
            l[kept++] = l[k];
    }
    return kept;
}

/* The number of blocks at or below which half of the learned clauses lie. */
int32_t clauses_middle(const prover *p) {
    int32_t count[64] = {0}, all = 0, sum = 0, k = 0;
    for (uint32_t ref = HEAD; ref < p->cells; ref += HEAD + (uint32_t)p->cell[ref].node) {
        int32_t blocks = p->cell[ref].at_least & ~USED;
        if (blocks > 0) {
            count[blocks < 63 ? blocks : 63]++;
            all++;
        }
    }
    for (; k < 63 && sum + count[k] <= all / 2; k++)
        sum += count[k];
    return k > 2 ? k : 2;
}

void clauses_reduce(prover *p) {
    int32_t middle = clauses_middle(p);
    uint32_t to = HEAD;
    int32_t kept = 0, all = p->learned_n, seen = 0;
    watches_clear(p);
    for (uint32_t ref = HEAD, next; ref < p->cells; ref = next) {
        int32_t n = p->cell[ref].node, blocks = p->cell[ref].at_least & ~USED;
        bool spared = (p->cell[ref].at_least & USED) != 0 && blocks <= middle + SPARED_BLOCKS;
        next = ref + HEAD + (uint32_t)n;
        seen++;
        /* Of those with as many blocks as the middle one, the younger stay. */
        bool drop = !spared && blocks > 2 && (blocks > middle || (blocks == middle && seen < all / 2));
        int32_t size = drop ? 0 : shrink(p, p->cell + ref + HEAD, n);
        if (size < 2)
            continue; /* a clause of one literal has been propagated at the root */
        p->cell[to] = (literal){size, blocks};
        for (int32_t k = 0; k < size; k++)
            p->cell[to + HEAD + (uint32_t)k] = p->cell[ref + HEAD + (uint32_t)k];
        watch_first_two(p, to);
        to += HEAD + (uint32_t)size;
        kept++;
    }
    p->cells = to;
    p->learned_n = kept;
}
