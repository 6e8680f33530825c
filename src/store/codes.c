/* codes.c: hashes of codes, wrong tries, and devices that joined. None of it is in the journal, which everybody may
 * read: there stands only that a code was set. */
#include "store/sql.h"

bool store_read_codes(arena *a, store *s, store_code **out, uint32_t *n, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT person, hash, wrong_tries FROM codes ORDER BY person", e);
    if (!st)
        return false;
    size_t cap = 0;
    *out = NULL;
    *n = 0;
    int got;
    while ((got = sql_next(s, st, e)) == 1) {
        arena_room(a, *out, *n, cap, store_code);
        (*out)[(*n)++] = (store_code){sql_text(a, st, 0), sql_text(a, st, 1), sqlite3_column_int64(st, 2)};
    }
    sqlite3_finalize(st);
    return got == 0;
}

bool store_set_code(store *s, text person, text hash, err *e) {
    sqlite3_stmt *st = sql_prepare(s,
                                   hash.len ? "INSERT OR REPLACE INTO codes (person, hash) VALUES (?1, ?2)"
                                            : "DELETE FROM codes WHERE person = ?1",
                                   e);
    if (!st)
        return false;
    sql_bind_text(st, 1, person);
    if (hash.len)
        sql_bind_text(st, 2, hash);
    return sql_finish(s, st, e);
}

bool store_set_wrong_tries(store *s, text person, int64_t n, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "UPDATE codes SET wrong_tries = ?2 WHERE person = ?1", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, person);
    sql_bind_number(st, 2, n);
    return sql_finish(s, st, e);
}

bool store_read_devices(arena *a, store *s, store_device **out, uint32_t *n, err *e) {
    sqlite3_stmt *st =
        sql_prepare(s, "SELECT device, token, person, place, since_s FROM devices ORDER BY rowid", e);
    if (!st)
        return false;
    size_t cap = 0;
    *out = NULL;
    *n = 0;
    int got;
    while ((got = sql_next(s, st, e)) == 1) {
        arena_room(a, *out, *n, cap, store_device);
        (*out)[(*n)++] = (store_device){sql_text(a, st, 0), sql_bytes(a, st, 1), sql_text(a, st, 2),
                                        sql_text(a, st, 3), sqlite3_column_int64(st, 4)};
    }
    sqlite3_finalize(st);
    return got == 0;
}

bool store_put_device(store *s, const store_device *device, err *e) {
    sqlite3_stmt *st = sql_prepare(
        s, "INSERT OR REPLACE INTO devices (device, token, person, place, since_s) VALUES (?, ?, ?, ?, ?)",
        e);
    if (!st)
        return false;
    sql_bind_text(st, 1, device->device);
    sql_bind_bytes(st, 2, device->token);
    sql_bind_text(st, 3, device->person);
    sql_bind_text(st, 4, device->place);
    sql_bind_number(st, 5, device->since_s);
    return sql_finish(s, st, e);
}

bool store_drop_device(store *s, text device, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "DELETE FROM devices WHERE device = ?", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, device);
    return sql_finish(s, st, e);
}
