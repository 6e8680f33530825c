/* clauses.c: learned clauses, watched by two literals each (Moskewicz et al., "Chaff", 2001).
 *
 * A clause lies in cells of one array: {size, blocks and USED}, {next, next}, then its literals; the first two are
 * watched. A watch is 2 * first cell + which of the two; watches of one bucket are linked through the clauses themselves, so that moving
 * one allocates nothing.
 *
 * A literal (y, v) becomes false when node y ^ 1 reaches 1 - v. Its watch hangs on that node, in one of 64 buckets by
 * that value, so that a rising bound visits only the buckets it passes. */
#include "sched/prover.h"

#include <stdlib.h>

#define BUCKETS 64
#define HEAD 2          /* cells before the literals */
#define SPARED_BLOCKS 1 /* that a used clause may have above the middle; the long ones go all the same */
#define USED (1 << 30)  /* above the blocks: had a part in a conflict since the last reduction */

int32_t clause_size(const prover *p, uint32_t ref) {
    return p->cell[ref].node;
}

const literal *clause_literals(const prover *p, uint32_t ref) {
    return p->cell + ref + HEAD;
}

bool clauses_open(prover *p) {
    p->bucket = memory_array(p->mem, uint32_t, (size_t)p->nodes * BUCKETS);
    p->bucket_used = memory_array(p->mem, uint64_t, p->nodes);
    p->bucket_base = memory_array(p->mem, int32_t, p->nodes);
    p->bucket_shift = memory_array(p->mem, int32_t, p->nodes);
    p->cell_room = 1 << 14;
    p->cell = memory_array(p->mem, literal, p->cell_room);
    if (!p->bucket || !p->bucket_used || !p->bucket_base || !p->bucket_shift || !p->cell)
        return false;
    p->cells = HEAD; /* reference 0 means none */
    for (int32_t x = 0; x < p->nodes; x++) {
        p->bucket_base[x] = p->bound[x];
        int64_t range = -(int64_t)p->bound[x ^ 1] - p->bound[x] + 1;
        while ((range >> p->bucket_shift[x]) >= BUCKETS)
            p->bucket_shift[x]++;
    }
    return true;
}

static int32_t bucket_of(const prover *p, int32_t node, int32_t value) {
    int32_t k = (value - p->bucket_base[node]) >> p->bucket_shift[node];
    return k < 0 ? 0 : k >= BUCKETS ? BUCKETS - 1 : k;
}

static int32_t *next_of(prover *p, uint32_t watch) {
    literal *links = &p->cell[(watch >> 1) + 1];
    return (watch & 1) ? &links->at_least : &links->node;
}

static void hang(prover *p, uint32_t watch) {
    literal l = p->cell[(watch >> 1) + HEAD + (watch & 1)];
    int32_t node = l.node ^ 1, k = bucket_of(p, node, 1 - l.at_least);
    uint32_t *head = &p->bucket[(size_t)node * BUCKETS + (size_t)k];
    *next_of(p, watch) = (int32_t)*head;
    *head = watch;
    p->bucket_used[node] |= (uint64_t)1 << k;
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
    uint32_t ref = p->cells;
    p->cells += cells;
    p->cell[ref] = (literal){n, blocks};
    for (int32_t k = 0; k < n; k++)
        p->cell[ref + HEAD + (uint32_t)k] = l[k];
    hang(p, 2 * ref);
    hang(p, 2 * ref + 1);
    p->learned_n++;
    return ref;
}

void clause_mark_used(prover *p, uint32_t ref) {
    p->cell[ref].at_least |= USED;
}

/* One watch whose literal just became false. True: it hangs elsewhere now. *ok turns false on conflict. */
static bool find_other(prover *p, uint32_t watch, bool *ok) {
    uint32_t ref = watch >> 1, which = watch & 1;
    literal *l = p->cell + ref + HEAD;
    literal other = l[1 - which];
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
        hang(p, watch);
        return true;
    }
    *ok = set_bound(p, other.node, other.at_least, WHY_CLAUSE, (int32_t)ref, 0);
    return false;
}

bool propagate_clauses(prover *p, int32_t node, int32_t old) {
    int32_t now = p->bound[node];
    int32_t first = bucket_of(p, node, old + 1), last = bucket_of(p, node, now);
    uint64_t todo = p->bucket_used[node] & (~(uint64_t)0 << first) & (~(uint64_t)0 >> (BUCKETS - 1 - last));
    bool ok = true;
    for (; todo && ok; todo &= todo - 1) {
        int32_t k = __builtin_ctzll(todo);
        uint32_t *head = &p->bucket[(size_t)node * BUCKETS + (size_t)k];
        /* Take the whole list; those that stay are hung on again, so that find_other may hang here too. */
        uint32_t watch = *head, kept = 0, kept_last = 0;
        *head = 0;
        while (watch) {
            uint32_t next = (uint32_t)*next_of(p, watch);
            int32_t falls_at = 1 - p->cell[(watch >> 1) + HEAD + (watch & 1)].at_least;
            p->steps++;
            if (!ok || falls_at <= old || falls_at > now || !find_other(p, watch, &ok)) {
                if (kept)
                    *next_of(p, kept_last) = (int32_t)watch;
                else
                    kept = watch;
                kept_last = watch;
            }
            watch = next;
        }
        if (kept) {
            *next_of(p, kept_last) = (int32_t)*head;
            *head = kept;
        } else if (*head == 0) {
            p->bucket_used[node] &= ~((uint64_t)1 << k);
        }
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
static int32_t middle_blocks(const prover *p) {
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
    int32_t middle = middle_blocks(p);
    uint32_t to = HEAD;
    int32_t kept = 0, all = p->learned_n, seen = 0;
    for (size_t k = 0; k < (size_t)p->nodes * BUCKETS; k++)
        p->bucket[k] = 0;
    for (int32_t x = 0; x < p->nodes; x++)
        p->bucket_used[x] = 0;
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
        hang(p, 2 * to);
        hang(p, 2 * to + 1);
        to += HEAD + (uint32_t)size;
        kept++;
    }
    p->cells = to;
    p->learned_n = kept;
}
