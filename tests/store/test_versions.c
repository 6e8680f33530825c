/* Files as the programs before made them: version 1, its journal without the columns of the running build, and version
 * 2, without pictures, devices and what several people share. Opening one brings it up to date, and nothing of what
 * stood there changes. */
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

/* As the program of version 2 wrote them besides: a step is begun, draws a piece, is left, and the leaving is undone. */
static const char rows_of_version_2[] =
    "INSERT INTO journal (entry, act, at_s, person, device, verb, step, people) VALUES (6, 6, 360, 'P1', 'old',"
    " 'start', 'S1', 'P1;P3');"
    "INSERT INTO journal (entry, act, at_s, person, device, verb, part, usable, from_place, to_place, container,"
    " line, step) VALUES (7, 6, 360, 'P1', 'old', 'move', 'P-20', 2, 'row', 'tub', 'A1', 1, 'S1');"
    "INSERT INTO journal (entry, act, at_s, device, verb, step) VALUES (8, 8, 420, 'old', 'leave', 'S1');"
    "INSERT INTO journal (entry, act, at_s, device, verb, undoes) VALUES (9, 9, 480, 'old', 'undo', 8);"
    "INSERT INTO state_undone VALUES (8, 9);"
    "INSERT INTO state_work VALUES (6, 360, 'S1', 'start', 'P1;P3', '', NULL, '');"
    "INSERT INTO state_moves VALUES (7, 360, 'P-20', 2, 'row', 'tub', 'A1', 1, 'S1');";

static void make_version(const char *path, uint32_t version) {
    uint32_t n;
    const migration *steps = store_migrations(&n);
    store *s;
    err e;
    remove(path);
    assert_true(connect_file(path, path, true, STORE_WRITE, "test", &s, &e));
    if (!store_migrate(s, steps, version, &e) || !sql_run(s, rows_of_version_1, &e) ||
        (version > 1 && !sql_run(s, rows_of_version_2, &e)))
        fail_msg("%s: %s", e.place, e.cause);
    store_close(s);
    assert_int_equal(fixture_ask(path, "PRAGMA user_version"), version);
}

static void check_record(arena *a, store *s, const kit *k, uint32_t version) {
    stock_record record;
    err e;
    assert_true(store_read_record(a, s, k, &record, &e));
    assert_int_equal(record.n_counts, 1);
    assert_int_equal(record.counts[0].usable, 20);
    assert_int_equal(record.counts[0].damaged, 3);
    assert_int_equal(record.n_finds, 1);
    assert_int_equal(record.n_events, version > 1);
    assert_int_equal(record.n_moves, version > 1);
    assert_int_equal(record.n_results, 0);
}

static void check_brought_up(const char *path, uint32_t version) {
    assert_int_equal(fixture_ask(path, "PRAGMA user_version"), STORE_VERSION);
    assert_int_equal(fixture_ask(path, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
    assert_int_equal(fixture_ask(path, "SELECT count(*) FROM pragma_table_list WHERE name LIKE '%version%'"),
                     0);
    assert_int_not_equal(fixture_try(path, "DELETE FROM journal"), 0);
    assert_int_not_equal(fixture_try(path, "UPDATE journal SET note = 'x'"), 0);
    assert_int_equal(fixture_ask(path, "SELECT count(*) FROM journal_told WHERE undone_by = 4"), 1);
    if (version > 1)
        assert_int_equal(fixture_ask(path, "SELECT from_place = 'row' AND step = 'S1' AND line = 1 FROM"
                                           " journal WHERE entry = 7"),
                         1);
}

/* And it goes on: an undo of the undo, and words that the older version did not know. */
static void go_on(arena *a, store *s, const kit *k, int64_t undo_of, uint32_t events) {
    store_entry undo = store_entry_of(STORE_UNDO), start = store_entry_of(STORE_START),
                label = store_entry_of(STORE_LABEL);
    err e;
    int64_t number;
    undo.device = start.device = label.device = TEXT("new");
    undo.undoes = undo_of;
    start.step = TEXT("S1");
    start.people = TEXT("P1");
    label.part = TEXT("P-20");
    label.note = TEXT("tray 1, B4");
    if (!store_begin(s, &e) || !store_append(s, &undo, &number, &e) ||
        !store_append(s, &start, &number, &e) || !store_append(s, &label, &number, &e) ||
        !store_commit(s, &e))
        fail_msg("%s: %s", e.place, e.cause);
    stock_record record;
    assert_true(store_read_record(a, s, k, &record, &e));
    assert_int_equal(record.n_events, events);
    assert_int_equal(record.n_labels, 1);
}

static void bring_up(uint32_t version) {
    arena *a = arena_open();
    const char *folder = scratch_open(a), *path = scratch_path(a, folder, "old.kitbench");
    const kit *k;
    err e;
    fixture_create(a, scratch_path(a, folder, "kit.kitbench"), &k);
    make_version(path, version);
    int64_t before = fixture_ask(path, journal_sum);
    store *s = fixture_open(path, STORE_WRITE);
    assert_int_equal(fixture_ask(path, journal_sum), before);
    check_brought_up(path, version);
    check_record(a, s, k, version);
    assert_true(store_rebuild(s, &e));
    check_record(a, s, k, version);
    /* Version 1: the recount stands again. Version 2: the leaving does, beside the start. */
    go_on(a, s, k, version > 1 ? 9 : 4, version > 1 ? 3 : 1);
    stock_record record;
    assert_true(store_read_record(a, s, k, &record, &e));
    assert_int_equal(record.counts[0].usable, version > 1 ? 20 : 24);
    store_close(s);
    scratch_close(folder);
    arena_close(a);
}

static void test_from_version_1(void **state) {
    (void)state;
    bring_up(1);
}

static void test_from_version_2(void **state) {
    (void)state;
    bring_up(2);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_from_version_1),
                                       cmocka_unit_test(test_from_version_2)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
