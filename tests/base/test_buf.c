/* Growing texts: what the escaping writers write, read back by others: CSV by our reader, JSON by jansson. */
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/csv.h"
#include "support/check.h"

static void a_buffer_grows_and_ends_in_nul(void **state) {
    (void)state;
    buf b = {0};
    assert_true(text_is(buf_text(&b), "") && buf_text(&b).at != NULL);
    size_t n = 0;
    for (int i = 0; i < 3000; i++) {
        buf_addf(&b, "%d,", i);
        n += i < 10 ? 2 : i < 100 ? 3 : i < 1000 ? 4 : 5;
        assert_true(b.len == n && b.at[n] == '\0' && b.cap > n);
    }
    buf_clear(&b);
    assert_true(b.len == 0 && b.at[0] == '\0');
    buf_add(&b, (text){"a\0b", 3});
    buf_add_char(&b, '\0');
    buf_add_z(&b, "z");
    assert_int_equal(b.len, 5);
    assert_memory_equal(b.at, "a\0b\0z", 6);
    buf_addf(&b, "%s", "");
    buf_add(&b, (text){NULL, 0});
    assert_int_equal(b.len, 5);
    buf_free(&b);
    assert_true(b.at == NULL && b.len == 0);
    buf_free(&b);
}

/* Every length around each doubling: the last byte and the NUL have room. */
static void a_formatted_text_of_any_length_fits(void **state) {
    (void)state;
    for (int length = 0; length < 2100; length++) {
        buf b = {0};
        buf_addf(&b, "%*s", length, "");
        buf_addf(&b, "%*s", length, "");
        assert_true(b.len == 2 * (size_t)length);
        if (b.at)
            assert_int_equal(b.at[b.len], 0);
        buf_free(&b);
    }
}

static void csv_quotes_only_what_it_must(void **state) {
    (void)state;
    static const char *const cases[][2] = {{"", ""},
                                           {"M8x25", "M8x25"},
                                           {"a b", "a b"},
                                           {" a", "\" a\""},
                                           {"a ", "\"a \""},
                                           {"a,b", "\"a,b\""},
                                           {"1.25mm/0.05\"", "\"1.25mm/0.05\"\"\""},
                                           {"\"", "\"\"\"\""},
                                           {"a\nb", "\"a\nb\""},
                                           {"a\rb", "\"a\rb\""},
                                           {"a;b\t", "a;b\t"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        buf b = {0};
        buf_add_csv(&b, text_of(cases[i][0]));
        assert_true(text_is(buf_text(&b), cases[i][1]));
        buf_free(&b);
    }
}

static text random_cell(arena *a, uint64_t *seed) {
    static const char *const parts[] = {"a", ",", "\"", "\n", "\r\n", " ", "ä", ";", "本"};
    text t = TEXT("");
    for (uint32_t n = random_below(seed, 6); n > 0; n--)
        t = arena_format(a, "%.*s%s", TEXT_ARG(t), parts[random_below(seed, 9)]);
    return t;
}

static void csv_reads_back(void **state) {
    (void)state;
    uint64_t seed = 21;
    for (int run = 0; run < 3000; run++) {
        arena *a = arena_open();
        text cells[6][4];
        buf b = {0};
        size_t rows = 1 + random_below(&seed, 6),
               width = 2 + random_below(&seed, 3); /* one empty cell alone is an empty line */
        for (size_t r = 0; r < rows; r++)
            for (size_t c = 0; c < width; c++) {
                cells[r][c] = random_cell(a, &seed);
                buf_add_csv(&b, cells[r][c]);
                buf_add_z(&b, c + 1 < width ? "," : run % 2 ? "\n" : "\r\n");
            }
        faults f = faults_in(a);
        csv_table t;
        assert_true(csv_read(a, buf_text(&b), ',', TEXT("t"), &f, &t));
        assert_int_equal(t.n, rows);
        for (size_t r = 0; r < rows; r++) {
            assert_int_equal(t.records[r].n, width);
            for (size_t c = 0; c < width; c++)
                assert_true(text_equal(t.records[r].cells[c].value, cells[r][c]));
        }
        buf_free(&b);
        arena_close(a);
    }
}

/* Every character alone and some together come back from another JSON reader. */
static void json_strings_are_read_by_jansson(void **state) {
    (void)state;
    for (uint32_t point = 0; point <= 0x10FFFF; point += point < 0x3000 ? 1 : 997) {
        if (point >= 0xD800 && point <= 0xDFFF)
            continue;
        char utf8[8];
        size_t n = 0;
        if (point < 0x80) {
            utf8[n++] = (char)point;
        } else {
            size_t more = point < 0x800 ? 1 : point < 0x10000 ? 2 : 3;
            static const unsigned char leads[] = {0, 0xC0, 0xE0, 0xF0};
            utf8[n++] = (char)(leads[more] | point >> 6 * more);
            while (more-- > 0)
                utf8[n++] = (char)(0x80 | (point >> 6 * more & 0x3F));
        }
        buf b = {0};
        buf_add_char(&b, '[');
        buf_add_json(&b, (text){utf8, n});
        buf_add_char(&b, ']');
        json_error_t why;
        json_t *read = json_loadb(b.at, b.len, JSON_ALLOW_NUL, &why);
        if (!read)
            fail_msg("U+%04X: %s", point, why.text);
        json_t *string = json_array_get(read, 0);
        assert_int_equal(json_string_length(string), n);
        assert_memory_equal(json_string_value(string), utf8, n);
        json_decref(read);
        buf_free(&b);
    }
}

static void html_escapes_its_five(void **state) {
    (void)state;
    buf b = {0};
    buf_add_html(&b, TEXT("<a href=\"x\" title='y'>R&D</a> \xC3\xA4"));
    assert_string_equal(b.at, "&lt;a href=&quot;x&quot; title=&#39;y&#39;&gt;R&amp;D&lt;/a&gt; \xC3\xA4");
    buf_free(&b);
}

static void control_characters_become_visible(void **state) {
    (void)state;
    buf b = {0};
    buf_add_visible(&b, TEXT("a\r\nb\t\x1b[31mc\x7f \xC2\x9B \xC2\xA0 \xC3\xA4 \xC2"));
    assert_string_equal(b.at, "a\\r\\nb\\t\\x1B[31mc\\x7F \\x9B \xC2\xA0 \xC3\xA4 \xC2");
    buf_free(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_buffer_grows_and_ends_in_nul),
        cmocka_unit_test(a_formatted_text_of_any_length_fits),
        cmocka_unit_test(csv_quotes_only_what_it_must),
        cmocka_unit_test(csv_reads_back),
        cmocka_unit_test(json_strings_are_read_by_jansson),
        cmocka_unit_test(html_escapes_its_five),
        cmocka_unit_test(control_characters_become_visible),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
