/* test_plan_tonight.c: steps that a session cannot hold, and builds with less or later of something. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan_rules.h"
#include "random_build.h"

static void why_steps_are_forbidden(void **state) {
    (void)state;
    arena *a = arena_open();
    kit_named striking = {.number = TEXT("striking")};
    kit_index supervised[] = {0};
    kit_step steps[3];
    for (int n = 0; n < 3; n++)
        steps[n] = (kit_step){.number = TEXT("S"),
                              .sub_assembly = KIT_NONE,
                              .work = KIT_NONE,
                              .zone = KIT_NONE,
                              .low_min = 30,
                              .likely_min = 30,
                              .high_min = 30,
                              .people = 1};
    steps[1].work = 0;
    steps[1].supervision = KIT_BESIDE;
    steps[2].people = 4;
    kit_person crew[] = {{.number = TEXT("a"), .adult = true, .supervises = {supervised, 1}},
                         {.number = TEXT("b"), .adult = true},
                         {.number = TEXT("c")},
                         {.number = TEXT("d")}};
    kit_session sessions[] = {{.number = 1, .day = 20000, .start = 600, .end = 700},
                              {.number = 2, .day = 20007, .start = 600, .end = 700}};
    kit k = {.steps = steps, .n_steps = 3, .works = &striking, .n_works = 1};
    kit_workshop w = {.crew = crew,
                      .n_crew = 4,
                      .sessions = sessions,
                      .n_sessions = 2,
                      .beginners_percent = 100,
                      .minimum_adults = 1,
                      .wanted_day = INT32_MAX};
    plan_input in = {.kit = &k, .workshop = &w, .from = INT64_MIN}, then;
    plan_forbidden *list;
    uint32_t n;
    err e;
    assert_true(plan_find_forbidden(a, &in, 0, &list, &n, &e));
    assert_int_equal(n, 0);
    plan_change away = {PLAN_STAYS_AWAY, 0, 0};
    plan_change_input(a, &in, &away, 1, &then);
    assert_true(plan_find_forbidden(a, &then, 0, &list, &n, &e));
    assert_int_equal(n, 2);
    assert_int_equal(list[0].step, 1);
    assert_string_equal(list[0].reason.at, "nobody who may supervise it is there");
    assert_string_equal(list[1].reason.at, "it takes 4 people and 3 are there");
    assert_true(plan_find_forbidden(a, &then, 1, &list, &n, &e));
    assert_int_equal(n, 0); /* the other session is as it was */
    plan_change both[] = {{PLAN_STAYS_AWAY, 0, 0}, {PLAN_STAYS_AWAY, 1, 0}};
    plan_change_input(a, &in, both, 2, &then);
    assert_true(plan_find_forbidden(a, &then, 0, &list, &n, &e));
    assert_int_equal(n, 3);
    assert_string_equal(list[0].reason.at, "too few adults are there for any work");
    arena_close(a);
}

/* Less or later of anything never makes a build end earlier, and its plan keeps every rule; forbidden steps are not begun there. */
static void less_is_never_earlier(void **state) {
    (void)state;
    uint32_t worse = 0, tried[4] = {0};
    for (uint64_t seed = 1; seed <= 60; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 4 + (uint32_t)(seed % 8)), then;
        plan *p, *q = NULL;
        err e;
        plan_change c = {PLAN_PERSON_GONE, (kit_index)(seed % in.workshop->n_crew), KIT_NONE};
        if (seed % 4 == 1 && in.workshop->n_tools > 0)
            c = (plan_change){PLAN_ONE_LESS_TOOL, in.workshop->tools[0].what, KIT_NONE};
        if (seed % 4 == 2 && in.workshop->n_workplaces > 0)
            c = (plan_change){PLAN_ONE_LESS_WORKPLACE, in.workshop->workplaces[0].what, KIT_NONE};
        if (seed % 4 == 3 && in.n_arrivals > 0)
            c = (plan_change){PLAN_PART_LATER, in.arrivals[0].part, 9};
        tried[c.kind - PLAN_PERSON_GONE]++;
        plan_change_input(a, &in, &c, 1, &then);
        assert_true(plan_change_words(a, &in, c).len > 10);
        assert_true(plan_make(a, &in, &p, &e) && plan_make(a, &then, &q, &e));
        broken_rule why;
        if (!plan_rules_hold(q, &then, &why))
            fail_msg("seed %d: %s: %s", (int)seed, plan_change_words(a, &in, c).at, why.text);
        if (p->proven && q->proven && p->n_steps == q->n_steps && p->n_steps > 0) {
            assert_true(q->makespan_min >= p->makespan_min);
            worse += q->makespan_min > p->makespan_min;
        }
        plan_forbidden *list;
        uint32_t n;
        kit_index first = q->n_sessions && q->sessions[0].dated ? q->sessions[0].session : KIT_NONE;
        assert_true(plan_find_forbidden(a, &then, first, &list, &n, &e));
        for (uint32_t k = 0; k < n; k++) {
            const plan_step *s = plan_find_step(q, list[k].step);
            assert_true(!s || s->session > 0);
        }
        arena_close(a);
    }
    assert_true(worse > 3 && tried[0] > 5 && tried[1] > 3 && tried[2] > 3 && tried[3] > 3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(why_steps_are_forbidden),
        cmocka_unit_test(less_is_never_earlier),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
