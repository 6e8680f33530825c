/* The n-th system call fails, for every n, once or from then on, in every operation on a build file: the operation
 * either succeeds or says why not, what was acknowledged before is still there, what failed is not there (or said to be
 * uncertain), and the file is whole. Needs a build with the fault door. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/sys.h"
#include "fixture.h"
#include "store/connect.h"
#include "store/schema.h"
#include "support/scratch.h"

#ifdef KB_FAULT_DOOR

enum { MOST_CALLS = 2000, DONE = 0, FAILED = 1, UNCERTAIN = 2, BLANKED = 3, BAD_ERROR = 4 };

typedef struct {
    arena *memory;
    const char *path, *out;
    kit_tables kit_raw, workshop_raw;
} tried;

typedef struct {
    const char *name;
    bool (*run)(const tried *t, err *e);
    bool writes; /* one count, entry 3 */
    bool makes_out;
    bool of_version_2;
} operation;

static bool do_count(const tried *t, err *e) {
    store *s;
    if (!store_open(t->path, STORE_WRITE, "count", &s, e))
        return false;
    store_entry n = fixture_count("A1", 2, 49);
    bool ok = fixture_write(s, &n, e);
    store_close(s);
    return ok;
}

static bool do_read(const tried *t, err *e) {
    arena *a = arena_open();
    store *s;
    kit_tables kit_raw, workshop_raw;
    store_entry *all;
    size_t n;
    bool ok = store_open(t->path, STORE_READ, "stock", &s, e);
    if (ok) {
        ok = store_read_tables(a, s, &kit_raw, &workshop_raw, e) &&
             store_read_journal(a, s, 1, &all, &n, e) && n == 2;
        store_close(s);
    }
    arena_close(a);
    return ok;
}

static bool do_copy(const tried *t, err *e) {
    store *s;
    if (!store_open(t->path, STORE_READ, "copy", &s, e))
        return false;
    bool ok = store_copy(s, t->out, e);
    store_close(s);
    return ok;
}

static bool do_create(const tried *t, err *e) {
    store_content content = fixture_content(&t->kit_raw, &t->workshop_raw);
    return store_create(t->out, &content, e);
}

static bool do_rebuild(const tried *t, err *e) {
    store *s;
    if (!store_open(t->path, STORE_WRITE, "test", &s, e))
        return false;
    bool ok = store_rebuild(s, e);
    store_close(s);
    return ok;
}

static bool do_forget(const tried *t, err *e) {
    store *s;
    if (!store_open(t->path, STORE_WRITE, "forget", &s, e))
        return false;
    store_entry n = store_entry_of(STORE_FORGET);
    n.at_s = 120;
    n.device = TEXT("test");
    n.about = TEXT("P3");
    bool ok = store_forget(s, &n, e);
    store_close(s);
    return ok;
}

/* An entry and the bytes that belong to it. */
static bool do_photo(const tried *t, err *e) {
    static char bytes[20000];
    store *s;
    int64_t number;
    if (!store_open(t->path, STORE_WRITE, "count", &s, e))
        return false;
    store_entry n = store_entry_of(STORE_FIND);
    n.device = TEXT("test");
    n.container = TEXT("A1");
    n.usable = 1;
    n.note = TEXT("red cap");
    bool ok = store_begin(s, e) && store_append(s, &n, &number, e) &&
              store_add_photo(s, number, (text){bytes, sizeof bytes}, e) && store_commit(s, e);
    store_close(s);
    return ok;
}

/* A row of the workshop's tables, and the name that stands outside the journal. */
static bool do_set(const tried *t, err *e) {
    store *s;
    int64_t number;
    if (!store_open(t->path, STORE_WRITE, "crew", &s, e))
        return false;
    store_entry n = store_entry_of(STORE_SET);
    n.device = TEXT("test");
    n.sheet = TEXT("crew");
    n.key = TEXT("P9");
    n.cells = TEXT("{\"person\": \"P9\", \"adult\": \"no\"}");
    bool ok = store_begin(s, e) && store_name_person(s, n.key, TEXT("Heron"), e) &&
              store_append(s, &n, &number, e) && store_commit(s, e);
    store_close(s);
    return ok;
}

/* Opening a file of version 2 brings it up to date. */
static bool do_migrate(const tried *t, err *e) {
    store *s;
    if (!store_open(t->path, STORE_READ, "stock", &s, e))
        return false;
    store_close(s);
    return true;
}

static const operation operations[] = {
    {"count", do_count, true, false, false},      {"read", do_read, false, false, false},
    {"copy", do_copy, false, true, false},        {"create", do_create, false, true, false},
    {"rebuild", do_rebuild, false, false, false}, {"forget", do_forget, true, false, false},
    {"photo", do_photo, true, false, false},      {"set", do_set, true, false, false},
    {"migrate", do_migrate, false, false, true},
};

/* As the program of version 2 would have left it: the file's begin, and the same count as in the other one. */
static void make_version_2(const char *path) {
    uint32_t n;
    const migration *steps = store_migrations(&n);
    store *s;
    err e;
    if (!connect_file(path, path, true, STORE_WRITE, "test", &s, &e) || !store_migrate(s, steps, 2, &e) ||
        !sql_run(
            s,
            "INSERT INTO journal (entry, act, at_s, device, verb, note) VALUES (1, 1, 60, 'old', 'begin', '');"
            "INSERT INTO journal (entry, act, at_s, device, verb, container, line, usable, damaged)"
            " VALUES (2, 2, 120, 'old', 'count', 'A1', 1, 20, 0);"
            "INSERT INTO state_counts VALUES ('A1', 1, 2, 20, 0, 0, '', 1);",
            &e))
        fail_msg("%s: %s", e.place, e.cause);
    store_close(s);
}

