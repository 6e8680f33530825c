/* docs/build-file.md says what is in the file: every table, view and column of the schema stands in it, and so do the
 * verbs and the version. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "fixture.h"
#include "store/schema.h"
#include "support/blocks.h"
#include "support/scratch.h"

static bool is_word_byte(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
}

/* As a word of its own. */
static bool stands_in(text doc, const char *word) {
    size_t n = strlen(word);
    for (size_t i = 0; i + n <= doc.len; i++)
        if (memcmp(doc.at + i, word, n) == 0 && (i == 0 || !is_word_byte(doc.at[i - 1])) &&
            (i + n == doc.len || !is_word_byte(doc.at[i + n])))
            return true;
    return false;
}

static void check_names(const char *path, const char *sql, text doc) {
    sqlite3 *db;
    sqlite3_stmt *st;
    assert_int_equal(sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &st, NULL), SQLITE_OK);
    int n = 0;
    for (; sqlite3_step(st) == SQLITE_ROW; n++)
        if (!stands_in(doc, (const char *)sqlite3_column_text(st, 0)))
            fail_msg("docs/build-file.md does not say \"%s\"", (const char *)sqlite3_column_text(st, 0));
    assert_true(n > 5);
    sqlite3_finalize(st);
    sqlite3_close(db);
}

static void test_docs(void **state) {
    (void)state;
    arena *a = arena_open();
    const char *folder = scratch_open(a), *path = scratch_path(a, folder, "docs.kitbench");
    const kit *k;
    fixture_create(a, path, &k);
    text doc = whole_file(a, "docs/build-file.md");
    assert_non_null(doc.at);
    check_names(path,
                "SELECT name FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite%'"
                " AND name NOT LIKE 'kit%' AND name NOT LIKE 'workshop%'",
                doc);
    check_names(path,
                "SELECT DISTINCT c.name FROM pragma_table_list t JOIN pragma_table_info(t.name) c"
                " WHERE t.schema = 'main' AND t.name NOT LIKE 'sqlite%' AND t.name NOT LIKE 'kit%'"
                " AND t.name NOT LIKE 'workshop%'",
                doc);
    for (int v = 0; v < STORE_VERBS; v++)
        assert_true(stands_in(doc, store_verb_word((store_verb)v)));
    char identity[64];
    snprintf(identity, sizeof identity, "%d", STORE_APPLICATION_ID);
    assert_true(stands_in(doc, identity));
    snprintf(identity, sizeof identity, "described here: %d", STORE_VERSION);
    assert_true(text_find(doc, text_of(identity)) >= 0);
    scratch_close(folder);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_docs)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
