/* stops.c: which steps the missing pieces stop (share.h), from the stock as it stands. */
#include "stock/assess.h"

void assess_stops(assessment *as) {
    const kit *k = as->kit;
    stock *s = as->out;
    if (!k->n_steps)
        return;
    stock_pieces *pieces = arena_array(as->memory, stock_pieces, k->n_parts);
    for (kit_index i = 0; i < k->n_parts; i++)
        pieces[i] = (stock_pieces){stock_available(s, i), s->parts[i].supplies, s->parts[i].n_supplies};
    stock_sharing sharing = {.fate = arena_array(as->memory, stock_fate, k->n_steps)};
    for (kit_index i = 0; i < k->n_steps; i++) /* what was begun has drawn its pieces */
        sharing.fate[i] = s->work->steps[i].state == STOCK_TO_DO ? STOCK_FATE_GOES : STOCK_FATE_DONE;
    stock_share_pieces(as->memory, k, kit_build_order(as->memory, k), pieces, &sharing);
    s->stops = sharing.stops;
    s->n_stops = sharing.n_stops;
}
