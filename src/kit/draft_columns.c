/* draft_columns.c: which column is what.
 *
 * A heading speaks first, the cells below confirm or contradict it. Where two columns could be the quantity and their
 * cells differ, nothing is guessed: a wrong column would make every row silently wrong.
 */
#include "kit/draft_finder.h"

uint32_t draft_place_of(const draft_list *list, draft_role role) {
    for (uint32_t i = 0; i < list->n_columns; i++)
        if (list->columns[i].role == role)
            return i;
    return DRAFT_NO_COLUMN;
}

static bool is_free(const draft_finder *d, uint32_t c) {
    const draft_column *column = &d->list->columns[c];
    return column->role == DRAFT_NOT_USED && column->reason.trust != DRAFT_NAMED;
}

static bool is_named(const draft_finder *d, draft_role role) {
    for (uint32_t c = 0; c < d->list->n_columns; c++)
        if (d->list->columns[c].role == role && d->list->columns[c].reason.trust == DRAFT_NAMED)
            return true;
    return false;
}

static bool same_cells(const draft_finder *d, uint32_t one, uint32_t other) {
    for (uint32_t i = d->first; i < d->grid->n; i++)
        if (!text_equal(draft_cell(&d->grid->records[i], one), draft_cell(&d->grid->records[i], other)))
            return false;
    return true;
}

static void assign(draft_finder *d, uint32_t c, draft_role role, draft_trust trust, text why) {
    d->list->columns[c].role = role;
    d->list->columns[c].reason = (draft_reason){trust, why};
}

static bool report_two_quantities(draft_finder *d, uint32_t one, uint32_t other) {
    char first[8], second[8];
    draft_column_letters(one, first);
    draft_column_letters(other, second);
    fault_add(d->faults, (fault_place){d->grid->file, d->list->header_row, TEXT("")},
              arena_format(d->memory, "say which: --columns \"quantity=%s\"", first).at,
              "columns %s \"%.*s\" and %s \"%.*s\" both look like the quantity and differ", first,
              TEXT_ARG(d->list->columns[one].heading), second, TEXT_ARG(d->list->columns[other].heading));
    return false;
}

/* Strength of the heading for `role`, 0 when the cells speak against it. */
static int heading_strength(const draft_finder *d, uint32_t c, draft_role role) {
    const draft_looks *l = &d->looks[c];
    draft_heading h = draft_heading_for(d->memory, d->list->columns[c].heading, role);
    if (!is_free(d, c) || !h.strength || h.role != role)
        return 0;
    if (role == DRAFT_QUANTITY && l->filled && draft_percent(l->quantities, l->filled) < 50 && h.strength < 3)
        return 0;
    if (role == DRAFT_NAME && l->filled &&
        (draft_percent(l->letters, l->filled) < 30 || draft_percent(l->links, l->filled) > 50) &&
        h.strength < 3)
        return 0;
    if (role == DRAFT_UNIT && l->filled && draft_percent(l->units, l->filled) < 50)
        return 0;
    return h.strength;
}

/* The free column whose heading speaks most for `role`; *rival gets another one as good, or DRAFT_NO_COLUMN. */
static uint32_t best_heading(const draft_finder *d, draft_role role, int *strength, uint32_t *rival) {
    uint32_t best = DRAFT_NO_COLUMN;
    *strength = 0;
    *rival = DRAFT_NO_COLUMN;
    for (uint32_t c = 0; c < d->list->n_columns; c++) {
        int s = heading_strength(d, c, role);
        if (s > *strength) {
            *strength = s;
            best = c;
            *rival = DRAFT_NO_COLUMN;
        } else if (s && s == *strength && *rival == DRAFT_NO_COLUMN) {
            *rival = c;
        }
    }
    return best;
}

static text heading_says(const draft_finder *d, uint32_t fit, uint32_t filled, const char *what) {
    return arena_format(d->memory, "its heading; %u of %u cells %s", fit, filled, what);
}

