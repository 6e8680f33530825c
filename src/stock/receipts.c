/* receipts.c: boxes at the door: which came, what they weigh, and until when damage and gaps can be reported. */
#include "stock/assess.h"

/* A bathroom or luggage scale is off by some 100 g, packing by some per cent; common practice, no source. */
enum { SCALE_G = 300, PACKING_PERCENT = 3 };

static void weigh(const kit_container *stated, stock_container *c) {
    if (c->mass_g < 0 || stated->gross_mass_g < 0)
        return;
    c->mass_difference_g = c->mass_g - stated->gross_mass_g;
    int64_t apart = c->mass_difference_g < 0 ? -c->mass_difference_g : c->mass_difference_g;
    c->mass_doubtful = apart > SCALE_G && apart * 100 > stated->gross_mass_g * PACKING_PERCENT;
}

static date_day days_after(date_day day, int64_t days) {
    return day == INT32_MAX || days <= 0 || days > INT32_MAX - day ? INT32_MAX : day + (date_day)days;
}

void assess_receipts(assessment *as) {
    stock *s = as->out;
    const kit *k = as->kit;
    for (kit_index i = 0; i < k->n_containers; i++) {
        s->containers[i].mass_g = -1;
        s->boxes += k->containers[i].inside == KIT_NONE;
    }
    s->delivered = INT32_MAX;
    for (uint32_t i = 0; i < as->record->n_receipts; i++) {
        const stock_receipt *r = &as->record->receipts[i];
        stock_container *c = &s->containers[r->box];
        c->received = true;
        c->mass_g = r->mass_g;
        c->damage = r->damage;
        c->received_at = r->at;
        weigh(&k->containers[r->box], c);
        s->boxes_received++;
        if (date_of_moment(r->at) < s->delivered)
            s->delivered = date_of_moment(r->at);
    }
    s->report_by = days_after(s->delivered, k->report_within_days);
    s->carrier_by = days_after(s->delivered, k->carrier_within_days);
}
