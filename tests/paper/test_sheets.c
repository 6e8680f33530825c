/* test_sheets.c: the sheets as a caller gets them. What stands on them is looked at by check_pdfs.py. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cairo.h>
#include <cmocka.h>

#include "paper/paper.h"
#include "sample.h"
#include "sample_evening.h"

static const paper_setup a4 = {.as_of = PAPER_NO_MOMENT};
static const sample_size usual = {.boxes = 2, .bags = 5, .rows = 60, .steps = 6};

typedef bool (*composer)(arena *a, const paper_setup *setup, const kit *k, buf *pdf, paper_notes *notes,
                         err *e);

static bool check_sheets(arena *a, const paper_setup *setup, const kit *k, buf *pdf, paper_notes *notes,
                         err *e) {
    return paper_check_sheets(a, setup, k, &(paper_check_choice){.copies = 1}, pdf, notes, e);
}

static bool job_cards(arena *a, const paper_setup *setup, const kit *k, buf *pdf, paper_notes *notes,
                      err *e) {
    return paper_job_cards(a, setup, k, &(paper_card_choice){0}, pdf, notes, e);
}

static bool report(arena *a, const paper_setup *setup, const kit *k, buf *pdf, paper_notes *notes, err *e) {
    stock_record *nothing = arena_new(a, stock_record);
    return paper_report(a, setup, k, stock_assess(a, k, nothing), TEXT(""), pdf, notes, e);
}

static bool run_sheet(arena *a, const paper_setup *setup, const kit *k, buf *pdf, paper_notes *notes,
                      err *e) {
    return paper_run_sheet(a, setup, sample_plan(a, k), 0, pdf, notes, e);
}

static const composer all[] = {check_sheets, job_cards, report, run_sheet};
enum { N_ALL = sizeof all / sizeof all[0] };

/* Composes into a buffer of the caller; returns the pages. */
static int compose(composer c, sample_size size, const paper_setup *setup, buf *pdf) {
    arena *a = arena_open();
    paper_notes notes = {0};
    err e;
    assert_true(c(a, setup, sample_kit(a, size), pdf, &notes, &e));
    assert_true(text_starts(buf_text(pdf), TEXT("%PDF-1.5")));
    arena_close(a);
    return notes.pages;
}

static void same_input_same_bytes(void **state) {
    (void)state;
    for (int i = 0; i < N_ALL; i++) {
        buf once = {0}, twice = {0};
        compose(all[i], usual, &a4, &once);
        compose(all[i], usual, &a4, &twice);
        assert_true(text_equal(buf_text(&once), buf_text(&twice)));
        buf_free(&once);
        buf_free(&twice);
    }
}

static void other_input_other_bytes(void **state) {
    (void)state;
    paper_setup letter = {.size = PAPER_LETTER, .as_of = PAPER_NO_MOMENT}, later = {.as_of = 30000000};
    for (int i = 0; i < N_ALL; i++) {
        buf plain = {0}, on_letter = {0}, dated = {0};
        compose(all[i], usual, &a4, &plain);
        compose(all[i], usual, &letter, &on_letter);
        compose(all[i], usual, &later, &dated);
        assert_false(text_equal(buf_text(&plain), buf_text(&on_letter)));
        assert_false(text_equal(buf_text(&plain), buf_text(&dated)));
        assert_true(text_find(buf_text(&dated), TEXT("20270115")) > 0); /* 30,000,000 min after 1970-01-01 */
        assert_true(text_find(buf_text(&plain), TEXT("19700101")) > 0);
        buf_free(&plain);
        buf_free(&on_letter);
        buf_free(&dated);
    }
}

