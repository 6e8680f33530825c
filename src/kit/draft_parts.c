/* draft_parts.c: which rows mean the same part, and what the part is called. */
#include "kit/draft_inside.h"

/* Two rows mean the same part when the list gives them one number, or, where it gives none, when name, specification
 * and maker's number are the same; and the unit, since a part has one. A number that the list gives to two names is no
 * number. */
static bool same_unit(const draft_list *list, const draft_row *one, const draft_row *other) {
    kit_unit first, second;
    if (one->kind != DRAFT_PART || other->kind != DRAFT_PART)
        return one->kind == other->kind; /* what is not understood stays apart */
    (void)draft_row_in_kit(one, list->open_packs, &first);
    (void)draft_row_in_kit(other, list->open_packs, &second);
    return first == second;
}

static bool same_part(const draft_list *list, const draft_row *one, const draft_row *other) {
    if (!text_equal(one->name, other->name) || !text_equal(one->number, other->number))
        return false;
    if (!same_unit(list, one, other))
        return false;
    return one->number.len || (text_equal(one->specification, other->specification) &&
                               text_equal(one->makers_numbers, other->makers_numbers));
}

static bool number_taken(const draft_list *list, text number) {
    for (uint32_t i = 0; i < list->n_parts; i++)
        if (text_equal_nocase(list->parts[i].number, number))
            return true;
    return false;
}

static bool is_fit_for_number(text number) {
    enum { LONGEST = 40 };
    return number.len && number.len <= LONGEST && text_find(number, TEXT(";")) < 0;
}

/* P and the row: the same list gives the same numbers in any dialect, and rows added at its end change none. */
static text choose_number(arena *a, const draft_list *list, const draft_row *row) {
    if (is_fit_for_number(row->number) && !number_taken(list, row->number))
        return row->number;
    text number = arena_format(a, "P%03u", row->row);
    for (int i = 2; number_taken(list, number); i++)
        number = arena_format(a, "P%03u-%d", row->row, i);
    return number;
}

static uint32_t find_part(const draft_list *list, const draft_row *row) {
    for (uint32_t i = 0; i < list->n_parts; i++)
        if (same_part(list, &list->rows[list->parts[i].first_row], row))
            return i;
    return DRAFT_NO_COLUMN;
}

/* A list that calls five parts "Screw" tells them apart by size; so must a sheet. */
static text telling_name(arena *a, const draft_list *list, uint32_t part) {
    const draft_row *own = &list->rows[list->parts[part].first_row];
    bool specification = false, makers_numbers = false;
    for (uint32_t i = 0; i < list->n_parts; i++) {
        const draft_row *other = &list->rows[list->parts[i].first_row];
        if (i == part || !text_equal(own->name, other->name))
            continue;
        specification = specification || !text_equal(own->specification, other->specification);
        makers_numbers = makers_numbers || !text_equal(own->makers_numbers, other->makers_numbers);
    }
    text added = specification && own->specification.len ? own->specification
                 : makers_numbers                        ? own->makers_numbers
                                                         : TEXT("");
    return added.len ? arena_format(a, "%.*s, %.*s", TEXT_ARG(own->name), TEXT_ARG(added)) : own->name;
}

void draft_parts_find(arena *a, draft_list *out) {
    out->parts = arena_array(a, draft_part, out->n_rows);
    for (uint32_t i = 0; i < out->n_rows; i++) {
        draft_row *row = &out->rows[i];
        if (!row->name.len || (row->kind != DRAFT_PART && row->kind != DRAFT_NOT_UNDERSTOOD))
            continue;
        row->part = find_part(out, row);
        if (row->part != DRAFT_NO_COLUMN)
            continue;
        draft_part *made = &out->parts[out->n_parts];
        *made = (draft_part){.number = choose_number(a, out, row), .first_row = i};
        row->part = out->n_parts++;
    }
    for (uint32_t i = 0; i < out->n_parts; i++) {
        draft_part *p = &out->parts[i];
        p->name = telling_name(a, out, i);
        draft_fastener_read(a, &out->rows[p->first_row], &p->designation, &p->proposal);
    }
}