static int run_with_fault(const operation *o, const tried *t, const char *fault) {
    err e = {0};
    setenv("KITBENCH_FAULT", fault, 1);
    bool ok = o->run(t, &e);
    unsetenv("KITBENCH_FAULT");
    if (ok)
        return DONE;
    if (strstr(e.cause, "could not be rewritten"))
        return BLANKED;
    if (strstr(e.cause, "not certain"))
        return UNCERTAIN;
    return (e.kind != ERR_RUN && e.kind != ERR_INPUT) || !e.cause[0] || !e.place[0] ? BAD_ERROR : FAILED;
}

static void check_file(const operation *o, const tried *t, int result, const char *fault) {
    /* Another program opens it after the fault: a rollback that was left over is played back. */
    int64_t entries =
        fixture_ask(t->path, "SELECT CASE WHEN (SELECT integrity_check = 'ok' FROM"
                             " pragma_integrity_check LIMIT 1) AND EXISTS (SELECT 1 FROM state_counts"
                             " WHERE container = 'A1' AND line = 1 AND usable = 20)"
                             " THEN (SELECT count(*) FROM journal) ELSE -1 END");
    if (entries < 0)
        fail_msg("%s with %s: the file is damaged", o->name, fault);
    int64_t wanted = o->writes && (result == DONE || result == BLANKED) ? 3 : 2;
    if (result == UNCERTAIN ? entries < 2 || entries > 3 : entries != wanted)
        fail_msg("%s with %s: it ended with %d and has %lld entries", o->name, fault, result,
                 (long long)entries);
    /* What stands outside the journal came or stayed away with its entry. */
    if (!o->of_version_2 && fixture_ask(t->path, "SELECT (SELECT count(*) FROM photos) <>"
                                                 " (SELECT count(*) FROM journal WHERE verb = 'find') OR"
                                                 " (SELECT count(*) FROM people WHERE person = 'P9') <>"
                                                 " (SELECT count(*) FROM journal WHERE verb = 'set')"))
        fail_msg("%s with %s: half of the act is there", o->name, fault);
    if (o->of_version_2) {
        int64_t version = fixture_ask(t->path, "PRAGMA user_version");
        if (version != STORE_VERSION && (version != 2 || result == DONE))
            fail_msg("%s with %s: it ended with %d as version %lld", o->name, fault, result,
                     (long long)version);
    }
    if (!o->makes_out)
        return;
    if (result == DONE &&
        fixture_ask(t->out, "SELECT integrity_check = 'ok' FROM pragma_integrity_check") != 1)
        fail_msg("%s with %s: what it made is damaged", o->name, fault);
    if (result != DONE && sys_exists(t->out))
        fail_msg("%s with %s: it failed, but left a file", o->name, fault);
}

static void try_operation(const operation *o, tried *t, const char *fresh, const char *form) {
    arena *a = t->memory;
    text bytes = fixture_bytes(a, fresh);
    unsigned failures = 0, n = 1;
    for (; n < MOST_CALLS; n++) {
        const char *fault =
            form[0] == '+' ? arena_format(a, "any:%u+", n).at : arena_format(a, "any:%u:%s", n, form).at;
        fixture_put_bytes(t->path, bytes);
        remove(arena_format(a, "%s-journal", t->path).at);
        remove(t->out);
        int result = run_with_fault(o, t, fault);
        if (result == BAD_ERROR)
            fail_msg("%s with %s: it ended with %d", o->name, fault, result);
        check_file(o, t, result, fault);
        failures += result != DONE;
        if (result == DONE && n > failures + 40)
            break; /* forty calls in a row that did not matter: beyond the last one */
    }
    print_message("%s, %s: %u of %u faults made it fail\n", o->name, form, failures, n);
    assert_true(failures > 3);
}

static void test_faults(void **state) {
    bool all_errors = getenv("KITBENCH_LONG") != NULL;
    (void)state;
    arena *a = arena_open();
    const char *folder = scratch_open(a), *fresh = scratch_path(a, folder, "fresh.kitbench");
    const kit *k;
    tried t = {.memory = a,
               .path = scratch_path(a, folder, "tried.kitbench"),
               .out = scratch_path(a, folder, "out.kitbench")};
    faults f = faults_in(a);
    err e;
    const char *old = scratch_path(a, folder, "old.kitbench");
    fixture_create(a, fresh, &k);
    make_version_2(old);
    assert_true(kit_tables_from_folder(a, "tests/support/barrow", false, &f, &t.kit_raw, &e));
    assert_true(kit_tables_from_folder(a, "tests/support/barrow-crew", true, &f, &t.workshop_raw, &e));
    store *s = fixture_open(fresh, STORE_WRITE);
    store_entry n = fixture_count("A1", 1, 20);
    assert_true(fixture_write(s, &n, &e));
    store_close(s);
    for (size_t i = 0; i < sizeof operations / sizeof operations[0]; i++) {
        const char *from = operations[i].of_version_2 ? old : fresh;
        try_operation(&operations[i], &t, from, "28"); /* ENOSPC */
        if (all_errors)
            try_operation(&operations[i], &t, from, "5"); /* EIO */
        if (all_errors || i < 6)                          /* the later ones take the same ways */
            try_operation(&operations[i], &t, from, "+");
    }
    scratch_close(folder);
    arena_close(a);
}

#else

static void test_faults(void **state) {
    (void)state;
    print_message("SKIPPED: this build has no fault door\n");
    skip();
}

#endif

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_faults)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
