/* cells.c: one cell, from the text somebody typed to the value of its kind. */
#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "base/number.h"
#include "base/utf8.h"
#include "kit/inside.h"

enum { KEY_LONGEST = 40, TEXT_LONGEST = 10000, SHOWN = 40 };

/* Looking for what was meant costs a pass over a table; who has more faults than this has another problem. */
enum { MOST_SUGGESTED = 200 };

/* As much of a wrong cell as a message can carry. */
static text shown(text t) {
    return utf8_clip(t, SHOWN);
}

/* The first control character that no cell may hold, or -1. Line breaks are allowed in texts. */
static int control_character(text t, bool line_breaks) {
    for (size_t i = 0; i < t.len; i++) {
        unsigned char c = (unsigned char)t.at[i];
        bool line_break = c == '\n' || c == '\r' || c == '\t';
        if ((c < 32 && !(line_break && line_breaks)) || c == 127)
            return c;
    }
    return -1;
}

static bool check_text(kit_reader *r, text t, bool line_breaks, fault_place place) {
    int control = control_character(t, line_breaks);
    if (control == '\n' || control == '\r')
        fault_add(r->faults, place, "write it on one line", "there is a line break in it");
    else if (control >= 0)
        fault_add(r->faults, place, "remove it", "there is a control character (code %d) in it", control);
    else if (t.len > TEXT_LONGEST)
        fault_add(r->faults, place, "make it shorter", "it is longer than %d bytes", TEXT_LONGEST);
    else
        return true;
    return false;
}

static bool read_key(kit_reader *r, text t, fault_place place) {
    if (!check_text(r, t, false, place))
        return false;
    if (t.len && memchr(t.at, ';', t.len)) {
        fault_add(r->faults, place, "leave the semicolon out, it separates the items of lists",
                  "\"%.*s\" holds a semicolon", TEXT_ARG(shown(t)));
        return false;
    }
    if (utf8_count(t) > KEY_LONGEST) {
        fault_add(r->faults, place, "make it shorter", "\"%.*s...\" is longer than %d characters",
                  TEXT_ARG(shown(t)), KEY_LONGEST);
        return false;
    }
    return true;
}

static bool read_number(kit_reader *r, const kit_column *c, text t, fault_place place, int64_t *out) {
    number_fault why;
    if (number_decimal(t, c->scale, c->low, c->high, out, &why))
        return true;
    fault_add(r->faults, place, why.remedy, "%s", why.cause);
    return false;
}

static bool read_yes_no(kit_reader *r, text t, fault_place place, bool *out) {
    *out = text_is(t, "yes");
    if (*out || text_is(t, "no"))
        return true;
    fault_add(r->faults, place, "write yes or no", "\"%.*s\" is neither yes nor no", TEXT_ARG(shown(t)));
    return false;
}

/* "box or bag", "none, loose, hand or torque" */
static text list_words(arena *a, const char *words) {
    text all = TEXT(""), rest = text_of(words), word;
    while (text_next_piece(&rest, '|', &word)) {
        const char *between = !all.len ? "" : rest.at ? ", " : " or ";
        all = arena_format(a, "%.*s%s%.*s", TEXT_ARG(all), between, TEXT_ARG(word));
    }
    return all;
}

static bool read_word(kit_reader *r, const kit_column *c, text t, fault_place place, unsigned *out) {
    text rest = text_of(c->words), word;
    for (*out = 0; text_next_piece(&rest, '|', &word); ++*out)
        if (text_equal(word, t))
            return true;
    *out = 0;
    text words = list_words(r->memory, c->words);
    fault_add(r->faults, place, arena_format(r->memory, "write %.*s", TEXT_ARG(words)).at,
              "\"%.*s\" is not one of the words for it", TEXT_ARG(shown(t)));
    return false;
}

text kit_integer_key(arena *a, int64_t value) {
    return arena_format(a, "%lld", (long long)value);
}

static const kit_table_state *state_of(const kit_reader *r, const char *table) {
    kit_index i = kit_form_index(table, false);
    return i != KIT_NONE ? &r->of_kit[i] : &r->own[kit_form_index(table, true)];
}

