/* propagate.c: to the fixpoint, cheap propagators first. */
#include "sched/prover.h"

static bool propagate_entry(prover *p, int32_t at) {
    const trail_entry e = p->trail[at];
    int32_t x = e.node >> 1;
    if (x < p->n && !p->dirty[x]) {
        p->dirty[x] = true;
        p->dirty_task[p->dirty_n++] = x;
    }
    if (x < p->n)
        energy_touch(p, x);
    p->steps += 4;
    if (!propagate_arcs(p, &e))
        return false;
    if (p->general_arcs && x < p->n + 1 && !propagate_general(p, &e))
        return false;
    if (p->pairs && !propagate_orders(p, &e))
        return false;
    return propagate_clauses(p, e.node, e.old);
}

bool propagate(prover *p) {
    if (p->level == 0 && !propagate_all_general(p))
        return false;
    for (;;) {
        while (p->done < p->trail_n)
            if (!propagate_entry(p, p->done++))
                return false;
        if (!table_update(p) || !table_filter(p))
            return false;
        if (p->done < p->trail_n)
            continue;
        if (p->m->reservoirs && !propagate_stock(p))
            return false;
        if (p->done < p->trail_n)
            continue;
        if (p->rows && !propagate_costs(p))
            return false;
        if (p->done < p->trail_n)
            continue;
        if (p->energy_on && !propagate_energy(p))
            return false;
        if (p->done == p->trail_n)
            return true;
    }
}
