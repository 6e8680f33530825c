/* CSV: RFC 4180 rule by rule in tests/base/cases/csv.txt, and lines and rows counted in a long file. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/csv.h"
#include "support/blocks.h"
#include "support/check.h"

static unsigned hex(char c) {
    return (unsigned)(c <= '9' ? c - '0' : c - 'A' + 10);
}

/* The bytes that an escaped text stands for. */
static text unescape(arena *a, text t) {
    char *made = arena_alloc(a, t.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < t.len; i++) {
        if (t.at[i] != '\\' || i + 1 == t.len) {
            made[n++] = t.at[i];
            continue;
        }
        char c = t.at[++i];
        if (c == 'x' && i + 2 < t.len) {
            made[n++] = (char)(hex(t.at[i + 1]) << 4 | hex(t.at[i + 2]));
            i += 2;
        } else {
            made[n++] = (char)(c == 'n' ? '\n' : c == 'r' ? '\r' : c == 't' ? '\t' : c);
        }
    }
    return (text){made, n};
}

static text faults_in_words(arena *a, const faults *f) {
    text all = TEXT("");
    for (size_t i = 0; i < f->n; i++)
        all = arena_format(a, "%.*sfault %.*s: %.*s; %.*s\n", TEXT_ARG(all),
                           TEXT_ARG(fault_place_text(a, f->list[i].place)), TEXT_ARG(f->list[i].cause),
                           TEXT_ARG(f->list[i].remedy));
    return all;
}

/* Everything that was read, as one text. NUL bytes stand in it, so it is built in a buffer. */
static text reading_in_words(arena *a, const csv_table *t, const faults *f) {
    buf b = {0};
    buf_add(&b, faults_in_words(a, f));
    for (size_t i = 0; i < t->n; i++) {
        buf_addf(&b, "%u%s", t->records[i].row, t->records[i].n ? " " : "");
        for (uint32_t c = 0; c < t->records[i].n; c++) {
            const char *quote = t->records[i].cells[c].quoted ? "\"" : "";
            buf_addf(&b, "[%s", quote);
            buf_add(&b, t->records[i].cells[c].value);
            buf_addf(&b, "%s]", quote);
        }
        buf_add_char(&b, '\n');
    }
    text all = arena_text(a, buf_text(&b));
    buf_free(&b);
    return all;
}

static void csv_follows_the_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    blocks all = blocks_read(a, "tests/base/cases/csv.txt");
    for (size_t i = 0; i < all.n; i++) {
        const block *b = &all.list[i];
        text input = {0}, after = {0};
        assert_true(quoted_part(b->lines[0], &input, &after));
        after = text_trim(after);
        char separator = (char)(text_is(after, "tab") ? '\t' : after.len ? after.at[0] : ',');
        text expected = TEXT("");
        for (size_t k = 1; k < b->n; k++)
            expected = arena_format(a, "%.*s%.*s\n", TEXT_ARG(expected), TEXT_ARG(b->lines[k]));
        expected = unescape(a, expected);
        faults f = faults_in(a);
        csv_table t;
        bool ok = csv_read(a, unescape(a, input), separator, TEXT("t.csv"), &f, &t);
        assert_true(ok == (f.n == 0));
        text got = reading_in_words(a, &t, &f);
        if (!text_equal(got, expected))
            fail_msg("line %u: got\n%.*s", b->line, TEXT_ARG(got));
    }
    print_message("%zu cases\n", all.n);
    arena_close(a);
}

/* Ten thousand records, some with line breaks inside: rows count records, lines count lines. */
static void rows_and_lines_are_counted(void **state) {
    (void)state;
    arena *a = arena_open();
    buf b = {0};
    for (int i = 0; i < 10000; i++)
        buf_add_z(&b, i % 3 == 0 ? "\"a\nb\",c\r\n" : i % 3 == 1 ? "d,\"e\"\n" : "\n");
    faults f = faults_in(a);
    csv_table t;
    assert_true(csv_read(a, buf_text(&b), ',', TEXT("t"), &f, &t));
    assert_int_equal(t.n, 10000);
    uint32_t line = 1;
    for (uint32_t i = 0; i < t.n; i++) {
        assert_int_equal(t.records[i].row, i + 1);
        assert_int_equal(t.records[i].n, i % 3 == 2 ? 0 : 2);
        if (t.records[i].n)
            assert_int_equal(t.records[i].cells[0].line, line);
        line += i % 3 == 0 ? 2 : 1;
    }
    buf_free(&b);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(csv_follows_the_cases),
                                       cmocka_unit_test(rows_and_lines_are_counted)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
