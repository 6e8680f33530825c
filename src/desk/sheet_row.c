/* sheet_row.c: rows of the workshop's tables as they are from now on. */
#include "desk/sheet_row.h"

#include <string.h>

#include "base/json_out.h"

static const kit_table *find_table(const kit_tables *all, const char *name) {
    for (uint32_t i = 0; i < all->n; i++)
        if (text_is(all->list[i].name, name))
            return &all->list[i];
    return NULL;
}

bool sheet_row_open(desk *d, const char *sheet, text key, sheet_row *out, bool *there, err *e) {
    kit_tables kit_raw, workshop_raw;
    *out = (sheet_row){.d = d, .form = kit_find_form(sheet, true), .key = key};
    out->cells = arena_array(d->memory, text, out->form->n_columns);
    *there = false;
    if (!store_read_tables(d->memory, d->file, &kit_raw, &workshop_raw, e))
        return false;
    const kit_table *t = find_table(&workshop_raw, sheet);
    for (uint32_t row = 0; t && row < t->n_rows && !*there; row++) {
        *there = text_equal(kit_table_key(d->memory, out->form, t, row), key);
        for (uint32_t i = 0; *there && i < out->form->n_columns; i++) {
            int at = kit_table_column(t, text_of(out->form->columns[i].name));
            out->cells[i] = at < 0 ? TEXT("") : t->cells[(size_t)row * t->n_columns + (size_t)at];
        }
    }
    return true;
}

void sheet_row_put(sheet_row *r, const char *column, text value) {
    for (uint32_t i = 0; i < r->form->n_columns; i++)
        if (strcmp(r->form->columns[i].name, column) == 0)
            r->cells[i] = value;
}

/* Empty cells are left out, and so are names, which stand with the people. */
static text cells_as_json(const sheet_row *r) {
    bool crew = strcmp(r->form->name, "crew") == 0;
    buf out = {0};
    json_out j = json_to(&out);
    json_put_object(&j, NULL);
    for (uint32_t i = 0; i < r->form->n_columns; i++)
        if (r->cells[i].len && !(crew && strcmp(r->form->columns[i].name, "name") == 0))
            json_put_text(&j, r->form->columns[i].name, r->cells[i]);
    json_end_object(&j);
    text t = arena_text(r->d->memory, text_trim(buf_text(&out)));
    buf_free(&out);
    return t;
}

static bool write_entry(desk *d, const char *sheet, text key, text cells, const store_entry *stamp, err *e) {
    store_entry n = act_entry(stamp, STORE_SET);
    int64_t number;
    n.sheet = text_of(sheet);
    n.key = key;
    n.cells = cells;
    return store_append(d->file, &n, &number, e);
}

bool sheet_row_write(const sheet_row *r, const store_entry *stamp, err *e) {
    return write_entry(r->d, r->form->name, r->key, cells_as_json(r), stamp, e);
}

bool sheet_row_remove(desk *d, const char *sheet, text key, const store_entry *stamp, err *e) {
    return write_entry(d, sheet, key, TEXT(""), stamp, e);
}

/* ---- what follows ---- */

/* Faults of these tables are wrong in themselves; the others say what does not fit any more. */
static bool is_of_the_change(const fault *f) {
    static const char *const files[] = {"crew.csv", "sessions.csv", "attendance.csv", "workplaces.csv"};
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        if (text_is(f->place.file, files[i]))
            return true;
    return false;
}

static bool refuse(const desk *d, const fault *f, err *e) {
    return err_input(e, "the change", arena_z(d->memory, f->remedy), "%.*s", TEXT_ARG(f->cause));
}

/* As it would be read out of a folder. */
static bool check_workshop(desk *d, desk_reasons *mind, err *e) {
    kit_tables kit_raw, workshop_raw;
    const kit_workshop *w = NULL;
    faults f = faults_in(d->memory);
    mind->n = 0;
    if (!store_read_tables(d->memory, d->file, &kit_raw, &workshop_raw, e))
        return false;
    if (!workshop_raw.n) /* undone back to a build without one */
        return true;
    bool read = kit_workshop_from_tables(d->memory, &workshop_raw, d->kit, &f, &w);
    bool fine = read && kit_check(d->kit, w, &f);
    for (size_t i = 0; i < f.n && !fine; i++)
        if (!read || is_of_the_change(&f.list[i]))
            return refuse(d, &f.list[i], e);
    for (size_t i = 0; i < f.n; i++)
        reasons_add(d, mind, "%.*s", TEXT_ARG(f.list[i].cause));
    return true;
}

bool sheet_rows_end(desk *d, bool ok, desk_reasons *mind, err *e) {
    err later;
    ok = ok && check_workshop(d, mind, e);
    ok = act_end(d, ok, e);
    return desk_load_workshop(d, ok ? e : &later) && ok;
}
