/* Whole small lists, each with one peculiarity: tests/draft/cases/lists.txt. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/number.h"
#include "kit/kit.h"
#include "support/blocks.h"

static text row_in_words(arena *a, const draft_row *r) {
    static const char *const kinds[] = {"part",  "not-understood", "empty",      "header",
                                        "total", "remark",         "none-wanted"};
    text head = arena_format(a, "row %u %s \"%.*s\"", r->row, kinds[r->kind], TEXT_ARG(r->name));
    if (r->kind != DRAFT_PART)
        return head;
    char amount[24];
    number_print_decimal(r->amount, 3, amount);
    text unit = draft_unit_text(a, r);
    return arena_format(a, "%.*s %s%s%.*s", TEXT_ARG(head), amount, unit.len ? " " : "", TEXT_ARG(unit));
}

static void add_list_line(buf *list, text line) {
    for (size_t i = 1; i < line.len; i++) {
        bool tab = line.at[i] == '\\' && i + 1 < line.len && line.at[i + 1] == 't';
        buf_add_char(list, tab ? '\t' : line.at[i]);
        i += tab;
    }
    buf_add_char(list, '\n');
}

static bool is_told(const draft_list *list, const draft_row *r) {
    return r->kind != DRAFT_EMPTY && !(r->kind == DRAFT_HEADER && r->row == list->header_row) &&
           !(r->row == 1 && text_starts(r->name, TEXT("sep=")));
}

/* Compares what was read with the expected lines; the first difference fails the test. */
static void compare(arena *a, const block *b, size_t first, bool ok, const draft_list *list,
                    const faults *f) {
    if (text_starts(b->lines[first], TEXT("fault "))) {
        text words = text_slice(b->lines[first], 6, b->lines[first].len);
        bool found = false;
        for (size_t i = 0; i < f->n; i++)
            found = found || text_find(f->list[i].cause, words) >= 0;
        if (ok || !found)
            fail_msg("line %u: expected the fault \"%.*s\", got \"%.*s\"", b->line, TEXT_ARG(words),
                     TEXT_ARG(f->n ? f->list[0].cause : TEXT("none")));
        return;
    }
    if (!ok)
        fail_msg("line %u: not read: %.*s", b->line, TEXT_ARG(f->list[0].cause));
    size_t at = first;
    for (uint32_t i = 0; i < list->n_rows; i++) {
        if (!is_told(list, &list->rows[i]))
            continue;
        text got = row_in_words(a, &list->rows[i]);
        text expected = at < b->n ? b->lines[at++] : TEXT("nothing more");
        if (!text_equal(got, expected))
            fail_msg("line %u: got %.*s, expected %.*s (%.*s)", b->line, TEXT_ARG(got), TEXT_ARG(expected),
                     TEXT_ARG(list->rows[i].why));
        if (list->rows[i].kind != DRAFT_PART)
            assert_true(list->rows[i].why.len > 0);
    }
    if (at != b->n)
        fail_msg("line %u: %.*s was not read", b->line, TEXT_ARG(b->lines[at]));
}

static void lists_follow_the_cases(void **state) {
    (void)state;
    arena *a = arena_open();
    blocks all = blocks_read(a, "tests/draft/cases/lists.txt");
    for (size_t i = 0; i < all.n; i++) {
        const block *b = &all.list[i];
        draft_wishes wishes = DRAFT_AS_GUESSED;
        buf bytes = {0};
        size_t at = 0;
        for (; at < b->n && !text_starts(b->lines[at], TEXT("row ")) &&
               !text_starts(b->lines[at], TEXT("fault "));
             at++) {
            text line = b->lines[at];
            if (line.at[0] == '|')
                add_list_line(&bytes, line);
            else if (text_starts(line, TEXT("columns ")))
                wishes.columns = text_slice(line, 8, line.len);
            else if (!text_starts(line, TEXT("mark ")) ||
                     !draft_mark_read(text_slice(line, 5, line.len), &wishes.mark))
                fail_msg("line %u: what is %.*s?", b->line, TEXT_ARG(line));
        }
        assert_true(at < b->n);
        faults f = faults_in(a);
        draft_list list = {0};
        bool ok = draft_read(a, buf_text(&bytes), TEXT("list.csv"), wishes, &f, &list);
        buf_free(&bytes);
        compare(a, b, at, ok, &list, &f);
    }
    print_message("%zu lists\n", all.n);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(lists_follow_the_cases)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
