/* test_sched_rules.c: each kind of rule on the smallest problem that shows it, worked out by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "sched/sched.h"

/* Solves, expects a makespan proven or not, and closes the problem. */
static void expect_makespan(sched_problem *p, int32_t makespan) {
    sched_options o = sched_default_options();
    o.effort = 100000;
    sched_result *r;
    sched_fault fault = {0};
    bool ok = sched_solve(p, &o, &r, &fault);
    assert_string_equal(fault.text, "");
    assert_true(ok);
    assert_int_equal(r->status, SCHED_OPTIMAL);
    assert_int_equal(r->makespan, makespan);
    assert_int_equal(r->lower_bound, makespan);
    int32_t checked = -1;
    assert_true(sched_check(p, r->starts, &checked, &fault));
    assert_int_equal(checked, makespan);
    sched_result_close(r);
    sched_close(p);
}

static void empty_problem_ends_at_zero(void **state) {
    (void)state;
    expect_makespan(sched_open(), 0);
}

static void one_spanner_serves_one_task_at_a_time(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t spanner = sched_add_resource(p, 1);
    int32_t a = sched_add_task(p, 30), b = sched_add_task(p, 20);
    sched_set_demand(p, a, spanner, 1);
    sched_set_demand(p, b, spanner, 1);
    expect_makespan(p, 50);
}

static void capacity_changes_within_its_stretch_only(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t people = sched_add_resource(p, 2);
    sched_set_capacity(p, people, 5, 10, 1);
    int32_t a = sched_add_task(p, 6);
    sched_set_demand(p, a, people, 2);
    expect_makespan(p, 16);
}

static void a_kept_cut_is_not_crossed(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    sched_add_cut(p, 10);
    sched_add_cut(p, 20);
    int32_t a = sched_add_task(p, 6), b = sched_add_task(p, 6);
    sched_set_crossing(p, a, SCHED_CUT_KEPT, 0);
    sched_set_crossing(p, b, SCHED_CUT_KEPT, 0);
    sched_add_relation(p, SCHED_END_START, a, b, 0, SCHED_NONE);
    expect_makespan(p, 16);
}

static void a_costly_cut_adds_its_extra(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    sched_add_cut(p, 10);
    int32_t a = sched_add_task(p, 12);
    sched_set_crossing(p, a, SCHED_CUT_COSTS, 3);
    assert_int_equal(sched_end_of(p, a, 0), 15);
    assert_int_equal(sched_end_of(p, a, 9), 24);
    assert_int_equal(sched_end_of(p, a, 10), 22);
    expect_makespan(p, 15);
}

static void delays_count_from_start_or_end(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t a = sched_add_task(p, 10), b = sched_add_task(p, 1), c = sched_add_task(p, 1);
    sched_add_relation(p, SCHED_END_START, a, b, 4, SCHED_NONE);
    sched_add_relation(p, SCHED_START_START, a, c, 18, SCHED_NONE);
    expect_makespan(p, 19);
}

static void a_map_counts_a_delay_on_another_clock(void **state) {
    (void)state;
    /* Working minutes 0..9 lie on day one, 10.. on day two; glue must set until day two. */
    sched_problem *p = sched_open();
    const sched_map_piece night[] = {{0, 10, 0}, {10, 20, 0}, {20, 30, 1}};
    int32_t map = sched_add_map(p, night, 3);
    int32_t a = sched_add_task(p, 3), b = sched_add_task(p, 2);
    sched_add_relation(p, SCHED_END_START, a, b, 0, map);
    expect_makespan(p, 12);
}

static void windows_releases_and_fixed_starts_hold(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t a = sched_add_task(p, 2), b = sched_add_task(p, 2), c = sched_add_task(p, 1);
    sched_allow_starts(p, a, 7, 8);
    sched_allow_starts(p, a, 3, 3);
    sched_set_release(p, a, 4);
    sched_fix_start(p, b, 5);
    sched_forbid_overlap(p, a, b);
    sched_add_relation(p, SCHED_END_START, a, c, 0, SCHED_NONE);
    expect_makespan(p, 10);
}

