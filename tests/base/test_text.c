/* Texts: comparing, cutting, trimming, and the order people expect of labels. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "support/check.h"

static void empty_texts_are_equal_wherever_they_point(void **state) {
    (void)state;
    text none = {NULL, 0};
    assert_true(text_equal(none, TEXT("")));
    assert_true(text_is(none, ""));
    assert_true(text_equal(text_of(NULL), none));
    assert_int_equal(text_compare(none, TEXT("")), 0);
    assert_int_equal(text_trim(none).len, 0);
    assert_int_equal(text_find(none, TEXT("a")), -1);
    assert_int_equal(text_find(none, none), 0);
    assert_true(text_starts(none, none) && text_ends(none, none));
    assert_int_equal(text_slice(none, 3, 9).len, 0);
}

static void comparing_goes_by_bytes(void **state) {
    (void)state;
    /* Ascending; for UTF-8 that is the order of the code points. */
    static const char *const rising[] = {
        "", "A", "AA", "B", "a", "z", "\xC2\x80", "\xC3\xA9", "\xEF\xBF\xBD", "\xF0\x90\x80\x80"};
    for (size_t i = 0; i < sizeof rising / sizeof rising[0]; i++)
        for (size_t j = 0; j < sizeof rising / sizeof rising[0]; j++) {
            int order = text_compare(text_of(rising[i]), text_of(rising[j]));
            assert_int_equal((order > 0) - (order < 0), (i > j) - (i < j));
        }
    assert_true(text_equal_nocase(TEXT("Bag B3"), TEXT("bAG b3")));
    assert_false(text_equal_nocase(TEXT("\xC3\x84"), TEXT("\xC3\xA4"))); /* ASCII only */
    assert_false(text_equal_nocase(TEXT("@"), TEXT("`")));               /* 32 apart, but no letters */
    assert_false(text_equal_nocase(TEXT("["), TEXT("{")));
}

static void labels_sort_as_people_expect(void **state) {
    (void)state;
    static const char *const rising[] = {"",
                                         "01",
                                         "1",
                                         "2",
                                         "9",
                                         "10",
                                         "B",
                                         "B1",
                                         "B2",
                                         "B02a",
                                         "B2b",
                                         "B10",
                                         "B10a",
                                         "B10b2",
                                         "B10b11",
                                         "B18446744073709551615",
                                         "B18446744073709551616",
                                         "B99999999999999999999999999999999",
                                         "Ba",
                                         "box 2",
                                         "box 10"};
    for (size_t i = 0; i < sizeof rising / sizeof rising[0]; i++)
        for (size_t j = 0; j < sizeof rising / sizeof rising[0]; j++) {
            int order = text_compare_natural(text_of(rising[i]), text_of(rising[j]));
            if ((order > 0) - (order < 0) != (i > j) - (i < j))
                fail_msg("\"%s\" and \"%s\" stand wrong", rising[i], rising[j]);
        }
    assert_int_equal(text_compare_natural(TEXT("B7"), TEXT("B7")), 0);
}

static text random_label(uint64_t *seed, char room[8]) {
    static const char letters[] = "0012 9aB";
    size_t n = random_below(seed, 7);
    for (size_t i = 0; i < n; i++)
        room[i] = letters[random_below(seed, 8)];
    return (text){room, n};
}

/* A sort needs it: no circle, no contradiction. */
static void the_natural_order_is_an_order(void **state) {
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 200000; i++) {
        char room[3][8];
        text a = random_label(&seed, room[0]), b = random_label(&seed, room[1]),
             c = random_label(&seed, room[2]);
        int ab = text_compare_natural(a, b), bc = text_compare_natural(b, c), ac = text_compare_natural(a, c);
        int ba = text_compare_natural(b, a);
        assert_int_equal((ab > 0) - (ab < 0), (ba < 0) - (ba > 0));
        assert_true((ab == 0) == text_equal(a, b));
        if (ab <= 0 && bc <= 0 && ac > 0)
            fail_msg("circle: \"%.*s\" \"%.*s\" \"%.*s\"", TEXT_ARG(a), TEXT_ARG(b), TEXT_ARG(c));
    }
}

