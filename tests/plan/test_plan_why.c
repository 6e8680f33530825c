/* test_plan_why.c: changes do what they say, and what `why` tells of each is what planning with it gives. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan_rules.h"
#include "random_build.h"

static plan *make(arena *a, const plan_input *in) {
    plan *p;
    err e;
    if (!plan_make(a, in, &p, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return p;
}

/* Two steps of 60 min that each take the one spanner; four people; one evening of 150 min, then another. */
static plan_input two_steps(arena *a) {
    kit *k = arena_new(a, kit);
    kit_workshop *w = arena_new(a, kit_workshop);
    k->name = TEXT("bench");
    k->n_steps = 2;
    k->steps = arena_array(a, kit_step, 2);
    k->n_tools = 1;
    k->tools = arena_array(a, kit_tool, 1);
    k->tools[0].number = TEXT("T-03");
    k->tools[0].name = TEXT("ring spanner 13 mm");
    k->n_step_tools = 2;
    k->step_tools = arena_array(a, kit_step_tool, 2);
    for (kit_index s = 0; s < 2; s++) {
        k->steps[s] = (kit_step){.number = s ? TEXT("S2") : TEXT("S1"),
                                 .name = TEXT("tighten"),
                                 .sub_assembly = KIT_NONE,
                                 .work = KIT_NONE,
                                 .zone = KIT_NONE,
                                 .likely_min = 60,
                                 .low_min = 60,
                                 .high_min = 60,
                                 .people = 1};
        k->step_tools[s] = (kit_step_tool){0, s, 0, 1};
    }
    w->beginners_percent = 100;
    w->minimum_adults = 1;
    w->n_crew = 4;
    w->crew = arena_array(a, kit_person, 4);
    for (kit_index p = 0; p < 4; p++)
        w->crew[p] = (kit_person){.number = arena_format(a, "p%u", (unsigned)p),
                                  .name = arena_format(a, "Person %u", (unsigned)p),
                                  .adult = p == 0};
    w->n_sessions = 2;
    w->sessions = arena_array(a, kit_session, 2);
    w->sessions[0] = (kit_session){0, 1, 20000, 1080, 1170, 0, 0, false};
    w->sessions[1] = (kit_session){0, 2, 20007, 1080, 1170, 0, 0, false};
    w->n_tools = 1;
    w->tools = arena_array(a, kit_owned, 1);
    w->tools[0] = (kit_owned){0, 0, 1};
    w->wanted_day = 20000;
    return (plan_input){.kit = k, .workshop = w, .from = INT64_MIN};
}

static void a_second_spanner_is_what_helps(void **state) {
    (void)state;
    arena *a = arena_open();
    plan_input in = two_steps(a);
    plan *p = make(a, &in);
    plan_why *w;
    err e;
    assert_true(plan_ask_why(a, &in, p, &w, &e));
    assert_int_equal(p->makespan_min, 150);
    /* by hand: both in the first evening, 60 min, a week earlier; or one more evening on day 20001, six days earlier */
    assert_true(w->effects[0].change.kind == PLAN_ONE_MORE_TOOL);
    assert_int_equal(w->effects[0].days_earlier, 7);
    assert_true(w->effects[0].sure);
    assert_string_equal(
        w->effects[0].sentence.at,
        "With one more ring spanner 13 mm (T-03) the build ends 7 days earlier: Friday 2024-10-04 "
        "19:00.");
    assert_true(w->effects[1].change.kind == PLAN_ONE_MORE_SESSION);
    assert_int_equal(w->effects[1].days_earlier, 6);
    for (uint32_t k = 2; k < w->n_effects; k++)
        assert_true(w->effects[k].min_earlier == 0 && w->effects[k].sure);
    assert_true(w->wanted && !w->met && w->least);
    assert_int_equal(w->n_enough, 1);
    assert_true(w->enough[0].kind == PLAN_ONE_MORE_TOOL);
    arena_close(a);
}

static void changes_are_made(void **state) {
    (void)state;
    arena *a = arena_open();
    plan_input in = two_steps(a), then;
    plan_change away = {PLAN_STAYS_AWAY, 0, 0}, cancelled = {PLAN_SESSION_CANCELLED, 0, KIT_NONE};
    plan_change_input(a, &in, &away, 1, &then); /* the only adult: nobody may work that evening */
    plan *p = make(a, &then);
    broken_rule why;
    assert_true(plan_rules_hold(p, &then, &why));
    assert_int_equal(p->steps[0].start_min, 90);
    plan_change_input(a, &in, &cancelled, 1, &then);
    p = make(a, &then);
    assert_true(plan_rules_hold(p, &then, &why));
    assert_int_equal(p->sessions[0].session, 1);
    assert_int_equal(in.workshop->n_attendance, 0); /* the input stays as it was */
    arena_close(a);
}

/* Each effect that is called sure is what planning with the change alone gives, and that plan keeps every rule. */
static void effects_are_what_planning_gives(void **state) {
    (void)state;
    uint32_t sure = 0, gains = 0, more_steps = 0, kinds[PLAN_PART_HERE + 1] = {0};
    for (uint64_t seed = 1; seed <= 40; seed++) {
        arena *a = arena_open();
        plan_input in = random_build_small(a, seed, 3 + (uint32_t)(seed % 6), 5);
        in.effort = 3000;
        plan *p = make(a, &in);
        plan_why *w;
        err e;
        assert_true(plan_ask_why(a, &in, p, &w, &e));
        for (uint32_t k = 0; k < w->n_effects; k++) {
            const plan_effect *x = &w->effects[k];
            plan_input then;
            broken_rule why;
            plan_change_input(a, &in, &x->change, 1, &then);
            plan *q = make(a, &then);
            if (!plan_rules_hold(q, &then, &why))
                fail_msg("seed %u, %s: %s", (unsigned)seed, plan_change_words(a, &in, x->change).at,
                         why.text);
            plan_outcome o = plan_outcome_of(q);
            if (k > 0)
                assert_true(plan_compare_outcomes(&w->effects[k - 1].then, &x->then) <= 0);
            if (!x->sure)
                continue;
            sure++;
            gains += x->min_earlier > 0;
            more_steps += x->more_steps > 0;
            kinds[x->change.kind] += x->min_earlier > 0 || x->more_steps > 0;
            if (plan_compare_outcomes(&o, &x->then) != 0)
                fail_msg("seed %u, %s: not what planning gives", (unsigned)seed,
                         plan_change_words(a, &in, x->change).at);
        }
        arena_close(a);
    }
    print_message(
        "%u sure effects, %u earlier, %u with more steps; person %u, always %u, tool %u, workplace %u, "
        "session %u, part %u\n",
        sure, gains, more_steps, kinds[PLAN_ONE_MORE_PERSON], kinds[PLAN_ALWAYS_THERE],
        kinds[PLAN_ONE_MORE_TOOL], kinds[PLAN_ONE_MORE_WORKPLACE], kinds[PLAN_ONE_MORE_SESSION],
        kinds[PLAN_PART_HERE]);
    assert_true(sure > 100 && gains > 20 && more_steps > 5);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_second_spanner_is_what_helps),
                                       cmocka_unit_test(changes_are_made),
                                       cmocka_unit_test(effects_are_what_planning_gives)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
