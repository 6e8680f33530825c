/* entry_items.c: what a line of quick entry says of its box or bag: its state, rows, extras. */
#include "base/number.h"
#include "desk/entry.h"
#include "desk/entry_words.h"

enum { LARGEST_LINE = 9999, MOST_BATTERIES = 100, MOST_MILLIVOLTS = 100000 };
#define LARGEST_COUNT INT64_C(1000000000)

static bool take_count(entry_reader *r, text *rest, int64_t *out) {
    text word;
    if (take_word(rest, "none") || take_word(rest, "nothing")) {
        *out = 0;
        return true;
    }
    text copy = *rest;
    number_fault why;
    if (!take_any_word(&copy, &word))
        return entry_complain(r, "write a number, such as \"row 7: 11\"", "a number is missing");
    if (!number_integer(word, 0, LARGEST_COUNT, out, &why))
        return entry_complain(r, why.remedy, why.cause);
    *rest = copy;
    return true;
}

/* ", 1 damaged", "and 1 damaged in transit"; nothing is taken when something else follows. */
static bool take_damaged(text *rest, int64_t *damaged, bool *in_transit) {
    text copy = *rest, word;
    number_fault why;
    (void)(take_char(&copy, ',') || take_word(&copy, "and"));
    if (!take_any_word(&copy, &word) || !number_integer(word, 0, LARGEST_COUNT, damaged, &why) ||
        !take_word(&copy, "damaged")) {
        *damaged = 0;
        return false;
    }
    *rest = copy;
    text after = copy;
    *in_transit = take_word(&after, "in") && take_word(&after, "transit");
    if (*in_transit)
        *rest = after;
    return true;
}

static bool take_volts(entry_reader *r, text *rest, desk_count *c) {
    text copy = *rest, word;
    (void)take_char(&copy, ',');
    if (!take_word(&copy, "volts"))
        return true;
    c->millivolts = arena_array(r->memory, int64_t, MOST_BATTERIES);
    for (*rest = copy; c->n_millivolts < MOST_BATTERIES; *rest = copy) {
        number_fault why;
        if (!take_any_word(&copy, &word) || word.at[0] < '0' || word.at[0] > '9')
            break;
        if (!number_decimal(word, 3, 0, MOST_MILLIVOLTS, &c->millivolts[c->n_millivolts], &why))
            return entry_complain(r, why.remedy, why.cause);
        c->n_millivolts++;
    }
    return c->n_millivolts ||
           entry_complain(r, "write \"volts 12.81 12.79\", one for each battery", "a voltage is missing");
}

void entry_add(entry_reader *r, desk_count c) {
    c.by = r->by;
    arena_room(r->memory, r->list, r->n, r->cap, desk_count);
    r->list[r->n++] = c;
}

bool entry_is_listed(const entry_reader *r, size_t from, size_t to, kit_index row) {
    for (size_t i = from; i < to; i++)
        if (!r->list[i].find && r->list[i].row == row)
            return true;
    return false;
}

/* After "row": 7: 11 and 1 damaged, volts 12.8 "a note" */
static bool read_row(entry_reader *r, text *rest, const entry_line *line, kit_index container) {
    text word;
    int64_t n;
    number_fault why;
    text number = r->kit->containers[container].number;
    if (!take_any_word(rest, &word))
        return entry_not_understood(r, *rest);
    if (!number_integer(word, 1, LARGEST_LINE, &n, &why))
        return entry_complain(r, why.remedy, why.cause);
    desk_count c = {.row = kit_find_row(r->kit, container, n)};
    if (c.row == KIT_NONE)
        return entry_complain(
            r, "look at the sheet",
            arena_format(r->memory, "%.*s has no row %lld", TEXT_ARG(number), (long long)n).at);
    if (entry_is_listed(r, line->first, r->n, c.row))
        return entry_complain(
            r, "leave one of them out",
            arena_format(r->memory, "%.*s row %lld stands twice", TEXT_ARG(number), (long long)n).at);
    (void)(take_char(rest, ':') || take_char(rest, '='));
    if (!take_count(r, rest, &c.usable))
        return false;
    take_damaged(rest, &c.damaged, &c.in_transit);
    if (!take_volts(r, rest, &c))
        return false;
    take_quoted(rest, &c.note);
    entry_add(r, c);
    return true;
}

/* After "extra": 3 "M5x16 pan head", or without quotes up to the end of the line. */
static bool read_extra(entry_reader *r, text *rest, kit_index container) {
    desk_count c = {.find = true, .container = container};
    (void)take_char(rest, ':');
    if (!take_count(r, rest, &c.usable))
        return false;
    if (!take_quoted(rest, &c.what)) {
        c.what = text_trim(*rest);
        *rest = text_slice(*rest, rest->len, rest->len);
    }
    c.what = text_trim(c.what);
    if (!c.what.len)
        return entry_complain(r, "write what it is: extra 3 \"M5x16 pan head\"",
                              "what the extra pieces are is missing");
    entry_add(r, c);
    return true;
}

/* "row 7: 11", "bag B3 row 7: 11" (of a bag inside), "bag B3 missing", "extra 2 ..." */
static bool read_item(entry_reader *r, text *rest, const entry_line *line) {
    if (take_word(rest, "row"))
        return read_row(r, rest, line, line->container);
    if (take_word(rest, "extra"))
        return read_extra(r, rest, line->container);
    kit_index inner;
    size_t faults_before = r->f->n;
    if (!entry_take_container(r, rest, &inner))
        return r->f->n > faults_before ? false : entry_not_understood(r, *rest);
    if (!entry_lies_in(r->kit, inner, line->container))
        return entry_complain(r, "begin a new line for it",
                              arena_format(r->memory, "%.*s does not lie in %.*s",
                                           TEXT_ARG(r->kit->containers[inner].number),
                                           TEXT_ARG(r->kit->containers[line->container].number))
                                  .at);
    if (take_word(rest, "row"))
        return read_row(r, rest, line, inner);
    if (take_word(rest, "extra"))
        return read_extra(r, rest, inner);
    return take_word(rest, "missing") ? entry_add_rows(r, line, inner, false, false)
                                      : entry_not_understood(r, *rest);
}

static bool read_state(text *rest, entry_line *line) {
    text copy = *rest;
    if (take_word(&copy, "all") && take_word(&copy, "right"))
        line->all_right = true;
    else if (copy = *rest, take_word(&copy, "missing"))
        line->missing = true;
    else
        return false;
    *rest = copy;
    if (take_word(rest, "except"))
        (void)take_char(rest, ':');
    return true;
}

bool entry_read_items(entry_reader *r, text *rest, entry_line *line) {
    bool stated = read_state(rest, line);
    while (take_char(rest, ',') || take_char(rest, ';'))
        continue;
    if (stated && at_end(*rest))
        return true;
    do {
        if (!read_item(r, rest, line))
            return false;
        while (take_char(rest, ',') || take_char(rest, ';') || take_word(rest, "and"))
            continue;
    } while (!at_end(*rest));
    return true;
}