static void trimming_takes_blanks_of_all_kinds(void **state) {
    (void)state;
    static const char *const cases[][2] = {
        {"a", "a"},          {" \t\r\n a b \n", "a b"}, {"\xC2\xA0 x\xC2\xA0\xC2\xA0", "x"},
        {" \xC2\xA0\t", ""}, {"\xC3\xA0", "\xC3\xA0"}, /* ends in A0 and is no blank */
        {"\xA0x", "\xA0x"},  {"\xC2", "\xC2"},          {"", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_true(text_is(text_trim(text_of(cases[i][0])), cases[i][1]));
    assert_int_equal(text_trim((text){"\0", 1}).len, 1); /* NUL is no blank */
}

static void pieces_come_in_order(void **state) {
    (void)state;
    static const struct {
        const char *whole;
        size_t n;
        const char *pieces[4];
    } cases[] = {{"a;b", 2, {"a", "b"}},
                 {"a;", 2, {"a", ""}},
                 {";a", 2, {"", "a"}},
                 {"", 1, {""}},
                 {";;", 3, {"", "", ""}}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        text rest = text_of(cases[i].whole), piece;
        size_t n = 0;
        for (; text_next_piece(&rest, ';', &piece); n++)
            assert_true(n < cases[i].n && text_is(piece, cases[i].pieces[n]));
        assert_int_equal(n, cases[i].n);
    }
    text none = {NULL, 0}, piece;
    assert_false(text_next_piece(&none, ';', &piece));
}

static void finding_and_slicing(void **state) {
    (void)state;
    text t = TEXT("M8x25-8.8");
    assert_int_equal(text_find(t, TEXT("8")), 1);
    assert_int_equal(text_find(t, TEXT("8.8")), 6);
    assert_int_equal(text_find(t, TEXT("8.9")), -1);
    assert_int_equal(text_find(t, TEXT("M8x25-8.8.")), -1);
    assert_true(text_is(text_slice(t, 3, 5), "25"));
    assert_true(text_is(text_slice(t, 6, 100), "8.8"));
    assert_int_equal(text_slice(t, 7, 3).len, 0);
    assert_int_equal(text_slice(t, 100, 200).len, 0);
    assert_true(text_starts(t, TEXT("M8")) && !text_starts(t, TEXT("m8")) &&
                !text_starts(TEXT("M"), TEXT("M8")));
    assert_true(text_ends(t, TEXT(".8")) && !text_ends(TEXT("8"), TEXT(".8")));
}

static void copies_end_in_nul_and_keep_their_length(void **state) {
    (void)state;
    arena *a = arena_open();
    text with_nul = {"a\0b", 3}, copy = arena_text(a, with_nul);
    assert_true(copy.at != with_nul.at && text_equal(copy, with_nul) && copy.at[3] == '\0');
    text made = arena_format(a, "%s-%d-%.*s", "x", -5, TEXT_ARG(TEXT("yz")));
    assert_true(text_is(made, "x--5-yz") && made.at[made.len] == '\0');
    text empty = arena_format(a, "%s", "");
    assert_true(empty.len == 0 && empty.at[0] == '\0');
    text longer = arena_format(a, "%0*d", 100000, 1);
    assert_int_equal(longer.len, 100000);
    arena_close(a);
}

static void edits_are_counted(void **state) {
    (void)state;
    assert_int_equal(text_edits(TEXT("countersunk"), TEXT("countersunk")), 0);
    assert_int_equal(text_edits(TEXT("counsersunk"), TEXT("countersunk")), 1); /* changed */
    assert_int_equal(text_edits(TEXT("countresunk"), TEXT("countersunk")), 1); /* swapped */
    assert_int_equal(text_edits(TEXT("kitten"), TEXT("sitting")), 3);          /* the textbooks' example */
    assert_int_equal(text_edits(TEXT(""), TEXT("abc")), 3);
    assert_int_equal(text_edits(TEXT("abc"), TEXT("")), 3);
    assert_int_equal(text_edits(TEXT(""), TEXT("")), 0);
    text longer = TEXT("a text that is longer than forty bytes altogether");
    assert_int_equal(text_edits(longer, longer), TEXT_EDITS_FAR);
    assert_int_equal(text_edits(text_slice(longer, 0, 40), text_slice(longer, 1, 40)), 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(empty_texts_are_equal_wherever_they_point),
        cmocka_unit_test(comparing_goes_by_bytes),
        cmocka_unit_test(labels_sort_as_people_expect),
        cmocka_unit_test(the_natural_order_is_an_order),
        cmocka_unit_test(trimming_takes_blanks_of_all_kinds),
        cmocka_unit_test(pieces_come_in_order),
        cmocka_unit_test(finding_and_slicing),
        cmocka_unit_test(edits_are_counted),
        cmocka_unit_test(copies_end_in_nul_and_keep_their_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
