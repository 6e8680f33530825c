/* batteries.c: batteries that were measured below what the kit's maker expects on arrival. */
#include "stock/assess.h"

static const kit_battery *battery_of(const kit *k, kit_index part) {
    for (kit_index i = 0; i < k->n_batteries; i++)
        if (k->batteries[i].part == part)
            return &k->batteries[i];
    return NULL;
}

void assess_batteries(assessment *as) {
    stock *s = as->out;
    s->low_batteries = arena_array(as->memory, stock_low_battery, as->record->n_voltages);
    for (uint32_t i = 0; i < as->record->n_voltages; i++) {
        const stock_voltage *v = &as->record->voltages[i];
        const kit_battery *b = battery_of(as->kit, as->kit->rows[v->row].part);
        if (!b || v->millivolts >= b->arrival_low_mv)
            continue;
        s->low_batteries[s->n_low_batteries++] =
            (stock_low_battery){v->row, v->piece, v->millivolts, b->arrival_low_mv};
        s->whole.low_batteries++;
        for (kit_index c = as->kit->rows[v->row].container; c != KIT_NONE; c = as->kit->containers[c].inside)
            s->containers[c].low_batteries++;
    }
}
