/* restore.c: a build file made anew from its export. Nothing of the text is trusted: tables and columns are those of
 * the schema, every value takes the schema's own checks, and what follows from the journal is derived again. */
#include <jansson.h>
#include <string.h>

#include "base/sys.h"
#include "store/connect.h"
#include "store/export.h"
#include "store/schema.h"

typedef struct {
    store *s;
    const char *source; /* names the export in failures */
    const char *table;
    arena *memory;
} restoring;

static int digit_64(char c) {
    return c >= 'A' && c <= 'Z'   ? c - 'A'
           : c >= 'a' && c <= 'z' ? c - 'a' + 26
           : c >= '0' && c <= '9' ? c - '0' + 52
           : c == '+'             ? 62
           : c == '/'             ? 63
                                  : -1;
}

/* False for anything that is no base 64 of RFC 4648 with its padding. */
static bool read_base_64(arena *a, text from, text *out) {
    if (from.len % 4)
        return false;
    size_t padding = from.len && from.at[from.len - 1] == '=' ? 1 + (from.at[from.len - 2] == '=') : 0;
    char *at = arena_array(a, char, from.len / 4 * 3 + 1);
    size_t n = 0;
    for (size_t i = 0; i < from.len; i += 4) {
        uint32_t four = 0;
        for (size_t j = i; j < i + 4; j++) {
            int digit = j >= from.len - padding ? 0 : digit_64(from.at[j]);
            if (digit < 0)
                return false;
            four = four << 6 | (uint32_t)digit;
        }
        for (int shift = 16; shift >= 0; shift -= 8)
            at[n++] = (char)(four >> shift & 255);
    }
    *out = (text){at, n - padding};
    return true;
}

static bool fail(const restoring *r, size_t row, const char *column, const char *cause, const char *remedy,
                 err *e) {
    return err_input(e,
                     arena_format(r->memory, "%s: %s row %zu, %s", r->source, r->table, row + 1, column).at,
                     remedy, "%s", cause);
}

static bool has_column(const restoring *r, const char *column, bool *bytes) {
    const char *type = NULL;
    int found =
        sqlite3_table_column_metadata(r->s->db, NULL, r->table, column, &type, NULL, NULL, NULL, NULL);
    *bytes = type && strcmp(type, "BLOB") == 0;
    return found == SQLITE_OK;
}

static bool bind(const restoring *r, sqlite3_stmt *st, int at, size_t row, const char *column, json_t *value,
                 bool bytes, err *e) {
    if (json_is_integer(value)) {
        sql_bind_number(st, at, json_integer_value(value));
        return true;
    }
    if (!json_is_string(value))
        return fail(r, row, column, "it is neither a text nor a whole number",
                    "take the export as it was written", e);
    text words = {json_string_value(value), json_string_length(value)};
    if (!bytes) {
        sql_bind_text(st, at, words);
        return true;
    }
    if (!read_base_64(r->memory, words, &words))
        return fail(r, row, column, "it is no base 64", "take the export as it was written", e);
    sql_bind_bytes(st, at, words);
    return true;
}

/* Column names go into the SQL only after the schema knew them. */
static sqlite3_stmt *prepare(const restoring *r, size_t row, json_t *members, err *e) {
    buf sql = {0}, marks = {0};
    const char *column;
    json_t *value;
    bool ok = true, any = false;
    buf_addf(&sql, "INSERT INTO \"%s\" (", r->table);
    json_object_foreach(members, column, value) {
        bool bytes;
        ok = ok && (has_column(r, column, &bytes) || fail(r, row, column, "there is no such column",
                                                          "leave it out, or use the newer program", e));
        if (!ok)
            break;
        buf_addf(&sql, "%s\"%s\"", any ? ", " : "", column);
        buf_addf(&marks, "%s?", any ? ", " : "");
        any = true;
    }
    buf_addf(&sql, ") VALUES (%s)", marks.at ? marks.at : "");
    if (ok && !any)
        ok = fail(r, row, "the row", "it is empty", "leave it out", e);
    sqlite3_stmt *st = ok ? sql_prepare(r->s, sql.at, e) : NULL;
    buf_free(&sql);
    buf_free(&marks);
    return st;
}

