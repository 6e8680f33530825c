/* export.c: a build file as JSON (docs/export.md): every table that holds what was put in, row by row. */
#include "store/export.h"

#include <string.h>

#include "base/json_out.h"
#include "store/schema.h"

uint32_t export_tables(arena *a, const char ***list) {
    static const char *const own[] = {"people", "journal", "kit_pictures", "photos"};
    uint32_t n_forms, n = 0;
    const kit_table_form *forms = kit_forms(&n_forms);
    *list = arena_array(a, const char *, n_forms + sizeof own / sizeof own[0]);
    for (uint32_t i = 0; i < n_forms; i++)
        (*list)[n++] = schema_table_name(a, &forms[i]).at;
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
        (*list)[n++] = own[i];
    return n;
}

/* Base 64 of RFC 4648, with padding. */
static text base_64(arena *a, text bytes) {
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    char *at = arena_array(a, char, (bytes.len + 2) / 3 * 4 + 1);
    size_t n = 0;
    for (size_t i = 0; i < bytes.len; i += 3) {
        uint32_t three = 0;
        for (size_t j = i; j < i + 3; j++)
            three = three << 8 | (j < bytes.len ? (unsigned char)bytes.at[j] : 0);
        for (int shift = 18; shift >= 0; shift -= 6)
            at[n++] = digits[three >> shift & 63];
        if (i + 1 >= bytes.len)
            at[n - 2] = '=';
        if (i + 2 >= bytes.len)
            at[n - 1] = '=';
    }
    return (text){at, n};
}

/* Cells of the kit's and the workshop's tables are texts, empty where nothing was written: those say nothing. */
static bool says_nothing(const char *table, sqlite3_stmt *st, int column) {
    bool is_sheet = strncmp(table, "kit_", 4) == 0 || strncmp(table, "workshop_", 9) == 0;
    return sqlite3_column_type(st, column) == SQLITE_NULL ||
           (is_sheet && sqlite3_column_type(st, column) == SQLITE_TEXT &&
            sqlite3_column_bytes(st, column) == 0);
}

static void put_row(arena *a, json_out *j, const char *table, sqlite3_stmt *st) {
    json_put_object(j, NULL);
    for (int i = 0; i < sqlite3_column_count(st); i++) {
        const char *name = sqlite3_column_name(st, i);
        if (says_nothing(table, st, i))
            continue;
        if (sqlite3_column_type(st, i) == SQLITE_INTEGER)
            json_put_integer(j, name, sqlite3_column_int64(st, i));
        else if (sqlite3_column_type(st, i) == SQLITE_BLOB)
            json_put_text(j, name, base_64(a, sql_bytes(a, st, i)));
        else
            json_put_text(j, name, sql_text(a, st, i));
    }
    json_end_object(j);
}

static bool put_table(store *s, json_out *j, const char *table, err *e) {
    buf sql = {0};
    buf_addf(&sql, "SELECT * FROM \"%s\" ORDER BY 1", table);
    sqlite3_stmt *st = sql_prepare(s, sql.at, e);
    buf_free(&sql);
    if (!st)
        return false;
    json_put_array(j, table);
    int got;
    while ((got = sql_next(s, st, e)) > 0) {
        arena *a = arena_open(); /* of one row: pictures are large */
        put_row(a, j, table, st);
        arena_close(a);
    }
    json_end_array(j);
    sqlite3_finalize(st);
    return got == 0;
}

/* One transaction: all tables as of one moment, whoever writes meanwhile. */
bool store_export(store *s, buf *out, err *e) {
    int64_t version;
    if (!sql_run(s, "BEGIN", e))
        return false;
    arena *a = arena_open();
    const char **tables;
    uint32_t n = export_tables(a, &tables);
    json_out j = json_to(out);
    bool ok = sql_number(s, "PRAGMA user_version", &version, e);
    json_put_object(&j, NULL);
    json_put_integer(&j, "kitbench_export", EXPORT_FORM);
    json_put_integer(&j, "file_version", ok ? version : 0);
    json_put_object(&j, "tables");
    for (uint32_t i = 0; ok && i < n; i++)
        ok = put_table(s, &j, tables[i], e);
    json_end_object(&j);
    json_end_object(&j);
    arena_close(a);
    err ignored;
    bool ended = sql_run(s, "COMMIT", ok ? e : &ignored);
    return ok && ended;
}