static bool may_be_quantity(const draft_finder *d, uint32_t c) {
    const draft_looks *l = &d->looks[c];
    draft_heading h = draft_heading_of(d->memory, d->list->columns[c].heading);
    return is_free(d, c) && l->filled && draft_percent(l->quantities, l->filled) >= 80 && !l->counts_up &&
           !(h.known && h.role != DRAFT_QUANTITY);
}

static bool guess_quantity(draft_finder *d) {
    uint32_t found = DRAFT_NO_COLUMN;
    for (uint32_t c = 0; c < d->list->n_columns; c++) {
        if (!may_be_quantity(d, c))
            continue;
        if (found != DRAFT_NO_COLUMN)
            return report_two_quantities(d, found, c);
        found = c;
    }
    if (found == DRAFT_NO_COLUMN) {
        fault_add(d->faults, (fault_place){d->grid->file, 0, TEXT("")},
                  "name it: --columns \"quantity=C\" with its heading or letter",
                  "no column looks like quantities (it has %.*s)", TEXT_ARG(draft_list_headings(d)));
        return false;
    }
    assign(d, found, DRAFT_QUANTITY, DRAFT_GUESSED,
           arena_format(d->memory, "%u of %u cells are quantities", d->looks[found].quantities,
                        d->looks[found].filled));
    return true;
}

static bool find_quantity(draft_finder *d) {
    int strength;
    uint32_t rival, best = best_heading(d, DRAFT_QUANTITY, &strength, &rival);
    if (is_named(d, DRAFT_QUANTITY))
        return true;
    if (best == DRAFT_NO_COLUMN)
        return guess_quantity(d);
    if (rival != DRAFT_NO_COLUMN && !same_cells(d, best, rival))
        return report_two_quantities(d, best, rival);
    const draft_looks *l = &d->looks[best];
    bool fits = draft_percent(l->quantities, l->filled) >= 80;
    assign(d, best, DRAFT_QUANTITY,
           !fits           ? DRAFT_GUESSED
           : strength == 3 ? DRAFT_SURE
                           : DRAFT_LIKELY,
           heading_says(d, l->quantities, l->filled, "are quantities"));
    return true;
}

static uint32_t distinct_cells(const draft_finder *d, uint32_t c) {
    uint32_t distinct = 0;
    for (uint32_t i = d->first; i < d->grid->n; i++) {
        text cell = draft_cell(&d->grid->records[i], c);
        bool seen = cell.len == 0;
        for (uint32_t j = d->first; j < i && !seen && j < d->first + 200; j++)
            seen = text_equal(draft_cell(&d->grid->records[j], c), cell);
        distinct += !seen;
    }
    return distinct;
}

static bool guess_name(draft_finder *d) {
    uint32_t best = DRAFT_NO_COLUMN, best_distinct = 0;
    for (uint32_t c = 0; c < d->list->n_columns; c++) {
        const draft_looks *l = &d->looks[c];
        draft_heading h = draft_heading_of(d->memory, d->list->columns[c].heading);
        if (!is_free(d, c) || !l->filled || draft_percent(l->letters, l->filled) < 70 ||
            draft_percent(l->links, l->filled) > 20 ||
            (h.known && h.role != DRAFT_NAME && h.role != DRAFT_NUMBER && h.role != DRAFT_SPECIFICATION))
            continue;
        uint32_t distinct = distinct_cells(d, c);
        if (distinct > best_distinct) {
            best = c;
            best_distinct = distinct;
        }
    }
    if (best == DRAFT_NO_COLUMN) {
        fault_add(d->faults, (fault_place){d->grid->file, 0, TEXT("")},
                  "name it: --columns \"name=A\" with its heading or letter",
                  "no column looks like names (it has %.*s)", TEXT_ARG(draft_list_headings(d)));
        return false;
    }
    assign(d, best, DRAFT_NAME, DRAFT_GUESSED,
           arena_format(d->memory, "%u of %u cells are words, %u different", d->looks[best].letters,
                        d->looks[best].filled, best_distinct));
    return true;
}

