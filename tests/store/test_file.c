/* What a build file is to others, and files that are no build file: each refused with its reason, none touched. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "base/sys.h"
#include "fixture.h"
#include "store/schema.h"
#include "support/scratch.h"

static void test_identity(void **state) {
    place *p = *state;
    assert_int_equal(fixture_ask(p->path, "PRAGMA application_id"), STORE_APPLICATION_ID);
    assert_int_equal(fixture_ask(p->path, "PRAGMA user_version"), STORE_VERSION);
    assert_int_equal(
        fixture_ask(p->path, "SELECT count(*) FROM pragma_integrity_check WHERE integrity_check <> 'ok'"), 0);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
    /* STRICT is a property of each table. */
    assert_int_equal(
        fixture_ask(p->path, "SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table'"
                             " AND name NOT LIKE 'sqlite%' AND NOT strict"),
        0);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 1);
    char note[4200];
    snprintf(note, sizeof note, "%s.writing", p->path);
    assert_false(sys_exists(note));
}

static void test_names_stand_once(void **state) {
    place *p = *state;
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM workshop_crew WHERE name <> ''"), 0);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM people WHERE name = 'Comet Longtail'"), 1);
    text bytes = fixture_bytes(p->memory, p->path);
    ptrdiff_t first = text_find(bytes, TEXT("Comet Longtail"));
    assert_true(first >= 0);
    assert_true(text_find(text_slice(bytes, (size_t)first + 1, bytes.len), TEXT("Comet Longtail")) < 0);
}

/* What comes out is what went in, so that the same kit is read from it. */
static void test_tables_come_back(void **state) {
    place *p = *state;
    store *s = fixture_open(p->path, STORE_READ);
    kit_tables kit_raw, workshop_raw;
    err e;
    assert_true(store_read_tables(p->memory, s, &kit_raw, &workshop_raw, &e));
    faults f = faults_in(p->memory);
    const kit *k;
    const kit_workshop *w;
    assert_true(kit_from_tables(p->memory, &kit_raw, &f, &k));
    assert_true(kit_workshop_from_tables(p->memory, &workshop_raw, k, &f, &w));
    assert_int_equal(k->n_rows, p->kit->n_rows);
    for (kit_index i = 0; i < k->n_rows; i++) {
        assert_int_equal(k->rows[i].quantity, p->kit->rows[i].quantity);
        assert_int_equal(k->rows[i].part, p->kit->rows[i].part);
        assert_int_equal(k->rows[i].row, p->kit->rows[i].row);
    }
    assert_true(text_is(k->serial, "BARROW-0042"));
    assert_int_equal(w->n_crew, 4);
    assert_true(text_is(w->crew[2].name, "Comet Longtail"));
    assert_int_equal(w->n_sessions, 2);
    store_close(s);
}

static void test_journal_is_only_added_to(void **state) {
    place *p = *state;
    assert_int_equal(fixture_try(p->path, "UPDATE journal SET usable = 3"), SQLITE_CONSTRAINT);
    assert_int_equal(fixture_try(p->path, "DELETE FROM journal"), SQLITE_CONSTRAINT);
#define INSERT(values) "INSERT INTO journal (entry, act, at_s, device, verb) VALUES (" values ")"
    assert_int_equal(fixture_try(p->path, INSERT("3, 1, 1, 'x', 'count'")), SQLITE_CONSTRAINT);
    assert_int_equal(fixture_try(p->path, INSERT("1, 1, 1, 'x', 'count'")), SQLITE_CONSTRAINT);
    assert_int_equal(fixture_try(p->path, INSERT("2, 1, 1, 'x', 'dance'")), SQLITE_CONSTRAINT);
#undef INSERT
    assert_int_equal(fixture_try(p->path, "INSERT INTO journal (entry, act, at_s, device, verb, usable)"
                                          " VALUES (2, 1, 1, 'x', 'count', 'many')"),
                     SQLITE_CONSTRAINT);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 1);
}

static void refused(place *p, const char *path, err_kind kind, const char *words) {
    arena *a = p->memory;
    text before = sys_exists(path) && !sys_is_folder(path) ? fixture_bytes(a, path) : TEXT("");
    for (int mode = STORE_READ; mode <= STORE_WRITE; mode++) {
        store *s;
        err e;
        if (store_open(path, (store_mode)mode, "test", &s, &e))
            fail_msg("it was opened, but should say: %s", words);
        if (e.kind != kind || !strstr(e.cause, words))
            fail_msg("it says (%d): %s; not: %s", e.kind, e.cause, words);
        assert_string_equal(e.place, path);
    }
    if (before.len)
        assert_true(text_equal(before, fixture_bytes(a, path)));
}

