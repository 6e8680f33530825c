/* fixture.h: a build file of the garden barrow, for the tests of the store. */
#ifndef TESTS_STORE_FIXTURE_H
#define TESTS_STORE_FIXTURE_H

#include "store/store.h"

/* What a file is made of, with a picture "wheel.png". The tables are not copied. */
store_content fixture_content(const kit_tables *kit_raw, const kit_tables *workshop_raw);

/* A folder with one build file, for each test of its own; what they fill in is closed at its end. */
typedef struct {
    arena *memory;
    const char *folder, *path;
    const kit *kit;
    store *s; /* NULL, unless the test opens it */
    err e;
} place;
int fixture_set_up(void **state);
int fixture_tear_down(void **state);
#define TEST(name) cmocka_unit_test_setup_teardown(name, fixture_set_up, fixture_tear_down)

/* Makes the file; its tables come from tests/support. The test fails when it cannot. */
void fixture_create(arena *a, const char *path, const kit **k);

/* Opens it; the test fails when it cannot. */
store *fixture_open(const char *path, store_mode mode);

/* A count of a row, as an entry. */
store_entry fixture_count(const char *container, int64_t line, int64_t usable);

/* One act with one entry; false and `e` when it fails. */
bool fixture_write(store *s, const store_entry *entry, err *e);

/* All bytes of a file, in the arena. */
text fixture_bytes(arena *a, const char *path);
void fixture_put_bytes(const char *path, text bytes);

/* One whole number from any SQLite file, as another program would read it; the test fails when it cannot. */
int64_t fixture_ask(const char *path, const char *sql);

/* What SQLite says to a statement that another program tries: its result code. */
int fixture_try(const char *path, const char *sql);

#endif
