/* Parts lists of real machines against what people read in them (../shared/data/boms, left out when absent): on the
 * three CSV lists every fastener row must be found and no other; on the other four the fastener rows, as plain lines. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/csv.h"
#include "cases.h"
#include "trade/propose.h"

typedef struct {
    const char *file;
    unsigned name_column;
} csv_list;

static const csv_list csv_lists[] = {{"feeder.csv", 0}, {"soccer-robot.csv", 0}, {"micromanipulator.csv", 1}};

enum { E_FILE, E_ROW, E_NAME, E_QUANTITY, E_UNIT, E_FASTENER, E_STANDARD, E_THREAD, E_LENGTH, E_HEAD };

typedef struct {
    unsigned found, missed, invented, right, reported, wrong;
} tally;

static bool read_table(arena *a, const char *path, csv_table *out) {
    text bytes = shared_file(a, path);
    if (!bytes.at)
        return false;
    faults f = faults_in(a);
    if (!csv_read(a, bytes, ',', text_of(path), &f, out))
        print_message("%s: %zu faults of the file itself\n", path, f.n);
    return true;
}

static text cell(const csv_record *r, unsigned i) {
    return i < r->n ? r->cells[i].value : (text){"", 0};
}

static const csv_record *find_expected(const csv_table *expected, const char *file, uint32_t row) {
    for (size_t i = 1; i < expected->n; i++)
        if (text_is(cell(&expected->records[i], E_FILE), file) &&
            (uint32_t)atoi(cell(&expected->records[i], E_ROW).at) == row)
            return &expected->records[i];
    return NULL;
}

static bool reported(const proposal *p, const char *what) {
    for (uint8_t i = 0; i < p->n_missing; i++)
        if (text_find(p->missing[i], text_of(what)) >= 0)
            return true;
    return p->n_conflicts > 0;
}

/* One of the three readings: right when equal to what people read, else it must be told as missing or in conflict. */
static void judge(tally *t, const proposal *p, const char *what, const char *found, text expected,
                  text name) {
    if (text_is(expected, found)) {
        t->right++;
    } else if (!found[0] && reported(p, what)) {
        t->reported++;
    } else {
        t->wrong++;
        print_message("%.*s: %s is \"%s\", people read \"%.*s\"\n", TEXT_ARG(name), what, found,
                      TEXT_ARG(expected));
    }
}

static void judge_row(tally *t, const proposal *p, const csv_record *want) {
    char found[32] = "";
    const designation *d = &p->stated;
    text name = cell(want, E_NAME);
    if (d->standard)
        fastener_standard_print(d->standard, found, sizeof found);
    text standard = cell(want, E_STANDARD);
    /* lists write "ISO 7046" where the standard has parts; what is stated is then its first part */
    if (d->standard && d->standard->part && text_starts(text_of(found), standard) && standard.len)
        snprintf(found, sizeof found, "%.*s", TEXT_ARG(standard));
    judge(t, p, "standard", found, standard, name);
    found[0] = 0;
    if (d->thread_um)
        snprintf(found, sizeof found, "M%g", d->thread_um / 1e3);
    judge(t, p, "thread", found, cell(want, E_THREAD), name);
    found[0] = 0;
    if (d->length_um)
        snprintf(found, sizeof found, "%g", d->length_um / 1e3);
    judge(t, p, "length", found, cell(want, E_LENGTH), name);
}

static void judge_found(tally *t, const proposal *p, const csv_record *want, text name) {
    bool is = want && text_is(cell(want, E_FASTENER), "yes");
    if (is && p->is_fastener) {
        t->found++;
        judge_row(t, p, want);
    } else if (is) {
        t->missed++;
        print_message("missed: %.*s (%.*s)\n", TEXT_ARG(name), TEXT_ARG(p->why_not));
    } else if (p->is_fastener) {
        t->invented++;
        print_message("invented: %.*s\n", TEXT_ARG(name));
    }
}

static void read_list(arena *a, const csv_list *list, const csv_table *expected, tally *t) {
    char path[128];
    snprintf(path, sizeof path, "data/boms/%s", list->file);
    csv_table table;
    assert_true(read_table(a, path, &table));
    for (size_t i = 1; i < table.n; i++) {
        const csv_record *r = &table.records[i];
        text cells[32];
        size_t n = 0;
        cells[n++] = cell(r, list->name_column);
        for (unsigned k = 0; k < r->n && n < 32; k++)
            if (k != list->name_column)
                cells[n++] = r->cells[k].value;
        proposal p;
        designation_propose(a, cells, n, &p);
        judge_found(t, &p, find_expected(expected, list->file, r->row), text_trim(cells[0]));
    }
}

static void test_csv_lists(void **state) {
    (void)state;
    arena *a = arena_open();
    csv_table expected;
    if (!read_table(a, "data/boms/expected.csv", &expected)) {
        arena_close(a);
        print_message("SKIPPED: ../shared/data/boms is not there\n");
        skip();
    }
    tally t = {0};
    for (size_t i = 0; i < sizeof csv_lists / sizeof *csv_lists; i++)
        read_list(a, &csv_lists[i], &expected, &t);
    print_message("CSV lists: %u found, %u missed, %u invented; readings %u right, %u reported, %u wrong\n",
                  t.found, t.missed, t.invented, t.right, t.reported, t.wrong);
    assert_int_equal(t.found, 13);
    assert_int_equal(t.missed + t.invented + t.wrong, 0);
    arena_close(a);
}

/* The other four, whose tables other rooms read: the name of each judged row, as one line. */
static void test_plain_lines(void **state) {
    (void)state;
    arena *a = arena_open();
    csv_table expected;
    if (!read_table(a, "data/boms/expected.csv", &expected)) {
        arena_close(a);
        print_message("SKIPPED: ../shared/data/boms is not there\n");
        skip();
    }
    tally t = {0};
    for (size_t i = 1; i < expected.n; i++) {
        const csv_record *want = &expected.records[i];
        if (text_ends(cell(want, E_FILE), TEXT(".csv")))
            continue;
        text name = cell(want, E_NAME);
        proposal p;
        designation_propose(a, &name, 1, &p);
        judge_found(&t, &p, want, name);
    }
    print_message("plain lines: %u found, %u missed, %u invented; readings %u right, %u reported, %u wrong\n",
                  t.found, t.missed, t.invented, t.right, t.reported, t.wrong);
    assert_int_equal(t.found, 41);
    assert_int_equal(t.missed + t.invented + t.wrong, 0);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_csv_lists), cmocka_unit_test(test_plain_lines)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