static void pairs_and_sets_keep_apart(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t t[3];
    for (int i = 0; i < 3; i++)
        t[i] = sched_add_task(p, 4);
    sched_forbid_all_overlap(p, t, 3);
    expect_makespan(p, 8);
}

static void stock_is_drawn_only_when_it_is_there(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t bolts = sched_add_reservoir(p, 3);
    sched_add_arrival(p, bolts, 12, 2);
    int32_t a = sched_add_task(p, 1), b = sched_add_task(p, 1);
    sched_set_draw(p, a, bolts, 2);
    sched_set_draw(p, b, bolts, 3);
    expect_makespan(p, 13);
}

static void room_on_a_shelf_is_given_back(void **state) {
    (void)state;
    /* One place: the second unit waits until the first has been fitted. */
    sched_problem *p = sched_open();
    int32_t shelf = sched_add_reservoir(p, 1);
    for (int u = 0; u < 2; u++) {
        int32_t build = sched_add_task(p, 5), fit = sched_add_task(p, 3);
        sched_add_relation(p, SCHED_END_START, build, fit, 0, SCHED_NONE);
        sched_set_draw(p, build, shelf, 1);
        sched_set_give(p, fit, shelf, 1);
    }
    expect_makespan(p, 16);
}

static void impossible_demand_tells_task_and_resource(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t crane = sched_add_resource(p, 1);
    sched_add_task(p, 1);
    int32_t a = sched_add_task(p, 1);
    sched_set_demand(p, a, crane, 2);
    sched_options o = sched_default_options();
    sched_result *r;
    sched_fault fault;
    assert_true(sched_solve(p, &o, &r, &fault));
    assert_int_equal(r->status, SCHED_INFEASIBLE);
    assert_int_equal(r->reason_task_count, 1);
    assert_int_equal(r->reason_tasks[0], a);
    assert_int_equal(r->reason_resource_count, 1);
    assert_int_equal(r->reason_resources[0], crane);
    sched_result_close(r);
    sched_close(p);
}

static void faults_are_told_all_at_once(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t a = sched_add_task(p, 1), b = sched_add_task(p, -5);
    sched_add_relation(p, SCHED_END_START, a, b, 0, SCHED_NONE);
    sched_add_relation(p, SCHED_END_START, b, a, 0, SCHED_NONE);
    sched_set_release(p, 7, 0);
    sched_fault f[4];
    assert_int_equal(sched_validate(p, f, 4), 3);
    assert_int_equal(f[0].code, SCHED_FAULT_VALUE);
    assert_string_equal(f[0].text, "task 1: duration -5 is outside 0 .. 100000000");
    assert_int_equal(f[1].code, SCHED_FAULT_INDEX);
    assert_int_equal(f[2].code, SCHED_FAULT_CYCLE);
    sched_close(p);
}

static void the_checker_sees_each_broken_rule(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t r = sched_add_resource(p, 1), v = sched_add_reservoir(p, 1);
    int32_t a = sched_add_task(p, 5), b = sched_add_task(p, 5);
    sched_set_demand(p, a, r, 1);
    sched_set_demand(p, b, r, 1);
    sched_set_draw(p, a, v, 1);
    sched_set_draw(p, b, v, 1);
    sched_add_arrival(p, v, 8, 1);
    sched_set_deadline(p, b, 20);
    sched_fault f;
    int32_t makespan;
    assert_true(sched_check(p, (int32_t[]){0, 8}, &makespan, &f));
    assert_int_equal(makespan, 13);
    assert_false(sched_check(p, (int32_t[]){0, 4}, &makespan, &f));  /* overlap on r */
    assert_false(sched_check(p, (int32_t[]){0, 5}, &makespan, &f));  /* second piece not there yet */
    assert_false(sched_check(p, (int32_t[]){0, 16}, &makespan, &f)); /* past the deadline */
    assert_false(sched_check(p, (int32_t[]){-1, 8}, &makespan, &f));
    sched_close(p);
}

/* Two tasks run side by side until a check says they must not. */
static bool no_two_at_once(void *user, const int32_t *starts, sched_refusal *why) {
    ++*(int *)user;
    const int32_t both[] = {0, 1};
    if (starts[0] < starts[1] + 4 && starts[1] < starts[0] + 4) {
        sched_refuse_overlap(why, both, 2);
        return false;
    }
    return true;
}

