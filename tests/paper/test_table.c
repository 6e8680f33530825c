/* test_table.c: rows stay whole, heads and bands repeat, pages are counted as they are drawn. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <stdlib.h>

#include "paper/book.h"
#include "paper/table.h"

enum { MOST_ROWS = 400 };

/* What a composer saw: for each row the page it ended on and the strip it took. */
typedef struct {
    int n_rows;
    int words_in_row; /* the longest cell */
    int rows_in_band;
    int passes;
    int page[2][MOST_ROWS];
    double top[2][MOST_ROWS], bottom[2][MOST_ROWS];
    double foot; /* of a page's content */
} trial;

static const table_column columns[] = {
    {.head = "no", .width = 40, .align = TYPE_END, .ledger = true},
    {.head = "words", .share = 1},
    {.head = "tick", .width = 30},
};

static void compose(sheet *s, const void *what) {
    trial *t = *(trial *const *)what;
    int pass = t->passes++;
    arena *a = arena_open();
    table_form form = {.columns = columns, .n = 3, .least_row = 20};
    table to = table_begin(s, &form, s->left);
    for (int i = 0; i < t->n_rows; i++) {
        buf words = {0};
        for (int w = 0; w < 1 + i * 7 % t->words_in_row; w++)
            buf_addf(&words, "word%d ", w);
        if (t->rows_in_band && i % t->rows_in_band == 0)
            table_band(&to, (table_band_text){.title = arena_format(a, "Band %d", i / t->rows_in_band)});
        table_cell cells[] = {
            {.main = arena_format(a, "%d", i)}, {.main = buf_text(&words)}, {.kind = CELL_TICK}};
        int before = s->page;
        double from = s->y;
        table_row(&to, cells);
        t->page[pass][i] = s->page;
        t->top[pass][i] = s->page == before ? from : s->top;
        t->bottom[pass][i] = s->y;
        buf_free(&words);
    }
    table_end(&to);
    t->foot = s->bottom;
    arena_close(a);
}

static int pages_of(trial *t, buf *pdf) {
    arena *a = arena_open();
    paper_setup setup = {.as_of = PAPER_NO_MOMENT};
    paper_notes notes = {0};
    err e;
    book *b;
    assert_true(book_open(a, &setup, TEXT("trial"), TEXT("foot"), pdf, &b, &e));
    book_add(b,
             &(book_section){
                 .outline = TEXT("trial"), .running = TEXT("trial"), .compose = compose, .what = (void *)&t});
    assert_true(book_close(b, &notes, &e));
    arena_close(a);
    return notes.pages;
}

static void check_trial(trial *t, int least_pages) {
    buf pdf = {0};
    int pages = pages_of(t, &pdf);
    buf_free(&pdf);
    assert_int_equal(t->passes, 2);
    assert_true(pages >= least_pages);
    for (int i = 0; i < t->n_rows; i++) {
        assert_int_equal(t->page[0][i], t->page[1][i]);
        assert_true(t->bottom[1][i] <= t->foot + 0.01);
        assert_true(t->top[1][i] < t->bottom[1][i]);
        if (i > 0 && t->page[1][i] == t->page[1][i - 1])
            assert_true(t->bottom[1][i] >= t->bottom[1][i - 1] + 20);
        if (i > 0)
            assert_in_range(t->page[1][i] - t->page[1][i - 1], 0, 1);
    }
    if (t->n_rows)
        assert_int_equal(t->page[1][t->n_rows - 1], pages);
}

static void no_rows(void **state) {
    (void)state;
    trial t = {.words_in_row = 1};
    check_trial(&t, 1);
}

static void short_rows(void **state) {
    (void)state;
    trial t = {.n_rows = 400, .words_in_row = 3};
    check_trial(&t, 10);
}

static void rows_of_many_heights(void **state) {
    (void)state;
    trial t = {.n_rows = 200, .words_in_row = 97, .rows_in_band = 9};
    check_trial(&t, 10);
}

/* A row higher than a page is cut, not spread. */
static void rows_higher_than_a_page(void **state) {
    (void)state;
    trial t = {.n_rows = 7, .words_in_row = 5000, .rows_in_band = 1};
    check_trial(&t, 1);
}

/* A band at every position of the page: its first row is always on the same page below it. */
static void a_band_never_stands_alone(void **state) {
    (void)state;
    for (int before = 20; before < 45; before++) {
        trial t = {.n_rows = before + 3, .words_in_row = 1, .rows_in_band = before};
        check_trial(&t, 1);
        /* the row after the band is a band's height lower than a plain row would be, unless it begins the page */
        double step = t.bottom[1][before] - t.bottom[1][before - 1];
        if (t.page[1][before] == t.page[1][before - 1])
            assert_true(step > 40);
        else
            assert_true(t.bottom[1][before] > t.top[1][before] + 20 + 20);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_rows),
        cmocka_unit_test(short_rows),
        cmocka_unit_test(rows_of_many_heights),
        cmocka_unit_test(rows_higher_than_a_page),
        cmocka_unit_test(a_band_never_stands_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
