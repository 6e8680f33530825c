/* state_shared.c: who has which box, second counts, labels, as the pages see them. */
#include "web/state.h"

static void put_hold(state *s, const desk *d, const stock_hold *h) {
    json_out *j = state_put(s, false, "hold/%.*s", TEXT_ARG(d->kit->containers[h->container].number));
    json_put_text(j, "place", h->place);
    json_put_array(j, "people");
    for (uint32_t i = 0; i < h->people.n; i++)
        json_put_text(j, NULL, h->people.list[i]);
    json_end_array(j);
    state_done(s);
}

/* The last second count of a row, where it differs from the count: for the leader alone. */
static void put_second(state *s, const desk *d, const stock_second_count *c) {
    const stock_row *r = &d->stock->rows[c->row];
    const kit_row *k = &d->kit->rows[c->row];
    json_out *j = state_put(s, true, "second/%lld", (long long)c->entry);
    json_put_text(j, "in", d->kit->containers[k->container].number);
    json_put_integer(j, "line", k->line);
    json_put_integer(j, "usable", c->usable);
    json_put_integer(j, "damaged", c->damaged);
    json_put_text(j, "person", c->person);
    json_put_bool(j, "agrees", r->counted && r->usable - r->arrived == c->usable && r->damaged == c->damaged);
    state_done(s);
}

void state_put_shared(state *s, const desk *d) {
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        put_hold(s, d, &d->record.holds[i]);
    for (uint32_t i = 0; i < d->record.n_second_counts; i++)
        put_second(s, d, &d->record.second_counts[i]);
    for (uint32_t i = 0; i < d->record.n_labels; i++) {
        json_out *j =
            state_put(s, false, "label/%.*s", TEXT_ARG(d->kit->parts[d->record.labels[i].part].number));
        json_put_text(j, "label", d->record.labels[i].label);
        state_done(s);
    }
}
