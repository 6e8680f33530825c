/* test_read.c: what the tables say arrives in the structs, and comes back out of them.
 *
 * The small kit is the good one of tests/faulty-kits; variants of it are made here at run time.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/sys.h"
#include "kit/inside.h"

#define GOOD_KIT "tests/faulty-kits/good/kit"
#define GOOD_WORKSHOP "tests/faulty-kits/good/workshop"

typedef struct {
    arena *a;
    faults f;
    const kit *k;
    const kit_workshop *w;
} fixture;

static void print_faults(const faults *f) {
    for (size_t i = 0; i < f->n; i++)
        print_message("%.*s: %.*s\n", TEXT_ARG(fault_place_text(f->memory, f->list[i].place)),
                      TEXT_ARG(f->list[i].cause));
}

static int set_up(void **state) {
    fixture *x = calloc(1, sizeof *x);
    if (!x)
        return 1;
    err e;
    x->a = arena_open();
    x->f = faults_in(x->a);
    if (!kit_read(x->a, GOOD_KIT, GOOD_WORKSHOP, &x->f, &x->k, &x->w, &e)) {
        print_faults(&x->f);
        return 1;
    }
    *state = x;
    return 0;
}

static int tear_down(void **state) {
    fixture *x = *state;
    arena_close(x->a);
    free(x);
    return 0;
}

#define assert_text(t, z) assert_true(text_is((t), (z)))

static void test_values(void **state) {
    const fixture *x = *state;
    const kit *k = x->k;
    assert_text(k->number, "BT-1");
    assert_int_equal(k->report_within_days, 14);
    const kit_part *roof = &k->parts[kit_find_part(k, TEXT("P2"))];
    assert_int_equal(roof->mass_mg, 650500);
    assert_int_equal(roof->makers_numbers.n, 2);
    assert_text(roof->makers_numbers.list[1], "RP 8");
    assert_int_equal(roof->row, 3);
    assert_int_equal(k->containers[0].gross_mass_g, 12500);
    assert_int_equal(k->containers[0].inside, KIT_NONE);
    assert_int_equal(k->containers[1].inside, 0);
    const kit_step *s = &k->steps[kit_find_step(k, TEXT("s2"))];
    assert_int_equal(s->supervision, KIT_BESIDE);
    assert_int_equal(s->change_over_min.n, 2);
    assert_int_equal(s->change_over_min.list[1], 20);
    assert_int_equal(s->delay_clock, KIT_WALL_CLOCK);
    assert_int_equal(s->not_beside.n, 1);
    assert_text(k->works[s->not_beside.list[0]].number, "live");
    assert_int_equal(k->step_parts[3].tightening, KIT_TORQUE);
    assert_int_equal(k->step_parts[3].torque_cnm, 950);
    assert_int_equal(k->step_parts[0].torque_cnm, -1);
    assert_int_equal(k->step_tests[0].low_milli, -2000);
    assert_true(k->step_tests[1].low_milli == INT64_MIN && k->step_tests[1].high_milli == INT64_MAX);
    assert_int_equal(k->batteries[0].arrival_low_mv, 12400);
    assert_int_equal(k->batteries[0].charge_high_ma, 2100);
}

static void test_workshop_values(void **state) {
    const fixture *x = *state;
    const kit_workshop *w = x->w;
    assert_int_equal(w->beginners_percent, 150);
    char day[11];
    date_print(w->wanted_day, day);
    assert_string_equal(day, "2027-05-01");
    assert_int_equal(w->sessions[0].start, 14 * 60);
    assert_int_equal(w->attendance[1].session, 1);
    assert_int_equal(w->attendance[1].from, 14 * 60 + 30);
    assert_int_equal(w->attendance[1].until, -1);
    assert_int_equal(w->crew[0].supervises.n, 2);
    assert_text(x->k->tools[w->tools[1].what].number, "ring10");
    assert_int_equal(kit_find_person(w, TEXT("birch")), 1);
    assert_int_equal(kit_find_person(w, TEXT("c3")), 2);
    assert_int_equal(kit_find_person(w, TEXT("nobody")), KIT_NONE);
}

static void test_lookups(void **state) {
    const fixture *x = *state;
    const kit *k = x->k;
    assert_int_equal(kit_find_container(k, TEXT("BOX 1")), 0);
    assert_int_equal(kit_find_container(k, TEXT("box")), KIT_NONE);
    assert_int_equal(kit_find_row(k, 1, 2), 4);
    assert_int_equal(kit_find_row(k, 1, 9), KIT_NONE);
    assert_int_equal(kit_box_of(k, 1), 0);
    kit_index bolt = kit_find_part(k, TEXT("P3"));
    assert_int_equal(kit_packed(k, bolt), 9);
    assert_int_equal(kit_needed(k, bolt), 8);
    kit_indices found = kit_find_parts_by_any_number(x->a, k, TEXT("rp8"));
    assert_int_equal(found.n, 1);
    assert_int_equal(found.list[0], kit_find_part(k, TEXT("P2")));
    assert_int_equal(kit_find_parts_by_any_number(x->a, k, TEXT("RP-9")).n, 0);
    kit_size size = kit_measure(k);
    assert_int_equal(size.pieces, 26);
    assert_int_equal(size.person_min, 2 * 15 + 2 * 30 + 2 * 20 + 2 * 25 + 10);
}

static void test_build_order(void **state) {
    const fixture *x = *state;
    const kit_index *order = kit_build_order(x->a, x->k);
    for (kit_index i = 0; i < x->k->n_steps; i++)
        assert_int_equal(order[i], i); /* the table is in a right order already, so ties keep it */
}

