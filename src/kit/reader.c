/* reader.c: from raw tables to records, driven by the forms of schema.c.
 *
 * Two passes over the tables: the first reads the keys, so that references work in any direction; the second reads all
 * cells. A record with a fault stays in its array and is marked.
 */
#include <stdlib.h>
#include <string.h>

#include "kit/inside.h"

#define NO_COLUMN UINT32_MAX
enum { MOST_COLUMNS = 64 };

/* One table on its way into records. */
typedef struct {
    kit_reader *reader;
    const kit_table_form *form;
    const kit_table *table; /* NULL when it is not there */
    kit_table_state *state;
    uint32_t column_at[MOST_COLUMNS]; /* by column of the form: its position in the table */
    char *records;
    bool *faulty;
} table_reader;

static fault_place place_of(const table_reader *t, uint32_t row, const char *column) {
    return (fault_place){t->state->file, row, text_of(column)};
}

static text cell_at(const table_reader *t, uint32_t row, uint32_t column) {
    uint32_t at = t->column_at[column];
    return at == NO_COLUMN ? TEXT("") : t->table->cells[(size_t)row * t->table->n_columns + at];
}

static void *member_at(const table_reader *t, uint32_t row, uint32_t column) {
    return t->records + (size_t)row * t->form->record_size + t->form->columns[column].offset;
}

/* --- which tables, which columns --- */

static const kit_table *find_table(const kit_tables *tables, const char *name) {
    for (uint32_t i = 0; i < tables->n; i++)
        if (text_is(tables->list[i].name, name))
            return &tables->list[i];
    return NULL;
}

static void check_table_names(kit_reader *r, const kit_tables *tables) {
    for (uint32_t i = 0; i < tables->n; i++) {
        const kit_table *t = &tables->list[i];
        fault_place place = {t->file, 0, TEXT("")};
        if (find_table(tables, arena_z(r->memory, t->name)) != t)
            fault_add(r->faults, place, "keep one of them", "the table %.*s is there twice",
                      TEXT_ARG(t->name));
        if (kit_find_form(arena_z(r->memory, t->name), r->of_workshop))
            continue;
        text near = kit_nearest_table(r->of_workshop, t->name);
        text remedy = near.len ? arena_format(r->memory, "name it %.*s", TEXT_ARG(near))
                               : TEXT("take it out of the folder");
        fault_add(r->faults, place, remedy.at, "a %s has no table \"%.*s\"",
                  r->of_workshop ? "workshop" : "kit", TEXT_ARG(t->name));
    }
}

static uint32_t column_of_form(const kit_table_form *form, text name) {
    for (uint32_t i = 0; i < form->n_columns; i++)
        if (text_is(name, form->columns[i].name))
            return i;
    return NO_COLUMN;
}

static void report_unknown_column(table_reader *t, text name, uint32_t position) {
    arena *a = t->reader->memory;
    if (!name.len) {
        fault_add(t->reader->faults, place_of(t, 1, ""), "name it, or remove it", "column %u has no name",
                  position + 1);
        return;
    }
    text near = kit_nearest_column(t->form, name);
    text remedy = near.len ? arena_format(a, "name it %.*s", TEXT_ARG(near)) : TEXT("remove it");
    fault_add(t->reader->faults, (fault_place){t->state->file, 1, name}, remedy.at,
              "the table %s has no such column", t->form->name);
}

/* Finds each column of the form in the table. False when a needed one is not there. */
static bool match_columns(table_reader *t) {
    for (uint32_t i = 0; i < MOST_COLUMNS; i++)
        t->column_at[i] = NO_COLUMN;
    for (uint32_t i = 0; i < t->table->n_columns; i++) {
        text name = text_trim(t->table->columns[i]);
        uint32_t column = column_of_form(t->form, name);
        if (column == NO_COLUMN)
            report_unknown_column(t, name, i);
        else if (t->column_at[column] != NO_COLUMN)
            fault_add(t->reader->faults, (fault_place){t->state->file, 1, name}, "keep one of them",
                      "the column is there twice");
        else
            t->column_at[column] = i;
    }
    bool whole = true;
    for (uint32_t i = 0; i < t->form->n_columns; i++) {
        if (!t->form->columns[i].required || t->column_at[i] != NO_COLUMN)
            continue;
        fault_add(t->reader->faults, place_of(t, 1, t->form->columns[i].name),
                  "add the column and fill it in", "the column is not there, but it is needed");
        whole = false;
    }
    return whole;
}