static void a_box_a_section_and_copies(void **state) {
    (void)state;
    arena *a = arena_open();
    const kit *k = sample_kit(a, usual);
    kit_index second = 1;
    int pages[3];
    const paper_check_choice choices[] = {
        {.copies = 1}, {.copies = 3}, {.boxes = &second, .n_boxes = 1, .copies = 1}};
    for (int i = 0; i < 3; i++) {
        buf pdf = {0};
        paper_notes notes = {0};
        err e;
        assert_true(paper_check_sheets(a, &a4, k, &choices[i], &pdf, &notes, &e));
        pages[i] = notes.pages;
        buf_free(&pdf);
    }
    assert_int_equal(pages[1], 3 * pages[0]);
    assert_true(pages[2] >= 1 && pages[2] < pages[0]);
    arena_close(a);
}

static void refuses_what_it_cannot_print(void **state) {
    (void)state;
    arena *a = arena_open();
    sample_size none = {.boxes = 1};
    const kit *empty = sample_kit(a, none), *k = sample_kit(a, usual);
    kit_index bag = 3;
    buf pdf = {0};
    paper_notes notes = {0};
    err e = {0};
    assert_false(paper_check_sheets(a, &a4, empty, &(paper_check_choice){.copies = 1}, &pdf, &notes, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    assert_false(paper_job_cards(a, &a4, empty, &(paper_card_choice){0}, &pdf, &notes, &e));
    assert_string_equal(e.cause, "the kit has no steps");
    assert_false(paper_check_sheets(a, &a4, k, &(paper_check_choice){.copies = 0}, &pdf, &notes, &e));
    assert_false(paper_check_sheets(a, &a4, k, &(paper_check_choice){.copies = 21}, &pdf, &notes, &e));
    assert_false(paper_check_sheets(
        a, &a4, k, &(paper_check_choice){.boxes = &bag, .n_boxes = 1, .copies = 1}, &pdf, &notes, &e));
    assert_string_equal(e.remedy, "name the box it is in");
    assert_false(paper_run_sheet(a, &a4, sample_plan(a, k), 2, &pdf, &notes, &e));
    assert_int_equal(pdf.len, 0);
    buf_free(&pdf);
    arena_close(a);
}

static void a_kit_without_rows_has_a_report(void **state) {
    (void)state;
    sample_size none = {.boxes = 1};
    buf pdf = {0};
    assert_int_equal(compose(report, none, &a4, &pdf), 1);
    buf_free(&pdf);
}

static void five_thousand_rows(void **state) {
    (void)state;
    sample_size large = {.boxes = 1, .bags = 40, .rows = 5000};
    buf pdf = {0};
    int pages = compose(check_sheets, large, &a4, &pdf);
    assert_in_range(pages, 150, 300);
    buf_free(&pdf);
}

/* A picture function that knows one name for each way to fail. */
static bool find_picture(void *context, text name, text *bytes) {
    (void)context;
    *bytes = text_is(name, "note.png")   ? TEXT("this is no picture")
             : text_is(name, "cut.png")  ? TEXT("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x10\0\0\0\x10\x08\x02")
             : text_is(name, "huge.png") ? TEXT("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\x7f\0\0\0\x7f\0\0\0\x08\x02")
             : text_is(name, "cut.jpg")  ? TEXT("\xff\xd8\xff\xe0\0\x10JFIF")
                                         : TEXT("");
    return !text_is(name, "absent.png");
}

static void pictures_that_are_none_are_noted(void **state) {
    (void)state;
    static const struct {
        const char *name, *note;
    } cases[] = {
        {"absent.png", "it is not there"},        {"note.png", "it is neither PNG nor JPEG"},
        {"cut.png", "its PNG data are damaged"},  {"huge.png", "it is larger than 40 million points"},
        {"cut.jpg", "its JPEG data are damaged"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        arena *a = arena_open();
        const kit *k = sample_kit(a, usual);
        k->steps[0].picture = text_of(cases[i].name);
        paper_setup setup = {.as_of = PAPER_NO_MOMENT, .find_picture = find_picture};
        buf pdf = {0};
        paper_notes notes = {0};
        err e;
        assert_true(paper_job_cards(a, &setup, k, &(paper_card_choice){0}, &pdf, &notes, &e));
        assert_int_equal(notes.n, 1);
        assert_true(text_ends(notes.list[0], text_of(cases[i].note)));
        assert_true(text_find(notes.list[0], text_of(cases[i].name)) >= 0);
        buf_free(&pdf);
        arena_close(a);
    }
}

static cairo_status_t keep_bytes(void *to, const unsigned char *bytes, unsigned int n) {
    buf_add(to, (text){(const char *)bytes, n});
    return CAIRO_STATUS_SUCCESS;
}

static bool give_bytes(void *context, text name, text *bytes) {
    (void)name;
    *bytes = buf_text(context);
    return true;
}

static void a_picture_is_drawn(void **state) {
    (void)state;
    buf png = {0}, with = {0}, without = {0};
    cairo_surface_t *made = cairo_image_surface_create(CAIRO_FORMAT_RGB24, 37, 23);
    assert_int_equal(cairo_surface_write_to_png_stream(made, keep_bytes, &png), CAIRO_STATUS_SUCCESS);
    cairo_surface_destroy(made);
    arena *a = arena_open();
    const kit *k = sample_kit(a, usual);
    k->steps[0].picture = TEXT("roller.png");
    kit_index first = 0;
    paper_card_choice choice = {.steps = &first, .n_steps = 1};
    paper_setup setup = {.as_of = PAPER_NO_MOMENT, .find_picture = give_bytes, .context = &png};
    paper_notes notes = {0};
    err e;
    assert_true(paper_job_cards(a, &setup, k, &choice, &with, &notes, &e));
    assert_true(paper_job_cards(a, &a4, k, &choice, &without, &notes, &e));
    assert_int_equal(notes.n, 0);
    assert_true(text_find(buf_text(&with), TEXT("/Width 37")) > 0);
    assert_true(text_find(buf_text(&without), TEXT("/Width 37")) < 0);
    buf_free(&png);
    buf_free(&with);
    buf_free(&without);
    arena_close(a);
}

static void reads_paper_sizes(void **state) {
    (void)state;
    paper_size size = PAPER_LETTER;
    err e;
    assert_true(paper_size_read(TEXT("A4"), &size, &e));
    assert_int_equal(size, PAPER_A4);
    assert_true(paper_size_read(TEXT("letter"), &size, &e));
    assert_int_equal(size, PAPER_LETTER);
    assert_false(paper_size_read(TEXT("a5"), &size, &e));
    assert_string_equal(e.remedy, "choose a4 or letter");
}

/* Sixty people do not fit on one drawing. */
static void a_large_crew_takes_several_pages(void **state) {
    (void)state;
    arena *a = arena_open();
    plan p = *sample_plan(a, sample_kit(a, usual));
    kit_workshop w = *p.workshop;
    kit_person *crew = arena_array(a, kit_person, 60);
    for (uint32_t i = 0; i < 60; i++)
        crew[i] = i < w.n_crew ? w.crew[i] : (kit_person){.number = arena_format(a, "p%u", i)};
    w.crew = crew;
    w.n_crew = 60;
    p.workshop = &w;
    buf pdf = {0};
    paper_notes notes = {0};
    err e;
    assert_true(paper_run_sheet(a, &a4, &p, 0, &pdf, &notes, &e));
    assert_in_range(notes.pages, 4, 6);
    buf_free(&pdf);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(same_input_same_bytes),
        cmocka_unit_test(other_input_other_bytes),
        cmocka_unit_test(a_box_a_section_and_copies),
        cmocka_unit_test(refuses_what_it_cannot_print),
        cmocka_unit_test(a_kit_without_rows_has_a_report),
        cmocka_unit_test(a_large_crew_takes_several_pages),
        cmocka_unit_test(five_thousand_rows),
        cmocka_unit_test(pictures_that_are_none_are_noted),
        cmocka_unit_test(a_picture_is_drawn),
        cmocka_unit_test(reads_paper_sizes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