/* Tables whose key is a number ("sessions") are referred to by that number, however it is written. */
static text reference_key(kit_reader *r, const char *table, text t) {
    const kit_table_form *form = kit_find_form(table, false);
    if (!form)
        form = kit_find_form(table, true);
    int64_t value;
    number_fault why;
    if (form && form->columns[0].kind == KIT_CELL_INTEGER && number_integer(t, 0, INT64_MAX, &value, &why))
        return kit_integer_key(r->memory, value);
    return t;
}

static void report_unknown(kit_reader *r, const kit_column *c, const kit_table_state *state, text t,
                           fault_place place) {
    text near = r->faults->n < MOST_SUGGESTED ? kit_nearest_key(state, t) : TEXT("");
    text remedy = near.len ? arena_format(r->memory, "write %.*s, or add \"%.*s\" to %.*s", TEXT_ARG(near),
                                          TEXT_ARG(shown(t)), TEXT_ARG(state->file))
                           : arena_format(r->memory, "add it to %.*s, or write one that is there",
                                          TEXT_ARG(state->file));
    fault_add(r->faults, place, remedy.at, "\"%.*s\" is not in %s", TEXT_ARG(shown(t)), c->refers_to);
}

/* A reference into a damaged table stays open without a fault: the record may be one of those that could not be read. */
static bool read_reference(kit_reader *r, const kit_column *c, text t, fault_place place, kit_index *out) {
    const kit_table_state *state = state_of(r, c->refers_to);
    text key = reference_key(r, c->refers_to, t);
    *out = kit_find_key(state, key);
    if (*out == KIT_NONE) {
        if (!state->damaged)
            report_unknown(r, c, state, t, place);
        return false;
    }
    kit_key *entry =
        bsearch(&(kit_key){key, *out}, state->keys, state->n_keys, sizeof(kit_key), kit_compare_keys);
    if (entry && !text_equal(entry->key, key)) {
        fault_add(r->faults, place, arena_format(r->memory, "write %.*s", TEXT_ARG(entry->key)).at,
                  "\"%.*s\" is written \"%.*s\" in %s", TEXT_ARG(shown(t)), TEXT_ARG(entry->key),
                  c->refers_to);
        return false;
    }
    return true;
}

static uint32_t count_pieces(text cell) {
    uint32_t n = 1;
    for (size_t i = 0; i < cell.len; i++)
        n += cell.at[i] == ';';
    return n;
}

static bool read_piece(kit_reader *r, const kit_column *c, text piece, fault_place place, void *list,
                       uint32_t i) {
    if (!piece.len) {
        fault_add(r->faults, place, "remove the semicolon that is too many", "an item of the list is empty");
        return false;
    }
    if (c->kind == KIT_CELL_REFERENCES)
        return read_reference(r, c, piece, place, (kit_index *)list + i);
    if (c->kind == KIT_CELL_INTEGERS)
        return read_number(r, c, piece, place, (int64_t *)list + i);
    ((text *)list)[i] = piece;
    return check_text(r, piece, false, place);
}

/* A list, its pieces without blanks at their ends. *n gets their number, *whole whether all are right. */
static void *read_list(kit_reader *r, const kit_column *c, text cell, fault_place place, size_t size,
                       uint32_t *n, bool *whole) {
    uint32_t pieces = count_pieces(cell);
    void *list = arena_alloc_array(r->memory, pieces, size);
    text rest = cell, piece;
    *whole = true;
    while (*n < pieces && text_next_piece(&rest, ';', &piece)) {
        *whole = read_piece(r, c, text_trim(piece), place, list, *n) && *whole;
        ++*n;
    }
    return list;
}

static bool read_references(kit_reader *r, const kit_column *c, text t, fault_place place, kit_indices *out) {
    bool whole;
    out->list = read_list(r, c, t, place, sizeof *out->list, &out->n, &whole);
    return whole;
}

static bool read_texts(kit_reader *r, const kit_column *c, text t, fault_place place, kit_texts *out) {
    bool whole;
    out->list = read_list(r, c, t, place, sizeof *out->list, &out->n, &whole);
    return whole;
}

static bool read_integers(kit_reader *r, const kit_column *c, text t, fault_place place, kit_integers *out) {
    bool whole;
    out->list = read_list(r, c, t, place, sizeof *out->list, &out->n, &whole);
    for (uint32_t i = 1; whole && i < out->n; i++) {
        if (out->list[i] > out->list[i - 1])
            continue;
        fault_add(r->faults, place, "write them in ascending order, each once", "%lld follows %lld",
                  (long long)out->list[i], (long long)out->list[i - 1]);
        return false;
    }
    return whole;
}

