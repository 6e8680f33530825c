/* entry.c: quick entry: what a pair wrote on its sheet, in the words of the sheet.
 *
 *   by Mika
 *   bag A1 all right
 *   bag B3 all right except row 7: 11, row 9: 4 and 1 damaged
 *   bag C2 missing
 *   bag C4 row 2: 6
 *   bag C4 extra 3 "M5x16 pan head"
 *
 * A line speaks of one box or bag (with what is nested in it). Reading goes on after a fault, line by line.
 */
#include <string.h>

#include "base/number.h"
#include "desk/act.h"
#include "desk/entry_words.h"

enum { LARGEST_LINE = 9999, MOST_BATTERIES = 100, MOST_MILLIVOLTS = 100000 };
#define LARGEST_COUNT INT64_C(1000000000)

typedef struct {
    arena *memory;
    const kit *kit;
    const kit_workshop *workshop;
    faults *f;
    text source;
    uint32_t line;
    desk_count *list;
    size_t n, cap;
    text by;
} entry_reader;

/* What one line says. */
typedef struct {
    kit_index container;
    bool all_right, missing;
    size_t first; /* of the reader's list: what this line added explicitly */
} entry_line;

static bool complain(entry_reader *r, const char *remedy, const char *cause) {
    text place = arena_format(r->memory, "%.*s line %u", TEXT_ARG(r->source), r->line);
    fault_add(r->f, (fault_place){place, 0, TEXT("")}, remedy, "%s", cause);
    return false;
}

static text rest_of(text rest) {
    text t = text_trim(rest);
    return t.len > 40 ? text_slice(t, 0, 40) : t;
}

static bool not_understood(entry_reader *r, text rest) {
    const char *remedy =
        "write \"bag B3 all right except row 7: 11\", \"bag B3 missing\" or \"bag B3 extra 2 "
        "\"what it is\"\"";
    if (at_end(rest))
        return complain(r, remedy, "the line ends too early");
    return complain(r, remedy,
                    arena_format(r->memory, "\"%.*s\" is not understood", TEXT_ARG(rest_of(rest))).at);
}

/* The longest number of a container that the text begins with. */
static kit_index match_container(const kit *k, text *rest) {
    kit_index best = KIT_NONE;
    text after_best = *rest;
    for (kit_index i = 0; i < k->n_containers; i++) {
        text copy = *rest;
        if (!take_prefix(&copy, k->containers[i].number) ||
            (best != KIT_NONE && k->containers[i].number.len <= k->containers[best].number.len))
            continue;
        best = i;
        after_best = copy;
    }
    *rest = after_best;
    return best;
}

/* "bag B3", "box 3", "B3": with the word as part of the number, or without. */
static bool take_container(entry_reader *r, text *rest, kit_index *out) {
    *out = match_container(r->kit, rest);
    if (*out != KIT_NONE)
        return true;
    text copy = *rest, name = TEXT("");
    if (!take_word(&copy, "bag") && !take_word(&copy, "box"))
        return false;
    *out = match_container(r->kit, &copy);
    if (*out == KIT_NONE) {
        text unknown = copy;
        take_any_word(&unknown, &name);
        complain(r, "write the number as it stands on the sheet",
                 arena_format(r->memory, "the kit has no box or bag \"%.*s\"", TEXT_ARG(name)).at);
        return false;
    }
    *rest = copy;
    return true;
}

static bool take_count(entry_reader *r, text *rest, int64_t *out) {
    text word;
    if (take_word(rest, "none") || take_word(rest, "nothing")) {
        *out = 0;
        return true;
    }
    text copy = *rest;
    number_fault why;
    if (!take_any_word(&copy, &word))
        return complain(r, "write a number, such as \"row 7: 11\"", "a number is missing");
    if (!number_integer(word, 0, LARGEST_COUNT, out, &why))
        return complain(r, why.remedy, why.cause);
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
            return complain(r, why.remedy, why.cause);
        c->n_millivolts++;
    }
    return c->n_millivolts ||
           complain(r, "write \"volts 12.81 12.79\", one for each battery", "a voltage is missing");
}

static void add(entry_reader *r, desk_count c) {
    c.by = r->by;
    arena_room(r->memory, r->list, r->n, r->cap, desk_count);
    r->list[r->n++] = c;
}

