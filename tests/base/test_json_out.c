/* JSON output: random documents, written by ours and built with jansson, are the same when jansson reads ours. */
#include <stdio.h>
#include <string.h>

#include "base/json_out.h"
#include "document.h"
#include "support/check.h"

enum { DEEPEST = 8 };

static const char hard[] = "a \"b\" \\ \n \x01 ä";

/* Fills the open array or object at both sides with the same values. */
static void fill(json_out *ours, document *theirs, bool object, uint64_t *seed, int depth) {
    uint32_t n = random_below(seed, 5);
    for (uint32_t i = 0; i < n; i++) {
        char key_room[32];
        snprintf(key_room, sizeof key_room, "k%u \"ä\n\"", i);
        const char *key = object ? key_room : NULL;
        int64_t number = (int64_t)random_next(seed) >> random_below(seed, 64);
        int64_t eighths = number % 1000000 * 125; /* a thousand of them are exact in a double, too */
        char kind = "sibndoa"[random_below(seed, depth < DEEPEST ? 7 : 5)];
        document *made = document_make(kind, kind == 'd' ? eighths : kind == 'b' ? number & 1 : number, hard);
        switch (kind) {
        case 's':
            json_put_text(ours, key, text_of(hard));
            break;
        case 'i':
            json_put_integer(ours, key, number);
            break;
        case 'b':
            json_put_bool(ours, key, number & 1);
            break;
        case 'n':
            json_put_null(ours, key);
            break;
        case 'd':
            json_put_decimal(ours, key, eighths, 3);
            break;
        case 'o':
            json_put_object(ours, key);
            fill(ours, made, true, seed, depth + 1);
            json_end_object(ours);
            break;
        default:
            json_put_array(ours, key);
            fill(ours, made, false, seed, depth + 1);
            json_end_array(ours);
        }
        document_add(theirs, key, made);
    }
}

static void random_documents_are_the_same(void **state) {
    (void)state;
    uint64_t seed = 31;
    size_t largest = 0;
    for (int run = 0; run < 3000; run++) {
        buf b = {0};
        json_out ours = json_to(&b);
        document *theirs = document_make('o', 0, "");
        json_put_object(&ours, NULL);
        fill(&ours, theirs, true, &seed, 1);
        json_end_object(&ours);
        document *read = document_read(buf_text(&b));
        if (!read)
            fail_msg("run %d is no JSON: %s", run, b.at);
        if (!document_equal(read, theirs))
            fail_msg("run %d: another document: %s", run, b.at);
        largest = b.len > largest ? b.len : largest;
        document_free(read);
        document_free(theirs);
        buf_free(&b);
    }
    assert_true(largest > 1000);
}

static void decimals_are_exact(void **state) {
    (void)state;
    static const struct {
        int64_t value;
        int scale;
        const char *says;
    } cases[] = {{1250, 2, "12.50"},
                 {0, 3, "0.000"},
                 {-5, 2, "-0.05"},
                 {7, 0, "7"},
                 {-100, 2, "-1.00"},
                 {INT64_MAX, 9, "9223372036.854775807"},
                 {INT64_MIN, 9, "-9223372036.854775808"},
                 {INT64_MIN, 0, "-9223372036854775808"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        buf b = {0};
        json_out j = json_to(&b);
        json_put_array(&j, NULL);
        json_put_decimal(&j, NULL, cases[i].value, cases[i].scale);
        json_end_array(&j);
        char wanted[64];
        snprintf(wanted, sizeof wanted, "[\n  %s\n]\n", cases[i].says);
        assert_string_equal(b.at, wanted);
        buf_free(&b);
    }
}

static void layout_is_the_same_for_ever(void **state) {
    (void)state;
    buf b = {0};
    json_out j = json_to(&b);
    json_put_object(&j, NULL);
    json_put_array(&j, "empty");
    json_end_array(&j);
    json_put_object(&j, "o");
    json_end_object(&j);
    json_put_array(&j, "list");
    json_put_integer(&j, NULL, 1);
    json_put_number(&j, NULL, 0.25);
    json_put_number(&j, NULL, 123456789.0);
    json_end_array(&j);
    json_end_object(&j);
    assert_string_equal(
        b.at,
        "{\n  \"empty\": [],\n  \"o\": {},\n  \"list\": [\n    1,\n    0.25,\n    1.23457e+08\n  ]\n}\n");
    buf_free(&b);
}

/* 32 levels are allowed. */
static void deep_nesting_closes(void **state) {
    (void)state;
    buf b = {0};
    json_out j = json_to(&b);
    for (int i = 0; i < 32; i++)
        json_put_array(&j, NULL);
    for (int i = 0; i < 32; i++)
        json_end_array(&j);
    document *read = document_read(buf_text(&b));
    assert_non_null(read);
    document_free(read);
    buf_free(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_documents_are_the_same), cmocka_unit_test(decimals_are_exact),
        cmocka_unit_test(layout_is_the_same_for_ever), cmocka_unit_test(deep_nesting_closes)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
