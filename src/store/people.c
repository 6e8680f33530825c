/* people.c: names, which stand in one table and nowhere else, and forgetting them for good. */
#include "store/sql.h"

bool store_read_people(arena *a, store *s, store_person **out, uint32_t *n, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "SELECT person, name FROM people ORDER BY rowid", e);
    if (!st)
        return false;
    size_t cap = 0;
    *out = NULL;
    *n = 0;
    int got;
    while ((got = sql_next(s, st, e)) == 1) {
        arena_room(a, *out, *n, cap, store_person);
        (*out)[(*n)++] = (store_person){sql_text(a, st, 0), sql_text(a, st, 1)};
    }
    sqlite3_finalize(st);
    return got == 0;
}

bool store_add_person(arena *a, store *s, text name, text *number, err *e) {
    int64_t n;
    if (!sql_number(s, "SELECT count(*) FROM people", &n, e))
        return false;
    *number = arena_format(a, "helper %lld", (long long)n + 1);
    sqlite3_stmt *st = sql_prepare(s, "INSERT INTO people (person, name) VALUES (?, ?)", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, *number);
    sql_bind_text(st, 2, name);
    return sql_finish(s, st, e);
}

bool store_name_person(store *s, text number, text name, err *e) {
    sqlite3_stmt *st = sql_prepare(s,
                                   "INSERT INTO people (person, name) VALUES (?1, ?2)"
                                   " ON CONFLICT (person) DO UPDATE SET name = ?2, forgotten = 0",
                                   e);
    if (!st)
        return false;
    sql_bind_text(st, 1, number);
    sql_bind_text(st, 2, name);
    return sql_finish(s, st, e);
}

static bool blank_name(store *s, const store_entry *entry, err *e) {
    sqlite3_stmt *st = sql_prepare(s, "UPDATE people SET name = '', forgotten = 1 WHERE person = ?", e);
    if (!st)
        return false;
    sql_bind_text(st, 1, entry->about);
    int64_t number;
    return sql_finish(s, st, e) && store_set_code(s, entry->about, TEXT(""), e) &&
           store_append(s, entry, &number, e);
}

/* secure_delete zeroes what is deleted, but a row that was moved inside its page may have left bytes behind in the
 * page's gap. VACUUM writes every page anew from what is there. */
bool store_forget(store *s, const store_entry *entry, err *e) {
    if (!store_begin(s, e))
        return false;
    bool ok = blank_name(s, entry, e) && store_commit(s, e);
    store_abandon(s);
    if (!ok)
        return false;
    err why;
    if (sql_run(s, "VACUUM", &why))
        return true;
    return err_run(e, s->path, "run the command again to remove what may remain of it in the file",
                   "the name is blanked, but the file could not be rewritten: %s", why.cause);
}
