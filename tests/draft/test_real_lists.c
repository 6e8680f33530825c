/* The parts lists of three real machines (../shared/data/boms), as they are and in every dialect, against what people read
 * in them: each row's name and quantity is right or reported, none is silently wrong.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/csv.h"
#include "base/number.h"
#include "dialect.h"
#include "kit/kit.h"
#include "support/blocks.h"

typedef struct {
    const char *file;
    uint32_t name, quantity; /* columns */
    uint32_t parts;
    const char *others; /* every other row below the header: "41 remark" */
} real_list;

static const real_list lists[] = {{"feeder.csv", 0, 2, 28, ""},
                                  {"soccer-robot.csv", 0, 1, 40, "41 remark, 43 total"},
                                  {"micromanipulator.csv", 1, 0, 19, "21 empty, 22 empty, 23 total"}};
enum { LISTS = sizeof lists / sizeof lists[0] };

enum { E_FILE, E_ROW, E_NAME, E_QUANTITY, E_UNIT, E_FASTENER, E_STANDARD, E_THREAD, E_LENGTH };

static draft_list read_as(arena *a, text bytes, const char *file, draft_wishes wishes) {
    faults f = faults_in(a);
    draft_list list;
    if (!draft_read(a, bytes, text_of(file), wishes, &f, &list))
        fail_msg("%s: %.*s", file, TEXT_ARG(f.list[0].cause));
    return list;
}

static const draft_row *row_at(const draft_list *list, uint32_t row) {
    for (uint32_t i = 0; i < list->n_rows; i++)
        if (list->rows[i].row == row)
            return &list->rows[i];
    fail_msg("there is no row %u", row);
    return NULL;
}

static text amount_text(arena *a, int64_t amount) {
    char printed[24];
    number_print_decimal(amount, 3, printed);
    return arena_text(a, text_of(printed));
}

static void compare_row(arena *a, const draft_list *list, const csv_record *expected) {
    const csv_cell *e = expected->cells;
    const draft_row *r = row_at(list, (uint32_t)atoi(arena_z(a, e[E_ROW].value)));
    bool right = r->kind == DRAFT_PART && text_equal(r->name, e[E_NAME].value) &&
                 text_equal(amount_text(a, r->amount), e[E_QUANTITY].value) &&
                 text_equal(draft_unit_text(a, r), e[E_UNIT].value);
    if (!right)
        fail_msg("row %u: \"%.*s\" %lld thousandths of \"%.*s\" (%.*s)", r->row, TEXT_ARG(r->name),
                 (long long)r->amount, TEXT_ARG(draft_unit_text(a, r)), TEXT_ARG(r->why));
    const draft_part *p = &list->parts[r->part];
    bool fastener = p->designation.len || p->proposal.len;
    if (fastener != text_is(e[E_FASTENER].value, "yes"))
        fail_msg("row %u: \"%.*s\" is read as \"%.*s%.*s\"", r->row, TEXT_ARG(r->name),
                 TEXT_ARG(p->designation), TEXT_ARG(p->proposal));
    text standard = e[E_STANDARD].value;
    if (standard.len &&
        (!text_starts(p->designation, standard) || text_find(p->designation, e[E_THREAD].value) < 0))
        fail_msg("row %u: the designation is \"%.*s\"", r->row, TEXT_ARG(p->designation));
    if (!standard.len)
        assert_int_equal(p->designation.len, 0); /* what the list does not state is a proposal only */
}

static void rows_are_as_people_read_them(void **state) {
    (void)state;
    arena *a = arena_open();
    text truth = data_file(a, "boms/expected.csv");
    if (!truth.at)
        skip();
    faults f = faults_in(a);
    csv_table expected;
    assert_true(csv_read(a, truth, ',', TEXT("expected.csv"), &f, &expected));
    for (size_t l = 0; l < LISTS; l++) {
        text bytes = data_file(a, arena_format(a, "boms/%s", lists[l].file).at);
        draft_list list = read_as(a, bytes, lists[l].file, DRAFT_AS_GUESSED);
        unsigned compared = 0;
        for (size_t i = 1; i < expected.n; i++) {
            if (!text_is(expected.records[i].cells[E_FILE].value, lists[l].file))
                continue;
            compare_row(a, &list, &expected.records[i]);
            compared++;
        }
        assert_true(compared >= 19);
        print_message("%s: %u rows as people read them, %u not understood\n", lists[l].file, compared,
                      draft_count(&list, DRAFT_NOT_UNDERSTOOD));
    }
    arena_close(a);
}

