/* What several people share at one build, as the store keeps it: the workshop's rows that were set, pictures, photos,
 * codes, devices, and acts that are written once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "fixture.h"
#include "support/scratch.h"

static int open_place(void **state) {
    fixture_set_up(state);
    place *p = *state;
    p->s = fixture_open(p->path, STORE_WRITE);
    return 0;
}

static int64_t set_row(place *p, const char *sheet, const char *key, const char *cells) {
    store_entry n = store_entry_of(STORE_SET);
    int64_t number = 0;
    n.device = TEXT("test");
    n.sheet = text_of(sheet);
    n.key = text_of(key);
    n.cells = text_of(cells);
    if (!store_begin(p->s, &p->e) || !store_append(p->s, &n, &number, &p->e) || !store_commit(p->s, &p->e))
        fail_msg("%s: %s", p->e.place, p->e.cause);
    return number;
}

static const kit_workshop *read_workshop(place *p) {
    kit_tables kit_raw, workshop_raw;
    const kit_workshop *w;
    faults f = faults_in(p->memory);
    if (!store_read_tables(p->memory, p->s, &kit_raw, &workshop_raw, &p->e))
        fail_msg("%s: %s", p->e.place, p->e.cause);
    if (!kit_workshop_from_tables(p->memory, &workshop_raw, p->kit, &f, &w))
        fail_msg("%s", f.list[0].cause.at);
    return w;
}

static void test_rows_of_the_workshop(void **state) {
    place *p = *state;
    const kit_workshop *w = read_workshop(p);
    uint32_t sessions = w->n_sessions, crew = w->n_crew;
    char before_all[11];
    date_print(w->sessions[0].day - 3, before_all);
    text cells = arena_format(
        p->memory, "{\"session\": \"9\", \"date\": \"%s\", \"start\": \"18:00\", \"end\": \"20:00\"}",
        before_all);
    set_row(p, "sessions", "9", cells.at);
    int64_t gone = set_row(p, "crew", "P4", "");
    set_row(p, "crew", "P1", "{\"person\": \"P1\", \"adult\": \"yes\", \"leader\": \"no\"}");
    w = read_workshop(p);
    assert_int_equal(w->n_sessions, sessions + 1);
    assert_int_equal(w->sessions[0].number, 9); /* in the order of time */
    assert_int_equal(w->sessions[1].number, 1);
    assert_int_equal(w->n_crew, crew - 1);
    assert_false(w->crew[kit_find_person(w, TEXT("P1"))].leader);
    assert_true(text_is(w->crew[kit_find_person(w, TEXT("P1"))].name, "Fern"));

    store_entry undo = store_entry_of(STORE_UNDO);
    undo.device = TEXT("test");
    undo.undoes = gone;
    assert_true(fixture_write(p->s, &undo, &p->e));
    assert_int_equal(read_workshop(p)->n_crew, crew);
    set_row(p, "sessions", "9", "");
    assert_int_equal(read_workshop(p)->n_sessions, sessions);
}

/* A file that an older program made has no column for what came later. */
static void test_a_column_that_came_later(void **state) {
    place *p = *state;
    assert_int_equal(fixture_try(p->path, "ALTER TABLE workshop_sessions DROP COLUMN closing_min"), 0);
    store_close(p->s);
    p->s = fixture_open(p->path, STORE_WRITE);
    uint32_t n = read_workshop(p)->n_sessions;
    set_row(p, "sessions", "9",
            "{\"session\": \"9\", \"date\": \"2027-12-01\", \"start\": \"18:00\", \"end\": \"20:00\","
            " \"closing_min\": \"15\", \"a column of the future\": \"x\"}");
    const kit_workshop *w = read_workshop(p);
    assert_int_equal(w->n_sessions, n + 1);
    assert_int_equal(w->sessions[n].closing_min, 15);
    assert_int_equal(w->sessions[0].closing_min, 0);
}

static void test_a_name(void **state) {
    place *p = *state;
    assert_true(store_begin(p->s, &p->e) && store_name_person(p->s, TEXT("P1"), TEXT("Bracken"), &p->e) &&
                store_name_person(p->s, TEXT("P9"), TEXT("Heron"), &p->e) && store_commit(p->s, &p->e));
    set_row(p, "crew", "P9", "{\"person\": \"P9\", \"adult\": \"no\", \"name\": \"nobody sees this\"}");
    const kit_workshop *w = read_workshop(p);
    assert_int_not_equal(kit_find_person(w, TEXT("Bracken")), KIT_NONE);
    assert_true(text_is(w->crew[kit_find_person(w, TEXT("P9"))].name, "Heron"));
}

