/* plan.c: the plan of a build, from its stock. */
#include "desk/desk.h"

bool desk_plan(const desk *d, const plan_input *how, plan **out, err *e) {
    plan_input in = *how;
    uint32_t n = 0;
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        n += d->stock->parts[p].n_supplies;
    int64_t *usable = arena_array(d->memory, int64_t, d->kit->n_parts);
    plan_arrival *arrivals = arena_array(d->memory, plan_arrival, n);
    n = 0;
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        const stock_part *part = &d->stock->parts[p];
        usable[p] = stock_available(d->stock, p);
        for (uint32_t k = 0; k < part->n_supplies; k++)
            arrivals[n++] = (plan_arrival){p, part->supplies[k].quantity,
                                           (date_moment)part->supplies[k].day * MINUTES_PER_DAY};
    }
    in.kit = d->kit;
    in.workshop = d->workshop;
    in.usable = usable;
    in.arrivals = arrivals;
    in.n_arrivals = n;
    return plan_make(d->memory, &in, out, e);
}
