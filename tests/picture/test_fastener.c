/* Pictures of fasteners: in true scale, inside their frame, for everything the tables know. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "picture/picture.h"

typedef struct {
    double left, right, top, bottom;
} frame;

static frame frame_of(const picture_shape *s) {
    frame f = {1e9, -1e9, 1e9, -1e9};
    for (size_t i = 0; i < s->n_points; i++) {
        f.left = fmin(f.left, s->x + s->points[2 * i]);
        f.right = fmax(f.right, s->x + s->points[2 * i]);
        f.top = fmin(f.top, s->y + s->points[2 * i + 1]);
        f.bottom = fmax(f.bottom, s->y + s->points[2 * i + 1]);
    }
    return f;
}

static designation must_read(const char *z) {
    designation d;
    if (!designation_read(text_of(z), &d, NULL))
        fail_msg("%s is refused", z);
    return d;
}

/* Width and height of the whole drawing in mm, from its outermost points: what a ruler on the paper shows. */
static void check_size(const char *name, double width_mm, double height_mm) {
    arena *a = arena_open();
    designation d = must_read(name);
    picture p;
    err e;
    if (!picture_fastener(a, &d, 1, &p, &e))
        fail_msg("%s: %s", name, e.cause);
    frame all = {1e9, -1e9, 1e9, -1e9};
    for (size_t i = 0; i < p.n; i++) {
        frame f = frame_of(&p.shapes[i]);
        all.left = fmin(all.left, f.left);
        all.right = fmax(all.right, f.right);
        all.top = fmin(all.top, f.top);
        all.bottom = fmax(all.bottom, f.bottom);
    }
    double width = (all.right - all.left) / PICTURE_MM, height = (all.bottom - all.top) / PICTURE_MM;
    if (fabs(width - width_mm) > 0.02 || fabs(height - height_mm) > 0.02)
        fail_msg("%s: %.3f x %.3f mm instead of %.3f x %.3f", name, width, height, width_mm, height_mm);
    arena_close(a);
}

/* End view, 4 mm between, side view. Sizes: ISO 4762 (dk 13, k 8), ISO 4017 (s 13, k 5.3), ISO 4032 (s 13, m 6.8), ISO 7089
 * (16, 1.6), ISO 10642 (dk 17.92, length over all), ISO 7380-1 (14, 4.4). */
static void test_true_scale(void **state) {
    (void)state;
    double corners = 13 * 2 / sqrt(3);
    check_size("ISO 4762 M8x25", 13 + 4 + 8 + 25, 13);
    check_size("ISO 4017 M8x25", corners + 4 + 5.3 + 25, corners);
    check_size("ISO 4032 M8", corners + 4 + 6.8, corners);
    check_size("ISO 7089-8", 16 + 4 + 1.6, 16);
    check_size("ISO 10642 M8x25", 17.92 + 4 + 25, 17.92);
    check_size("ISO 7380-1 M8x25", 14 + 4 + 4.4 + 25, 14);
    check_size("ISO 4029 M8x10", 8 + 4 + 10, 8);
    check_size("DIN 976-1 M8x60", 8 + 4 + 60, 8);
    check_size("ISO 8734-6x20", 6 + 4 + 20, 6);
    check_size("ISO 8752-8x40", 8 + 4 + 40, 8);
}

static void test_scale_and_frame(void **state) {
    (void)state;
    arena *a = arena_open();
    const fastener_standard *s;
    unsigned drawn = 0;
    for (size_t i = 0; (s = fastener_standard_at(i)) != NULL; i++) {
        int32_t t;
        for (size_t k = 0; (t = thread_size_at(k)) != 0; k++) {
            designation d = {
                .kind = s->kind, .form = s->form, .drive = s->drive, .extent = s->extent, .standard = s};
            d.thread_um = t;
            d.pitch_um = s->kind == FASTENER_WASHER ? 0 : thread_coarse_pitch_um(t);
            d.length_um = s->size == SIZE_THREAD_LENGTH ? 40000 : 0;
            picture one, two;
            err e = {0};
            if (!picture_fastener(a, &d, 1, &one, &e)) {
                assert_true(e.cause[0] && e.remedy[0]);
                continue;
            }
            drawn++;
            assert_true(one.n >= 2 && picture_fastener(a, &d, 2, &two, NULL) && two.n == one.n);
            for (size_t n = 0; n < one.n; n++) {
                frame f = frame_of(&one.shapes[n]), g = frame_of(&two.shapes[n]);
                assert_true(f.left >= 0 && f.top >= 0 && f.right <= one.width && f.bottom <= one.height);
                assert_true(fabs((g.right - g.left) - 2 * (f.right - f.left)) < 1e-6);
            }
        }
    }
    print_message("%u fasteners drawn\n", drawn);
    assert_true(drawn > 350);
    designation d = must_read("ISO 4762 M8x25");
    picture p;
    err e = {0};
    assert_false(picture_fastener(a, &d, (double)NAN, &p, &e));
    assert_false(picture_fastener(a, &d, 100, &p, &e));
    d = must_read("DIN 315 M8");
    assert_false(picture_fastener(a, &d, 1, &p, &e));
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_true_scale),
                                       cmocka_unit_test(test_scale_and_frame)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
