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
#include "desk/entry.h"
#include "base/utf8.h"
#include "desk/entry_words.h"

bool entry_complain(entry_reader *r, const char *remedy, const char *cause) {
    r->f->of_lines = true;
    fault_add(r->f, (fault_place){r->source, r->line, TEXT("")}, remedy, "%s", cause);
    return false;
}

static text rest_of(text rest) {
    text t = text_trim(rest);
    return t.len > 40 ? text_slice(t, 0, 40) : t;
}

bool entry_not_understood(entry_reader *r, text rest) {
    const char *remedy =
        "write \"bag B3 all right except row 7: 11\", \"bag B3 missing\" or \"bag B3 extra 2 what it is\"";
    if (at_end(rest))
        return entry_complain(r, remedy, "the line ends too early");
    return entry_complain(r, remedy,
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
bool entry_take_container(entry_reader *r, text *rest, kit_index *out) {
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
        entry_complain(r, "write the number as it stands on the sheet",
                       arena_format(r->memory, "the kit has no box or bag \"%.*s\"", TEXT_ARG(name)).at);
        return false;
    }
    *rest = copy;
    return true;
}

bool entry_lies_in(const kit *k, kit_index container, kit_index outer) {
    while (container != KIT_NONE && container != outer)
        container = k->containers[container].inside;
    return container == outer;
}

bool entry_add_rows(entry_reader *r, const entry_line *line, kit_index container, bool itself,
                    bool all_right) {
    size_t n_named = r->n;
    bool any = false;
    for (kit_index i = 0; i < r->kit->n_rows; i++) {
        const kit_row *row = &r->kit->rows[i];
        if (itself ? row->container != container : !entry_lies_in(r->kit, row->container, container))
            continue;
        any = true;
        if (!entry_is_listed(r, line->first, n_named, i))
            entry_add(r, (desk_count){.row = i, .usable = all_right ? row->quantity : 0});
    }
    return any || entry_complain(r, "look at the sheet", "no row of the packing list is in it");
}

static bool read_container_line(entry_reader *r, text rest) {
    entry_line line = {.first = r->n};
    size_t faults_before = r->f->n;
    if (!entry_take_container(r, &rest, &line.container))
        return r->f->n > faults_before ? false : entry_not_understood(r, rest);
    line.itself = take_word(&rest, "itself");
    while (take_char(&rest, ':') || take_char(&rest, ','))
        continue;
    if (!entry_read_items(r, &rest, &line))
        return false;
    return !(line.all_right || line.missing) ||
           entry_add_rows(r, &line, line.container, line.itself, line.all_right);
}

static void read_line(entry_reader *r, text line) {
    text rest = text_trim(line);
    if (!rest.len || rest.at[0] == '#')
        return;
    if (utf8_fault(rest) >= 0) {
        entry_complain(r, "save the file as UTF-8", "it is not UTF-8 text");
        return;
    }
    if (take_word(&rest, "by")) {
        r->by = text_trim(rest);
        if (!r->by.len)
            entry_complain(r, "write \"by\" and the name of who counted", "the name is missing");
        else if (r->workshop && kit_find_person(r->workshop, r->by) == KIT_NONE)
            entry_complain(r, "write a name as it stands in the crew table",
                           arena_format(r->memory,
                                        "nobody in the crew is called \"%.*s\", or more than one is",
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
