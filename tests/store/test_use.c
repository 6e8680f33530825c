/* The file in use: two programs at once, a copy while somebody writes, a name forgotten, an older file brought up to
 * date. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/sys.h"
#include "fixture.h"
#include "store/schema.h"
#include "support/scratch.h"

/* A child that holds the lock until the pipe is closed; returns its process, ready when it has the lock. */
static pid_t hold_lock(const char *path, int go[2]) {
    int ready[2];
    char byte;
    assert_int_equal(pipe(ready), 0);
    assert_int_equal(pipe(go), 0);
    pid_t child = fork();
    if (child == 0) {
        close(go[1]);
        store *s;
        err e;
        if (!store_open(path, STORE_WRITE, "enter", &s, &e) || !store_begin(s, &e))
            _exit(1);
        bool told = write(ready[1], "x", 1) == 1;
        bool waited = read(go[0], &byte, 1) >= 0;
        store_entry n = fixture_count("A1", 2, 50);
        int64_t number;
        _exit(told && waited && store_append(s, &n, &number, &e) && store_commit(s, &e) ? 0 : 1);
    }
    close(go[0]);
    assert_int_equal(read(ready[0], &byte, 1), 1);
    close(ready[0]);
    close(ready[1]);
    return child;
}

static void test_second_writer_is_told_who(void **state) {
    place *p = *state;
    setenv("KITBENCH_NOW", "2027-03-01 18:31", 1);
    int go[2];
    pid_t child = hold_lock(p->path, go);
    store *s = fixture_open(p->path, STORE_WRITE);
    store_entry n = fixture_count("A1", 1, 20);
    err e;
    double began = sys_seconds();
    assert_false(fixture_write(s, &n, &e));
    double waited = sys_seconds() - began;
    unsetenv("KITBENCH_NOW");
    assert_int_equal(e.kind, ERR_RUN);
    char holder[64];
    snprintf(holder, sizeof holder, "\"kitbench enter\" (process %ld on ", (long)child);
    if (!strstr(e.cause, holder) || !strstr(e.cause, "since 18:31:00"))
        fail_msg("it says: %s", e.cause);
    assert_true(waited > 1.5);
    close(go[1]);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    /* Now the lock is free; nothing was lost, nothing doubled. */
    assert_true(fixture_write(s, &n, &e));
    store_close(s);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 3);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM state_counts"), 2);
    assert_false(sys_exists(scratch_path(p->memory, p->folder, "barrow.kitbench.writing")));
}

/* A note that a killed program left behind misleads nobody: it is read only while the lock is held. */
static void test_left_note(void **state) {
    place *p = *state;
    const char *note = scratch_path(p->memory, p->folder, "barrow.kitbench.writing");
    int go[2];
    pid_t child = hold_lock(p->path, go);
    assert_true(sys_exists(note));
    kill(child, SIGKILL);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    close(go[1]);
    assert_true(sys_exists(note));
    store *s = fixture_open(p->path, STORE_WRITE);
    store_entry n = fixture_count("A1", 1, 20);
    err e;
    assert_true(fixture_write(s, &n, &e));
    store_close(s);
    assert_false(sys_exists(note));
}

enum { WRITERS = 4, EACH = 25 };

static void test_many_writers(void **state) {
    place *p = *state;
    pid_t children[WRITERS];
    for (int i = 0; i < WRITERS; i++) {
        children[i] = fork();
        if (children[i] == 0) {
            store *s;
            err e;
            if (!store_open(p->path, STORE_WRITE, "count", &s, &e))
                _exit(1);
            for (int j = 0; j < EACH; j++) {
                store_entry n = fixture_count("A1", 1 + i % 3, j);
                if (!fixture_write(s, &n, &e))
                    _exit(2);
            }
            store_close(s);
            _exit(0);
        }
    }
    for (int i = 0; i < WRITERS; i++) {
        int status;
        assert_int_equal(waitpid(children[i], &status, 0), children[i]);
        assert_int_equal(status, 0);
    }
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 1 + WRITERS * EACH);
    assert_int_equal(fixture_ask(p->path, "SELECT sum(times) FROM state_counts"), WRITERS * EACH);
}

