/* supply.c: the pieces of a plan's input, shared out by the rule of the stock room. */
#include "plan/supply.h"

int64_t supply_usable(const plan_input *in, kit_index part) {
    int64_t usable = in->usable ? in->usable[part] : kit_packed(in->kit, part);
    return usable > 0 ? usable : 0;
}

int64_t supply_needed(const kit *k, kit_index part) {
    int64_t sum = 0;
    for (uint32_t x = 0; x < k->n_step_parts; x++)
        sum += k->step_parts[x].part == part ? k->step_parts[x].quantity : 0;
    return sum;
}

date_moment supply_last_arrival(const plan_input *in) {
    date_moment last = INT64_MIN;
    for (uint32_t k = 0; k < in->n_arrivals; k++)
        if (in->arrivals[k].at > last)
            last = in->arrivals[k].at;
    return last;
}

void supply_share(arena *a, const plan_input *in, const kit_index *order, supply *s) {
    const kit *k = in->kit;
    stock_pieces *pieces = arena_array(a, stock_pieces, k->n_parts);
    stock_supply *promised = arena_array(a, stock_supply, k->n_parts); /* when is the scheduling's matter */
    for (kit_index p = 0; p < k->n_parts; p++)
        pieces[p] = (stock_pieces){supply_usable(in, p), &promised[p], 1};
    for (uint32_t x = 0; x < in->n_arrivals; x++)
        promised[in->arrivals[x].part].quantity += in->arrivals[x].quantity;
    stock_sharing sharing = {.fate = s->fate};
    stock_share_pieces(a, k, order, pieces, &sharing);
    s->waits_for = sharing.waits_for;
    s->drawn = sharing.drawn;
    s->stopped = arena_array(a, plan_stopped, sharing.n_stops);
    s->n_stopped = 0;
    for (uint32_t n = 0; n < sharing.n_stops; n++) {
        const stock_stop *stop = &sharing.stops[n];
        if (stop->unpromised)
            s->stopped[s->n_stopped++] = (plan_stopped){stop->step, stop->part, stop->unpromised};
    }
}