/* The second must not start before 3 unless the first starts at 5 or later. */
static bool not_both_early(void *user, const int32_t *starts, sched_refusal *why) {
    ++*(int *)user;
    const sched_start_bound early[] = {{0, true, 4}, {1, true, 2}};
    if (starts[0] <= 4 && starts[1] <= 2) {
        sched_refuse_bounds(why, early, 2);
        return false;
    }
    return true;
}

static bool refuse_without_reason(void *user, const int32_t *starts, sched_refusal *why) {
    (void)user;
    (void)starts;
    (void)why;
    return false;
}

static void check_refusals(bool (*check)(void *, const int32_t *, sched_refusal *), int32_t makespan) {
    sched_problem *p = sched_open();
    sched_add_task(p, 4);
    sched_add_task(p, 4);
    int asked = 0;
    sched_options o = sched_default_options();
    o.check = check;
    o.user = &asked;
    sched_result *r;
    sched_fault fault;
    assert_true(sched_solve(p, &o, &r, &fault));
    assert_int_equal(r->status, SCHED_OPTIMAL);
    assert_int_equal(r->makespan, makespan);
    assert_in_range(asked, 2, 5);
    sched_result_close(r);
    sched_close(p);
}

static void a_refused_schedule_is_learned_from(void **state) {
    (void)state;
    check_refusals(no_two_at_once, 8);
    check_refusals(not_both_early, 7);
}

/* Refuses as no_two_at_once and suggests one after the other; or what is wrong, with `wrong` in the place after the count. */
static bool suggest_in_turn(void *user, const int32_t *starts, sched_refusal *why) {
    const int *wrong = (const int *)user + 1;
    bool accepted = no_two_at_once(user, starts, why);
    if (!accepted)
        sched_suggest_instead(why, *wrong ? (const int32_t[]){0, 3} : (const int32_t[]){0, 4});
    return accepted;
}

static void a_suggested_schedule_is_taken_when_it_is_right(void **state) {
    (void)state;
    for (int wrong = 0; wrong < 2; wrong++) {
        sched_problem *p = sched_open();
        sched_add_task(p, 4);
        sched_add_task(p, 4);
        int asked[] = {0, wrong};
        sched_options o = sched_default_options();
        o.check = suggest_in_turn;
        o.user = asked;
        sched_result *r;
        sched_fault fault;
        assert_true(sched_solve(p, &o, &r, &fault));
        assert_int_equal(r->status, SCHED_OPTIMAL);
        assert_int_equal(r->makespan, 8); /* {0, 3} ends at 7, and breaks what was refused */
        if (wrong)
            assert_true(asked[0] > 1);
        else
            assert_int_equal(asked[0], 1); /* the suggestion is not asked about, and nothing beats it */
        sched_result_close(r);
        sched_close(p);
    }
}

static void a_refusal_needs_a_reason(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    sched_add_task(p, 4);
    sched_options o = sched_default_options();
    o.check = refuse_without_reason;
    sched_result *r;
    sched_fault fault;
    assert_false(sched_solve(p, &o, &r, &fault));
    assert_int_equal(fault.code, SCHED_FAULT_INTERNAL);
    assert_null(r);
    sched_close(p);
}

static void deadlines_that_cannot_all_be_met_are_proven_so(void **state) {
    (void)state;
    sched_problem *p = sched_open();
    int32_t bench = sched_add_resource(p, 1);
    for (int i = 0; i < 3; i++) {
        int32_t t = sched_add_task(p, 4);
        sched_set_demand(p, t, bench, 1);
        sched_set_deadline(p, t, 11);
    }
    sched_options o = sched_default_options();
    sched_result *r;
    sched_fault fault;
    assert_true(sched_solve(p, &o, &r, &fault));
    assert_int_equal(r->status, SCHED_INFEASIBLE);
    sched_result_close(r);
    sched_close(p);
}

/* ---- long times -------------------------------------------------------------------------------------------- */

enum { DAY = 1440, LONG = 20000 * DAY };

