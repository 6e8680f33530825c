/* draft_rows.c: what each row of a list is.
 *
 * A row is a part only when its name and its quantity are both understood. Everything else keeps its row number and a
 * reason, so that whoever reads the answer can go and look.
 */
#include "kit/draft_inside.h"

enum { THOUSAND = 1000 };

typedef struct {
    arena *memory;
    const draft_grid *grid;
    draft_list *list;
    uint32_t name, quantity, unit; /* places */
    draft_unit heading_unit;
    bool has_heading_unit;
    uint32_t headed;   /* columns up to the last heading */
    bool strict_width; /* few rows have cells right of it, so those that do have moved */
} row_reader;

/* The cells of all columns with this role, joined. */
static text join(const row_reader *d, const draft_record *record, draft_role role) {
    text all = TEXT("");
    for (uint32_t c = 0; c < d->list->n_columns; c++) {
        text cell = draft_cell(record, c);
        if (d->list->columns[c].role != role || !cell.len)
            continue;
        all = all.len ? arena_format(d->memory, "%.*s; %.*s", TEXT_ARG(all), TEXT_ARG(cell)) : cell;
    }
    return all;
}

static text without_semicolons(arena *a, text t) {
    char *made = arena_alloc(a, t.len + 1);
    for (size_t i = 0; i < t.len; i++)
        made[i] = (char)(t.at[i] == ';' ? ',' : t.at[i]);
    return (text){made, t.len};
}

/* Maker's numbers are a list in one cell of the kit, so a ';' inside one must go; links are no numbers. */
static text join_numbers(const row_reader *d, const draft_record *record) {
    text all = TEXT("");
    for (uint32_t c = 0; c < d->list->n_columns; c++) {
        text cell = draft_cell(record, c);
        if (d->list->columns[c].role != DRAFT_MAKERS_NUMBER || !cell.len || draft_is_link(cell))
            continue;
        text one = without_semicolons(d->memory, cell);
        if (text_find(arena_format(d->memory, "; %.*s; ", TEXT_ARG(all)),
                      arena_format(d->memory, "; %.*s; ", TEXT_ARG(one))) >= 0)
            continue;
        all = all.len ? arena_format(d->memory, "%.*s; %.*s", TEXT_ARG(all), TEXT_ARG(one)) : one;
    }
    return all;
}

/* Does anything but the name stand in the row? */
static bool has_more_than_name(const row_reader *d, const draft_record *record) {
    for (uint32_t c = 0; c < record->n; c++)
        if (c != d->name && record->cells[c].len)
            return true;
    return false;
}

static void not_a_part(draft_row *row, draft_kind kind, text why) {
    row->kind = kind;
    row->why = why;
}

/* A row without name and without quantity: a sum, a remark, nothing. */
static void read_nameless(const row_reader *d, const draft_record *record, draft_row *row) {
    bool only_figures = true, total = false;
    for (uint32_t c = 0; c < record->n; c++) {
        text cell = record->cells[c];
        total = total || (cell.len && draft_is_total_word(d->memory, cell));
        only_figures = only_figures && (!cell.len || draft_is_figure(cell));
    }
    if (total || only_figures)
        not_a_part(row, DRAFT_TOTAL, TEXT("a sum: no name and no quantity"));
    else
        not_a_part(row, DRAFT_REMARK, TEXT("no name and no quantity"));
}

/* One voice on the unit: the cell, the unit's column, the heading, a remark. They must not contradict each other. */
typedef struct {
    bool said;
    draft_unit unit;
    const char *by;
} unit_voice;

static bool take_voice(unit_voice *all, bool said, draft_unit unit, const char *by, const char **other) {
    if (!said)
        return true;
    if (all->said && all->unit != unit) {
        *other = by;
        return false;
    }
    if (!all->said)
        *all = (unit_voice){true, unit, by};
    return true;
}

static bool read_unit(const row_reader *d, const draft_record *record, draft_row *row,
                      const draft_quantity *q, unit_voice *all) {
    text cell = draft_cell(record, d->unit), remark = row->note.len ? row->note : row->specification;
    draft_unit column_unit = DRAFT_PIECES, remark_unit = DRAFT_PIECES;
    bool column_said = cell.len && draft_unit_read(d->memory, cell, &column_unit);
    if (cell.len && !column_said) {
        not_a_part(row, DRAFT_NOT_UNDERSTOOD,
                   arena_format(d->memory, "the unit \"%.*s\" is not known", TEXT_ARG(cell)));
        return false;
    }
    bool remark_said = draft_unit_in_remark(d->memory, remark, &remark_unit);
    const char *other = NULL;
    bool agree = take_voice(all, q->unit_said, q->unit, "the quantity", &other) &&
                 take_voice(all, column_said, column_unit, "the unit's column", &other) &&
                 take_voice(all, d->has_heading_unit, d->heading_unit, "the heading", &other) &&
                 take_voice(all, remark_said, remark_unit, "a remark", &other);
    if (!agree)
        not_a_part(row, DRAFT_NOT_UNDERSTOOD,
                   arena_format(d->memory, "%s says %s, %s says another unit", all->by,
                                draft_unit_word(all->unit), other));
    return agree;
}

