/* state_shared.c: who has which box, second counts, labels, as the pages see them. */
#include "base/sys.h"
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

static void put_moment_day(json_out *j, const char *key, date_day day) {
    char shown[11];
    if (day == INT32_MAX)
        return;
    date_print(day, shown);
    json_put_text(j, key, text_of(shown));
}

/* Whether the two agree is for the leader alone. */
static void put_second_counts(state *s, const desk *d) {
    desk_second_count *list;
    uint32_t n = desk_second_counts(d, &list);
    for (uint32_t i = 0; i < n; i++) {
        const kit_row *k = &d->kit->rows[list[i].again->row];
        json_out *j = state_put(s, true, "second/%.*s/%lld",
                                TEXT_ARG(d->kit->containers[k->container].number), (long long)k->line);
        json_put_text(j, "in", d->kit->containers[k->container].number);
        json_put_integer(j, "line", k->line);
        json_put_integer(j, "usable", list[i].again->usable);
        json_put_integer(j, "damaged", list[i].again->damaged);
        json_put_text(j, "person", list[i].again->person);
        json_put_bool(j, "agrees", list[i].agree);
        state_done(s);
    }
}

static void put_chase(state *s, const desk *d) {
    desk_chased *list;
    uint32_t n = desk_chase(d, date_of_moment(sys_now()), &list);
    for (uint32_t i = 0; i < n; i++) {
        json_out *j = state_put(s, false, "chase/%.*s", TEXT_ARG(d->kit->parts[list[i].part].number));
        json_put_text(j, "state", text_of(desk_chase_word(list[i].state)));
        json_put_integer(j, "asked", list[i].asked);
        json_put_integer(j, "steps_stopped", list[i].steps_stopped);
        put_moment_day(j, "promised_for", list[i].promised_for);
        state_done(s);
    }
}

static void put_tools(state *s, const desk *d) {
    for (kit_index i = 0; i < d->kit->n_tools; i++) {
        const kit_tool *t = &d->kit->tools[i];
        bool fresh = false;
        const stock_tool_count *c = desk_tool_count(d, i, &fresh);
        json_out *j = state_put(s, false, "tool/%.*s", TEXT_ARG(t->number));
        json_put_text(j, "name", t->name);
        json_put_text(j, "size", t->size);
        json_put_integer(j, "expected", desk_tools_expected(d, i));
        if (c)
            json_put_integer(j, "here", c->quantity);
        json_put_bool(j, "fresh", fresh);
        state_done(s);
    }
}

void state_put_shared(state *s, const desk *d) {
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        put_hold(s, d, &d->record.holds[i]);
    put_second_counts(s, d);
    put_chase(s, d);
    put_tools(s, d);
    for (uint32_t i = 0; i < d->record.n_labels; i++) {
        json_out *j =
            state_put(s, false, "label/%.*s", TEXT_ARG(d->kit->parts[d->record.labels[i].part].number));
        json_put_text(j, "label", d->record.labels[i].label);
        state_done(s);
    }
}
