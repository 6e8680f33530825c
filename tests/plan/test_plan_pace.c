/* test_plan_pace.c: the crew's own pace against figures worked out by hand from the formula, and its use by plans. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "random_build.h"

enum { STEPS = 12 };

typedef struct {
    kit k;
    kit_workshop w;
    kit_step steps[STEPS];
    kit_named works[2];
    plan_worked done[STEPS];
} site;

/* Steps of 40 likely minutes; the first six are of work 0, four of work 1, two of none. */
static site *new_site(arena *a) {
    site *s = arena_new(a, site);
    *s = (site){.k = {.steps = s->steps, .n_steps = STEPS, .works = s->works, .n_works = 2},
                .w = {.beginners_percent = 150}};
    for (kit_index n = 0; n < STEPS; n++)
        s->steps[n] = (kit_step){.likely_min = 40, .work = n < 6 ? 0 : n < 10 ? 1 : KIT_NONE};
    return s;
}

static void without_steps_it_is_the_beginners_factor(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a);
    plan_paces p;
    s->done[0] = (plan_worked){0, 0}; /* no minutes: says nothing */
    plan_learn_pace(a, &s->k, &s->w, s->done, 1, &p);
    assert_int_equal(p.crew.steps, 0);
    assert_int_equal(p.crew.percent, 150);
    assert_int_equal(p.n_works, 0);
    for (kit_index n = 0; n < STEPS; n++)
        assert_int_equal(p.percent_of_step[n], 150);
    arena_close(a);
}

/* Four steps of work 0 at 80 min, twice the kit's. Crew: Z = 4 / 8, so sqrt(2 * 1.5) = 1.7321. Work 0: Z = 1 / 2 again towards that,
 * sqrt(2 * 1.7321) = 1.8612. Work 1 and none: the crew's. */
static void four_steps_weigh_as_much_as_the_guess(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a);
    plan_paces p;
    for (kit_index n = 0; n < 4; n++)
        s->done[n] = (plan_worked){n, 80};
    plan_learn_pace(a, &s->k, &s->w, s->done, 4, &p);
    assert_int_equal(p.crew.percent, 173);
    assert_int_equal(p.crew.seen_percent, 200);
    assert_int_equal(p.n_works, 1);
    assert_int_equal(p.works[0].percent, 186);
    assert_int_equal(p.percent_of_step[5], 186);
    assert_int_equal(p.percent_of_step[6], 173);
    assert_int_equal(p.percent_of_step[11], 173);
    arena_close(a);
}

/* Twice and half as long weigh alike; a clock forgotten over night counts as four times. */
static void ratios_weigh_by_their_logarithms(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a);
    plan_paces p;
    s->done[0] = (plan_worked){0, 80};
    s->done[1] = (plan_worked){1, 20};
    plan_learn_pace(a, &s->k, &s->w, s->done, 2, &p);
    assert_int_equal(p.crew.seen_percent, 100);
    assert_int_equal(p.crew.percent, 131); /* 1.5^(4/6) = 1.3104 */
    s->done[1] = (plan_worked){1, 40 * 24};
    plan_learn_pace(a, &s->k, &s->w, s->done + 1, 1, &p);
    assert_int_equal(p.crew.seen_percent, 400);
    arena_close(a);
}

/* The longer a work was seen, the nearer its factor is to what was seen; always between the two. */
static void it_lies_between_and_gets_nearer(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a);
    int64_t before = 150;
    for (uint32_t n = 1; n <= 6; n++) {
        plan_paces p;
        for (kit_index k = 0; k < n; k++)
            s->done[k] = (plan_worked){k, 40};
        plan_learn_pace(a, &s->k, &s->w, s->done, n, &p);
        assert_true(p.works[0].percent < before && p.works[0].percent > 100);
        assert_true(p.crew.percent > p.works[0].percent);
        before = p.works[0].percent;
    }
    arena_close(a);
}

/* A plan with paces of twice the beginners' factor takes its steps twice as long. */
static void plans_use_it(void **state) {
    (void)state;
    arena *a = arena_open();
    uint32_t steps = 0;
    for (uint64_t seed = 1; seed <= 10; seed++) {
        plan_input in = random_build_small(a, seed, 6, 4);
        kit_workshop w = *in.workshop;
        w.beginners_percent = 100;
        in.workshop = &w;
        plan_paces p = {.percent_of_step = arena_array(a, int64_t, in.kit->n_steps)};
        for (kit_index s = 0; s < in.kit->n_steps; s++)
            p.percent_of_step[s] = 200;
        in.paces = &p;
        plan *made;
        err e;
        assert_true(plan_make(a, &in, &made, &e));
        for (uint32_t n = 0; n < made->n_steps; n++) {
            const plan_step *s = &made->steps[n];
            if (s->session != s->last_session)
                continue;
            assert_int_equal(s->end_min - s->start_min, 2 * in.kit->steps[s->step].likely_min);
            steps++;
        }
    }
    assert_true(steps > 20);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_steps_it_is_the_beginners_factor),
        cmocka_unit_test(four_steps_weigh_as_much_as_the_guess),
        cmocka_unit_test(ratios_weigh_by_their_logarithms),
        cmocka_unit_test(it_lies_between_and_gets_nearer),
        cmocka_unit_test(plans_use_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
