/* test_plan_chase.c: the last day that costs nothing is that day and no other, and orders are counted backward from the plan. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan/late_parts.h"
#include "random_build.h"

/* The plan when all that is lacking of `part` comes at `at` (INT64_MIN: is here), and of parts nobody promised all is here. */
static plan_outcome finish_with(arena *a, const plan_input *in, const plan_chase *c, kit_index part,
                                date_moment at) {
    plan_input then = *in;
    int64_t *usable = arena_array(a, int64_t, in->kit->n_parts);
    plan_arrival *arrivals = arena_array(a, plan_arrival, (size_t)in->n_arrivals + 1);
    memcpy(usable, in->usable, in->kit->n_parts * sizeof *usable);
    then.n_arrivals = 0;
    for (uint32_t k = 0; k < c->n_parts; k++) {
        const plan_late_part *x = &c->parts[k];
        if (x->part != part && x->promised)
            continue;
        if (x->part != part || at == INT64_MIN)
            usable[x->part] += x->lacking;
        else
            arrivals[then.n_arrivals++] = (plan_arrival){part, x->lacking, at};
    }
    for (uint32_t k = 0; k < in->n_arrivals; k++)
        if (in->arrivals[k].part != part)
            arrivals[then.n_arrivals++] = in->arrivals[k];
    then.usable = usable;
    then.arrivals = arrivals;
    then.finish_only = true;
    plan *p;
    err e;
    if (!plan_make(a, &then, &p, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return plan_outcome_of(p);
}

static date_day next_session(const plan_input *in, date_day day) {
    date_day next = INT32_MAX;
    for (kit_index s = 0; s < in->workshop->n_sessions; s++)
        if (in->workshop->sessions[s].day > day && in->workshop->sessions[s].day < next)
            next = in->workshop->sessions[s].day;
    return next;
}

static void last_free_day_is_the_last(void **state) {
    (void)state;
    uint32_t parts = 0, sure = 0, moved = 0, costs = 0, weeks = 0, held = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        arena *a = arena_open();
        plan_input in = random_build_small(a, seed, 3 + (uint32_t)(seed % 6), 3);
        plan_chase *c;
        err e;
        assert_true(plan_ask_chase(a, &in, &c, &e));
        for (uint32_t k = 0; k < c->n_parts; k++) {
            const plan_late_part *x = &c->parts[k];
            plan_outcome best = finish_with(a, &in, c, x->part, INT64_MIN);
            parts++;
            held += x->n_held_up > 0;
            if (!x->sure || !best.proven)
                continue;
            sure++;
            assert_int_equal(plan_compare_outcomes(&best, &x->best), 0);
            plan_outcome at = finish_with(a, &in, c, x->part, (date_moment)x->last_free * 1440);
            if (at.proven && plan_compare_outcomes(&at, &best) != 0)
                fail_msg("seed %u part %u: the last free day is not free", (unsigned)seed, (unsigned)x->part);
            date_day next = next_session(&in, x->last_free);
            if (next != INT32_MAX) {
                plan_outcome later = finish_with(a, &in, c, x->part, (date_moment)next * 1440);
                if (plan_compare_outcomes(&later, &best) <= 0)
                    fail_msg("seed %u part %u: a later day is free too", (unsigned)seed, (unsigned)x->part);
                moved++;
            }
            for (uint32_t w = 0; w < PLAN_LATE_WEEKS; w++) {
                int32_t days, minutes;
                assert_true(plan_compare_outcomes(&x->week[w], &best) >= 0);
                if (w > 0)
                    assert_true(plan_compare_outcomes(&x->week[w], &x->week[w - 1]) >= 0);
                weeks += plan_cost_of(&best, &x->week[w], &days, &minutes) && minutes > 0;
            }
            costs += x->promised && plan_compare_outcomes(&x->as_promised, &best) > 0;
        }
        for (uint32_t k = 1; k < c->n_parts; k++)
            assert_true(!c->parts[k - 1].promised || c->parts[k].promised);
        arena_close(a);
    }
    print_message(
        "%u parts, %u sure, %u with a day after the last free one, %u promises that cost, %u weeks that do, %u hold up "
        "steps\n",
        parts, sure, moved, costs, weeks, held);
    assert_true(sure > 20 && moved > 8 && costs > 2 && weeks > 8 && held > 15);
}

/* One consumable of three days, used by the second of two steps, which comes a week later; a tool that the workshop lacks. */
static void orders_are_counted_backward(void **state) {
    (void)state;
    arena *a = arena_open();
    kit *k = arena_new(a, kit);
    kit_workshop *w = arena_new(a, kit_workshop);
    k->n_steps = 2;
    k->steps = arena_array(a, kit_step, 2);
    for (kit_index s = 0; s < 2; s++)
        k->steps[s] = (kit_step){.number = s ? TEXT("S2") : TEXT("S1"),
                                 .sub_assembly = KIT_NONE,
                                 .work = KIT_NONE,
                                 .zone = KIT_NONE,
                                 .likely_min = 60,
                                 .people = 1};
    k->n_step_after = 1;
    k->step_after = arena_array(a, kit_after, 1);
    k->step_after[0] = (kit_after){0, 1, 0};
    k->n_consumables = 1;
    k->consumables = arena_array(a, kit_consumable, 1);
    k->consumables[0].days_to_obtain = 3;
    k->n_step_consumables = 1;
    k->step_consumables = arena_array(a, kit_step_consumable, 1);
    k->step_consumables[0] = (kit_step_consumable){0, 1, 0, 250};
    k->n_tools = 2;
    k->tools = arena_array(a, kit_tool, 2);
    k->tools[1].days_to_obtain = 10;
    k->n_step_tools = 2;
    k->step_tools = arena_array(a, kit_step_tool, 2);
    k->step_tools[0] = (kit_step_tool){0, 0, 0, 1};
    k->step_tools[1] = (kit_step_tool){0, 0, 1, 2};
    w->beginners_percent = 100;
    w->minimum_adults = 1;
    w->longest_wait_min = 45;
    w->n_crew = 1;
    w->crew = arena_array(a, kit_person, 1);
    w->crew[0] = (kit_person){.number = TEXT("p1"), .adult = true};
    w->n_sessions = 2;
    w->sessions = arena_array(a, kit_session, 2);
    w->sessions[0] = (kit_session){.number = 1, .day = 20000, .start = 1080, .end = 1170};
    w->sessions[1] = (kit_session){.number = 2, .day = 20007, .start = 1080, .end = 1170};
    w->n_tools = 1;
    w->tools = arena_array(a, kit_owned, 1);
    w->tools[0] = (kit_owned){.what = 0, .quantity = 1};
    plan_input in = {.kit = k, .workshop = w, .from = INT64_MIN};
    plan_chase *c;
    err e;
    assert_true(plan_ask_chase(a, &in, &c, &e));
    assert_int_equal(c->n_parts, 0);
    assert_int_equal(c->n_orders, 2);
    assert_true(c->orders[0].is_tool); /* needed on day 20000, ten days before */
    assert_int_equal(c->orders[0].quantity, 2);
    assert_int_equal(c->orders[0].order_by, 19990);
    assert_false(c->orders[1].is_tool); /* 60 min are left of 90, so S2 waits for the second evening */
    assert_int_equal(c->orders[1].quantity, 250);
    assert_int_equal(c->orders[1].order_by, 20004);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(last_free_day_is_the_last),
                                       cmocka_unit_test(orders_are_counted_backward)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
