/* create.c: makes a new build file: written beside its name, and given the name when it is whole. */
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "base/sys.h"
#include "store/connect.h"
#include "store/pictures.h"
#include "store/schema.h"

text beside_name(arena *a, const char *path) {
    return arena_format(a, "%s.part-%ld", path, (long)getpid());
}

void beside_remove(const char *beside) {
    arena *a = arena_open();
    unlink(beside);
    unlink(arena_format(a, "%s-journal", beside).at);
    unlink(arena_format(a, "%s.writing", beside).at);
    arena_close(a);
}

static bool is_crew_name(const kit_table_form *form, text column) {
    return form->of_workshop && strcmp(form->name, "crew") == 0 && text_is(column, "name");
}

static sqlite3_stmt *prepare_insert(store *s, const kit_table_form *form, const kit_table *t, err *e) {
    arena *a = arena_open();
    buf sql = {0};
    buf_addf(&sql, "INSERT INTO \"%s\" (sheet_row", schema_table_name(a, form).at);
    for (uint32_t i = 0; i < t->n_columns; i++)
        buf_addf(&sql, ", \"%.*s\"", TEXT_ARG(t->columns[i]));
    buf_add_z(&sql, ") VALUES (?");
    for (uint32_t i = 0; i < t->n_columns; i++)
        buf_add_z(&sql, ", ?");
    buf_add_z(&sql, ")");
    sqlite3_stmt *st = sql_prepare(s, sql.at, e);
    buf_free(&sql);
    arena_close(a);
    return st;
}

static bool copy_rows(store *s, const kit_table_form *form, const kit_table *t, err *e) {
    sqlite3_stmt *st = prepare_insert(s, form, t, e);
    if (!st)
        return false;
    bool ok = true;
    for (uint32_t r = 0; r < t->n_rows && ok; r++) {
        sql_bind_number(st, 1, t->row_numbers[r]);
        for (uint32_t c = 0; c < t->n_columns; c++) {
            text cell = text_trim(t->cells[(size_t)r * t->n_columns + c]);
            sql_bind_text(st, (int)c + 2, is_crew_name(form, t->columns[c]) ? TEXT("") : cell);
        }
        ok = sql_next(s, st, e) >= 0;
        sqlite3_reset(st);
    }
    sqlite3_finalize(st);
    return ok;
}

/* Names stand in the table of people and nowhere else. */
static bool copy_people(store *s, const kit_table *crew, err *e) {
    int person = kit_table_column(crew, TEXT("person")), name = kit_table_column(crew, TEXT("name"));
    sqlite3_stmt *st = sql_prepare(s, "INSERT INTO people (person, name) VALUES (?, ?)", e);
    if (!st)
        return false;
    bool ok = true;
    for (uint32_t r = 0; r < crew->n_rows && ok && person >= 0 && name >= 0; r++) {
        const text *cells = crew->cells + (size_t)r * crew->n_columns;
        sql_bind_text(st, 1, text_trim(cells[person]));
        sql_bind_text(st, 2, text_trim(cells[name]));
        ok = sql_next(s, st, e) >= 0;
        sqlite3_reset(st);
    }
    sqlite3_finalize(st);
    return ok;
}

static bool copy_tables(store *s, const kit_tables *raw, bool of_workshop, err *e) {
    for (uint32_t i = 0; i < raw->n; i++) {
        const kit_table *t = &raw->list[i];
        const kit_table_form *form = NULL;
        uint32_t n;
        const kit_table_form *forms = kit_forms(&n);
        for (uint32_t j = 0; j < n && !form; j++)
            if (forms[j].of_workshop == of_workshop && text_is(t->name, forms[j].name))
                form = &forms[j];
        if (!form)
            return err_input(e, s->path, "", "the kit has a table \"%.*s\" that is not known",
                             TEXT_ARG(t->name));
        if (!copy_rows(s, form, t, e))
            return false;
        if (of_workshop && strcmp(form->name, "crew") == 0 && !copy_people(s, t, e))
            return false;
    }
    return true;
}

static bool copy_pictures(store *s, const store_content *content, err *e) {
    for (uint32_t i = 0; i < content->n_pictures; i++)
        if (!pictures_add(s, &content->pictures[i], e))
            return false;
    return true;
}

static bool fill(store *s, const store_content *content, err *e) {
    uint32_t n;
    const migration *steps = store_migrations(&n);
    int64_t number;
    return store_migrate(s, steps, n, e) && store_begin(s, e) && copy_tables(s, content->kit_raw, false, e) &&
           (!content->workshop_raw || copy_tables(s, content->workshop_raw, true, e)) &&
           copy_pictures(s, content, e) && store_append(s, &content->begin, &number, e) && store_commit(s, e);
}

bool beside_possible(const char *path, err *e) {
    arena *a = arena_open();
    const char *slash = strrchr(path, '/');
    const char *folder = slash ? arena_format(a, "%.*s", (int)(slash - path + 1), path).at : ".";
    bool ok = access(folder, W_OK | X_OK) == 0;
    if (!ok && (errno == ENOENT || errno == ENOTDIR))
        err_run(e, path, "make the folder, or check the name", "there is no folder %s", folder);
    else if (!ok)
        err_run(e, path, "choose a folder that you may write to", "its folder cannot be written (%s)",
                strerror(errno));
    arena_close(a);
    return ok;
}

bool store_create(const char *path, const store_content *content, err *e) {
    if (sys_exists(path))
        return err_input(e, path, "choose another name, or move that file away",
                         "there is a file of that name already");
    if (!beside_possible(path, e))
        return false;
    arena *a = arena_open();
    const char *beside = beside_name(a, path).at;
    store *s = NULL;
    beside_remove(beside);
    bool ok = connect_file(beside, path, true, STORE_WRITE, "new", &s, e) && fill(s, content, e);
    store_close(s);
    ok = ok && sys_give_name(beside, path, e);
    if (!ok)
        beside_remove(beside);
    arena_close(a);
    return ok;
}
