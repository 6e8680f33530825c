/* test_joining.c: the joining chart of plans made up here, and its SVG. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "picture/picture.h"

enum { STEPS = 24, UNITS = 5 };

/* A plan of random steps in two sessions; every third step is on the main machine, the last one joins all units. */
typedef struct {
    kit k;
    kit_step steps[STEPS];
    kit_sub_assembly units[UNITS];
    kit_after after[STEPS];
    plan p;
    plan_step planned[STEPS];
    plan_stretch stretches[STEPS];
    plan_session sessions[2];
} made_up;

static const kit_index crew[] = {0, 1, 2, 3};

static uint32_t next(uint64_t *state) {
    *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (uint32_t)(*state >> 33);
}

static int by_start(const plan_step *x, const plan_step *y) {
    return x->start_min < y->start_min;
}

static void make_up(arena *a, uint64_t seed, made_up *m) {
    uint64_t dice = seed;
    *m = (made_up){.k = {.steps = m->steps,
                         .n_steps = STEPS,
                         .sub_assemblies = m->units,
                         .n_sub_assemblies = UNITS,
                         .step_after = m->after},
                   .p = {.kit = &m->k,
                         .steps = m->planned,
                         .sessions = m->sessions,
                         .n_sessions = 2,
                         .makespan_min = 400}};
    m->sessions[0] = (plan_session){.number = 1, .to_min = 250};
    m->sessions[1] = (plan_session){.number = 2, .from_min = 250, .to_min = 500};
    for (uint32_t u = 0; u < UNITS; u++)
        m->units[u].number = m->units[u].name = arena_format(a, "unit %u", (unsigned)u);
    for (kit_index s = 0; s < STEPS; s++) {
        m->steps[s].number = arena_format(a, "S%02u", (unsigned)s);
        m->steps[s].name = TEXT("bolts <M6> & \"nuts\"");
        m->steps[s].sub_assembly = s % 3 == 0 || s == STEPS - 1 ? KIT_NONE : next(&dice) % UNITS;
        plan_step it = {.step = s,
                        .start_min = (int32_t)(next(&dice) % 300),
                        .stretches = &m->stretches[s],
                        .n_stretches = 1};
        it.end_min = it.start_min + 10 + (int32_t)(next(&dice) % 60);
        m->stretches[s] =
            (plan_stretch){.people = crew, .n_people = 1 + next(&dice) % 4, .supervisor = KIT_NONE};
        if (s == STEPS - 1)
            it = (plan_step){
                .step = s, .start_min = 380, .end_min = 400, .stretches = &m->stretches[s], .n_stretches = 1};
        uint32_t x = m->p.n_steps++;
        for (; x > 0 && by_start(&it, &m->planned[x - 1]); x--)
            m->planned[x] = m->planned[x - 1];
        m->planned[x] = it;
        if (m->steps[s].sub_assembly != KIT_NONE)
            m->after[m->k.n_step_after++] = (kit_after){0, STEPS - 1, s};
    }
}

static bool is_step(const picture_shape *s) {
    return s->kind == PICTURE_BOX && text_is(s->role, "step");
}

static bool apart(const picture_shape *a, const picture_shape *b) {
    double slack = 0.01;
    return a->x + a->width <= b->x + slack || b->x + b->width <= a->x + slack ||
           a->y + a->height <= b->y + slack || b->y + b->height <= a->y + slack;
}

