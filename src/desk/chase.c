/* chase.c: what the maker promised, and what came. */
#include <stdio.h>

#include "desk/act.h"

/* A part by its own number or a maker's; several parts may carry the same maker's number. */
static bool find_part(const desk *d, text number, kit_index *out, err *e) {
    number = text_trim(number);
    char shown[192];
    snprintf(shown, sizeof shown, "\"%.*s\"", TEXT_ARG(number));
    *out = kit_find_part(d->kit, number);
    if (*out != KIT_NONE)
        return true;
    kit_indices parts = kit_find_parts_by_any_number(d->memory, d->kit, number);
    if (!parts.n)
        return err_input(e, shown, "write a number as kitbench missing shows it",
                         "the kit has no part of that number");
    *out = parts.list[0];
    if (parts.n == 1)
        return true;
    char choice[256];
    size_t used = (size_t)snprintf(choice, sizeof choice, "write one of ");
    for (uint32_t i = 0; i < parts.n && used < sizeof choice; i++)
        used += (size_t)snprintf(choice + used, sizeof choice - used, "%s%.*s", i ? ", " : "",
                                 TEXT_ARG(d->kit->parts[parts.list[i]].number));
    return err_input(e, shown, choice, "%u parts have that number", parts.n);
}

bool desk_promise(desk *d, text part, int64_t quantity, date_day day, bool instead, desk_who who,
                  kit_index *out, err *e) {
    if (!find_part(d, part, out, e))
        return false;
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    store_entry n = act_entry(&stamp, STORE_PROMISE);
    n.part = d->kit->parts[*out].number;
    n.usable = quantity;
    n.day = day;
    n.instead = instead;
    int64_t number;
    return act_end(d, store_append(d->file, &n, &number, e), e);
}

/* One entry for each row that gets pieces; damaged ones are booked with the first. */
static bool append_arrivals(desk *d, const store_entry *stamp, kit_index part, int64_t usable,
                            int64_t damaged, const stock_share *placed, uint32_t n, err *e) {
    int64_t number;
    for (uint32_t i = 0; i < (n ? n : 1); i++) {
        store_entry v = act_entry(stamp, STORE_ARRIVE);
        v.part = d->kit->parts[part].number;
        v.usable = n ? placed[i].quantity : usable;
        v.damaged = i ? 0 : damaged;
        if (n) {
            const kit_row *row = &d->kit->rows[placed[i].row];
            v.container = d->kit->containers[row->container].number;
            v.line = row->line;
        }
        if (!store_append(d->file, &v, &number, e))
            return false;
    }
    return true;
}

bool desk_arrive(desk *d, text part, int64_t usable, int64_t damaged, desk_who who, kit_index *out,
                 stock_share **placed, uint32_t *n_placed, err *e) {
    if (!find_part(d, part, out, e))
        return false;
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    *n_placed = stock_place_arrival(d->memory, d->kit, d->stock, *out, usable, placed);
    return act_end(d, append_arrivals(d, &stamp, *out, usable, damaged, *placed, *n_placed, e), e);
}

static bool lies_in(const kit *k, kit_index row, kit_index container) {
    kit_index c = k->rows[row].container;
    while (c != KIT_NONE && c != container)
        c = k->containers[c].inside;
    return c == container;
}

static bool append_whole(desk *d, const store_entry *stamp, const stock_share *placed, uint32_t n, err *e) {
    for (uint32_t i = 0; i < n; i++)
        if (!append_arrivals(d, stamp, d->kit->rows[placed[i].row].part, placed[i].quantity, 0, &placed[i], 1,
                             e))
            return false;
    return true;
}

bool desk_arrive_whole(desk *d, text container, desk_who who, kit_index *out, stock_share **placed,
                       uint32_t *n_placed, err *e) {
    const kit *k = d->kit;
    if (!desk_find_container(d, container, out, e))
        return false;
    *placed = arena_array(d->memory, stock_share, k->n_rows);
    *n_placed = 0;
    for (kit_index i = 0; i < k->n_rows; i++)
        if (lies_in(k, i, *out) && d->stock->rows[i].lacking)
            (*placed)[(*n_placed)++] = (stock_share){i, d->stock->rows[i].lacking};
    char shown[192];
    snprintf(shown, sizeof shown, "%.*s", TEXT_ARG(k->containers[*out].number));
    if (!*n_placed)
        return err_input(e, shown, "count it; or note the pieces of one part with its number and how many",
                         "nothing lacks on the rows of it that were counted");
    store_entry stamp;
    return act_begin(d, who, &stamp, e) && act_end(d, append_whole(d, &stamp, *placed, *n_placed, e), e);
}