/* --- every column reaches its own member --- */

/* A cell that the column takes, different in every column; keys of other tables are all "K". */
static text sample_cell(arena *a, const kit_table_form *form, uint32_t i) {
    const kit_column *c = &form->columns[i];
    switch (c->kind) {
    case KIT_CELL_KEY:
        return TEXT("K");
    case KIT_CELL_TEXT:
        return arena_format(a, "%s of %s", c->name, form->name);
    case KIT_CELL_INTEGER:
        return form->key[0] && i == 0 ? TEXT("1") : arena_format(a, "%u", i % 20 + 1);
    case KIT_CELL_DECIMAL:
        return arena_format(a, "%u.5", i + 1);
    case KIT_CELL_YES_NO:
        return TEXT("yes");
    case KIT_CELL_WORD:
        return text_slice(text_of(strrchr(c->words, '|') + 1), 0, 100);
    case KIT_CELL_REFERENCE:
    case KIT_CELL_REFERENCES:
        return strcmp(c->refers_to, "sessions") == 0 ? TEXT("1") : TEXT("K");
    case KIT_CELL_TEXTS:
        return arena_format(a, "%s; again", c->name);
    case KIT_CELL_INTEGERS:
        return arena_format(a, "%u;99", i + 1);
    case KIT_CELL_DAY:
        return TEXT("2027-03-14");
    case KIT_CELL_CLOCK:
        return arena_format(a, "1%u:30", i % 10);
    }
    return TEXT("");
}

static kit_tables sample_tables(arena *a, bool of_workshop) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    kit_tables tables = {arena_array(a, kit_table, n), 0};
    for (uint32_t i = 0; i < n; i++) {
        if (forms[i].of_workshop != of_workshop)
            continue;
        kit_table *t = &tables.list[tables.n++];
        *t = (kit_table){.name = text_of(forms[i].name),
                         .file = arena_format(a, "%s.csv", forms[i].name),
                         .columns = arena_array(a, text, forms[i].n_columns),
                         .n_columns = forms[i].n_columns,
                         .cells = arena_array(a, text, forms[i].n_columns),
                         .row_numbers = arena_array(a, uint32_t, 1),
                         .n_rows = 1};
        t->row_numbers[0] = 2;
        for (uint32_t c = 0; c < forms[i].n_columns; c++) {
            t->columns[c] = text_of(forms[i].columns[c].name);
            t->cells[c] = sample_cell(a, &forms[i], c);
        }
    }
    return tables;
}