static bool find_name(draft_finder *d) {
    int strength;
    uint32_t rival, best = best_heading(d, DRAFT_NAME, &strength, &rival);
    if (is_named(d, DRAFT_NAME))
        return true;
    if (best == DRAFT_NO_COLUMN)
        return guess_name(d);
    const draft_looks *l = &d->looks[best];
    bool alone = rival == DRAFT_NO_COLUMN;
    assign(d, best, DRAFT_NAME,
           !alone          ? DRAFT_GUESSED
           : strength == 3 ? DRAFT_SURE
                           : DRAFT_LIKELY,
           alone ? heading_says(d, l->letters, l->filled, "are words")
                 : TEXT("its heading; another column's would do as well"));
    return true;
}

/* Columns that may be missing. */
static void find_others(draft_finder *d) {
    for (uint32_t c = 0; c < d->list->n_columns; c++) {
        if (!is_free(d, c))
            continue;
        draft_heading h = draft_heading_of(d->memory, d->list->columns[c].heading);
        draft_role role = h.role == DRAFT_NAME || h.role == DRAFT_QUANTITY ? h.fallback : h.role;
        if (role == DRAFT_UNIT && heading_strength(d, c, DRAFT_UNIT) == 0)
            role = DRAFT_NOT_USED;
        if (role == DRAFT_NUMBER && draft_place_of(d->list, role) != DRAFT_NO_COLUMN)
            role = DRAFT_MAKERS_NUMBER;
        if (draft_is_single(role) && draft_place_of(d->list, role) != DRAFT_NO_COLUMN)
            role = DRAFT_NOT_USED;
        if (role == DRAFT_NOT_USED)
            assign(d, c, role, h.known ? DRAFT_SURE : DRAFT_LIKELY,
                   h.known ? TEXT("its heading") : TEXT("nothing that a kit needs"));
        else
            assign(d, c, role, h.whole && h.strength == 3 ? DRAFT_SURE : DRAFT_LIKELY, TEXT("its heading"));
    }
}

static void find_mark(draft_finder *d, draft_mark wanted) {
    draft_mark_votes votes = {0};
    uint32_t place = draft_place_of(d->list, DRAFT_QUANTITY);
    for (uint32_t i = d->first; i < d->grid->n; i++)
        draft_mark_vote(draft_cell(&d->grid->records[i], place), &votes);
    d->list->mark = wanted;
    d->list->mark_reason = (draft_reason){DRAFT_NAMED, TEXT("so named")};
    if (wanted != DRAFT_ANY_MARK)
        return;
    d->list->mark_reason = (draft_reason){DRAFT_SURE, TEXT("no quantity has one")};
    if (votes.points && votes.commas) {
        d->list->mark_reason =
            (draft_reason){DRAFT_GUESSED, TEXT("both marks occur; each cell speaks for itself")};
    } else if (votes.points || votes.commas) {
        d->list->mark = votes.points ? DRAFT_POINT : DRAFT_COMMA;
        d->list->mark_reason =
            (draft_reason){DRAFT_LIKELY, arena_format(d->memory, "%u of the quantities show it",
                                                      votes.points + votes.commas)};
    }
}

bool draft_columns_find(arena *a, const draft_grid *grid, draft_wishes wishes, faults *f, draft_list *out) {
    size_t before = f->n;
    draft_finder d = {.memory = a, .grid = grid, .faults = f, .list = out};
    if (!draft_find_header(&d, wishes.header_row))
        return false;
    draft_take_names(&d, wishes.columns);
    if (f->n > before)
        return false;
    bool quantity = find_quantity(&d);
    if (!find_name(&d) || !quantity)
        return false;
    find_others(&d);
    find_mark(&d, wishes.mark);
    return true;
}
