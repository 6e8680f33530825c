/* copy.c: a consistent copy of a build in use, through SQLite's backup interface. */
#include "base/sys.h"
#include "store/connect.h"

/* All pages in one step: the copy is of one moment, and a writer waits no longer than that. */
static bool copy_pages(store *from, store *to, err *e) {
    sqlite3_backup *b = sqlite3_backup_init(to->db, "main", from->db, "main");
    if (!b)
        return sql_fail(to, sqlite3_errcode(to->db), e);
    int code = SQLITE_BUSY;
    for (int waited = 0; waited <= STORE_WAIT_MS; waited += 50) {
        code = sqlite3_backup_step(b, -1);
        if (code != SQLITE_BUSY && code != SQLITE_LOCKED)
            break;
        sqlite3_sleep(50);
    }
    int finished = sqlite3_backup_finish(b);
    if (code == SQLITE_DONE && finished == SQLITE_OK)
        return true;
    return sql_fail(code == SQLITE_BUSY ? from : to, code == SQLITE_DONE ? finished : code, e);
}

/* What is copied is worth nothing if the file was damaged: look before somebody relies on it. */
static bool check_copy(store *to, err *e) {
    sqlite3_stmt *st = sql_prepare(to, "PRAGMA quick_check(1)", e);
    if (!st)
        return false;
    int got = sql_next(to, st, e);
    bool fine = got == 1 && text_is(text_of((const char *)sqlite3_column_text(st, 0)), "ok");
    sqlite3_finalize(st);
    return got < 0 ? false : fine || sql_fail(to, SQLITE_CORRUPT, e);
}

bool store_copy(store *s, const char *out_path, err *e) {
    if (sys_exists(out_path))
        return err_input(e, out_path, "choose another name, or move that file away",
                         "there is a file of that name already");
    if (!beside_possible(out_path, e))
        return false;
    arena *a = arena_open();
    const char *beside = beside_name(a, out_path).at;
    store *to = NULL;
    beside_remove(beside);
    bool ok = connect_file(beside, out_path, true, STORE_WRITE, "copy", &to, e) && copy_pages(s, to, e) &&
              check_copy(to, e);
    store_close(to);
    ok = ok && sys_give_name(beside, out_path, e);
    if (!ok)
        beside_remove(beside);
    arena_close(a);
    return ok;
}