static text other_rows(arena *a, const draft_list *list) {
    static const char *const kinds[] = {"part",  "not understood", "empty",      "header",
                                        "total", "remark",         "none wanted"};
    text all = TEXT("");
    for (uint32_t i = 0; i < list->n_rows; i++)
        if (list->rows[i].kind != DRAFT_PART && list->rows[i].kind != DRAFT_HEADER)
            all = arena_format(a, "%.*s%s%u %s", TEXT_ARG(all), all.len ? ", " : "", list->rows[i].row,
                               kinds[list->rows[i].kind]);
    return all;
}

static void every_row_is_accounted_for(void **state) {
    (void)state;
    arena *a = arena_open();
    for (size_t l = 0; l < LISTS; l++) {
        text bytes = data_file(a, arena_format(a, "boms/%s", lists[l].file).at);
        if (!bytes.at)
            skip();
        draft_list list = read_as(a, bytes, lists[l].file, DRAFT_AS_GUESSED);
        assert_int_equal(draft_count(&list, DRAFT_PART), lists[l].parts);
        assert_int_equal(list.n_parts, lists[l].parts);
        assert_string_equal(arena_z(a, other_rows(a, &list)), lists[l].others);
    }
    arena_close(a);
}

/* ---- copies in other dialects ---- */

/* Decimal points of plain numbers become commas, as a spreadsheet of another country writes them. */
static text with_comma(arena *a, text t) {
    bool plain = t.len > 0;
    for (size_t i = 0; i < t.len; i++)
        plain = plain && ((t.at[i] >= '0' && t.at[i] <= '9') || t.at[i] == '.');
    if (!plain)
        return t;
    char *made = arena_alloc(a, t.len + 1);
    for (size_t i = 0; i < t.len; i++)
        made[i] = (char)(t.at[i] == '.' ? ',' : t.at[i]);
    return (text){made, t.len};
}

static table table_of(arena *a, const real_list *from, bool comma) {
    text bytes = data_file(a, arena_format(a, "boms/%s", from->file).at);
    if (!bytes.at)
        return (table){0};
    faults f = faults_in(a);
    csv_table csv;
    assert_true(csv_read(a, bytes, ',', text_of(from->file), &f, &csv));
    table t = {arena_array(a, table_row, csv.n), csv.n};
    for (size_t i = 0; i < csv.n; i++) {
        t.rows[i] = (table_row){arena_array(a, text, csv.records[i].n), csv.records[i].n};
        for (uint32_t c = 0; c < csv.records[i].n; c++) {
            text cell = csv.records[i].cells[c].value;
            t.rows[i].cells[c] = comma ? with_comma(a, cell) : cell;
        }
    }
    return t;
}

static void same_rows(arena *a, const draft_list *one, const draft_list *other, const char *file, dialect d) {
    bool same = one->n_rows == other->n_rows && one->n_parts == other->n_parts;
    uint32_t i = 0;
    for (; same && i < one->n_rows; i++) {
        const draft_row *r = &one->rows[i], *s = &other->rows[i];
        same = r->row == s->row && r->kind == s->kind && text_equal(r->name, s->name) &&
               r->amount == s->amount && r->unit == s->unit && r->pack_of == s->pack_of &&
               r->part == s->part && text_equal(r->note, s->note) &&
               text_equal(r->makers_numbers, s->makers_numbers);
    }
    for (uint32_t p = 0; same && p < one->n_parts; p++)
        same = text_equal(one->parts[p].number, other->parts[p].number) &&
               text_equal(one->parts[p].designation, other->parts[p].designation);
    if (!same)
        fail_msg("%s as %.*s differs near row %u", file, TEXT_ARG(dialect_in_words(a, d)), i);
}

/* The quick run takes every fifth copy, which over the three lists meets each letter, break and separator. */
static unsigned every = 5;

