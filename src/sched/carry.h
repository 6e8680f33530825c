/* carry.h: what one prover has learned, for the next. Private to sched/.
 *
 * A caller's refusal changes the model, so that the prover is built anew. Rules are only ever added and the best schedule only gets
 * shorter, so that what was learned still follows; only the numbers of the order variables change. */
#ifndef SCHED_CARRY_H
#define SCHED_CARRY_H

#include "sched/prover.h"

/* A learned clause's literal, in words that outlive the prover. */
typedef struct {
    int32_t first, second; /* `second` SCHED_NONE: of the variable `first`, else of "first before second" */
    int32_t side;          /* 0: the variable, 1: its negative, is at least */
    int32_t at_least;
} carried_literal;

struct carried {
    carried_literal *literal;
    int32_t *end, *blocks; /* by clause; blocks: as learned */
    int32_t literals, clauses, literal_room, clause_room;
};

/* Keeps, in s->carried, the facts at the root and the better half of the clauses, as far as there is room. Of the first stage only. */
void carry_out(prover *p);

/* Hands a new prover, at its root, what was kept. false: no memory. */
bool carry_in(prover *p);

#endif
