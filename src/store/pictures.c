/* pictures.c: the kit's pictures, and photos of what was found, inside the build file. */
#include "store/pictures.h"

bool pictures_add(store *s, const store_picture *p, err *e) {
    sqlite3_stmt *st =
        sql_prepare(s, "INSERT INTO kit_pictures (picture, bytes) VALUES (?, ?) ON CONFLICT DO NOTHING", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, p->name);
    sql_bind_bytes(st, 2, p->bytes);
    return sql_finish(s, st, e);
}

static bool read_bytes(arena *a, store *s, sqlite3_stmt *st, text *bytes, err *e) {
    int got = sql_next(s, st, e);
    *bytes = got == 1 ? sql_bytes(a, st, 0) : TEXT("");
    sqlite3_finalize(st);
    return got >= 0;
}

bool store_read_picture(arena *a, store *s, text name, text *bytes, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT bytes FROM kit_pictures WHERE picture = ?", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, name);
    return read_bytes(a, s, st, bytes, e);
}

bool store_add_photo(store *s, int64_t entry, text bytes, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "INSERT INTO photos (entry, bytes) VALUES (?, ?)", e);
    if (!st)
        return false;
    sql_bind_number(st, 1, entry);
    sql_bind_bytes(st, 2, bytes);
    return sql_finish(s, st, e);
}

bool store_read_photo(arena *a, store *s, int64_t entry, text *bytes, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT bytes FROM photos WHERE entry = ?", e);
    if (!st)
        return false;
    sql_bind_number(st, 1, entry);
    return read_bytes(a, s, st, bytes, e);
}
