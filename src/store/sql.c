/* sql.c: talking to SQLite, and saying in plain words what went wrong. */
#include "store/sql.h"

#include <errno.h>
#include <string.h>

#include "store/holder.h"

static bool fail_system(store *s, const char *what, err *e) {
    int code = sqlite3_system_errno(s->db);
    if (code == ENOSPC || code == EDQUOT)
        return err_run(e, s->path, "make room on the disk and try again",
                       "the disk is full; nothing was changed");
    return err_run(e, s->path, "check the disk, the folder and the rights to it", "%s (%s)", what,
                   code ? strerror(code) : sqlite3_errmsg(s->db));
}

bool sql_fail(store *s, int code, err *e) {
    switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return holder_blame(s, e);
    case SQLITE_FULL:
        return err_run(e, s->path, "make room on the disk and try again",
                       "the disk is full; nothing was changed");
    case SQLITE_READONLY:
        return err_run(e, s->path, "copy the file into a folder that you may write to",
                       "the file or its folder is read-only; nothing was changed");
    case SQLITE_CANTOPEN:
        return fail_system(s, "the file, or a file beside it, cannot be opened", e);
    case SQLITE_IOERR:
        return fail_system(s, "the disk refused to read or write; nothing was changed", e);
    case SQLITE_NOTADB:
        return err_input(e, s->path, "name a file that \"kitbench new\" made", "it is no build file");
    case SQLITE_CORRUPT:
        return err_run(e, s->path, "go back to your last copy of it (kitbench copy makes one)",
                       "the file is damaged or cut off");
    default:
        return err_run(e, s->path, "", "the build file cannot be used (%s)", sqlite3_errmsg(s->db));
    }
}

bool sql_run(store *s, const char *sql, err *e) {
    int code = sqlite3_exec(s->db, sql, NULL, NULL, NULL);
    return code == SQLITE_OK || sql_fail(s, code, e);
}

sqlite3_stmt *sql_prepare(store *s, const char *sql, err *e) {
    sqlite3_stmt *st = NULL;
    int code = sqlite3_prepare_v2(s->db, sql, -1, &st, NULL);
    if (code == SQLITE_OK)
        return st;
    sql_fail(s, code, e);
    return NULL;
}

int sql_next(store *s, sqlite3_stmt *st, err *e) {
    int code = sqlite3_step(st);
    if (code == SQLITE_ROW)
        return 1;
    if (code == SQLITE_DONE)
        return 0;
    sql_fail(s, code, e);
    return -1;
}

bool sql_finish(store *s, sqlite3_stmt *st, err *e) {
    int got = sql_next(s, st, e);
    sqlite3_finalize(st);
    return got >= 0;
}

bool sql_number(store *s, const char *sql, int64_t *out, err *e) {
    sqlite3_stmt *st = sql_prepare(s, sql, e);
    if (!st)
        return false;
    int got = sql_next(s, st, e);
    *out = got == 1 ? sqlite3_column_int64(st, 0) : 0;
    sqlite3_finalize(st);
    return got >= 0;
}

void sql_bind_text(sqlite3_stmt *st, int at, text t) {
    sqlite3_bind_text64(st, at, t.at ? t.at : "", t.len, SQLITE_TRANSIENT, SQLITE_UTF8);
}

void sql_bind_text_or_null(sqlite3_stmt *st, int at, text t) {
    if (t.len)
        sql_bind_text(st, at, t);
    else
        sqlite3_bind_null(st, at);
}

void sql_bind_number(sqlite3_stmt *st, int at, int64_t n) {
    sqlite3_bind_int64(st, at, n);
}

void sql_bind_number_or_null(sqlite3_stmt *st, int at, int64_t n, bool used) {
    if (used)
        sqlite3_bind_int64(st, at, n);
    else
        sqlite3_bind_null(st, at);
}

void sql_bind_bytes(sqlite3_stmt *st, int at, text bytes) {
    sqlite3_bind_blob64(st, at, bytes.at ? bytes.at : "", bytes.len, SQLITE_TRANSIENT);
}

text sql_bytes(arena *a, sqlite3_stmt *st, int at) {
    const char *bytes = sqlite3_column_blob(st, at);
    return bytes ? arena_text(a, (text){bytes, (size_t)sqlite3_column_bytes(st, at)}) : TEXT("");
}

text sql_text(arena *a, sqlite3_stmt *st, int at) {
    const char *bytes = (const char *)sqlite3_column_text(st, at);
    if (!bytes)
        return TEXT("");
    return arena_text(a, (text){bytes, (size_t)sqlite3_column_bytes(st, at)});
}

int64_t sql_number_at(sqlite3_stmt *st, int at, int64_t unused) {
    return sqlite3_column_type(st, at) == SQLITE_NULL ? unused : sqlite3_column_int64(st, at);
}