static void every_dialect_says_the_same(void **state) {
    (void)state;
    static const char separators[] = {',', ';', '\t'};
    unsigned copies = 0;
    for (size_t l = 0; l < LISTS; l++) {
        arena *a = arena_open();
        table plain = table_of(a, &lists[l], false), comma = table_of(a, &lists[l], true);
        if (!plain.n)
            skip();
        draft_list original = read_as(a, data_file(a, arena_format(a, "boms/%s", lists[l].file).at),
                                      lists[l].file, DRAFT_AS_GUESSED);
        for (unsigned n = 0; n < 3 * LETTERS * BREAKS * 4; n += every) {
            dialect d = {separators[n % 3], (letters)(n / 3 % LETTERS),
                         (line_break)(n / 3 / LETTERS % BREAKS), n / 3 / LETTERS / BREAKS % 2, false};
            bool with_commas = n / 3 / LETTERS / BREAKS / 2;
            arena *copy = arena_open();
            text bytes = dialect_write(copy, with_commas ? &comma : &plain, d);
            draft_list list = read_as(copy, bytes, lists[l].file, DRAFT_AS_GUESSED);
            assert_int_equal(list.separator, d.separator);
            same_rows(copy, &original, &list, lists[l].file, d);
            arena_close(copy);
            copies++;
        }
        arena_close(a);
    }
    print_message("%u copies\n", copies);
}

/* Lengths: the first five quantities as metres in several ways. */
static void metres_are_read(void **state) {
    (void)state;
    static const struct {
        const char *written;
        int64_t thousandths_m;
    } lengths[] = {{"1.5 m", 1500}, {"2,25m", 2250}, {"990 mm", 990}, {"12 m", 12000}, {"35 cm", 350}};
    for (size_t l = 0; l < LISTS; l++) {
        arena *a = arena_open();
        table t = table_of(a, &lists[l], false);
        if (!t.n)
            skip();
        /* Packs stay packs; the rows chosen here are none. */
        uint32_t first = lists[l].parts > 30 ? 8 : 2;
        for (uint32_t i = 0; i < 5; i++)
            t.rows[first - 1 + i].cells[lists[l].quantity] = text_of(lengths[i].written);
        dialect d = {';', LETTERS_UTF16_LE_MARKED, BREAK_CRLF, false, false};
        draft_list list = read_as(a, dialect_write(a, &t, d), lists[l].file, DRAFT_AS_GUESSED);
        for (uint32_t i = 0; i < 5; i++) {
            kit_unit unit;
            const draft_row *r = row_at(&list, first + i);
            assert_int_equal(r->kind, DRAFT_PART);
            assert_int_equal(draft_row_in_kit(r, false, &unit), lengths[i].thousandths_m);
            assert_int_equal(unit, KIT_MM);
        }
        assert_int_equal(draft_count(&list, DRAFT_PART), lists[l].parts);
        arena_close(a);
    }
}

/* The columns in every other order give the same rows. */
static void the_order_of_columns_does_not_matter(void **state) {
    (void)state;
    for (size_t l = 0; l < LISTS; l++) {
        arena *a = arena_open();
        table t = table_of(a, &lists[l], false);
        if (!t.n)
            skip();
        dialect d = {';', LETTERS_UTF8, BREAK_LF, false, false};
        draft_list original = read_as(a, dialect_write(a, &t, d), lists[l].file, DRAFT_AS_GUESSED);
        size_t width = t.rows[0].n;
        for (size_t turn = 1; turn < width; turn++) {
            table turned = {arena_array(a, table_row, t.n), t.n};
            for (size_t i = 0; i < t.n; i++) {
                turned.rows[i] = (table_row){arena_array(a, text, width), width};
                for (size_t c = 0; c < width; c++)
                    turned.rows[i].cells[(c + turn) % width] =
                        c < t.rows[i].n ? t.rows[i].cells[c] : TEXT("");
            }
            draft_list list = read_as(a, dialect_write(a, &turned, d), lists[l].file, DRAFT_AS_GUESSED);
            for (uint32_t i = 0; i < list.n_rows; i++)
                if (list.rows[i].kind != original.rows[i].kind ||
                    list.rows[i].amount != original.rows[i].amount ||
                    !text_equal(list.rows[i].name, original.rows[i].name))
                    fail_msg("%s turned by %zu: row %u", lists[l].file, turn, list.rows[i].row);
        }
        arena_close(a);
    }
}

int main(int argc, char **argv) {
    (void)argv;
    if (argc > 1)
        every = 1;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_as_people_read_them),         cmocka_unit_test(every_row_is_accounted_for),
        cmocka_unit_test(every_dialect_says_the_same),          cmocka_unit_test(metres_are_read),
        cmocka_unit_test(the_order_of_columns_does_not_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
