/* carry.c: see carry.h. */
#include "sched/carry.h"

enum { CLAUSES_MAX = 8000, LITERALS_MAX = 160000 };

static carried_literal in_words(const prover *p, literal l) {
    int32_t x = l.node >> 1;
    if (x <= p->makespan)
        return (carried_literal){x, SCHED_NONE, l.node & 1, l.at_least};
    const order_pair *pair = &p->pair[x - p->makespan - 1];
    return (carried_literal){pair->a, pair->b, l.node & 1, l.at_least};
}

static void keep_clause(const prover *p, struct carried *c, const literal *l, int32_t n, int32_t blocks) {
    if (c->clauses == c->clause_room || c->literals + n > c->literal_room)
        return;
    for (int32_t k = 0; k < n; k++)
        if (l[k].node >= 2 * p->first_cost)
            return;
    for (int32_t k = 0; k < n; k++)
        c->literal[c->literals++] = in_words(p, l[k]);
    c->blocks[c->clauses] = blocks;
    c->end[c->clauses++] = c->literals;
}

static struct carried *make_room(solve *s) {
    struct carried *c = s->carried;
    if (c)
        return c;
    c = memory_array(&s->keep, struct carried, 1);
    if (!c)
        return NULL;
    c->literal = memory_array(&s->keep, carried_literal, LITERALS_MAX);
    c->end = memory_array(&s->keep, int32_t, CLAUSES_MAX);
    c->blocks = memory_array(&s->keep, int32_t, CLAUSES_MAX);
    if (c->literal && c->end && c->blocks) {
        c->literal_room = LITERALS_MAX;
        c->clause_room = CLAUSES_MAX;
    }
    s->carried = c;
    return c;
}

void carry_out(prover *p) {
    struct carried *c = make_room(p->s);
    if (!c || p->inconsistent)
        return;
    c->clauses = c->literals = 0;
    for (int32_t node = 0; node < 2 * p->first_cost; node++) {
        literal fact = {node, p->root[node]};
        if (p->root[node] > p->first_bound[node])
            keep_clause(p, c, &fact, 1, 1);
    }
    int32_t middle = clauses_middle(p), n, blocks;
    for (uint32_t ref = clause_first(); clause_read(p, ref, &n, &blocks); ref = clause_next(p, ref))
        if (blocks > 0 && blocks <= middle)
            keep_clause(p, c, clause_literals(p, ref), n, blocks);
}

/* The order variable of two tasks: its literal, or false when they have none any more. */
static bool order_literal(const prover *p, const carried_literal *c, literal *out) {
    for (int32_t k = p->pair_at[c->first]; k < p->pair_at[c->first + 1]; k++) {
        const order_pair *pair = &p->pair[p->pair_of[k]];
        if (pair->a == c->first && pair->b == c->second) {
            *out = (literal){2 * pair->order + c->side, c->at_least};
            return true;
        }
    }
    return false;
}

/* Adds what is left of a clause at the root. */
static bool add(prover *p, int32_t n, int32_t blocks) {
    literal *l = p->lesson;
    int32_t kept = 0;
    for (int32_t k = 0; k < n; k++) {
        if (is_true(p, l[k]))
            return true;
        if (!is_false(p, l[k]))
            l[kept++] = l[k];
    }
    if (kept == 0 || (kept == 1 && !set_bound(p, l[0].node, l[0].at_least, WHY_ROOT, 0, 0)))
        p->inconsistent = true;
    return kept < 2 || clause_add(p, l, kept, blocks) != 0;
}

bool carry_in(prover *p) {
    const struct carried *c = p->s->carried;
    for (int32_t k = 0, at = 0; c && k < c->clauses && !p->inconsistent; at = c->end[k++]) {
        int32_t n = c->end[k] - at;
        bool whole = n <= p->nodes;
        for (int32_t j = 0; j < n && whole; j++) {
            const carried_literal *l = &c->literal[at + j];
            if (l->second == SCHED_NONE)
                p->lesson[j] = (literal){2 * l->first + l->side, l->at_least};
            else
                whole = order_literal(p, l, &p->lesson[j]);
        }
        if (whole && !add(p, n, c->blocks[k]))
            return false;
    }
    return true;
}
