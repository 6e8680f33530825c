/* together.c: several pairs at one stock check: who has which box, all here at once, counting again unseen. */
#include "desk/reasons.h"

static text number_of(const desk *d, kit_index container) {
    return d->kit->containers[container].number;
}

const stock_hold *desk_holder(const desk *d, kit_index container) {
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        if (d->record.holds[i].container == container)
            return &d->record.holds[i];
    return NULL;
}

static text names_of(const desk *d, const kit_texts *people) {
    text all = TEXT("");
    for (uint32_t i = 0; i < people->n; i++)
        all = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(all), i ? " and " : "",
                           TEXT_ARG(desk_person_name(d, people->list[i])));
    return all.len ? all : TEXT("somebody");
}

static bool same_people(const kit_texts *a, const kit_texts *b) {
    for (uint32_t i = 0; i < a->n; i++)
        if (!reasons_is_among(b, a->list[i]))
            return false;
    return a->n == b->n;
}

static void check_free(const desk *d, kit_index container, const kit_texts *people, desk_reasons *why) {
    const stock_hold *h = desk_holder(d, container);
    if (!h || same_people(&h->people, people))
        return;
    reasons_add(d, why, "%.*s %s %.*s%s%.*s", TEXT_ARG(names_of(d, &h->people)),
                h->people.n > 1 ? "have" : "has", TEXT_ARG(number_of(d, container)),
                h->place.len ? " at " : "", TEXT_ARG(h->place));
}

static bool write_hold(desk *d, store_entry *stamp, kit_index container, const char *people, text place,
                       bool anyway, desk_reasons *why, err *e) {
    kit_texts list;
    int64_t number;
    if (!reasons_people(d, people, &list, e))
        return false;
    if (d->workshop && !list.n)
        reasons_add(d, why, "say who takes it: --by NAME,...");
    if (!anyway)
        check_free(d, container, &list, why);
    if (why->n)
        return true;
    if (list.n)
        stamp->person = list.list[0];
    store_entry n = act_entry(stamp, STORE_HOLD);
    n.container = number_of(d, container);
    n.people = reasons_join(d->memory, &list);
    n.note = text_trim(place);
    return store_append(d->file, &n, &number, e);
}

bool desk_take(desk *d, kit_index container, const char *people, text place, bool anyway, desk_who who,
               desk_reasons *why, err *e) {
    store_entry stamp;
    who.by = NULL;
    if (!act_check_text(place, "table", e) || !act_begin(d, who, &stamp, e))
        return false;
    return reasons_end(d, write_hold(d, &stamp, container, people, place, anyway, why, e), why, e);
}

bool desk_bring_back(desk *d, kit_index container, desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    int64_t number;
    if (!act_begin(d, who, &stamp, e))
        return false;
    if (!desk_holder(d, container))
        reasons_add(d, why, "nobody had %.*s", TEXT_ARG(number_of(d, container)));
    store_entry n = act_entry(&stamp, STORE_BACK);
    n.container = number_of(d, container);
    return reasons_end(d, why->n || store_append(d->file, &n, &number, e), why, e);
}

/* ---- all here ---- */

static bool lies_in(const kit *k, kit_index row, kit_index container) {
    kit_index c = k->rows[row].container;
    while (c != KIT_NONE && c != container)
        c = k->containers[c].inside;
    return c == container;
}

static bool write_all_here(desk *d, const store_entry *stamp, kit_index container, uint32_t *n, err *e) {
    *n = 0;
    for (kit_index i = 0; i < d->kit->n_rows; i++) {
        if (!lies_in(d->kit, i, container) || d->stock->rows[i].counted)
            continue;
        store_entry c = act_entry(stamp, STORE_COUNT);
        int64_t number;
        c.container = d->kit->containers[d->kit->rows[i].container].number;
        c.line = d->kit->rows[i].line;
        c.usable = d->kit->rows[i].quantity;
        c.damaged = 0;
        if (!store_append(d->file, &c, &number, e))
            return false;
        ++*n;
    }
    return *n > 0 || err_input(e, arena_z(d->memory, number_of(d, container)),
                               "count a row again by its number", "every row of it is counted already");
}

bool desk_all_here(desk *d, kit_index container, desk_who who, uint32_t *n, err *e) {
    store_entry stamp;
    return act_begin(d, who, &stamp, e) && act_end(d, write_all_here(d, &stamp, container, n, e), e);
}

/* ---- counted again ---- */

static const stock_count *count_of(const desk *d, kit_index row) {
    for (uint32_t i = 0; i < d->record.n_counts; i++)
        if (d->record.counts[i].row == row)
            return &d->record.counts[i];
    return NULL;
}

static void check_again(const desk *d, kit_index row, text person, desk_reasons *why) {
    const stock_count *first = count_of(d, row);
    text place = place_of_row(d->memory, d->kit, row);
    if (!first)
        reasons_add(d, why, "%.*s is not counted yet: count it first", TEXT_ARG(place));
    if (!person.len)
        reasons_add(d, why, "say who counts again: --by NAME");
    else if (first && text_equal(first->person, person))
        reasons_add(d, why, "%.*s counted %.*s; somebody else counts it again",
                    TEXT_ARG(desk_person_name(d, person)), TEXT_ARG(place));
}

bool desk_count_again(desk *d, kit_index row, int64_t usable, int64_t damaged, desk_who who,
                      desk_reasons *why, err *e) {
    store_entry stamp;
    int64_t number;
    if (!act_begin(d, who, &stamp, e))
        return false;
    check_again(d, row, stamp.person, why);
    store_entry n = act_entry(&stamp, STORE_RECOUNT);
    n.container = d->kit->containers[d->kit->rows[row].container].number;
    n.line = d->kit->rows[row].line;
    n.usable = usable;
    n.damaged = damaged;
    return reasons_end(d, why->n || store_append(d->file, &n, &number, e), why, e);
}

uint32_t desk_second_counts(const desk *d, desk_second_count **out) {
    uint32_t n = 0;
    *out = arena_array(d->memory, desk_second_count, d->record.n_counts);
    for (kit_index row = 0; row < d->kit->n_rows; row++) {
        const stock_count *c = count_of(d, row);
        const stock_second_count *last = NULL;
        for (uint32_t i = 0; c && i < d->record.n_second_counts; i++)
            if (d->record.second_counts[i].row == row && d->record.second_counts[i].entry > c->entry)
                last = &d->record.second_counts[i];
        if (last)
            (*out)[n++] =
                (desk_second_count){c, last, c->usable == last->usable && c->damaged == last->damaged};
    }
    return n;
}

bool desk_photo(const desk *d, int64_t entry, text *bytes, err *e) {
    return store_read_photo(d->memory, d->file, entry, bytes, e);
}
