/* read.c: the kit's and the workshop's tables, and what stands now, out of a build file. */
#include <string.h>

#include "store/overlay.h"
#include "store/reading.h"
#include "store/schema.h"

/* The texts of one table's rows, as the reader of a kit folder would have met them. */
static bool read_table(arena *a, store *s, const kit_table_form *form, kit_table *out, err *e) {
    text name = schema_table_name(a, form);
    sqlite3_stmt *st =
        sql_prepare(s, arena_format(a, "SELECT * FROM \"%s\" ORDER BY sheet_row", name.at).at, e);
    if (!st)
        return false;
    uint32_t columns = (uint32_t)sqlite3_column_count(st) - 1; /* the first is sheet_row */
    *out = (kit_table){.name = text_of(form->name), .n_columns = columns};
    out->file = arena_format(a, "%s.csv", form->name);
    out->columns = arena_array(a, text, columns);
    for (uint32_t i = 0; i < columns; i++)
        out->columns[i] = arena_text(a, text_of(sqlite3_column_name(st, (int)i + 1)));
    size_t cap = 0, cells = 0, rows_cap = 0;
    int got;
    while ((got = sql_next(s, st, e)) == 1) {
        arena_room(a, out->row_numbers, out->n_rows, rows_cap, uint32_t);
        out->row_numbers[out->n_rows++] = (uint32_t)sqlite3_column_int64(st, 0);
        for (uint32_t i = 0; i < columns; i++) {
            arena_room(a, out->cells, cells, cap, text);
            out->cells[cells++] = sql_text(a, st, (int)i + 1);
        }
    }
    sqlite3_finalize(st);
    return got == 0;
}

static text name_of(const store_person *people, uint32_t n, text number) {
    for (uint32_t i = 0; i < n; i++)
        if (text_equal(people[i].number, number) && people[i].name.len)
            return people[i].name;
    return number;
}

/* The names stand with the people; whoever was forgotten is shown by number. */
static bool fill_names(arena *a, store *s, kit_table *crew, err *e) {
    store_person *people;
    uint32_t n, person = 0, name = 0;
    if (!store_read_people(a, s, &people, &n, e))
        return false;
    for (uint32_t i = 0; i < crew->n_columns; i++) {
        if (text_is(crew->columns[i], "person"))
            person = i;
        if (text_is(crew->columns[i], "name"))
            name = i;
    }
    for (uint32_t r = 0; r < crew->n_rows; r++) {
        text *cells = crew->cells + (size_t)r * crew->n_columns;
        cells[name] = name_of(people, n, cells[person]);
    }
    return true;
}

/* Tables without rows are left out, as a maker leaves them out; a workshop that was begun in the file may have no people or
 * dates yet. */
bool store_read_tables(arena *a, store *s, kit_tables *kit_raw, kit_tables *workshop_raw, err *e) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    *kit_raw = *workshop_raw = (kit_tables){0};
    kit_raw->list = arena_array(a, kit_table, n);
    workshop_raw->list = arena_array(a, kit_table, n);
    for (uint32_t i = 0; i < n; i++) {
        kit_tables *to = forms[i].of_workshop ? workshop_raw : kit_raw;
        kit_table *t = &to->list[to->n];
        if (!read_table(a, s, &forms[i], t, e) ||
            (forms[i].of_workshop && !overlay_rows(a, s, &forms[i], t, e)))
            return false;
        bool needed =
            forms[i].of_workshop && forms[i].required && workshop_raw->n; /* of a workshop that is there */
        if (!t->n_rows && !needed)
            continue;
        if (forms[i].of_workshop && strcmp(forms[i].name, "crew") == 0 && !fill_names(a, s, t, e))
            return false;
        to->n++;
    }
    return true;
}

/* ---- what stands now ---- */

/* Entries speak of the kit in the same file; one that speaks of something else was not written by this program. */
bool reading_strange(reading *r, const char *what) {
    return err_run(r->e, r->file->path, "go back to your last copy of it",
                   "the file is damaged: its journal names a %s that its kit does not have", what);
}

bool reading_row(reading *r, sqlite3_stmt *st, int at, kit_index *row) {
    kit_index container = kit_find_container(r->kit, sql_text(r->memory, st, at));
    *row =
        container == KIT_NONE ? KIT_NONE : kit_find_row(r->kit, container, sqlite3_column_int64(st, at + 1));
    return *row != KIT_NONE || reading_strange(r, "row");
}

bool reading_container(reading *r, sqlite3_stmt *st, int at, kit_index *container) {
    *container = kit_find_container(r->kit, sql_text(r->memory, st, at));
    return *container != KIT_NONE || reading_strange(r, "container");
}

bool reading_part(reading *r, sqlite3_stmt *st, int at, kit_index *part) {
    *part = kit_find_part(r->kit, sql_text(r->memory, st, at));
    return *part != KIT_NONE || reading_strange(r, "part");
}