static void assert_member(arena *a, const kit_table_form *form, uint32_t i, const char *record) {
    const kit_column *c = &form->columns[i];
    const void *member = record + c->offset;
    text cell = sample_cell(a, form, i);
    switch (c->kind) {
    case KIT_CELL_KEY:
    case KIT_CELL_TEXT:
        assert_true(text_equal(*(const text *)member, cell));
        break;
    case KIT_CELL_INTEGER:
        assert_int_equal(*(const int64_t *)member, strtol(cell.at, NULL, 10));
        break;
    case KIT_CELL_DECIMAL: {
        double scaled = strtod(cell.at, NULL);
        for (int d = 0; d < c->scale; d++)
            scaled *= 10;
        assert_int_equal(*(const int64_t *)member, (int64_t)scaled);
        break;
    }
    case KIT_CELL_YES_NO:
        assert_true(*(const bool *)member);
        break;
    case KIT_CELL_WORD: {
        unsigned last = 0;
        for (const char *z = c->words; *z; z++)
            last += *z == '|';
        assert_int_equal(*(const unsigned *)member, last);
        break;
    }
    case KIT_CELL_REFERENCE:
        assert_int_equal(*(const kit_index *)member, 0);
        break;
    case KIT_CELL_REFERENCES:
        assert_int_equal(((const kit_indices *)member)->n, 1);
        break;
    case KIT_CELL_TEXTS:
        assert_int_equal(((const kit_texts *)member)->n, 2);
        assert_text(((const kit_texts *)member)->list[0], c->name);
        break;
    case KIT_CELL_INTEGERS:
        assert_int_equal(((const kit_integers *)member)->list[0], i + 1);
        break;
    case KIT_CELL_DAY: {
        char day[11];
        date_print(*(const date_day *)member, day);
        assert_string_equal(day, "2027-03-14");
        break;
    }
    case KIT_CELL_CLOCK:
        assert_int_equal(*(const int *)member, (10 + (int)i % 10) * 60 + 30);
        break;
    }
}

static void assert_members(arena *a, const char *owner, bool of_workshop) {
    uint32_t n;
    const kit_table_form *forms = kit_forms(&n);
    for (uint32_t i = 0; i < n; i++) {
        if (forms[i].of_workshop != of_workshop)
            continue;
        const char *record = owner;
        if (!forms[i].one_record) {
            void *list;
            uint32_t count;
            memcpy(&list, owner + forms[i].list_offset, sizeof list);
            memcpy(&count, owner + forms[i].count_offset, sizeof count);
            assert_int_equal(count, 1);
            record = list;
        }
        assert_int_equal(*(const uint32_t *)(const void *)record, 2);
        for (uint32_t c = 0; c < forms[i].n_columns; c++)
            assert_member(a, &forms[i], c, record);
    }
}

static void test_every_column(void **state) {
    (void)state;
    arena *a = arena_open();
    faults f = faults_in(a);
    kit_tables of_kit = sample_tables(a, false), of_workshop = sample_tables(a, true);
    const kit *k = NULL;
    const kit_workshop *w = NULL;
    bool read = kit_from_tables(a, &of_kit, &f, &k);
    print_faults(&f);
    assert_true(read);
    assert_members(a, (const char *)k, false);
    read = kit_workshop_from_tables(a, &of_workshop, k, &f, &w);
    print_faults(&f);
    assert_true(read);
    assert_members(a, (const char *)w, true);
    arena_close(a);
}

/* Every needed cell, when it is empty, is a fault at its own place and nowhere else; every other may be empty. */
static void test_every_empty_cell(void **state) {
    (void)state;
    arena *a = arena_open();
    kit_tables tables = sample_tables(a, false);
    for (uint32_t i = 0; i < tables.n; i++) {
        kit_table *t = &tables.list[i];
        const kit_table_form *form = kit_find_form(t->name.at, false);
        for (uint32_t c = 0; c < t->n_columns; c++) {
            faults f = faults_in(a);
            const kit *k;
            text kept = t->cells[c];
            t->cells[c] = TEXT(" ");
            bool read = kit_from_tables(a, &tables, &f, &k);
            assert_int_equal(read, !form->columns[c].required);
            bool there = false;
            for (size_t n = 0; n < f.n; n++)
                there = there || (text_equal(f.list[n].place.file, t->file) && f.list[n].place.row == 2 &&
                                  text_is(f.list[n].place.column, form->columns[c].name));
            assert_int_equal(there, form->columns[c].required);
            t->cells[c] = kept;
        }
    }
    arena_close(a);
}

