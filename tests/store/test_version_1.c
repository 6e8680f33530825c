/* A file as the program before made it: version 1, its journal without the columns of the running build. Opening it
 * brings it up to date, and nothing of what stood there changes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "fixture.h"
#include "store/connect.h"
#include "store/schema.h"
#include "support/scratch.h"

/* As the program of version 1 wrote them: a count, its recount, the undo of that, and a find. */
static const char rows_of_version_1[] =
    "INSERT INTO people (person, name) VALUES ('P1', 'Fern');"
    "INSERT INTO journal (entry, act, at_s, device, verb, note) VALUES (1, 1, 60, 'old', 'begin', 'kit');"
    "INSERT INTO journal (entry, act, at_s, person, device, verb, container, line, usable, damaged)"
    " VALUES (2, 2, 120, 'P1', 'old', 'count', 'A1', 1, 20, 3),"
    " (3, 3, 180, 'P1', 'old', 'count', 'A1', 1, 24, 0);"
    "INSERT INTO journal (entry, act, at_s, person, device, verb, undoes) VALUES (4, 4, 240, 'P1', 'old',"
    " 'undo', 3);"
    "INSERT INTO journal (entry, act, at_s, device, verb, container, usable, note) VALUES (5, 5, 300, 'old',"
    " 'find', 'A1', 2, 'red cap');"
    "INSERT INTO state_undone VALUES (3, 4);"
    "INSERT INTO state_counts VALUES ('A1', 1, 2, 20, 3, 0, '', 1);"
    "INSERT INTO state_finds VALUES ('A1', 'red cap', 5, NULL, 2);";

/* Everything that version 1 knew of the journal, as one number that any change would change. */
static const char journal_sum[] =
    "SELECT sum(entry * 1000003 + act * 10007 + at_s * 101 + unicode(verb) * 13 + coalesce(usable, 77) * 7"
    " + coalesce(damaged, 55) * 5 + coalesce(line, 33) * 3 + coalesce(undoes, 11) + length(note)"
    " + coalesce(length(container), 99) + coalesce(length(person), 88)) FROM journal";

static void make_version_1(const char *path) {
    uint32_t n;
    const migration *steps = store_migrations(&n);
    store *s;
    err e;
    remove(path);
    assert_true(connect_file(path, path, true, STORE_WRITE, "test", &s, &e));
    if (!store_migrate(s, steps, 1, &e) || !sql_run(s, rows_of_version_1, &e))
        fail_msg("%s: %s", e.place, e.cause);
    store_close(s);
    assert_int_equal(fixture_ask(path, "PRAGMA user_version"), 1);
}

static void check_record(arena *a, store *s, const kit *k) {
    stock_record record;
    err e;
    assert_true(store_read_record(a, s, k, &record, &e));
    assert_int_equal(record.n_counts, 1);
    assert_int_equal(record.counts[0].usable, 20);
    assert_int_equal(record.counts[0].damaged, 3);
    assert_int_equal(record.n_finds, 1);
    assert_int_equal(record.n_events + record.n_moves + record.n_results, 0);
}

static void test_from_version_1(void **state) {
    (void)state;
    arena *a = arena_open();
    const char *folder = scratch_open(a), *path = scratch_path(a, folder, "old.kitbench");
    const kit *k;
    err e;
    int64_t number;
    fixture_create(a, scratch_path(a, folder, "kit.kitbench"), &k);
    make_version_1(path);
    int64_t before = fixture_ask(path, journal_sum);
    store *s = fixture_open(path, STORE_WRITE);
    assert_int_equal(fixture_ask(path, "PRAGMA user_version"), STORE_VERSION);
    assert_int_equal(fixture_ask(path, journal_sum), before);
    assert_int_equal(fixture_ask(path, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
    assert_int_equal(fixture_ask(path, "SELECT count(*) FROM pragma_table_list WHERE name LIKE '%version_1'"),
                     0);
    assert_int_not_equal(fixture_try(path, "DELETE FROM journal"), 0);
    assert_int_not_equal(fixture_try(path, "UPDATE journal SET note = 'x'"), 0);
    assert_int_equal(fixture_ask(path, "SELECT count(*) FROM journal_told WHERE undone_by = 4"), 1);
    check_record(a, s, k);
    assert_true(store_rebuild(s, &e));
    check_record(a, s, k);

    /* And it goes on: an undo of the undo, and a word that version 1 did not know. */
    store_entry undo = store_entry_of(STORE_UNDO), start = store_entry_of(STORE_START);
    undo.device = start.device = TEXT("new");
    undo.undoes = 4;
    start.step = TEXT("S1");
    start.people = TEXT("P1");
    assert_true(store_begin(s, &e) && store_append(s, &undo, &number, &e) &&
                store_append(s, &start, &number, &e) && store_commit(s, &e));
    stock_record record;
    assert_true(store_read_record(a, s, k, &record, &e));
    assert_int_equal(record.counts[0].usable, 24);
    assert_int_equal(record.n_events, 1);
    store_close(s);
    scratch_close(folder);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_from_version_1)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