static bool take_count(reading *r, sqlite3_stmt *st) {
    stock_count c = {.usable = sqlite3_column_int64(st, 2),
                     .damaged = sqlite3_column_int64(st, 3),
                     .in_transit = sqlite3_column_int64(st, 4) != 0,
                     .note = sql_text(r->memory, st, 5),
                     .times = (uint32_t)sqlite3_column_int64(st, 6),
                     .entry = sqlite3_column_int64(st, 7),
                     .person = sql_text(r->memory, st, 8)};
    if (!reading_row(r, st, 0, &c.row))
        return false;
    arena_room(r->memory, r->out->counts, r->out->n_counts, r->cap, stock_count);
    r->out->counts[r->out->n_counts++] = c;
    return true;
}

static bool take_find(reading *r, sqlite3_stmt *st) {
    stock_find f = {.what = sql_text(r->memory, st, 1),
                    .part = KIT_NONE,
                    .quantity = sqlite3_column_int64(st, 3),
                    .entry = sqlite3_column_int64(st, 4)};
    if (!reading_container(r, st, 0, &f.container) ||
        (sqlite3_column_type(st, 2) != SQLITE_NULL && !reading_part(r, st, 2, &f.part)))
        return false;
    arena_room(r->memory, r->out->finds, r->out->n_finds, r->cap, stock_find);
    r->out->finds[r->out->n_finds++] = f;
    return true;
}

static bool take_receipt(reading *r, sqlite3_stmt *st) {
    stock_receipt t = {.mass_g = sql_number_at(st, 1, -1),
                       .damage = sql_text(r->memory, st, 2),
                       .at = sqlite3_column_int64(st, 3) / 60,
                       .entry = sqlite3_column_int64(st, 4)};
    if (!reading_container(r, st, 0, &t.box))
        return false;
    arena_room(r->memory, r->out->receipts, r->out->n_receipts, r->cap, stock_receipt);
    r->out->receipts[r->out->n_receipts++] = t;
    return true;
}

static bool take_promise(reading *r, sqlite3_stmt *st) {
    stock_promise p = {.day = (date_day)sqlite3_column_int64(st, 1),
                       .quantity = sqlite3_column_int64(st, 2),
                       .entry = sqlite3_column_int64(st, 3)};
    if (!reading_part(r, st, 0, &p.part))
        return false;
    arena_room(r->memory, r->out->promises, r->out->n_promises, r->cap, stock_promise);
    r->out->promises[r->out->n_promises++] = p;
    return true;
}

static bool take_arrival(reading *r, sqlite3_stmt *st) {
    stock_arrival v = {.row = KIT_NONE,
                       .usable = sqlite3_column_int64(st, 3),
                       .damaged = sqlite3_column_int64(st, 4),
                       .entry = sqlite3_column_int64(st, 5)};
    if (!reading_part(r, st, 0, &v.part) ||
        (sqlite3_column_type(st, 1) != SQLITE_NULL && !reading_row(r, st, 1, &v.row)))
        return false;
    arena_room(r->memory, r->out->arrivals, r->out->n_arrivals, r->cap, stock_arrival);
    r->out->arrivals[r->out->n_arrivals++] = v;
    return true;
}

static bool take_voltage(reading *r, sqlite3_stmt *st) {
    stock_voltage v = {.piece = sqlite3_column_int64(st, 2),
                       .millivolts = sqlite3_column_int64(st, 3),
                       .entry = sqlite3_column_int64(st, 4)};
    if (!reading_row(r, st, 0, &v.row))
        return false;
    arena_room(r->memory, r->out->voltages, r->out->n_voltages, r->cap, stock_voltage);
    r->out->voltages[r->out->n_voltages++] = v;
    return true;
}

bool reading_list(reading *r, const char *sql, bool (*take)(reading *, sqlite3_stmt *)) {
    sqlite3_stmt *st = sql_prepare(r->file, sql, r->e);
    if (!st)
        return false;
    r->cap = 0;
    int got;
    while ((got = sql_next(r->file, st, r->e)) == 1)
        if (!take(r, st))
            break;
    sqlite3_finalize(st);
    return got == 0;
}

bool store_read_record(arena *a, store *s, const kit *k, stock_record *out, err *e) {
    *out = (stock_record){0};
    reading r = {.memory = a, .file = s, .kit = k, .out = out, .e = e};
    return reading_list(
               &r,
               "SELECT c.container, c.line, c.usable, c.damaged, c.in_transit, c.note, c.times, c.entry,"
               " j.person FROM state_counts c JOIN journal j ON j.entry = c.entry ORDER BY c.entry",
               take_count) &&
           reading_list(&r, "SELECT container, what, part, quantity, entry FROM state_finds ORDER BY entry",
                        take_find) &&
           reading_list(&r,
                        "SELECT container, mass_g, damage, at_s, entry FROM state_receipts ORDER BY entry",
                        take_receipt) &&
           reading_list(&r, "SELECT part, day, quantity, entry FROM state_promises ORDER BY entry",
                        take_promise) &&
           reading_list(
               &r, "SELECT part, container, line, usable, damaged, entry FROM state_arrivals ORDER BY entry",
               take_arrival) &&
           reading_list(&r,
                        "SELECT container, line, piece, millivolts, entry FROM state_voltages ORDER BY entry",
                        take_voltage) &&
           reading_work(&r) && reading_shared(&r);
}
