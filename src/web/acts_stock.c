/* acts_stock.c: what pages do at the stock check and when parts come. */
#include <string.h>

#include "base/sys.h"
#include "web/acts.h"

/* `seen` is how often the row had been counted when the page showed it. Somebody else may have counted it since. */
static bool somebody_was_there(act *a, kit_index row, int64_t seen) {
    const stock_row *s = &a->desk->stock->rows[row];
    if (seen < 0 || seen == (int64_t)s->times)
        return false;
    a->conflict = true;
    acts_refuse(a, arena_format(a->memory, "somebody else counted it meanwhile: %lld usable, %lld damaged",
                                (long long)s->usable, (long long)s->damaged));
    return true;
}

bool act_count(act *a, err *e) {
    desk_count c = {0};
    int64_t seen;
    const char *note;
    if (!act_row(a, &c.container, &c.row, e) ||
        !ask_integer(a->in, "usable", 0, ACT_MOST_PIECES, -2, &c.usable, e) ||
        !ask_integer(a->in, "damaged", 0, ACT_MOST_PIECES, 0, &c.damaged, e) ||
        !ask_integer(a->in, "seen", -1, 1000000, -1, &seen, e) ||
        !ask_bool(a->in, "in_transit", &c.in_transit, e) || !ask_text(a->in, "note", &note, e))
        return false;
    c.note = text_of(note);
    return somebody_was_there(a, c.row, seen) || desk_record_counts(a->desk, &c, 1, a->by, e);
}

bool act_find(act *a, err *e) {
    desk_count c = {.find = true};
    const char *what;
    if (!act_container(a, &c.container, e) || !ask_word(a->in, "what", &what, e) ||
        !ask_integer(a->in, "quantity", 0, ACT_MOST_PIECES, -2, &c.usable, e) ||
        !act_read_photo(a, &c.photo, e))
        return false;
    c.what = text_of(what);
    return desk_record_counts(a->desk, &c, 1, a->by, e);
}

bool act_receive(act *a, err *e) {
    const char *box, *damage;
    int64_t mass_g;
    kit_index out;
    return ask_word(a->in, "in", &box, e) && ask_text(a->in, "damage", &damage, e) &&
           ask_integer(a->in, "mass_g", -1, ACT_MOST_PIECES, -1, &mass_g, e) &&
           desk_receive(a->desk, text_of(box), mass_g, damage[0] ? damage : NULL, a->by, &out, e);
}

bool act_promise(act *a, err *e) {
    const char *part, *day_text;
    int64_t quantity;
    bool instead;
    date_day day;
    kit_index out;
    if (!ask_word(a->in, "part", &part, e) || !ask_word(a->in, "day", &day_text, e) ||
        !ask_integer(a->in, "quantity", 0, ACT_MOST_PIECES, -2, &quantity, e) ||
        !ask_bool(a->in, "instead", &instead, e))
        return false;
    if (!date_read(text_of(day_text), &day))
        return err_input(e, "day", "write it like 2027-03-14", "it is no day");
    return desk_promise(a->desk, text_of(part), quantity, day, instead, a->by, &out, e);
}

bool act_arrive(act *a, err *e) {
    const char *part;
    int64_t usable, damaged;
    kit_index out;
    stock_share *placed;
    uint32_t n;
    return ask_word(a->in, "part", &part, e) &&
           ask_integer(a->in, "usable", 0, ACT_MOST_PIECES, -2, &usable, e) &&
           ask_integer(a->in, "damaged", 0, ACT_MOST_PIECES, 0, &damaged, e) &&
           desk_arrive(a->desk, text_of(part), usable, damaged, a->by, &out, &placed, &n, e);
}

/* A whole sheet at once, in the words of the printed sheet. The first fault is told; nothing is written then. */
bool act_enter(act *a, err *e) {
    const json_t *v = json_object_get(a->in, "entry");
    if (!json_is_string(v) || !json_string_length(v))
        return err_input(e, "entry", "type what the sheet says", "it is missing");
    faults f = faults_in(a->memory);
    desk_count *counts;
    size_t n;
    text entry = {json_string_value(v), json_string_length(v)};
    if (!desk_read_entry(a->memory, a->desk->kit, a->desk->workshop, entry, TEXT("sheet"), &f, &counts, &n)) {
        faults_sort(&f);
        for (size_t i = 0; i < f.n; i++)
            acts_refuse(a, arena_format(a->memory, "%.*s: %.*s; %.*s",
                                        TEXT_ARG(fault_place_text(a->memory, f.list[i].place)),
                                        TEXT_ARG(f.list[i].cause), TEXT_ARG(f.list[i].remedy)));
        return true;
    }
    return desk_record_counts(a->desk, counts, n, a->by, e);
}

bool act_reading(act *a, err *e) {
    kit_index container, row;
    int64_t piece, millivolts, rested;
    bool charged;
    return act_row(a, &container, &row, e) && ask_integer(a->in, "piece", 1, 9999, 0, &piece, e) &&
           ask_integer(a->in, "millivolts", 0, 100000, -2, &millivolts, e) &&
           ask_integer(a->in, "rested_min", -1, 1000000, -1, &rested, e) &&
           ask_bool(a->in, "charged", &charged, e) &&
           desk_read_battery(a->desk, row, piece, millivolts, rested, charged, a->by, e);
}