static void open_table(kit_reader *r, const kit_table_form *form, const kit_tables *tables, table_reader *t) {
    uint32_t n;
    *t = (table_reader){.reader = r, .form = form, .table = find_table(tables, form->name)};
    t->state = &r->own[form - kit_forms(&n)];
    t->state->file = t->table ? t->table->file : arena_format(r->memory, "%s.csv", form->name);
    if (!t->table) {
        if (form->required)
            fault_add(r->faults, place_of(t, 0, ""), "add it", "the table %s is not there, but it is needed",
                      form->name);
        t->state->damaged = form->required;
        return;
    }
    t->state->damaged = t->table->damaged;
    if (t->table->n_columns && !match_columns(t)) {
        t->state->damaged = true;
        t->table = NULL;
        return;
    }
    t->state->n = t->table->n_rows;
    t->faulty = arena_array(r->memory, bool, t->state->n);
    t->state->faulty = t->faulty;
}

/* Where the records go: an array of the owner, or the owner itself for the table of one record. */
static void make_records(table_reader *t, char *owner) {
    const kit_table_form *form = t->form;
    if (form->one_record) {
        t->records = owner;
        if (t->table && t->state->n != 1) {
            fault_add(t->reader->faults, place_of(t, 0, ""),
                      t->state->n ? "keep one row below the heading" : "add one row below the heading",
                      "it has %u rows, not one", t->state->n);
            t->state->n = t->state->n > 1;
        }
        return;
    }
    t->records = arena_alloc_array(t->reader->memory, t->state->n, form->record_size);
    void *list = t->records;
    memcpy(owner + form->list_offset, &list, sizeof list);
    memcpy(owner + form->count_offset, &t->state->n, sizeof t->state->n);
}

/* --- keys --- */

static bool has_own_key(const kit_table_form *form) {
    kit_cell_kind kind = form->columns[0].kind;
    return strcmp(form->key, form->columns[0].name) == 0 &&
           (kind == KIT_CELL_KEY || kind == KIT_CELL_INTEGER);
}

static void report_doubled(table_reader *t, kit_index later, kit_index earlier, text key) {
    uint32_t row = t->table->row_numbers[later], first = t->table->row_numbers[earlier];
    if (later != earlier)
        fault_add(t->reader->faults, place_of(t, row, t->form->columns[0].name),
                  "give it another number, or remove the row", "\"%.*s\" is there already, in row %u",
                  TEXT_ARG(key), first);
    t->faulty[later] = true;
}

/* Reads the first column of a table with a key of its own, and sorts it. */
static void read_keys(table_reader *t) {
    kit_table_state *s = t->state;
    s->keys = arena_array(t->reader->memory, kit_key, s->n);
    for (uint32_t i = 0; i < s->n; i++) {
        void *member = member_at(t, i, 0);
        fault_place place = place_of(t, t->table->row_numbers[i], t->form->columns[0].name);
        if (!kit_read_cell(t->reader, &t->form->columns[0], cell_at(t, i, 0), place, member)) {
            t->faulty[i] = true;
            continue;
        }
        text key = t->form->columns[0].kind == KIT_CELL_KEY
                       ? *(text *)member
                       : kit_integer_key(t->reader->memory, *(int64_t *)member);
        s->keys[s->n_keys++] = (kit_key){key, i};
    }
    qsort(s->keys, s->n_keys, sizeof *s->keys, kit_compare_keys);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < s->n_keys; i++) {
        if (kept && text_equal_nocase(s->keys[kept - 1].key, s->keys[i].key))
            report_doubled(t, s->keys[i].at, s->keys[kept - 1].at, s->keys[i].key);
        else
            s->keys[kept++] = s->keys[i];
    }
    s->n_keys = kept;
}