static void test_no_build_file(void **state) {
    place *p = *state;
    const char *other = scratch_path(p->memory, p->folder, "other");
    refused(p, other, ERR_INPUT, "there is no such file");
    refused(p, p->folder, ERR_INPUT, "it is a folder");
    fixture_put_bytes(other, TEXT(""));
    refused(p, other, ERR_INPUT, "it is no build file");
    fixture_put_bytes(other, TEXT("part,name\nP-1,screw\n"));
    refused(p, other, ERR_INPUT, "it is no build file");
    char noise[70000];
    for (size_t i = 0; i < sizeof noise; i++)
        noise[i] = (char)(i * 7919 >> 3);
    fixture_put_bytes(other, (text){noise, sizeof noise});
    refused(p, other, ERR_INPUT, "it is no build file");
    fixture_put_bytes(other, TEXT(""));
    assert_int_equal(fixture_try(other, "CREATE TABLE journal (entry INTEGER)"), SQLITE_OK);
    refused(p, other, ERR_INPUT, "it is no build file");
}

static void test_newer(void **state) {
    place *p = *state;
    assert_int_equal(fixture_try(p->path, "PRAGMA user_version=99"), SQLITE_OK);
    refused(p, p->path, ERR_RUN, "made by a newer kitbench (file version 99");
}

/* Cut off anywhere, or with a page overwritten, it is refused at the latest when its tables are read; a file cut off
 * within its first page is not known to have been one. */
static void test_cut_off(void **state) {
    place *p = *state;
    text whole = fixture_bytes(p->memory, p->path);
    const char *cut = scratch_path(p->memory, p->folder, "cut.kitbench");
    for (size_t i = 1; i < 40; i++) {
        fixture_put_bytes(cut, text_slice(whole, 0, whole.len * i / 40));
        text before = fixture_bytes(p->memory, cut);
        store *s;
        err e;
        bool ok = store_open(cut, STORE_WRITE, "test", &s, &e);
        if (ok) {
            kit_tables kit_raw, workshop_raw;
            ok = store_read_tables(p->memory, s, &kit_raw, &workshop_raw, &e);
            store_close(s);
        }
        if (ok)
            fail_msg("cut off at %zu of 40 it is still read", i);
        if (!strstr(e.cause, "damaged or cut off"))
            fail_msg("cut off at %zu of 40: %s", i, e.cause);
        assert_true(text_equal(before, fixture_bytes(p->memory, cut)));
    }
}

static void test_name_taken(void **state) {
    place *p = *state;
    text before = fixture_bytes(p->memory, p->path);
    kit_tables none = {0};
    store_content content = fixture_content(&none, NULL);
    err e;
    assert_false(store_create(p->path, &content, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    assert_non_null(strstr(e.cause, "there is a file of that name already"));
    assert_true(text_equal(before, fixture_bytes(p->memory, p->path)));
}

/* Somebody's SQLite client may have switched the file to a write-ahead log; writing switches it back. */
static void test_other_journal_mode(void **state) {
    place *p = *state;
    assert_int_equal(fixture_try(p->path, "PRAGMA journal_mode=WAL"), SQLITE_OK);
    store *s = fixture_open(p->path, STORE_WRITE);
    err e;
    store_entry n = fixture_count("A1", 1, 20);
    assert_true(fixture_write(s, &n, &e));
    store_close(s);
    assert_int_equal(fixture_ask(p->path, "SELECT journal_mode = 'delete' FROM pragma_journal_mode"), 1);
    assert_int_equal(fixture_ask(p->path, "SELECT usable FROM state_counts"), 20);
}

static void test_reader_cannot_write(void **state) {
    place *p = *state;
    store *s = fixture_open(p->path, STORE_READ);
    store_entry n = fixture_count("A1", 1, 20);
    err e;
    assert_false(fixture_write(s, &n, &e));
    store_close(s);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(test_identity),
        TEST(test_names_stand_once),
        TEST(test_tables_come_back),
        TEST(test_journal_is_only_added_to),
        TEST(test_no_build_file),
        TEST(test_newer),
        TEST(test_cut_off),
        TEST(test_name_taken),
        TEST(test_other_journal_mode),
        TEST(test_reader_cannot_write),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