static void each_step_has_a_place_of_its_own_at_every_width(void **state) {
    (void)state;
    static const double widths[] = {150, 270, 510, 1000};
    for (uint64_t seed = 1; seed <= 60; seed++)
        for (size_t w = 0; w < sizeof widths / sizeof widths[0]; w++) {
            arena *a = arena_open();
            made_up m;
            make_up(a, seed, &m);
            picture c = picture_draw_joining(a, &m.p, widths[w]);
            uint32_t steps = 0, joins = 0;
            for (size_t i = 0; i < c.n; i++) {
                const picture_shape *s = &c.shapes[i];
                double right = s->kind == PICTURE_BOX ? s->x + s->width : s->x;
                assert_true(s->x >= -0.01 && right <= c.width + 0.01);
                assert_true(s->y >= 0 && s->y <= c.height);
                joins += s->kind == PICTURE_PATH;
                steps += is_step(s);
                for (size_t j = 0; j < i && is_step(s); j++)
                    assert_true(!is_step(&c.shapes[j]) || apart(s, &c.shapes[j]));
            }
            bool made[UNITS] = {false};
            uint32_t units = 0;
            for (uint32_t s = 0; s < STEPS; s++)
                if (m.steps[s].sub_assembly != KIT_NONE)
                    made[m.steps[s].sub_assembly] = true;
            for (uint32_t u = 0; u < UNITS; u++)
                units += made[u];
            assert_int_equal(steps, STEPS);
            assert_int_equal(joins, units); /* each unit turns in where it joins */
            arena_close(a);
        }
}

static void later_stands_lower_and_more_people_are_wider(void **state) {
    (void)state;
    arena *a = arena_open();
    made_up m;
    make_up(a, 7, &m);
    picture c = picture_draw_joining(a, &m.p, 510);
    const picture_shape *boxes[STEPS];
    uint32_t n = 0;
    for (size_t i = 0; i < c.n; i++)
        if (is_step(&c.shapes[i]))
            boxes[n++] = &c.shapes[i];
    assert_int_equal(n, STEPS); /* drawn in the order of the plan */
    for (uint32_t x = 0; x < n; x++)
        for (uint32_t y = 0; y < n; y++) {
            const plan_step *p = &m.p.steps[x], *q = &m.p.steps[y];
            if (p->start_min < q->start_min)
                assert_true(boxes[x]->y < boxes[y]->y);
            if (p->stretches[0].n_people < q->stretches[0].n_people)
                assert_true(boxes[x]->width < boxes[y]->width);
        }
    arena_close(a);
}

static void svg_escapes_and_says_what_it_cuts(void **state) {
    (void)state;
    arena *a = arena_open();
    made_up m;
    make_up(a, 3, &m);
    picture c = picture_draw_joining(a, &m.p, 270);
    picture_add(&c, (picture_shape){.kind = PICTURE_TEXT,
                                    .y = 1,
                                    .width = 40,
                                    .height = 10,
                                    .stroke = PICTURE_INK,
                                    .words = TEXT("far too long for forty points")});
    buf svg = {0};
    picture_write_svg(&c, TEXT("<chart>"), TEXT("a & b"), &svg);
    text all = buf_text(&svg);
    assert_true(text_find(all, TEXT("<title>&lt;chart&gt;</title>")) > 0);
    assert_true(text_find(all, TEXT("<desc>a &amp; b</desc>")) > 0);
    assert_true(text_find(all, TEXT("bolts &lt;M6&gt; &amp; &quot;nuts&quot;")) > 0);
    assert_int_equal(text_find(all, TEXT("<M6>")), -1);
    assert_true(text_find(all, TEXT("<title>far too long for forty points</title>")) > 0);
    assert_true(text_find(all, TEXT("\u2026</tspan>")) > 0);
    assert_true(text_find(all, TEXT("<a href=\"#S05\">")) > 0);
    buf_free(&svg);
    arena_close(a);
}

static void without_steps_there_is_nothing_to_draw(void **state) {
    (void)state;
    arena *a = arena_open();
    made_up m;
    make_up(a, 1, &m);
    m.p.n_steps = 0;
    assert_int_equal(picture_draw_joining(a, &m.p, 510).n, 0);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_step_has_a_place_of_its_own_at_every_width),
        cmocka_unit_test(later_stands_lower_and_more_people_are_wider),
        cmocka_unit_test(svg_escapes_and_says_what_it_cuts),
        cmocka_unit_test(without_steps_there_is_nothing_to_draw),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
