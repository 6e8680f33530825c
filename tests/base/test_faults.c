/* Failures: their texts are whole, their lists are complete and in the order of the places. */
#include <stdio.h>
#include <string.h>

#include "base/err.h"
#include "base/faults.h"
#include "base/utf8.h"
#include "support/check.h"

static void a_failure_has_place_cause_and_remedy(void **state) {
    (void)state;
    err e;
    char line[1024];
    assert_false(err_input(&e, "parts.csv row 17, mass_g", "write 12.5", "\"%s\" is not a number", "12,5"));
    assert_int_equal(e.kind, ERR_INPUT);
    int n = err_print(&e, line, sizeof line);
    assert_string_equal(line, "parts.csv row 17, mass_g: \"12,5\" is not a number; write 12.5");
    assert_int_equal(n, strlen(line));
    assert_false(err_run(&e, "", "", "the disk is full"));
    assert_int_equal(e.kind, ERR_RUN);
    err_print(&e, line, sizeof line);
    assert_string_equal(line, "the disk is full");
    assert_false(err_run(NULL, "x", "y", "nobody listens"));
    assert_false(err_input(&e, NULL, NULL, "only a cause"));
    assert_string_equal(e.place, "");
}

/* Every length around the size of the field, with letters of one to four bytes. */
static void long_texts_are_cut_at_a_whole_letter(void **state) {
    (void)state;
    static const char *const letters[] = {"a", "ä", "本", "𝛼"};
    for (size_t k = 0; k < 4; k++)
        for (size_t lead = 0; lead < 4; lead++)
            for (size_t count = 40; count < 400; count++) {
                char text_in[2000] = "";
                size_t n = 0;
                for (size_t i = 0; i < lead; i++)
                    text_in[n++] = '.';
                for (size_t i = 0; i < count; i++, n += strlen(letters[k]))
                    memcpy(text_in + n, letters[k], strlen(letters[k]) + 1);
                err e;
                (void)err_input(&e, text_in, text_in, "%s", text_in);
                const char *fields[] = {e.place, e.cause, e.remedy};
                size_t sizes[] = {sizeof e.place, sizeof e.cause, sizeof e.remedy};
                for (size_t f = 0; f < 3; f++) {
                    text t = text_of(fields[f]);
                    bool cut = n >= sizes[f];
                    assert_true(t.len < sizes[f] && utf8_fault(t) < 0);
                    assert_true(cut == (text_ends(t, TEXT("…")) && t.len != n));
                    assert_true(cut ? t.len + 8 > sizes[f] : t.len == n);
                    assert_int_equal(memcmp(t.at, text_in, cut ? t.len - 3 : t.len), 0);
                }
            }
}

static void places_read_as_people_write_them(void **state) {
    (void)state;
    arena *a = arena_open();
    static const struct {
        const char *file, *column, *says;
        uint32_t row;
    } cases[] = {{"parts.csv", "mass_g", "parts.csv row 17, mass_g", 17},
                 {"parts.csv", "", "parts.csv row 17", 17},
                 {"parts.csv", "mass_g", "parts.csv, mass_g", 0},
                 {"parts.csv", "", "parts.csv", 0}};
    for (size_t i = 0; i < 4; i++)
        assert_true(text_is(fault_place_text(a, (fault_place){text_of(cases[i].file), cases[i].row,
                                                              text_of(cases[i].column)}),
                            cases[i].says));
    arena_close(a);
}

static void the_same_fault_stands_once(void **state) {
    (void)state;
    arena *a = arena_open();
    faults f = faults_in(a);
    fault_place place = {TEXT("a.csv"), 2, TEXT("x")}, other = {TEXT("a.csv"), 2, TEXT("y")};
    fault_add(&f, place, "mend it", "wrong %d", 1);
    fault_add(&f, place, "mend it otherwise", "wrong %d", 1);
    fault_add(&f, place, "mend it", "wrong %d", 2);
    fault_add(&f, other, "mend it", "wrong %d", 1);
    assert_int_equal(f.n, 3);
    assert_true(text_is(f.list[0].remedy, "mend it"));
    arena_close(a);
}

/* The texts given may change and go. */
static void a_list_owns_its_texts(void **state) {
    (void)state;
    arena *a = arena_open();
    faults f = faults_in(a);
    char file[] = "a.csv", column[] = "x", remedy[] = "mend it", cause[] = "wrong";
    fault_add(&f, (fault_place){text_of(file), 1, text_of(column)}, remedy, "%s", cause);
    file[0] = column[0] = remedy[0] = cause[0] = '?';
    assert_true(text_is(f.list[0].place.file, "a.csv") && text_is(f.list[0].place.column, "x"));
    assert_true(text_is(f.list[0].remedy, "mend it") && text_is(f.list[0].cause, "wrong"));
    arena_close(a);
}

/* Random lists: sorted by the file's first mention, then row, and stable; nothing lost. */
static void sorting_is_by_file_and_row_and_stable(void **state) {
    (void)state;
    static const char *const files[] = {"steps.csv", "parts.csv", "kit.csv"};
    uint64_t seed = 11;
    for (int run = 0; run < 300; run++) {
        arena *a = arena_open();
        faults f = faults_in(a);
        int rank[3] = {-1, -1, -1}, next = 0;
        size_t n = random_below(&seed, 60);
        for (size_t i = 0; i < n; i++) {
            uint32_t file = random_below(&seed, 3);
            if (rank[file] < 0)
                rank[file] = next++;
            fault_add(&f, (fault_place){text_of(files[file]), random_below(&seed, 6), TEXT("")}, "", "%zu",
                      i);
        }
        faults_sort(&f);
        assert_int_equal(f.n, n);
        bool seen[60] = {0};
        long before_met = -1, before_key = -1;
        for (size_t i = 0; i < n; i++) {
            long met = 0, key = 0;
            for (size_t c = 0; c < f.list[i].cause.len; c++)
                met = met * 10 + (f.list[i].cause.at[c] - '0');
            for (int k = 0; k < 3; k++)
                if (text_is(f.list[i].place.file, files[k]))
                    key = rank[k] * 100 + (long)f.list[i].place.row;
            assert_true(key > before_key || (key == before_key && met > before_met));
            before_key = key;
            before_met = met;
            assert_false(seen[met]);
            seen[met] = true;
        }
        arena_close(a);
    }
}

/* Files hold anything; what is told of them is UTF-8, since it goes to terminals and into JSON. */
static void what_is_told_is_utf8(void **state) {
    (void)state;
    arena *a = arena_open();
    faults f = faults_in(a);
    fault_add(&f, (fault_place){TEXT("a\xFF.csv"), 1, TEXT("\xC3")}, "write \xE2\x82", "\"%s\" is wrong",
              "gr\xF6\xDF"
              "e");
    assert_true(text_is(f.list[0].cause, "\"gr\xEF\xBF\xBD\xEF\xBF\xBD"
                                         "e\" is wrong"));
    assert_true(utf8_fault(f.list[0].remedy) < 0 && utf8_fault(f.list[0].place.file) < 0 &&
                utf8_fault(f.list[0].place.column) < 0);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_failure_has_place_cause_and_remedy),
        cmocka_unit_test(long_texts_are_cut_at_a_whole_letter),
        cmocka_unit_test(places_read_as_people_write_them),
        cmocka_unit_test(the_same_fault_stands_once),
        cmocka_unit_test(a_list_owns_its_texts),
        cmocka_unit_test(sorting_is_by_file_and_row_and_stable),
        cmocka_unit_test(what_is_told_is_utf8),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
