/* test_plan_just_in_time.c: putting sub-assemblies off keeps the finish and the buffers, and what is told of the shelf is so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
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

/* ---- by hand ------------------------------------------------------------------------------------------------------- */

enum { FRAME, WHEEL, TYRE, FIT, STEPS };

/* The frame (60 min, main machine) and a wheel of two steps (10 + 15 min) can go side by side; FIT takes both. Buffer 5. */
static plan_input frame_and_wheel(arena *a) {
    static const int64_t minutes[STEPS] = {60, 10, 15, 20};
    kit *k = arena_new(a, kit);
    kit_workshop *w = arena_new(a, kit_workshop);
    k->name = TEXT("cart");
    k->n_steps = STEPS;
    k->steps = arena_array(a, kit_step, STEPS);
    k->n_sub_assemblies = 1;
    k->sub_assemblies = arena_array(a, kit_sub_assembly, 1);
    k->sub_assemblies[0] = (kit_sub_assembly){.number = TEXT("WH"), .name = TEXT("wheel"), .buffer_min = 5};
    for (kit_index s = 0; s < STEPS; s++)
        k->steps[s] = (kit_step){.number = arena_format(a, "S%u", (unsigned)s + 1),
                                 .name = TEXT("work"),
                                 .sub_assembly = s == WHEEL || s == TYRE ? 0 : KIT_NONE,
                                 .work = KIT_NONE,
                                 .zone = KIT_NONE,
                                 .likely_min = minutes[s],
                                 .low_min = minutes[s],
                                 .high_min = minutes[s],
                                 .people = 1};
    k->n_step_after = 3;
    k->step_after = arena_array(a, kit_after, 3);
    k->step_after[0] = (kit_after){0, TYRE, WHEEL};
    k->step_after[1] = (kit_after){0, FIT, TYRE};
    k->step_after[2] = (kit_after){0, FIT, FRAME};
    w->beginners_percent = 100;
    w->minimum_adults = 1;
    w->wanted_day = INT32_MAX;
    w->n_crew = 3;
    w->crew = arena_array(a, kit_person, 3);
    for (kit_index p = 0; p < 3; p++)
        w->crew[p] = (kit_person){.number = arena_format(a, "p%u", (unsigned)p), .adult = p == 0};
    w->n_sessions = 1;
    w->sessions = arena_array(a, kit_session, 1);
    w->sessions[0] = (kit_session){.number = 1, .day = 20000, .start = 1080, .end = 1200};
    return (plan_input){.kit = k, .workshop = w, .from = INT64_MIN};
}

/* FIT starts at 60, so TYRE ends at 55 and starts at 40, and WHEEL starts at 30: half-built for 30 min. */
static void wheel_waits_for_frame(void **state) {
    (void)state;
    arena *a = arena_open();
    plan_input in = frame_and_wheel(a);
    plan *p = make(a, &in);
    assert_int_equal(p->makespan_min, 80);
    assert_int_equal(p->n_units, 1);
    assert_int_equal(plan_find_step(p, WHEEL)->start_min, 30);
    assert_int_equal(plan_find_step(p, TYRE)->start_min, 40);
    assert_int_equal(p->units[0].ready_min, 55);
    assert_int_equal(p->units[0].joined_min, 60);
    assert_int_equal(p->units[0].buffer_min, 5);
    assert_int_equal(p->shelf.unit_min, 30);
    assert_int_equal(p->shelf.most, 1);
    assert_true(p->shelf_least);
    assert_int_equal(plan_find_step(p, WHEEL)->slack_min, 5); /* the buffer */
    arena_close(a);
}

/* The wheel takes 58 min in all: the finish of 80 leaves 2 min of the buffer. */
static void finish_goes_before_buffer(void **state) {
    (void)state;
    arena *a = arena_open();
    plan_input in = frame_and_wheel(a);
    in.kit->steps[TYRE].likely_min = 48;
    plan *p = make(a, &in);
    assert_int_equal(p->makespan_min, 80);
    assert_int_equal(p->units[0].buffer_min, 2);
    assert_int_equal(p->units[0].wanted_buffer_min, 5);
    arena_close(a);
}

/* ---- random builds ---------------------------------------------------------------------------------------------------- */

