/* sql.h: the connection, and the few ways this room talks to SQLite; private to the room.
 *
 * Every helper that can fail fills `err` with what a user can do about it, never with SQLite's words alone.
 */
#ifndef STORE_SQL_H
#define STORE_SQL_H

#include <sqlite3.h>

#include "store/store.h"

struct store {
    sqlite3 *db;
    char *path;    /* as the user gave it */
    char *command; /* what another writer is told */
    store_mode mode;
    bool in_act;     /* between store_begin and store_commit */
    int64_t act;     /* entry of the act's first row; 0: none yet */
    int64_t written; /* entry of the act's last row; 0: none yet */
    bool noted;      /* our note about who is writing lies beside the file */
};

enum { STORE_WAIT_MS = 2000 };

/* Says what went wrong with the last call on this connection. Returns false. */
bool sql_fail(store *s, int code, err *e);

/* Statements without parameters, one or several. */
MUST_USE bool sql_run(store *s, const char *sql, err *e);

/* NULL when it failed. The caller finalizes. */
sqlite3_stmt *sql_prepare(store *s, const char *sql, err *e);

/* 1: a row is there, 0: no more, -1: failed. */
int sql_next(store *s, sqlite3_stmt *st, err *e);

/* Runs a statement that gives no rows, and finalizes it. */
MUST_USE bool sql_finish(store *s, sqlite3_stmt *st, err *e);

/* One whole number. */
MUST_USE bool sql_number(store *s, const char *sql, int64_t *out, err *e);

/* Parameters, from 1. An empty text and an unused number become NULL. */
void sql_bind_text(sqlite3_stmt *st, int at, text t);
void sql_bind_text_or_null(sqlite3_stmt *st, int at, text t);
void sql_bind_number(sqlite3_stmt *st, int at, int64_t n);
void sql_bind_number_or_null(sqlite3_stmt *st, int at, int64_t n, bool used);

/* Bytes as they are, also none at all. */
void sql_bind_bytes(sqlite3_stmt *st, int at, text bytes);
text sql_bytes(arena *a, sqlite3_stmt *st, int at);

/* Columns, from 0; NULL gives the empty text or `unused`. */
text sql_text(arena *a, sqlite3_stmt *st, int at);
int64_t sql_number_at(sqlite3_stmt *st, int at, int64_t unused);

#endif