static bool put_row(const restoring *r, size_t row, json_t *members, err *e) {
    if (!json_is_object(members))
        return fail(r, row, "the row", "it is no object", "take the export as it was written", e);
    sqlite3_stmt *st = prepare(r, row, members, e);
    if (!st)
        return false;
    const char *column;
    json_t *value;
    int at = 1;
    bool ok = true;
    json_object_foreach(members, column, value) {
        bool bytes = false;
        ok = ok && has_column(r, column, &bytes) && bind(r, st, at++, row, column, value, bytes, e);
    }
    if (ok && sqlite3_step(st) != SQLITE_DONE)
        ok = sqlite3_extended_errcode(r->s->db) != SQLITE_FULL &&
                     (sqlite3_errcode(r->s->db) & 0xff) != SQLITE_IOERR
                 ? fail(r, row, "the row", arena_text(r->memory, text_of(sqlite3_errmsg(r->s->db))).at,
                        "take the export as it was written", e)
                 : sql_fail(r->s, sqlite3_errcode(r->s->db), e);
    sqlite3_finalize(st);
    return ok;
}

static bool put_tables(restoring *r, json_t *tables, err *e) {
    const char **names;
    uint32_t n = export_tables(r->memory, &names);
    size_t known = 0;
    for (uint32_t i = 0; i < n; i++) {
        json_t *rows = json_object_get(tables, names[i]), *members;
        size_t row;
        r->table = names[i];
        known += rows != NULL;
        json_array_foreach(rows, row, members) if (!put_row(r, row, members, e)) return false;
    }
    return known == json_object_size(tables) ||
           err_input(e, r->source, "leave them out, or use the newer program",
                     "it has tables that are not known");
}

static json_t *read_head(const char *source, text json, err *e) {
    json_error_t where;
    json_t *root = json_loadb(json.at, json.len, JSON_REJECT_DUPLICATES, &where);
    if (!root) {
        err_input(e, source, "take the export as it was written", "line %d: %s", where.line, where.text);
        return NULL;
    }
    json_t *form = json_object_get(root, "kitbench_export"), *version = json_object_get(root, "file_version");
    bool ours =
        json_is_integer(form) && json_is_integer(version) && json_is_object(json_object_get(root, "tables"));
    if (ours && json_integer_value(form) == EXPORT_FORM && json_integer_value(version) <= STORE_VERSION)
        return root;
    err_input(e, source, ours ? "use the newer program" : "see docs/export.md", "%s",
              ours ? "it was made by a newer kitbench" : "it is no export of a build");
    json_decref(root);
    return NULL;
}

static bool fill(restoring *r, json_t *tables, err *e) {
    uint32_t n;
    const migration *steps = store_migrations(&n);
    return store_migrate(r->s, steps, n, e) && sql_run(r->s, "BEGIN IMMEDIATE", e) &&
           put_tables(r, tables, e) && sql_run(r->s, "COMMIT", e) && store_rebuild(r->s, e);
}

bool store_restore(const char *path, const char *source, text json, err *e) {
    if (sys_exists(path))
        return err_input(e, path, "choose another name, or move that file away",
                         "there is a file of that name already");
    json_t *root = beside_possible(path, e) ? read_head(source, json, e) : NULL;
    if (!root)
        return false;
    arena *a = arena_open();
    restoring r = {.source = source, .memory = a};
    const char *beside = beside_name(a, path).at;
    beside_remove(beside);
    bool ok = connect_file(beside, path, true, STORE_WRITE, "restore", &r.s, e) &&
              fill(&r, json_object_get(root, "tables"), e);
    store_close(r.s);
    json_decref(root);
    ok = ok && sys_give_name(beside, path, e);
    if (!ok)
        beside_remove(beside);
    arena_close(a);
    return ok;
}