static void test_copy(void **state) {
    place *p = *state;
    const char *out = scratch_path(p->memory, p->folder, "copy.kitbench");
    store *s = fixture_open(p->path, STORE_WRITE);
    store_entry n = fixture_count("A1", 1, 20);
    err e;
    int64_t number;
    assert_true(fixture_write(s, &n, &e));
    /* An act that is not finished is not in the copy. */
    assert_true(store_begin(s, &e) && store_append(s, &n, &number, &e));
    store *reader = fixture_open(p->path, STORE_READ);
    assert_true(store_copy(reader, out, &e));
    assert_true(store_commit(s, &e));
    assert_int_equal(fixture_ask(out, "SELECT count(*) FROM journal"), 2);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 3);
    /* It stands alone and can be written to. */
    store *copy = fixture_open(out, STORE_WRITE);
    assert_true(fixture_write(copy, &n, &e));
    store_close(copy);
    assert_false(store_copy(reader, out, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    assert_int_equal(fixture_ask(out, "SELECT count(*) FROM journal"), 3);
    store_close(reader);
    store_close(s);
}

/* Whatever happened to the file before, the name is in none of its bytes, free pages included. */
static void test_forget(void **state) {
    place *p = *state;
    const text name = TEXT("Comet Longtail");
    store *s = fixture_open(p->path, STORE_WRITE);
    err e;
    for (int i = 0; i < 30; i++) {
        store_entry n = fixture_count("A1", 1, i);
        n.person = TEXT("P3");
        assert_true(fixture_write(s, &n, &e));
    }
    /* Move the row about inside its page and out of it, as use may do. */
    store_close(s);
    assert_int_equal(fixture_try(p->path,
                                 "UPDATE people SET name = name || hex(zeroblob(2500)) WHERE person = 'P2';"
                                 "UPDATE people SET name = name || hex(zeroblob(1500)) WHERE person = 'P4';"
                                 "UPDATE people SET name = 'Moss' WHERE person = 'P2';"),
                     0);
    assert_true(text_find(fixture_bytes(p->memory, p->path), name) >= 0);
    s = fixture_open(p->path, STORE_WRITE);
    store_entry forget = store_entry_of(STORE_FORGET);
    forget.at_s = 120;
    forget.device = TEXT("test");
    forget.about = TEXT("P3");
    assert_true(store_forget(s, &forget, &e));
    assert_true(text_find(fixture_bytes(p->memory, p->path), name) < 0);
    assert_true(text_find(fixture_bytes(p->memory, p->path), TEXT("Longtail")) < 0);
    /* The journal still knows that it was the same person. */
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal WHERE person = 'P3'"), 30);
    kit_tables kit_raw, workshop_raw;
    assert_true(store_read_tables(p->memory, s, &kit_raw, &workshop_raw, &e));
    faults f = faults_in(p->memory);
    const kit *k;
    const kit_workshop *w;
    assert_true(kit_from_tables(p->memory, &kit_raw, &f, &k));
    assert_true(kit_workshop_from_tables(p->memory, &workshop_raw, k, &f, &w));
    assert_true(text_is(w->crew[2].name, "P3"));
    assert_true(text_is(w->crew[1].name, "Moss"));
    store_close(s);
}

static bool add_table(store *s, err *e) {
    return sql_run(s, "CREATE TABLE later (x INTEGER) STRICT", e);
}

static bool add_then_fail(store *s, err *e) {
    return add_table(s, e) && sql_run(s, "CREATE TABLE later (x INTEGER) STRICT", e);
}

/* Steps up from the version the file has, all or none; what was in the file stays. */
static void test_migrate(void **state) {
    place *p = *state;
    uint32_t n;
    const migration *now = store_migrations(&n);
    migration bad[STORE_VERSION + 1], good[STORE_VERSION + 1];
    for (uint32_t i = 0; i < n; i++)
        bad[i] = good[i] = now[i];
    bad[n] = add_then_fail;
    good[n] = add_table;
    store *s = fixture_open(p->path, STORE_WRITE);
    err e;
    assert_false(store_migrate(s, bad, n + 1, &e));
    assert_int_equal(fixture_ask(p->path, "PRAGMA user_version"), n);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM pragma_table_list WHERE name = 'later'"), 0);
    assert_true(store_migrate(s, good, n + 1, &e));
    assert_int_equal(fixture_ask(p->path, "PRAGMA user_version"), n + 1);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM pragma_table_list WHERE name = 'later'"), 1);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM row_stock"), p->kit->n_rows);
    assert_true(store_migrate(s, good, n + 1, &e));
    assert_false(store_migrate(s, now, n, &e));
    store_close(s);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(test_second_writer_is_told_who),
        TEST(test_left_note),
        TEST(test_many_writers),
        TEST(test_copy),
        TEST(test_forget),
        TEST(test_migrate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
