/* draft_named.c: the columns that a person named: "name=Part; quantity=C". */
#include "kit/draft_finder.h"

static const char *const role_words[DRAFT_ROLES] = {
    "nothing", "name", "quantity", "unit", "number", "makers-number", "specification", "note", "box", "bag"};

static fault_place wish_place(void) {
    return (fault_place){TEXT("--columns"), 0, TEXT("")};
}

text draft_list_headings(const draft_finder *d) {
    text all = TEXT("");
    for (uint32_t c = 0; c < d->list->n_columns && c < 26; c++) {
        char letters[8];
        draft_column_letters(c, letters);
        text heading = d->list->columns[c].heading;
        all = heading.len ? arena_format(d->memory, "%.*s%s%s \"%.*s\"", TEXT_ARG(all), c ? ", " : "",
                                         letters, TEXT_ARG(heading))
                          : arena_format(d->memory, "%.*s%s%s", TEXT_ARG(all), c ? ", " : "", letters);
    }
    return all;
}

/* A heading as the list writes it, or a spreadsheet's letter. */
static bool find_column(draft_finder *d, text wanted, uint32_t *out) {
    uint32_t found = 0;
    text plain = draft_plain(d->memory, wanted);
    for (uint32_t c = 0; c < d->list->n_columns; c++)
        if (plain.len && text_equal(draft_plain(d->memory, d->list->columns[c].heading), plain)) {
            *out = c;
            found++;
        }
    for (uint32_t c = 0; !found && c < d->list->n_columns; c++) {
        char letters[8];
        draft_column_letters(c, letters);
        if (text_equal_nocase(text_of(letters), wanted)) {
            *out = c;
            return true;
        }
    }
    if (found == 1)
        return true;
    fault_add(d->faults, wish_place(),
              arena_format(d->memory, "the list has %.*s", TEXT_ARG(draft_list_headings(d))).at,
              found ? "\"%.*s\" is the heading of more than one column" : "the list has no column \"%.*s\"",
              TEXT_ARG(wanted));
    return false;
}

static bool read_role(text word, draft_role *out) {
    for (int i = 0; i < DRAFT_ROLES; i++)
        if (text_equal_nocase(word, text_of(role_words[i]))) {
            *out = (draft_role)i;
            return true;
        }
    return false;
}

bool draft_is_single(draft_role role) {
    return role == DRAFT_NAME || role == DRAFT_QUANTITY || role == DRAFT_UNIT || role == DRAFT_NUMBER ||
           role == DRAFT_BOX || role == DRAFT_BAG;
}

static void name_one(draft_finder *d, text wish) {
    text rest = wish, word;
    draft_role role;
    uint32_t c;
    if (!text_next_piece(&rest, '=', &word) || !rest.at || !read_role(text_trim(word), &role)) {
        fault_add(
            d->faults, wish_place(),
            "write it like \"name=Part; quantity=C\"; there are name, quantity, unit, number, makers-number, "
            "specification, note, box, bag, nothing",
            "\"%.*s\" names no column", TEXT_ARG(wish));
        return;
    }
    if (!find_column(d, text_trim(rest), &c))
        return;
    draft_column *column = &d->list->columns[c];
    if (column->reason.trust == DRAFT_NAMED ||
        (draft_is_single(role) && draft_place_of(d->list, role) != DRAFT_NO_COLUMN)) {
        fault_add(d->faults, wish_place(), "name each once", "\"%.*s\" comes twice", TEXT_ARG(wish));
        return;
    }
    column->role = role;
    column->reason = (draft_reason){DRAFT_NAMED, TEXT("so named")};
}

void draft_take_names(draft_finder *d, text wishes) {
    text rest = text_trim(wishes), one;
    if (!rest.len)
        return;
    while (text_next_piece(&rest, ';', &one))
        if (text_trim(one).len)
            name_one(d, text_trim(one));
}
