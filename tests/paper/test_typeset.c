/* test_typeset.c: lines, widths, right-to-left texts, characters without a glyph. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cairo-pdf.h>
#include <cmocka.h>
#include <string.h>

#include "paper/typeset.h"

typedef struct {
    arena *a;
    typeset *type;
    cairo_surface_t *page;
    cairo_t *cr;
} desk_of_type;

static const type_style body = {.size = TYPE_BODY, .colour = INK_BLACK};

static int set_up(void **state) {
    desk_of_type *d = calloc(1, sizeof *d);
    err e;
    d->a = arena_open();
    assert_true(typeset_open(d->a, &d->type, &e));
    d->page = cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, NULL);
    d->cr = cairo_create(d->page);
    *state = d;
    return 0;
}

static int tear_down(void **state) {
    desk_of_type *d = *state;
    cairo_destroy(d->cr);
    cairo_surface_destroy(d->page);
    typeset_close(d->type);
    arena_close(d->a);
    free(d);
    return 0;
}

/* Where ink was put: left, top, width, height. */
static void drawn(desk_of_type *d, double box[4]) {
    cairo_recording_surface_ink_extents(d->page, &box[0], &box[1], &box[2], &box[3]);
}

static void empty_text_takes_no_line(void **state) {
    desk_of_type *d = *state;
    assert_int_equal(typeset_lines(d->type, TEXT(""), body, 100), 0);
    assert_true(typeset_height(d->type, TEXT(""), body, 100) == 0);
}

static void height_is_whole_lines_in_any_script(void **state) {
    desk_of_type *d = *state;
    const char *const texts[] = {"hexagon screw", "שמואל", "بكرة الحبل", "žluťoučký kůň", "Ελλάδα", "Привет"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_true(typeset_height(d->type, text_of(texts[i]), body, 200) == type_leading(TYPE_BODY));
}

/* The quick count of lines must agree with the library's, also at widths that just fit or just not. */
static void quick_count_agrees_with_the_library(void **state) {
    desk_of_type *d = *state;
    const char *const texts[] = {"AVAVAVAV To Yo", "ISO 4762 M8x25-8.8", "iiiiiiiiiiiiiii",
                                 "first\nsecond line"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        double own = typeset_width(d->type, text_of(texts[i]), body);
        int whole = strchr(texts[i], '\n') ? 2 : 1;
        for (int k = 0; k <= 80; k++) {
            double width = own * (0.9 + k * 0.0025);
            int lines = typeset_lines(d->type, text_of(texts[i]), body, width);
            if (width < own - 0.1)
                assert_true(lines > whole);
            if (width > own + 0.1)
                assert_int_equal(lines, whole);
        }
    }
}

static void digits_have_one_width(void **state) {
    desk_of_type *d = *state;
    double ones = typeset_width(d->type, TEXT("1111111111"), body);
    for (int c = '0'; c <= '9'; c++) {
        text same = arena_format(d->a, "%c%c%c%c%c%c%c%c%c%c", c, c, c, c, c, c, c, c, c, c);
        assert_true(typeset_width(d->type, same, body) - ones < 0.01 &&
                    ones - typeset_width(d->type, same, body) < 0.01);
    }
}

static void words_without_a_gap_are_broken(void **state) {
    desk_of_type *d = *state;
    char longest[301];
    memset(longest, 'm', 300);
    longest[300] = '\0';
    assert_true(typeset_lines(d->type, text_of(longest), body, 100) > 10);
    typeset_draw(d->type, d->cr, text_of(longest), body, 50, 50, 100);
    double box[4];
    drawn(d, box);
    assert_true(box[0] >= 49 && box[0] + box[2] <= 151);
}

static void most_lines_cuts(void **state) {
    desk_of_type *d = *state;
    type_style two = body;
    two.most_lines = 2;
    text words = TEXT("one\ntwo three four five six seven eight nine ten eleven twelve thirteen fourteen");
    assert_int_equal(typeset_lines(d->type, words, two, 80), 2);
    typeset_draw(d->type, d->cr, words, two, 0, 0, 80);
    double box[4];
    drawn(d, box);
    assert_true(box[0] + box[2] <= 81);
    assert_true(box[1] + box[3] <= 2 * type_leading(TYPE_BODY));
}

static void right_to_left_lines_stand_right(void **state) {
    desk_of_type *d = *state;
    text words = TEXT("גלגלת מתכת שמאלית עם שני מסבים ופין נעילה");
    assert_true(typeset_lines(d->type, words, body, 100) > 1);
    typeset_draw(d->type, d->cr, words, body, 0, 0, 100);
    double box[4];
    drawn(d, box);
    assert_true(box[0] + box[2] > 97);
}

static void end_alignment_ends_at_the_edge(void **state) {
    desk_of_type *d = *state;
    type_style end = body;
    end.align = TYPE_END;
    typeset_draw(d->type, d->cr, TEXT("1250"), end, 10, 0, 90);
    double box[4];
    drawn(d, box);
    assert_true(box[0] + box[2] > 98 && box[0] + box[2] <= 101);
}

/* On a PDF, as in life: pango does not free its box font when it draws on a recording. */
static void missing_glyphs_are_named(void **state) {
    desk_of_type *d = *state;
    paper_notes notes = {0};
    cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(NULL, NULL, 300, 300);
    cairo_t *cr = cairo_create(pdf);
    typeset_draw(d->type, cr, TEXT("Ada שמואל žluť"), body, 0, 0, 200);
    typeset_add_notes(d->type, d->a, &notes);
    assert_int_equal(notes.n, 0);
    typeset_draw(d->type, cr, TEXT("螺 螺 丝"), body, 0, 20, 200);
    typeset_add_notes(d->type, d->a, &notes);
    assert_int_equal(notes.n, 1);
    assert_true(text_find(notes.list[0], TEXT("U+87BA, U+4E1D;")) >= 0);
    cairo_destroy(cr);
    cairo_surface_destroy(pdf);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(empty_text_takes_no_line, set_up, tear_down),
        cmocka_unit_test_setup_teardown(height_is_whole_lines_in_any_script, set_up, tear_down),
        cmocka_unit_test_setup_teardown(quick_count_agrees_with_the_library, set_up, tear_down),
        cmocka_unit_test_setup_teardown(digits_have_one_width, set_up, tear_down),
        cmocka_unit_test_setup_teardown(words_without_a_gap_are_broken, set_up, tear_down),
        cmocka_unit_test_setup_teardown(most_lines_cuts, set_up, tear_down),
        cmocka_unit_test_setup_teardown(right_to_left_lines_stand_right, set_up, tear_down),
        cmocka_unit_test_setup_teardown(end_alignment_ends_at_the_edge, set_up, tear_down),
        cmocka_unit_test_setup_teardown(missing_glyphs_are_named, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
