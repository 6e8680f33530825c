/* overlay.c: what was set in the workshop's tables since they were copied in. */
#include "store/overlay.h"

#include <string.h>

typedef struct {
    arena *memory;
    const kit_table_form *form;
    kit_table *table;
} overlay;

static text *row_at(const kit_table *t, uint32_t row) {
    return t->cells + (size_t)row * t->n_columns;
}

static uint32_t find_row(const overlay *o, text key) {
    for (uint32_t i = 0; i < o->table->n_rows; i++)
        if (text_equal(kit_table_key(o->memory, o->form, o->table, i), key))
            return i;
    return UINT32_MAX;
}

static uint32_t add_row(overlay *o) {
    kit_table *t = o->table;
    uint32_t number = t->n_rows ? t->row_numbers[t->n_rows - 1] + 1 : 2; /* 1 is the head of a sheet */
    uint32_t *numbers = arena_array(o->memory, uint32_t, (size_t)t->n_rows + 1);
    text *cells = arena_array(o->memory, text, ((size_t)t->n_rows + 1) * t->n_columns);
    for (uint32_t i = 0; i < t->n_rows; i++)
        numbers[i] = t->row_numbers[i];
    for (size_t i = 0; i < (size_t)t->n_rows * t->n_columns; i++)
        cells[i] = t->cells[i];
    numbers[t->n_rows] = number;
    t->row_numbers = numbers;
    t->cells = cells;
    return t->n_rows++;
}

static void take_out(kit_table *t, uint32_t row) {
    for (size_t i = (size_t)row * t->n_columns; i + t->n_columns < (size_t)t->n_rows * t->n_columns; i++)
        t->cells[i] = t->cells[i + t->n_columns];
    for (uint32_t i = row; i + 1 < t->n_rows; i++)
        t->row_numbers[i] = t->row_numbers[i + 1];
    t->n_rows--;
}

static bool put_cells(overlay *o, store *s, uint32_t row, text cells, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT key, value FROM json_each(?)", e);
    if (!st)
        return false;
    for (uint32_t i = 0; i < o->table->n_columns; i++)
        row_at(o->table, row)[i] = TEXT("");
    sql_bind_text(st, 1, cells);
    int got;
    while ((got = sql_next(s, st, e)) == 1) {
        int at = kit_table_column(o->table, sql_text(o->memory, st, 0));
        if (at >= 0)
            row_at(o->table, row)[at] = sql_text(o->memory, st, 1);
    }
    sqlite3_finalize(st);
    return got == 0;
}

static int earlier(const kit_table *t, uint32_t row, uint32_t other, int day, int start) {
    int order = text_compare(row_at(t, row)[day], row_at(t, other)[day]);
    return order ? order : text_compare(row_at(t, row)[start], row_at(t, other)[start]);
}

static void swap_rows(kit_table *t, uint32_t row, uint32_t other) {
    for (uint32_t i = 0; i < t->n_columns; i++) {
        text kept = row_at(t, row)[i];
        row_at(t, row)[i] = row_at(t, other)[i];
        row_at(t, other)[i] = kept;
    }
    uint32_t number = t->row_numbers[row];
    t->row_numbers[row] = t->row_numbers[other];
    t->row_numbers[other] = number;
}

/* Days and clock times are written so that their texts sort as they do. Some tens of sessions: insertion. */
static void sort_sessions(kit_table *t) {
    int day = kit_table_column(t, TEXT("date")), start = kit_table_column(t, TEXT("start"));
    if (day < 0 || start < 0)
        return;
    for (uint32_t i = 1; i < t->n_rows; i++)
        for (uint32_t k = i; k > 0 && earlier(t, k, k - 1, day, start) < 0; k--)
            swap_rows(t, k, k - 1);
}

/* A file that an older program made lacks the columns that came later. */
static void add_columns(overlay *o) {
    kit_table *t = o->table;
    kit_table wide = *t;
    wide.columns = arena_array(o->memory, text, (size_t)t->n_columns + o->form->n_columns);
    for (uint32_t i = 0; i < t->n_columns; i++)
        wide.columns[i] = t->columns[i];
    for (uint32_t i = 0; i < o->form->n_columns; i++)
        if (kit_table_column(t, text_of(o->form->columns[i].name)) < 0)
            wide.columns[wide.n_columns++] = text_of(o->form->columns[i].name);
    if (wide.n_columns == t->n_columns)
        return;
    wide.cells = arena_array(o->memory, text, (size_t)t->n_rows * wide.n_columns);
    for (uint32_t r = 0; r < t->n_rows; r++)
        for (uint32_t c = 0; c < wide.n_columns; c++)
            row_at(&wide, r)[c] = c < t->n_columns ? row_at(t, r)[c] : TEXT("");
    *t = wide;
}

bool overlay_rows(arena *a, store *s, const kit_table_form *form, kit_table *t, err *e) {
    sqlite3_stmt *st = sql_prepare(s,
                                   "SELECT r.key, r.cells FROM state_rows r WHERE r.sheet = ? ORDER BY"
                                   " (SELECT min(j.entry) FROM journal j WHERE j.verb = 'set'"
                                   "  AND j.sheet = r.sheet AND j.key = r.key)", /* as they were added */
                                   e);
    if (!st)
        return false;
    overlay o = {.memory = a, .form = form, .table = t};
    sql_bind_text(st, 1, text_of(form->name));
    bool ok = true;
    int got = 0;
    while (ok && (got = sql_next(s, st, e)) == 1) {
        add_columns(&o);
        uint32_t row = find_row(&o, sql_text(a, st, 0));
        text cells = sql_text(a, st, 1);
        if (cells.len)
            ok = put_cells(&o, s, row == UINT32_MAX ? add_row(&o) : row, cells, e);
        else if (row != UINT32_MAX)
            take_out(t, row);
    }
    sqlite3_finalize(st);
    if (ok && got == 0 && strcmp(form->name, "sessions") == 0)
        sort_sessions(t);
    return ok && got == 0;
}
