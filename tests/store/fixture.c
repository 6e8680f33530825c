#include "fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/sys.h"
#include "support/scratch.h"

store_content fixture_content(const kit_tables *kit_raw, const kit_tables *workshop_raw) {
    static const store_picture pictures[] = {
        {TEXT_INIT("wheel.png"), TEXT_INIT("\x89PNG\r\n\x1a\n and no more")}};
    store_content c = {kit_raw, workshop_raw, pictures, 1, store_entry_of(STORE_BEGIN)};
    c.begin.at_s = 1;
    c.begin.device = TEXT("test");
    return c;
}

void fixture_create(arena *a, const char *path, const kit **k) {
    faults f = faults_in(a);
    err e;
    kit_tables kit_raw, workshop_raw;
    if (!kit_tables_from_folder(a, "tests/support/barrow", false, &f, &kit_raw, &e) ||
        !kit_tables_from_folder(a, "tests/support/barrow-crew", true, &f, &workshop_raw, &e) ||
        !kit_from_tables(a, &kit_raw, &f, k))
        fail_msg("the barrow is not right: %s", f.n ? f.list[0].cause.at : e.cause);
    store_content content = fixture_content(&kit_raw, &workshop_raw);
    if (!store_create(path, &content, &e))
        fail_msg("%s: %s", e.place, e.cause);
}

int fixture_set_up(void **state) {
    arena *a = arena_open();
    place *p = arena_new(a, place);
    p->memory = a;
    p->folder = scratch_open(a);
    p->path = scratch_path(a, p->folder, "barrow.kitbench");
    fixture_create(a, p->path, &p->kit);
    *state = p;
    return 0;
}

int fixture_tear_down(void **state) {
    place *p = *state;
    store_close(p->s);
    scratch_close(p->folder);
    arena_close(p->memory);
    return 0;
}

store *fixture_open(const char *path, store_mode mode) {
    store *s;
    err e;
    if (!store_open(path, mode, "test", &s, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return s;
}

store_entry fixture_count(const char *container, int64_t line, int64_t usable) {
    store_entry n = store_entry_of(STORE_COUNT);
    n.at_s = 60;
    n.device = TEXT("test");
    n.container = text_of(container);
    n.line = line;
    n.usable = usable;
    n.damaged = 0;
    return n;
}

bool fixture_write(store *s, const store_entry *entry, err *e) {
    int64_t number;
    bool ok = store_begin(s, e) && store_append(s, entry, &number, e) && store_commit(s, e);
    store_abandon(s);
    return ok;
}

text fixture_bytes(arena *a, const char *path) {
    text bytes;
    err e;
    if (!sys_read_file(a, path, 1 << 26, &bytes, &e))
        fail_msg("%s: %s", path, e.cause);
    return bytes;
}

void fixture_put_bytes(const char *path, text bytes) {
    FILE *f = fopen(path, "wb");
    assert_non_null(f);
    assert_int_equal(fwrite(bytes.at, 1, bytes.len, f), bytes.len);
    fclose(f);
}

int64_t fixture_ask(const char *path, const char *sql) {
    sqlite3 *db;
    sqlite3_stmt *st = NULL;
    if (sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL) || sqlite3_prepare_v2(db, sql, -1, &st, NULL))
        fail_msg("%s: %s", sql, sqlite3_errmsg(db));
    assert_int_equal(sqlite3_step(st), SQLITE_ROW);
    int64_t n = sqlite3_column_int64(st, 0);
    sqlite3_finalize(st);
    sqlite3_close(db);
    return n;
}

int fixture_try(const char *path, const char *sql) {
    sqlite3 *db;
    assert_int_equal(sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
    int code = sqlite3_exec(db, sql, NULL, NULL, NULL);
    sqlite3_close(db);
    return code;
}