static void test_words(void **state) {
    (void)state;
    for (unsigned u = KIT_PIECE; u <= KIT_PACK; u++)
        assert_text(kit_word("rows", "unit", u), kit_unit_word((kit_unit)u));
    for (unsigned s = KIT_IN_ROOM; s <= KIT_ADULT_DOES; s++)
        assert_text(kit_word("steps", "supervision", s), kit_supervision_word((kit_supervision)s));
    assert_text(kit_word("step_tests", "signed_by", KIT_LEADER_SIGNS), "leader");
    assert_text(kit_word("step_parts", "condition", KIT_THREAD_LOCKED), "thread-locked");
    assert_text(kit_word("batteries", "chemistry", KIT_FLOODED), "flooded");
    assert_text(kit_word("steps", "kind", KIT_INDUCTION), "induction");
    assert_text(kit_word("step_effects", "effect", KIT_DISTURBS), "disturbs");
    assert_text(kit_word("zones", "kind", KIT_ZONE), "zone");
    assert_text(kit_word("steps", "delay_clock", KIT_WORKING_TIME), "working time");
}

/* --- folders --- */

static const char *temporary_folder(arena *a) {
    const char *base = getenv("TMPDIR");
    text template = arena_format(a, "%s/kitbench-test-XXXXXX", base ? base : "/tmp");
    char *made = arena_alloc(a, template.len + 1);
    memcpy(made, template.at, template.len);
    assert_non_null(mkdtemp(made));
    return made;
}

static void remove_folder(arena *a, const char *folder) {
    text *names;
    size_t n;
    err e;
    assert_true(sys_list_folder(a, folder, &names, &n, &e));
    for (size_t i = 0; i < n; i++)
        unlink(arena_format(a, "%s/%.*s", folder, TEXT_ARG(names[i])).at);
    rmdir(folder);
}

static void assert_same_tables(const kit_tables *one, const kit_tables *two) {
    assert_int_equal(one->n, two->n);
    for (uint32_t i = 0; i < one->n; i++) {
        const kit_table *a = &one->list[i], *b = &two->list[i];
        assert_true(text_equal(a->name, b->name));
        assert_int_equal(a->n_rows, b->n_rows);
        assert_int_equal(a->n_columns, b->n_columns);
        for (uint32_t c = 0; c < a->n_columns; c++)
            assert_true(text_equal(a->columns[c], b->columns[c]));
        for (size_t c = 0; c < (size_t)a->n_rows * a->n_columns; c++)
            assert_true(text_equal(a->cells[c], b->cells[c]));
    }
}

static void write_and_compare(arena *a, const kit_tables *tables, bool workshop) {
    err e;
    faults f = faults_in(a);
    const char *folder = temporary_folder(a);
    kit_tables again;
    assert_true(kit_write_folder(folder, tables, TEXT("Larch Lane, kit 7/B"), TEXT("A \"title\""), &e));
    bool read = kit_tables_from_folder(a, folder, workshop, &f, &again, &e);
    print_faults(&f);
    assert_true(read);
    assert_same_tables(tables, &again);
    remove_folder(a, folder);
}

static void test_written_folders_read_back(void **state) {
    (void)state;
    arena *a = arena_open();
    err e;
    faults f = faults_in(a);
    kit_tables tables;
    assert_true(kit_tables_from_folder(a, GOOD_KIT, false, &f, &tables, &e));
    write_and_compare(a, &tables, false);
    assert_true(kit_tables_from_folder(a, GOOD_WORKSHOP, true, &f, &tables, &e));
    write_and_compare(a, &tables, true);
    tables = sample_tables(a, false);
    tables.list[1].cells[1] = TEXT("a, \"b\";\nc\r\nd \xC5\xBE\xF0\x9F\x94\xA9"); /* parts, name */
    write_and_compare(a, &tables, false);
    arena_close(a);
}