static void test_pictures_and_photos(void **state) {
    place *p = *state;
    text bytes;
    assert_true(store_read_picture(p->memory, p->s, TEXT("wheel.png"), &bytes, &p->e));
    assert_true(text_starts(bytes, TEXT("\x89PNG")));
    assert_true(store_read_picture(p->memory, p->s, TEXT("other.png"), &bytes, &p->e));
    assert_int_equal(bytes.len, 0);

    store_entry find = store_entry_of(STORE_FIND);
    int64_t number = 0;
    find.device = TEXT("test");
    find.container = TEXT("A1");
    find.usable = 1;
    find.note = TEXT("red cap");
    text photo = TEXT("\xFF\xD8\xFF\0 bytes \0 as they are");
    assert_true(store_begin(p->s, &p->e) && store_append(p->s, &find, &number, &p->e) &&
                store_add_photo(p->s, number, photo, &p->e) && store_commit(p->s, &p->e));
    assert_true(store_read_photo(p->memory, p->s, number, &bytes, &p->e));
    assert_true(text_equal(bytes, photo));
    assert_true(store_rebuild(p->s, &p->e));
    assert_true(store_read_photo(p->memory, p->s, number, &bytes, &p->e));
    assert_true(text_equal(bytes, photo));
}

static void test_codes(void **state) {
    place *p = *state;
    store_code *codes;
    uint32_t n;
    assert_true(store_begin(p->s, &p->e) && store_set_code(p->s, TEXT("P1"), TEXT("hash"), &p->e) &&
                store_set_code(p->s, TEXT(""), TEXT("other"), &p->e) &&
                store_set_wrong_tries(p->s, TEXT("P1"), 4, &p->e) && store_commit(p->s, &p->e));
    assert_true(store_read_codes(p->memory, p->s, &codes, &n, &p->e));
    assert_int_equal(n, 2);
    assert_int_equal(codes[1].wrong_tries, 4);
    assert_true(store_begin(p->s, &p->e) && store_set_code(p->s, TEXT("P1"), TEXT("new"), &p->e) &&
                store_set_code(p->s, TEXT(""), TEXT(""), &p->e) && store_commit(p->s, &p->e));
    assert_true(store_read_codes(p->memory, p->s, &codes, &n, &p->e));
    assert_int_equal(n, 1);
    assert_int_equal(codes[0].wrong_tries, 0);
    assert_true(text_is(codes[0].hash, "new"));
}

static void test_devices(void **state) {
    place *p = *state;
    store_device phone = {TEXT("phone 1"), TEXT("\x01\0\x02"), TEXT(""), TEXT("table 2"), 60}, *list;
    uint32_t n;
    assert_true(store_begin(p->s, &p->e) && store_put_device(p->s, &phone, &p->e) &&
                store_commit(p->s, &p->e));
    phone.place = TEXT("table 3");
    assert_true(store_begin(p->s, &p->e) && store_put_device(p->s, &phone, &p->e) &&
                store_commit(p->s, &p->e));
    assert_true(store_read_devices(p->memory, p->s, &list, &n, &p->e));
    assert_int_equal(n, 1);
    assert_true(text_is(list[0].place, "table 3") && text_equal(list[0].token, phone.token));
    assert_true(store_begin(p->s, &p->e) && store_drop_device(p->s, TEXT("phone 1"), &p->e) &&
                store_commit(p->s, &p->e));
    assert_true(store_read_devices(p->memory, p->s, &list, &n, &p->e));
    assert_int_equal(n, 0);
}

/* A phone that sends its count twice: the second one is refused by the file itself, and can be found before. */
static void test_once(void **state) {
    place *p = *state;
    store_entry n = fixture_count("A1", 1, 20);
    int64_t act, number = 0;
    n.once = TEXT("phone 1, 77");
    assert_true(store_begin(p->s, &p->e) && store_append(p->s, &n, &number, &p->e) &&
                store_append(p->s, &n, &number, &p->e) &&
                store_commit(p->s, &p->e)); /* one act of two rows */
    assert_true(store_find_once(p->s, n.once, &act, &p->e));
    assert_int_equal(act, number - 1);
    assert_false(fixture_write(p->s, &n, &p->e));
    assert_true(store_find_once(p->s, TEXT("phone 1, 78"), &act, &p->e));
    assert_int_equal(act, 0);
    assert_int_equal(fixture_ask(p->path, "SELECT count(*) FROM journal"), 3);
}

#define OPEN(name) cmocka_unit_test_setup_teardown(name, open_place, fixture_tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        OPEN(test_rows_of_the_workshop),
        OPEN(test_a_column_that_came_later),
        OPEN(test_a_name),
        OPEN(test_pictures_and_photos),
        OPEN(test_codes),
        OPEN(test_devices),
        OPEN(test_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
