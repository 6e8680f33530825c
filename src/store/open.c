/* open.c: opening and closing a build file, and how each connection is set. */
#include <stdlib.h>
#include <string.h>

#include "base/sys.h"
#include "store/connect.h"
#include "store/fault_door.h"
#include "store/holder.h"
#include "store/schema.h"

/* FULL and the rollback journal: what was acknowledged survives a power cut. secure_delete: what was blanked is not
 * left in a free page. trusted_schema, cell_size_check: a file from outside gets no more than it needs. */
static const char connection_sql[] = "PRAGMA foreign_keys=1; PRAGMA synchronous=FULL; PRAGMA secure_delete=1;"
                                     "PRAGMA trusted_schema=0; PRAGMA temp_store=MEMORY;"
                                     "PRAGMA cell_size_check=1; PRAGMA mmap_size=0";

bool connect_file(const char *file, const char *shown, bool create, store_mode mode, const char *command,
                  store **out, err *e) {
    fault_door_install();
    store *s = calloc(1, sizeof *s);
    if (!s || !(s->path = strdup(shown)) || !(s->command = strdup(command))) {
        store_close(s);
        err_run(e, shown, "close other programs", "out of memory");
        return false;
    }
    s->mode = mode;
    int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX;
    int code = sqlite3_open_v2(file, &s->db, flags | (create ? SQLITE_OPEN_CREATE : 0), "unix");
    bool ok = code == SQLITE_OK || sql_fail(s, code, e);
    if (ok) {
        sqlite3_extended_result_codes(s->db, 1);
        sqlite3_busy_timeout(s->db, STORE_WAIT_MS);
        sqlite3_db_config(s->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
        ok = sql_run(s, connection_sql, e);
    }
    if (!ok) {
        store_close(s);
        return false;
    }
    *out = s;
    return true;
}

void store_close(store *s) {
    if (!s)
        return;
    store_abandon(s);
    sqlite3_close_v2(s->db);
    free(s->path);
    free(s->command);
    free(s);
}

/* A file that somebody else made has another application_id, or is no database at all. */
static bool check_identity(store *s, err *e) {
    int64_t id;
    if (!sql_number(s, "PRAGMA application_id", &id, e))
        return false;
    if (id != STORE_APPLICATION_ID)
        return err_input(e, s->path, "name a file that \"kitbench new\" made", "it is no build file");
    uint32_t n;
    const migration *steps = store_migrations(&n);
    return store_migrate(s, steps, n, e);
}

/* The file may have been changed to another way of keeping its journal by somebody's SQLite client. */
static bool set_mode(store *s, err *e) {
    return sql_run(s, s->mode == STORE_READ ? "PRAGMA query_only=1" : "PRAGMA journal_mode=DELETE", e);
}

bool store_open(const char *path, store_mode mode, const char *command, store **out, err *e) {
    if (!sys_exists(path))
        return err_input(e, path, "check the name, or make one with kitbench new", "there is no such file");
    if (sys_is_folder(path))
        return err_input(e, path, "name a file that \"kitbench new\" made", "it is a folder");
    store *s = NULL;
    if (!connect_file(path, path, false, mode, command, &s, e))
        return false;
    if (!check_identity(s, e) || !set_mode(s, e)) {
        store_close(s);
        return false;
    }
    *out = s;
    return true;
}