static void watch_days(void *user, const sched_progress *now) {
    int32_t *seen = user;
    assert_int_equal(now->lower_bound % DAY, 0);
    assert_true(now->best == SCHED_NONE || now->best % DAY == 0);
    *seen = now->best;
}

/* Three of four jobs that need the one crane, told in minutes over decades: without a coarser unit there is no memory for a table of all
 * minutes. The deadline is no multiple of anything. */
static sched_problem *decades(int32_t deadline) {
    sched_problem *p = sched_open();
    int32_t crane = sched_add_resource(p, 1);
    for (int32_t i = 0; i < 4; i++) {
        sched_add_task(p, (i + 1) * 1000 * DAY);
        sched_set_demand(p, i, crane, i > 0);
    }
    sched_add_relation(p, SCHED_END_START, 0, 1, 500 * DAY, SCHED_NONE);
    sched_set_deadline(p, 3, deadline);
    sched_set_horizon(p, LONG + 17);
    return p;
}

static void long_times_are_counted_in_a_coarser_unit(void **state) {
    (void)state;
    const int32_t known[] = {0, 8000 * DAY + 3, 11000 * DAY, 1};
    int32_t seen = 0;
    sched_problem *p = decades(4000 * DAY + 1);
    sched_options o = sched_default_options();
    o.progress = watch_days;
    o.user = &seen;
    o.known_starts = known;
    o.known_lower_bound = 100 * DAY + 1;
    sched_result *r;
    sched_fault fault;
    assert_true(sched_solve(p, &o, &r, &fault));
    assert_int_equal(r->status, SCHED_OPTIMAL);
    assert_int_equal(r->makespan, 9000 * DAY);
    assert_int_equal(r->lower_bound, 9000 * DAY);
    assert_int_equal(seen, 9000 * DAY);
    assert_int_equal(r->starts[3], 0);
    assert_int_equal(r->ends[3], 4000 * DAY);
    int32_t makespan;
    assert_true(sched_check(p, r->starts, &makespan, &fault));
    sched_result_close(r);
    sched_close(p);
}

static void reasons_tell_times_in_the_unit_of_the_problem(void **state) {
    (void)state;
    sched_problem *p = decades(4000 * DAY - 1);
    sched_options o = sched_default_options();
    sched_result *r;
    sched_fault fault;
    sched_set_release(p, 3, 10 * DAY);
    assert_true(sched_solve(p, &o, &r, &fault));
    assert_int_equal(r->status, SCHED_INFEASIBLE);
    /* Its last start in whole units before minute -1. */
    assert_non_null(strstr(r->reason, "task 3 cannot start before 14400 "));
    sched_result_close(r);
    sched_close(p);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(empty_problem_ends_at_zero),
        cmocka_unit_test(one_spanner_serves_one_task_at_a_time),
        cmocka_unit_test(capacity_changes_within_its_stretch_only),
        cmocka_unit_test(a_kept_cut_is_not_crossed),
        cmocka_unit_test(a_costly_cut_adds_its_extra),
        cmocka_unit_test(delays_count_from_start_or_end),
        cmocka_unit_test(a_map_counts_a_delay_on_another_clock),
        cmocka_unit_test(windows_releases_and_fixed_starts_hold),
        cmocka_unit_test(pairs_and_sets_keep_apart),
        cmocka_unit_test(stock_is_drawn_only_when_it_is_there),
        cmocka_unit_test(room_on_a_shelf_is_given_back),
        cmocka_unit_test(impossible_demand_tells_task_and_resource),
        cmocka_unit_test(a_refused_schedule_is_learned_from),
        cmocka_unit_test(a_suggested_schedule_is_taken_when_it_is_right),
        cmocka_unit_test(a_refusal_needs_a_reason),
        cmocka_unit_test(deadlines_that_cannot_all_be_met_are_proven_so),
        cmocka_unit_test(faults_are_told_all_at_once),
        cmocka_unit_test(the_checker_sees_each_broken_rule),
        cmocka_unit_test(long_times_are_counted_in_a_coarser_unit),
        cmocka_unit_test(reasons_tell_times_in_the_unit_of_the_problem),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