static bool in_unit(const plan *p, const plan_unit *u, kit_index step) {
    return p->kit->steps[step].sub_assembly == u->sub_assembly;
}

/* Minute by minute, from the steps of the plan alone. */
static void check_shelf(const plan *p) {
    uint32_t most = 0;
    int64_t unit_min = 0;
    for (int32_t minute = 0; minute < p->makespan_min; minute++) {
        uint32_t there = 0;
        for (uint32_t n = 0; n < p->n_units; n++) {
            bool begun = p->units[n].begun_before, gone = p->units[n].joins;
            for (uint32_t k = 0; k < p->n_steps; k++)
                begun =
                    begun || (in_unit(p, &p->units[n], p->steps[k].step) && p->steps[k].start_min <= minute);
            for (uint32_t x = 0; x < p->kit->n_step_after; x++) {
                const kit_after *after = &p->kit->step_after[x];
                const plan_step *join = plan_find_step(p, after->step);
                if (join && plan_find_step(p, after->after) && in_unit(p, &p->units[n], after->after) &&
                    !in_unit(p, &p->units[n], after->step))
                    gone = gone && join->start_min <= minute;
            }
            there += begun && !gone;
        }
        most = there > most ? there : most;
        unit_min += there;
    }
    assert_int_equal(p->shelf.most, most);
    assert_int_equal(p->shelf.unit_min, unit_min);
}

/* From a sub-assembly's end and the delay after it to what it joins at there is the buffer that the plan tells. */
static uint32_t check_buffers(const plan *p) {
    uint32_t n_checked = 0;
    for (uint32_t x = 0; x < p->kit->n_step_after; x++) {
        const kit_step *s = &p->kit->steps[p->kit->step_after[x].after];
        const plan_step *before = plan_find_step(p, p->kit->step_after[x].after),
                        *after = plan_find_step(p, p->kit->step_after[x].step);
        for (uint32_t n = 0; before && after && n < p->n_units; n++) {
            if (!in_unit(p, &p->units[n], before->step) || in_unit(p, &p->units[n], after->step))
                continue;
            assert_true(p->units[n].buffer_min >= 0);
            assert_true(p->units[n].buffer_min <= p->units[n].wanted_buffer_min);
            if (s->delay_clock == KIT_WORKING_TIME || s->delay_min == 0)
                assert_true(after->start_min >= before->end_min + s->delay_min + p->units[n].buffer_min);
            n_checked += p->units[n].buffer_min > 0;
        }
    }
    return n_checked;
}

static void finish_and_buffers_are_kept(void **state) {
    (void)state;
    uint32_t less = 0, least = 0, buffers = 0, units = 0, more = 0;
    for (uint64_t seed = 1; seed <= 80; seed += 2) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 4 + (uint32_t)(seed % 12));
        plan_input finish_only = in;
        broken_rule why;
        finish_only.finish_only = true;
        plan *p = make(a, &in), *q = make(a, &finish_only);
        if (!plan_rules_hold(p, &in, &why))
            fail_msg("seed %u: %s", (unsigned)seed, why.text);
        assert_int_equal(p->makespan_min, q->makespan_min);
        assert_int_equal(p->lower_bound_min, q->lower_bound_min);
        assert_int_equal(p->n_units, q->n_units);
        assert_int_equal(p->early_shelf.unit_min, q->shelf.unit_min);
        assert_int_equal(p->early_shelf.most, q->shelf.most);
        check_shelf(p);
        check_shelf(q);
        buffers += check_buffers(p);
        units += p->n_units;
        less += p->shelf.unit_min < q->shelf.unit_min;
        more += p->shelf.unit_min > q->shelf.unit_min; /* only for a buffer that it did not have */
        least += p->n_units > 0 && p->shelf_least;
        arena_close(a);
    }
    print_message("%u sub-assemblies, %u buffers, shelf less in %u builds, more in %u, proven least in %u\n",
                  units, buffers, less, more, least);
    assert_true(units > 20 && buffers > 10 && less > 10 && least > 5 && more < less / 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(wheel_waits_for_frame),
                                       cmocka_unit_test(finish_goes_before_buffer),
                                       cmocka_unit_test(finish_and_buffers_are_kept)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