static bool read_day(kit_reader *r, text t, fault_place place, date_day *out) {
    if (date_read(t, out))
        return true;
    fault_add(r->faults, place, "write it as 2027-03-14", "\"%.*s\" is not a day", TEXT_ARG(shown(t)));
    return false;
}

static bool read_clock(kit_reader *r, text t, fault_place place, int *out) {
    if (date_read_clock(t, out))
        return true;
    fault_add(r->faults, place, "write it as 18:30", "\"%.*s\" is not a clock time", TEXT_ARG(shown(t)));
    return false;
}

static void set_empty(const kit_column *c, void *member) {
    switch (c->kind) {
    case KIT_CELL_KEY:
    case KIT_CELL_TEXT:
        *(text *)member = TEXT("");
        break;
    case KIT_CELL_INTEGER:
    case KIT_CELL_DECIMAL:
        *(int64_t *)member = c->empty;
        break;
    case KIT_CELL_REFERENCE:
        *(kit_index *)member = KIT_NONE;
        break;
    case KIT_CELL_DAY:
        *(date_day *)member = (date_day)c->empty;
        break;
    case KIT_CELL_CLOCK:
        *(int *)member = (int)c->empty;
        break;
    case KIT_CELL_YES_NO:     /* no */
    case KIT_CELL_WORD:       /* the first */
    case KIT_CELL_REFERENCES: /* an empty list */
    case KIT_CELL_TEXTS:
    case KIT_CELL_INTEGERS:
        break; /* zeroed already */
    }
}

static bool read_value(kit_reader *r, const kit_column *c, text t, fault_place place, void *member) {
    switch (c->kind) {
    case KIT_CELL_KEY:
        *(text *)member = t;
        return read_key(r, t, place);
    case KIT_CELL_TEXT:
        *(text *)member = t;
        return check_text(r, t, true, place);
    case KIT_CELL_INTEGER:
    case KIT_CELL_DECIMAL:
        return read_number(r, c, t, place, member);
    case KIT_CELL_YES_NO:
        return read_yes_no(r, t, place, member);
    case KIT_CELL_WORD:
        return read_word(r, c, t, place, member);
    case KIT_CELL_REFERENCE:
        return read_reference(r, c, t, place, member);
    case KIT_CELL_REFERENCES:
        return read_references(r, c, t, place, member);
    case KIT_CELL_TEXTS:
        return read_texts(r, c, t, place, member);
    case KIT_CELL_INTEGERS:
        return read_integers(r, c, t, place, member);
    case KIT_CELL_DAY:
        return read_day(r, t, place, member);
    case KIT_CELL_CLOCK:
        return read_clock(r, t, place, member);
    }
    return false;
}

static const char *remedy_for_empty(kit_reader *r, const kit_column *c) {
    switch (c->kind) {
    case KIT_CELL_WORD:
        return arena_format(r->memory, "write %.*s", TEXT_ARG(list_words(r->memory, c->words))).at;
    case KIT_CELL_YES_NO:
        return "write yes or no";
    case KIT_CELL_REFERENCE:
        return arena_format(r->memory, "write one of %.*s", TEXT_ARG(state_of(r, c->refers_to)->file)).at;
    case KIT_CELL_INTEGER:
    case KIT_CELL_DECIMAL:
        return "write a number";
    case KIT_CELL_DAY:
        return "write a day as 2027-03-14";
    case KIT_CELL_CLOCK:
        return "write a clock time as 18:30";
    case KIT_CELL_KEY:
    case KIT_CELL_TEXT:
    case KIT_CELL_REFERENCES:
    case KIT_CELL_TEXTS:
    case KIT_CELL_INTEGERS:
        break;
    }
    return "fill it in";
}

bool kit_read_cell(kit_reader *r, const kit_column *c, text cell, fault_place place, void *member) {
    text t = text_trim(cell);
    set_empty(c, member);
    if (t.len)
        return read_value(r, c, t, place, member);
    if (!c->required)
        return true;
    fault_add(r->faults, place, remedy_for_empty(r, c), "the cell is empty, but it is needed");
    return false;
}
