/* test_lanes.c: where the blocks of an evening stand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <math.h>

#include "picture/picture.h"

static const picture_lane names[] = {{TEXT_INIT("Ada"), TEXT_INIT("leader")}, {TEXT_INIT("Bo"), {"", 0}}};

static const picture_shape *find_text(const picture *p, const char *words) {
    for (size_t i = 0; i < p->n; i++)
        if (p->shapes[i].kind == PICTURE_TEXT && text_is(p->shapes[i].words, words))
            return &p->shapes[i];
    return NULL;
}

/* The outlined box that holds a text. */
static const picture_shape *box_of(const picture *p, const picture_shape *inside) {
    for (size_t i = 0; i < p->n; i++) {
        const picture_shape *b = &p->shapes[i];
        if (b->kind == PICTURE_BOX && b->fill == PICTURE_PAPER && b->x <= inside->x &&
            b->x + b->width >= inside->x + inside->width - 1 && b->y <= inside->y &&
            b->y + b->height >= inside->y + inside->height)
            return b;
    }
    return NULL;
}

static bool near(double a, double b) {
    return fabs(a - b) < 2;
}

static void time_runs_from_left_to_right(void **state) {
    (void)state;
    arena *a = arena_open();
    picture_block blocks[] = {
        {.lane = 0, .from_min = 1120, .to_min = 1180, .title = TEXT_INIT("S1")},
        {.lane = 1, .from_min = 1180, .to_min = 1240, .title = TEXT_INIT("S2"), .beside = true},
    };
    picture_lanes l = {.from_min = 1120,
                       .to_min = 1240,
                       .clock = true,
                       .lanes = names,
                       .n_lanes = 2,
                       .blocks = blocks,
                       .n_blocks = 2};
    picture p = picture_draw_lanes(a, &l, 500);
    const picture_shape *first = box_of(&p, find_text(&p, "S1")), *second = box_of(&p, find_text(&p, "S2"));
    assert_non_null(first);
    assert_non_null(second);
    assert_true(near(first->x + first->width, second->x)); /* one ends when the other begins */
    assert_true(near(first->width, second->width));        /* an hour each */
    assert_true(near(second->x + second->width, 500));     /* to the end of the axis */
    assert_true(second->y >= first->y + first->height);    /* in the lane below */
    assert_true(near(p.height, picture_lanes_height(2)));
    const picture_shape *seven = find_text(&p, "19:00"), *half = find_text(&p, "19:30");
    assert_true(seven && half && seven->x < half->x);
    arena_close(a);
}

static void marks_never_touch(void **state) {
    (void)state;
    for (int span = 10; span <= 1440; span += 35) {
        arena *a = arena_open();
        picture_lanes l = {.from_min = 600, .to_min = 600 + span, .lanes = names, .n_lanes = 2};
        picture p = picture_draw_lanes(a, &l, 400);
        double last = -1;
        int marks = 0;
        for (size_t i = 0; i < p.n; i++) {
            const picture_shape *s = &p.shapes[i];
            if (s->kind != PICTURE_TEXT || s->y > 0)
                continue;
            assert_true(s->anchor == PICTURE_END || s->x >= last);
            last = s->x + s->width;
            marks++;
        }
        assert_in_range(marks, 1, 14);
        arena_close(a);
    }
}

static void nothing_leaves_the_picture(void **state) {
    (void)state;
    arena *a = arena_open();
    picture_block blocks[] = {
        {.lane = 0, .from_min = 0, .to_min = 5000, .title = TEXT_INIT("too long")},
        {.lane = 1, .from_min = 700, .to_min = 700, .title = TEXT_INIT("no time at all")},
        {.lane = 1, .from_min = 650, .to_min = 652, .title = TEXT_INIT("very short")},
    };
    picture_shade shades[] = {
        {.lane = PICTURE_ALL_LANES, .from_min = 500, .to_min = 620, .words = TEXT_INIT("opening")},
        {.lane = 1, .from_min = 700, .to_min = 9999, .words = TEXT_INIT("gone")}};
    picture_lanes l = {.from_min = 600,
                       .to_min = 720,
                       .lanes = names,
                       .n_lanes = 2,
                       .blocks = blocks,
                       .n_blocks = 3,
                       .shades = shades,
                       .n_shades = 2};
    picture p = picture_draw_lanes(a, &l, 300);
    for (size_t i = 0; i < p.n; i++) {
        const picture_shape *s = &p.shapes[i];
        assert_true(s->x >= -0.1 && s->y >= -0.1);
        assert_true(s->kind == PICTURE_TEXT || s->x + s->width <= 300.1);
        assert_true(s->y + s->height <= p.height + 0.1);
    }
    assert_null(find_text(&p, "no time at all"));
    assert_non_null(find_text(&p, "too long"));
    arena_close(a);
}

/* State is never shown by tone alone: who is beside the work has a strip, who is away is named so. */
static void state_has_a_mark(void **state) {
    (void)state;
    arena *a = arena_open();
    picture_block blocks[] = {
        {.lane = 0, .from_min = 0, .to_min = 60, .title = TEXT_INIT("S1"), .beside = true},
        {.lane = 1, .from_min = 0, .to_min = 60, .title = TEXT_INIT("S2")}};
    picture_lanes l = {.to_min = 60, .lanes = names, .n_lanes = 2, .blocks = blocks, .n_blocks = 2};
    picture p = picture_draw_lanes(a, &l, 300);
    int strips = 0;
    for (size_t i = 0; i < p.n; i++)
        strips += p.shapes[i].hatched;
    assert_int_equal(strips, 1);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(time_runs_from_left_to_right),
        cmocka_unit_test(marks_never_touch),
        cmocka_unit_test(nothing_leaves_the_picture),
        cmocka_unit_test(state_has_a_mark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