/* Packs: the quantity's own words, else the name's or the specification's. */
static bool read_pack(const row_reader *d, draft_row *row) {
    if (row->unit != DRAFT_PIECES && row->unit != DRAFT_PACKS)
        return true;
    int64_t size = draft_pack_in_name(d->memory, row->name);
    if (!size)
        size = draft_pack_in_name(d->memory, row->specification);
    if (!size || row->pack_of)
        return true;
    if (size < 0) {
        not_a_part(row, DRAFT_NOT_UNDERSTOOD,
                   TEXT("the name speaks of several packs; how many pieces is not clear"));
        return false;
    }
    if (row->unit == DRAFT_PIECES && row->amount >= size * THOUSAND) {
        not_a_part(row, DRAFT_NOT_UNDERSTOOD,
                   arena_format(d->memory, "%lld may count pieces or packs of %lld",
                                (long long)(row->amount / THOUSAND), (long long)size));
        return false;
    }
    row->unit = DRAFT_PACKS;
    row->pack_of = size;
    return true;
}

/* Is it a whole number of what the kit counts, in the kit's range? */
static bool is_countable(const row_reader *d, draft_row *row) {
    kit_unit unit;
    bool open = d->list->open_packs;
    if (row->amount == 0 || draft_row_in_kit(row, open, &unit) > 0)
        return true;
    const char *what = row->unit == DRAFT_CM || row->unit == DRAFT_M ? "mm" : draft_unit_word(row->unit);
    not_a_part(row, DRAFT_NOT_UNDERSTOOD,
               row->unit == DRAFT_PIECES && row->amount % THOUSAND
                   ? arena_format(d->memory, "%.*s is no whole number of pieces, and no unit is named",
                                  TEXT_ARG(row->written))
                   : arena_format(d->memory, "%.*s is no whole number of %s up to 1,000,000,000",
                                  TEXT_ARG(row->written), what));
    return false;
}

static void read_part(const row_reader *d, const draft_record *record, draft_row *row) {
    draft_quantity q = draft_quantity_read(d->memory, row->written, d->list->mark);
    if (!q.known) {
        not_a_part(row, DRAFT_NOT_UNDERSTOOD, q.why_not);
        return;
    }
    unit_voice voice = {0};
    if (!read_unit(d, record, row, &q, &voice))
        return;
    row->kind = DRAFT_PART;
    row->amount = q.amount;
    row->unit = voice.said ? voice.unit : DRAFT_PIECES;
    row->pack_of = q.pack_of;
    if (!read_pack(d, row) || !is_countable(d, row))
        return;
    if (row->amount == 0)
        not_a_part(row, DRAFT_NONE_WANTED, TEXT("the list wants 0 of it"));
}

/* Does a cell stand right of the last heading? */
static bool is_too_wide(const row_reader *d, const draft_record *record) {
    for (uint32_t c = d->headed; c < record->n; c++)
        if (record->cells[c].len && d->list->columns[c].role == DRAFT_NOT_USED)
            return true;
    return false;
}

/* Where it does in most rows, that is a column without heading. Where it does in few, a name or number of these was cut in
 * two by a separator that should have been quoted, and their cells have moved. */
static void find_width(row_reader *d) {
    uint32_t wide = 0, filled = 0;
    for (uint32_t c = 0; c < d->list->n_columns; c++)
        if (d->list->columns[c].heading.len)
            d->headed = c + 1;
    for (uint32_t i = 0; i < d->grid->n; i++) {
        filled += !draft_is_empty(&d->grid->records[i]);
        wide += is_too_wide(d, &d->grid->records[i]);
    }
    d->strict_width = d->list->header_row && 2 * wide < filled;
}

static void read_row(const row_reader *d, const draft_record *record, draft_row *row) {
    *row = (draft_row){.row = record->row, .part = DRAFT_NO_COLUMN, .why = TEXT("")};
    row->name = draft_cell(record, d->name);
    row->written = draft_cell(record, d->quantity);
    row->number = join(d, record, DRAFT_NUMBER);
    row->makers_numbers = join_numbers(d, record);
    row->specification = join(d, record, DRAFT_SPECIFICATION);
    row->note = join(d, record, DRAFT_NOTE);
    row->box = join(d, record, DRAFT_BOX);
    row->bag = join(d, record, DRAFT_BAG);
    if (draft_is_empty(record))
        not_a_part(row, DRAFT_EMPTY, TEXT("empty"));
    else if (record->row <= d->list->header_row)
        not_a_part(row, DRAFT_HEADER,
                   record->row == d->list->header_row ? TEXT("the headings") : TEXT("above the headings"));
    else if (row->name.len && draft_is_total_word(d->memory, row->name))
        not_a_part(row, DRAFT_TOTAL, TEXT("a sum"));
    else if (!row->name.len && !row->written.len)
        read_nameless(d, record, row);
    else if (!row->name.len)
        not_a_part(row, DRAFT_NOT_UNDERSTOOD, TEXT("a quantity without a name"));
    else if (!row->written.len && !has_more_than_name(d, record))
        not_a_part(row, DRAFT_REMARK, TEXT("a text alone, without a quantity"));
    else if (d->strict_width && is_too_wide(d, record))
        not_a_part(row, DRAFT_NOT_UNDERSTOOD,
                   TEXT("it has more cells than there are headings; is a separator inside a cell?"));
    else
        read_part(d, record, row);
}

void draft_rows_read(arena *a, const draft_grid *grid, draft_list *out) {
    row_reader d = {.memory = a,
                    .grid = grid,
                    .list = out,
                    .name = draft_place_of(out, DRAFT_NAME),
                    .quantity = draft_place_of(out, DRAFT_QUANTITY),
                    .unit = draft_place_of(out, DRAFT_UNIT)};
    find_width(&d);
    d.has_heading_unit = draft_unit_in_heading(a, out->columns[d.quantity].heading, &d.heading_unit);
    out->rows = arena_array(a, draft_row, grid->n);
    out->n_rows = grid->n;
    for (uint32_t i = 0; i < grid->n; i++)
        read_row(&d, &grid->records[i], &out->rows[i]);
}
