/* test_plan_curve.c: the crew curve against figures by hand, against itself, and against plans made for single points. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "random_build.h"

static plan_curve *make_curve(arena *a, const plan_input *in) {
    plan_curve *c;
    err e;
    if (!plan_make_curve(a, in, NULL, &c, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return c;
}

/* Four steps of an hour, one person each, nothing before anything: n people take ceil(4 / n) hours. */
static void by_hand(void **state) {
    (void)state;
    arena *a = arena_open();
    kit_step steps[4];
    for (int s = 0; s < 4; s++)
        steps[s] = (kit_step){.number = TEXT("S"),
                              .sub_assembly = KIT_NONE,
                              .work = KIT_NONE,
                              .zone = KIT_NONE,
                              .low_min = 60,
                              .likely_min = 60,
                              .high_min = 60,
                              .people = 1};
    kit k = {.steps = steps, .n_steps = 4};
    kit_person crew[] = {{.number = TEXT("a"), .adult = true}, {.number = TEXT("b")}};
    kit_session session = {.number = 1, .day = 20000, .start = 600, .end = 900};
    kit_attendance away = {
        .session = 0, .person = 1, .from = -1, .until = -1}; /* the curve leaves that out */
    kit_workshop w = {.crew = crew,
                      .n_crew = 2,
                      .sessions = &session,
                      .n_sessions = 1,
                      .attendance = &away,
                      .n_attendance = 1,
                      .beginners_percent = 100,
                      .minimum_adults = 1,
                      .wanted_day = INT32_MAX};
    plan_curve *c = make_curve(a, &(plan_input){.kit = &k, .workshop = &w, .from = INT64_MIN});
    static const int32_t one_adult[PLAN_CURVE_CREW] = {240, -1, 120, 60, 60, 60, 60, 60, 60, 60, 60, 60};
    for (uint32_t n = 0; n < PLAN_CURVE_CREW; n++) {
        assert_int_equal(c->at[0][n].finish_min, one_adult[n]);
        assert_int_equal(c->at[0][n].status, one_adult[n] < 0 ? PLAN_CURVE_CANNOT : PLAN_CURVE_PROVEN);
        assert_int_equal(c->at[0][n].alone_min, one_adult[n] < 0 ? -1 : 240);
        assert_int_equal(c->at[1][n].finish_min, n == 0 ? -1 : n == 1 || n == 2 ? 120 : 60);
    }
    assert_string_equal(c->at[0][1].reason.at, "one adult may not be alone with one learner");
    assert_string_equal(c->adults[1].at, "somebody like a");
    assert_true(c->n_plans < 25); /* most points follow from others */
    arena_close(a);
}

/* The workshop's person that a name of the curve stands for. */
static kit_person person_of(const kit_workshop *w, text name) {
    static const char like[] = "somebody like ";
    if (name.len > sizeof like && memcmp(name.at, like, sizeof like - 1) == 0)
        name = (text){name.at + sizeof like - 1, name.len - (sizeof like - 1)};
    for (kit_index p = 0; p < w->n_crew; p++)
        if (text_equal(w->crew[p].name.len ? w->crew[p].name : w->crew[p].number, name))
            return w->crew[p];
    fail_msg("nobody is called %.*s", TEXT_ARG(name));
    return (kit_person){0};
}

/* A plan made for the point alone must not contradict it. True when both are proven. */
static bool point_holds(arena *a, const plan_input *in, const plan_curve *c, const plan_curve_point *p) {
    kit_workshop w = *in->workshop;
    w.crew = arena_array(a, kit_person, p->crew);
    w.n_crew = p->crew;
    w.n_attendance = 0;
    for (uint32_t k = 0; k < p->crew; k++)
        w.crew[k] = person_of(in->workshop, k < p->adults ? c->adults[k] : c->learners[k - p->adults]);
    plan_input alone = *in;
    alone.workshop = &w;
    plan *made;
    err e;
    assert_true(plan_make(a, &alone, &made, &e));
    assert_int_equal(made->n_impossible, 0);
    assert_true(made->lower_bound_min <= p->finish_min && p->bound_min <= made->makespan_min);
    if (p->status == PLAN_CURVE_PROVEN && made->proven)
        assert_int_equal(made->makespan_min, p->finish_min);
    return p->status == PLAN_CURVE_PROVEN && made->proven;
}

static void as_plans_of_single_points(void **state) {
    (void)state;
    uint32_t compared = 0, cannot = 0;
    for (uint64_t seed = 1; seed <= 25; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 8);
        plan_curve *c = make_curve(a, &in);
        for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++)
            for (uint32_t n = k; n < PLAN_CURVE_CREW; n++) {
                const plan_curve_point *p = &c->at[k][n], *more = n + 1 < PLAN_CURVE_CREW ? p + 1 : p;
                assert_int_equal(p->adults, k + 1);
                assert_int_equal(p->crew, n + 1);
                cannot += p->status == PLAN_CURVE_CANNOT;
                if (p->status == PLAN_CURVE_CANNOT || p->finish_min < 0)
                    continue;
                assert_true(p->bound_min <= p->finish_min);
                assert_true(p->status ==
                            (p->bound_min == p->finish_min ? PLAN_CURVE_PROVEN : PLAN_CURVE_RANGE));
                if (more->status != PLAN_CURVE_CANNOT)
                    assert_true(more->finish_min <= p->finish_min && more->bound_min <= p->bound_min);
                if ((seed + n) % 7 == 0)
                    compared += point_holds(a, &in, c, p);
            }
        arena_close(a);
    }
    assert_true(compared > 40 && cannot > 40);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(by_hand),
        cmocka_unit_test(as_plans_of_single_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
