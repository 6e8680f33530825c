/* containers.c: how far the check of each box and bag is, with all that is nested in it. */
#include "stock/assess.h"

static void add_to(stock_container *c, const stock_row *r) {
    c->rows++;
    c->counted += r->counted;
    c->nothing_found += r->counted && !r->usable && !r->damaged;
    c->all_right += r->counted && !r->lacking && !r->extra && !r->damaged;
}

void assess_containers(assessment *as) {
    const kit *k = as->kit;
    stock *s = as->out;
    for (kit_index i = 0; i < k->n_rows; i++) {
        for (kit_index c = k->rows[i].container; c != KIT_NONE; c = k->containers[c].inside)
            add_to(&s->containers[c], &s->rows[i]);
        add_to(&s->whole, &s->rows[i]);
    }
    for (uint32_t i = 0; i < as->record->n_finds; i++) {
        for (kit_index c = as->record->finds[i].container; c != KIT_NONE; c = k->containers[c].inside)
            s->containers[c].finds++;
        s->whole.finds++;
    }
    s->whole.received = s->boxes_received == s->boxes;
    s->whole.mass_g = -1;
}

bool stock_is_absent(const stock_container *c) {
    return c->rows && c->nothing_found == c->rows;
}