/* Copies the good kit with every file's bytes changed as spreadsheets do. */
static void test_byte_order_mark_and_crlf(void **state) {
    const fixture *x = *state;
    arena *a = x->a;
    text *names;
    size_t n;
    err e;
    const char *folder = temporary_folder(a);
    assert_true(sys_list_folder(a, GOOD_KIT, &names, &n, &e));
    for (size_t i = 0; i < n; i++) {
        text bytes;
        buf out = {0};
        assert_true(
            sys_read_file(a, arena_format(a, "%s/%s", GOOD_KIT, names[i].at).at, 1 << 20, &bytes, &e));
        buf_add_z(&out, "\xEF\xBB\xBF");
        for (size_t b = 0; b < bytes.len; b++) {
            if (bytes.at[b] == '\n')
                buf_add_char(&out, '\r');
            buf_add_char(&out, bytes.at[b]);
        }
        assert_true(sys_write_file(arena_format(a, "%s/%s", folder, names[i].at).at, buf_text(&out), &e));
        buf_free(&out);
    }
    faults f = faults_in(a);
    kit_tables plain, marked;
    assert_true(kit_tables_from_folder(a, GOOD_KIT, false, &f, &plain, &e));
    bool read = kit_tables_from_folder(a, folder, false, &f, &marked, &e);
    print_faults(&f);
    assert_true(read);
    assert_same_tables(&plain, &marked);
    remove_folder(a, folder);
}

static void test_package_keeps_what_is_not_ours(void **state) {
    (void)state;
    arena *a = arena_open();
    err e;
    faults f = faults_in(a);
    kit_tables tables;
    text bytes;
    assert_true(kit_tables_from_folder(a, GOOD_KIT, false, &f, &tables, &e));
    const char *folder = temporary_folder(a);
    const char *path = arena_format(a, "%s/datapackage.json", folder).at;
    assert_true(kit_write_folder(folder, &tables, TEXT("Bird table"), TEXT(""), &e));
    assert_true(sys_write_file(
        path, TEXT("{\"name\": \"mine\", \"licenses\": [{\"name\": \"CC0-1.0\"}], \"resources\": []}"), &e));
    assert_true(kit_write_package(folder, &tables, TEXT("other"), TEXT(""), &e));
    assert_true(sys_read_file(a, path, 1 << 20, &bytes, &e));
    assert_true(text_find(bytes, TEXT("\"name\": \"mine\"")) > 0);
    assert_true(text_find(bytes, TEXT("\"name\": \"CC0-1.0\"")) > 0);
    bool read = kit_tables_from_folder(a, folder, false, &f, &tables, &e);
    print_faults(&f);
    assert_true(read);
    remove_folder(a, folder);
    arena_close(a);
}

static void test_kit_without_steps(void **state) {
    (void)state;
    arena *a = arena_open();
    err e;
    faults f = faults_in(a);
    kit_tables tables, bare = {arena_array(a, kit_table, 4), 0};
    assert_true(kit_tables_from_folder(a, GOOD_KIT, false, &f, &tables, &e));
    for (uint32_t i = 0; i < tables.n; i++)
        if (kit_find_form(tables.list[i].name.at, false)->required)
            bare.list[bare.n++] = tables.list[i];
    assert_int_equal(bare.n, 4);
    const kit *k;
    const kit_workshop *w;
    bool whole = kit_read_and_check(a, &bare, NULL, &f, &k, &w);
    print_faults(&f);
    assert_true(whole);
    assert_int_equal(k->n_steps, 0);
    arena_close(a);
}

static void test_no_folder(void **state) {
    (void)state;
    arena *a = arena_open();
    err e;
    faults f = faults_in(a);
    const kit *k;
    const kit_workshop *w;
    assert_false(kit_read(a, "tests/there-is-no-such-kit", NULL, &f, &k, &w, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    assert_int_equal(f.n, 0);
    assert_null(k);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_values, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_workshop_values, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_lookups, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_build_order, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_byte_order_mark_and_crlf, set_up, tear_down),
        cmocka_unit_test(test_every_column),
        cmocka_unit_test(test_every_empty_cell),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_written_folders_read_back),
        cmocka_unit_test(test_package_keeps_what_is_not_ours),
        cmocka_unit_test(test_kit_without_steps),
        cmocka_unit_test(test_no_folder),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