/* A key of several columns, or of a reference: compared by the values read. */
typedef struct {
    const table_reader *table;
    uint32_t columns[4];
    uint32_t n;
} wide_key;

static int compare_values(const kit_column *c, const void *a, const void *b) {
    if (c->kind == KIT_CELL_INTEGER) {
        int64_t left = *(const int64_t *)a, right = *(const int64_t *)b;
        return (left > right) - (left < right);
    }
    if (c->kind == KIT_CELL_TEXT)
        return text_compare(*(const text *)a, *(const text *)b);
    uint32_t left, right; /* a reference or a word */
    memcpy(&left, a, sizeof left);
    memcpy(&right, b, sizeof right);
    return (left > right) - (left < right);
}

static int compare_key_columns(const wide_key *key, uint32_t i, uint32_t j) {
    for (uint32_t c = 0; c < key->n; c++) {
        int order = compare_values(&key->table->form->columns[key->columns[c]],
                                   member_at(key->table, i, key->columns[c]),
                                   member_at(key->table, j, key->columns[c]));
        if (order)
            return order;
    }
    return 0;
}

static int compare_records(const void *left, const void *right, void *context) {
    uint32_t i = *(const uint32_t *)left, j = *(const uint32_t *)right;
    int order = compare_key_columns(context, i, j);
    return order ? order : (i > j) - (i < j);
}

/* "step and after" */
static text key_words(const table_reader *t) {
    text all = TEXT(""), rest = text_of(t->form->key), column;
    while (text_next_piece(&rest, '+', &column))
        all = arena_format(t->reader->memory, "%.*s%s%.*s", TEXT_ARG(all), all.len ? " and " : "",
                           TEXT_ARG(column));
    return all;
}

static void check_wide_key(table_reader *t) {
    wide_key key = {.table = t};
    text rest = text_of(t->form->key), column;
    while (text_next_piece(&rest, '+', &column) && key.n < 4)
        key.columns[key.n++] = column_of_form(t->form, column);
    uint32_t *order = arena_array(t->reader->memory, uint32_t, t->state->n);
    uint32_t n = 0;
    for (uint32_t i = 0; i < t->state->n; i++)
        if (!t->faulty[i])
            order[n++] = i;
    qsort_r(order, n, sizeof *order, compare_records, &key);
    for (uint32_t i = 1, first = 0; i < n; i++) {
        if (compare_key_columns(&key, order[first], order[i]) != 0) {
            first = i;
            continue;
        }
        fault_add(t->reader->faults, place_of(t, t->table->row_numbers[order[i]], ""),
                  "put the two together, or remove one", "it has the same %.*s as row %u",
                  TEXT_ARG(key_words(t)), t->table->row_numbers[order[first]]);
        t->faulty[order[i]] = true;
    }
}

/* --- all cells --- */

static void read_records(table_reader *t) {
    const kit_table_form *form = t->form;
    uint32_t first = has_own_key(form) && !form->one_record ? 1 : 0;
    for (uint32_t i = 0; i < t->state->n; i++) {
        uint32_t row = t->table->row_numbers[i];
        memcpy(t->records + (size_t)i * form->record_size, &row, sizeof row);
        for (uint32_t c = first; c < form->n_columns; c++)
            if (!kit_read_cell(t->reader, &form->columns[c], cell_at(t, i, c),
                               place_of(t, row, form->columns[c].name), member_at(t, i, c)))
                t->faulty[i] = true;
    }
    if (form->key[0] && !has_own_key(form))
        check_wide_key(t);
}

void kit_read_tables(kit_reader *r, const kit_tables *tables, void *owner) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    check_table_names(r, tables);
    table_reader *readers = arena_array(r->memory, table_reader, n);
    for (uint32_t i = 0; i < n; i++) {
        if (forms[i].of_workshop != r->of_workshop)
            continue;
        open_table(r, &forms[i], tables, &readers[i]);
        make_records(&readers[i], owner);
        if (has_own_key(&forms[i]) && !forms[i].one_record && readers[i].table)
            read_keys(&readers[i]);
    }
    for (uint32_t i = 0; i < n; i++)
        if (forms[i].of_workshop == r->of_workshop && readers[i].table)
            read_records(&readers[i]);
}
