/* explain.c: a reason turned into literals. Each was true just before the entry it explains. */
#include "sched/prover.h"

#include <assert.h>

void check_why(const prover *p) {
#ifdef KB_CHECK_EXPLANATIONS
    for (int32_t k = 0; k < p->why_n; k++)
        assert(p->past[p->why[k].node] >= p->why[k].at_least);
#else
    (void)p;
#endif
}

static void explain_clause(prover *p, uint32_t ref, literal l) {
    const literal *c = clause_literals(p, ref);
    for (int32_t k = 0, n = clause_size(p, ref); k < n; k++)
        if (c[k].node != l.node || c[k].at_least < l.at_least) /* all but the one that was made true */
            add_why(p, c[k].node ^ 1, 1 - c[k].at_least);
}

void explain(prover *p, why_kind kind, int32_t a, int32_t b, literal l) {
    p->why_n = 0;
    if (l.node >= 0)
        l.at_least = weakest(p, l.node, l.at_least);
    switch (kind) {
    case WHY_ROOT:
    case WHY_DECISION:
        break;
    case WHY_CLAUSE:
        explain_clause(p, (uint32_t)a, l);
        break;
    case WHY_ARC:
        add_why(p, a, l.at_least - b);
        break;
    case WHY_ORDER: {
        const order_arc *arc = &p->order_arc[a];
        add_why(p, arc->when, (arc->when & 1) ? 0 : 1);
        add_why(p, arc->from, l.at_least - arc->distance);
        break;
    }
    case WHY_TOO_LATE:
        explain_too_late(p, a, l);
        break;
    case WHY_TABLE:
        explain_table(p, a, b, l);
        break;
    case WHY_BEYOND:
        explain_general(p, a, b, l);
        break;
    case WHY_STOCK:
        explain_stock(p, a, b, l);
        break;
    case WHY_ENERGY:
        explain_energy(p, a, b, l);
        break;
    case WHY_COST:
        explain_cost(p, a, b, l);
        break;
    }
    check_why(p);
}