static bool is_listed(const entry_reader *r, size_t from, size_t to, kit_index row) {
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
        return not_understood(r, *rest);
    if (!number_integer(word, 1, LARGEST_LINE, &n, &why))
        return complain(r, why.remedy, why.cause);
    desk_count c = {.row = kit_find_row(r->kit, container, n)};
    if (c.row == KIT_NONE)
        return complain(r, "look at the sheet",
                        arena_format(r->memory, "%.*s has no row %lld", TEXT_ARG(number), (long long)n).at);
    if (is_listed(r, line->first, r->n, c.row))
        return complain(
            r, "leave one of them out",
            arena_format(r->memory, "%.*s row %lld stands twice", TEXT_ARG(number), (long long)n).at);
    (void)(take_char(rest, ':') || take_char(rest, '='));
    if (!take_count(r, rest, &c.usable))
        return false;
    take_damaged(rest, &c.damaged, &c.in_transit);
    if (!take_volts(r, rest, &c))
        return false;
    take_quoted(rest, &c.note);
    add(r, c);
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
        return complain(r, "write what it is: extra 3 \"M5x16 pan head\"",
                        "what the extra pieces are is missing");
    add(r, c);
    return true;
}

static bool lies_in(const kit *k, kit_index container, kit_index outer) {
    while (container != KIT_NONE && container != outer)
        container = k->containers[container].inside;
    return container == outer;
}

/* "row 7: 11", "bag B3 row 7: 11" (of a bag inside), "extra 2 ..." */
static bool read_item(entry_reader *r, text *rest, const entry_line *line) {
    if (take_word(rest, "row"))
        return read_row(r, rest, line, line->container);
    if (take_word(rest, "extra"))
        return read_extra(r, rest, line->container);
    kit_index inner;
    size_t faults_before = r->f->n;
    if (!take_container(r, rest, &inner))
        return r->f->n > faults_before ? false : not_understood(r, *rest);
    if (!lies_in(r->kit, inner, line->container))
        return complain(r, "begin a new line for it",
                        arena_format(r->memory, "%.*s does not lie in %.*s",
                                     TEXT_ARG(r->kit->containers[inner].number),
                                     TEXT_ARG(r->kit->containers[line->container].number))
                            .at);
    if (take_word(rest, "row"))
        return read_row(r, rest, line, inner);
    return take_word(rest, "extra") ? read_extra(r, rest, inner) : not_understood(r, *rest);
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

static bool read_items(entry_reader *r, text *rest, entry_line *line) {
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

/* The rows that "all right" and "missing" speak of: all in the container but those the line names. */
static bool add_others(entry_reader *r, const entry_line *line) {
    size_t n_named = r->n;
    bool any = false;
    for (kit_index i = 0; i < r->kit->n_rows; i++) {
        if (!lies_in(r->kit, r->kit->rows[i].container, line->container))
            continue;
        any = true;
        if (!is_listed(r, line->first, n_named, i))
            add(r, (desk_count){.row = i, .usable = line->all_right ? r->kit->rows[i].quantity : 0});
    }
    return any || complain(r, "look at the sheet", "no row of the packing list is in it");
}

static bool read_container_line(entry_reader *r, text rest) {
    entry_line line = {.first = r->n};
    size_t faults_before = r->f->n;
    if (!take_container(r, &rest, &line.container))
        return r->f->n > faults_before ? false : not_understood(r, rest);
    while (take_char(&rest, ':') || take_char(&rest, ','))
        continue;
    if (!read_items(r, &rest, &line))
        return false;
    return !(line.all_right || line.missing) || add_others(r, &line);
}

static void read_line(entry_reader *r, text line) {
    text rest = text_trim(line);
    if (!rest.len || rest.at[0] == '#')
        return;
    if (take_word(&rest, "by")) {
        r->by = text_trim(rest);
        if (!r->by.len)
            complain(r, "write \"by\" and the name of who counted", "the name is missing");
        else if (r->workshop && kit_find_person(r->workshop, r->by) == KIT_NONE)
            complain(r, "write a name as it stands in the crew table",
                     arena_format(r->memory, "nobody in the crew is called \"%.*s\", or more than one is",
                                  TEXT_ARG(r->by))
                         .at);
        return;
    }
    (void)read_container_line(r, rest);
}

bool desk_read_entry(arena *a, const kit *k, const kit_workshop *w, text entry, text source, faults *f,
                     desk_count **out, size_t *n) {
    entry_reader r = {.memory = a, .kit = k, .workshop = w, .f = f, .source = source};
    size_t faults_before = f->n;
    text line;
    while (text_next_piece(&entry, '\n', &line)) {
        r.line++;
        read_line(&r, line);
    }
    *out = r.list;
    *n = r.n;
    return f->n == faults_before;
}
