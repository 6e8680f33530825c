/* test_format_docs.c: docs/kit-format.md and docs/workshop-format.md say what the forms say.
 *
 * The part between the markers is generated. `KITBENCH_WRITE_DOCS=1 build/tests/kit/test_kit_format_docs` writes it after a
 * change of src/kit/schema.c; without it the test compares.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/number.h"
#include "base/sys.h"
#include "kit/kit.h"

static void add_range(buf *out, const kit_column *c) {
    char low[24], high[24];
    number_print_decimal(c->low, c->scale, low);
    number_print_decimal(c->high, c->scale, high);
    buf_addf(out, " %s..%s", low, high);
}

/* "`box`, `bag`" */
static void add_words(buf *out, const char *words) {
    text rest = text_of(words), word;
    for (bool first = true; text_next_piece(&rest, '|', &word); first = false)
        buf_addf(out, "%s`%.*s`", first ? "" : ", ", TEXT_ARG(word));
}

static void add_cell(buf *out, const kit_column *c) {
    switch (c->kind) {
    case KIT_CELL_KEY:
        buf_add_z(out, "key");
        break;
    case KIT_CELL_TEXT:
        buf_add_z(out, "text");
        break;
    case KIT_CELL_INTEGER:
        buf_add_z(out, "whole number");
        add_range(out, c);
        break;
    case KIT_CELL_DECIMAL:
        buf_addf(out, "decimal number, at most %d digits after the point,", c->scale);
        add_range(out, c);
        break;
    case KIT_CELL_YES_NO:
        buf_add_z(out, "yes or no");
        break;
    case KIT_CELL_WORD:
        buf_add_z(out, "word: ");
        add_words(out, c->words);
        break;
    case KIT_CELL_REFERENCE:
        buf_addf(out, "of `%s`", c->refers_to);
        break;
    case KIT_CELL_REFERENCES:
        buf_addf(out, "list of `%s`", c->refers_to);
        break;
    case KIT_CELL_TEXTS:
        buf_add_z(out, "list");
        break;
    case KIT_CELL_INTEGERS:
        buf_add_z(out, "list of whole numbers");
        add_range(out, c);
        break;
    case KIT_CELL_DAY:
        buf_add_z(out, "day");
        break;
    case KIT_CELL_CLOCK:
        buf_add_z(out, "clock time");
        break;
    }
    if (c->required)
        buf_add_z(out, ", **needed**");
    else if (c->kind == KIT_CELL_INTEGER)
        buf_addf(out, "; empty: %lld", (long long)c->empty);
}

static void add_key(buf *out, const char *key) {
    text rest = text_of(key), column;
    buf_add_z(out, " Each row has its own ");
    for (bool first = true; text_next_piece(&rest, '+', &column); first = false)
        buf_addf(out, "%s`%.*s`", first ? "" : " and ", TEXT_ARG(column));
    buf_add_z(out, ".");
}

static void add_table(buf *out, const kit_table_form *form) {
    buf_addf(out, "### %s%s\n\n%s", form->name, form->required ? " (needed)" : "", form->meaning);
    if (form->key[0] && !form->one_record)
        add_key(out, form->key);
    buf_add_z(out, "\n\n| column | cell | meaning |\n| --- | --- | --- |\n");
    for (uint32_t i = 0; i < form->n_columns; i++) {
        buf_addf(out, "| `%s` | ", form->columns[i].name);
        add_cell(out, &form->columns[i]);
        buf_addf(out, " | %s |\n", form->columns[i].meaning);
    }
    buf_add_z(out, "\n");
}

static text tables_part(buf *out, bool of_workshop) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    buf_add_z(out, "\n");
    for (uint32_t i = 0; i < n; i++)
        if (forms[i].of_workshop == of_workshop)
            add_table(out, &forms[i]);
    return buf_text(out);
}

static void assert_part(const char *path, const char *name, text wanted) {
    arena *a = arena_open();
    err e = {0};
    text file = {0};
    if (!sys_read_file(a, path, 1 << 20, &file, &e))
        fail_msg("%s: %s", e.place, e.cause);
    text begin = arena_format(a, "<!-- %s: begin -->\n", name),
         end = arena_format(a, "<!-- %s: end -->", name);
    ptrdiff_t from = text_find(file, begin), to = text_find(file, end);
    assert_true(from >= 0 && to > from);
    from += (ptrdiff_t)begin.len;
    text there = text_slice(file, (size_t)from, (size_t)to);
    if (getenv("KITBENCH_WRITE_DOCS")) {
        text whole = arena_format(a, "%.*s%.*s%.*s", (int)from, file.at, TEXT_ARG(wanted),
                                  (int)(file.len - (size_t)to), file.at + to);
        assert_true(sys_write_file(path, whole, &e));
    } else if (!text_equal(there, wanted)) {
        fail_msg("%s does not say what src/kit/schema.c says; run this test with KITBENCH_WRITE_DOCS=1",
                 path);
    }
    arena_close(a);
}

static void test_kit_tables(void **state) {
    (void)state;
    buf out = {0};
    assert_part("docs/kit-format.md", "tables", tables_part(&out, false));
    buf_free(&out);
}

static void test_workshop_tables(void **state) {
    (void)state;
    buf out = {0};
    assert_part("docs/workshop-format.md", "tables", tables_part(&out, true));
    buf_free(&out);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_kit_tables),
        cmocka_unit_test(test_workshop_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
