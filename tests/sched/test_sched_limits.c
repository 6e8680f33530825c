/* test_sched_limits.c: solves that are cut off, watched, given something to begin with, or judged by the caller, on the solved
 * problems of cases/random.txt: nothing false is said, and what is proven is what the other solver found. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "case_list.h"

static case_list cases;

/* What may be said of a solve that was cut off: nothing false. */
static void expect_honest(const case_entry *c, const sched_result *r) {
    if (c->feasible) {
        assert_int_not_equal(r->status, SCHED_INFEASIBLE);
        assert_true(r->lower_bound <= c->makespan);
        assert_true(r->makespan == SCHED_NONE || r->makespan >= c->makespan);
    } else {
        assert_true(r->status == SCHED_INFEASIBLE || r->status == SCHED_UNKNOWN);
    }
    assert_int_equal(r->status == SCHED_OPTIMAL, r->makespan != SCHED_NONE && r->makespan == r->lower_bound);
    assert_int_equal(r->makespan == SCHED_NONE, r->starts == NULL);
    if (r->makespan != c->makespan || !c->feasible)
        return;
    for (int k = 0; k < r->objective_count; k++) { /* bounds of the second objective hold given the first */
        assert_true(r->objective_bound[k] <= r->objective[k]);
        if (k == 0)
            assert_true(r->objective[0] >= c->objective[0] && r->objective_bound[0] <= c->objective[0]);
    }
}

/* ---- limits ------------------------------------------------------------------------------------------------ */

static void the_same_effort_gives_the_same_answer(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        for (uint64_t effort = 1; effort <= 1000; effort *= 10) {
            sched_options o = sched_default_options();
            o.effort = effort;
            o.seed = (uint64_t)k;
            sched_result *a = case_solve(c, p, &o), *b = case_solve(c, p, &o);
            expect_honest(c, a);
            assert_int_equal(a->status, b->status);
            assert_int_equal(a->makespan, b->makespan);
            assert_int_equal(a->lower_bound, b->lower_bound);
            assert_int_equal(a->effort, b->effort);
            assert_int_equal(a->schedules, b->schedules);
            assert_int_equal(a->conflicts, b->conflicts);
            if (a->starts)
                assert_memory_equal(a->starts, b->starts, (size_t)a->task_count * sizeof(int32_t));
            sched_result_close(a);
            sched_result_close(b);
        }
        sched_close(p);
    }
}

static void little_memory_is_kept_and_nothing_false_said(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        for (uint64_t limit = 1 << 10; limit <= 1 << 20; limit *= 4) {
            sched_options o = sched_default_options();
            o.effort = 1000;
            o.memory_bytes = limit;
            sched_result *r;
            sched_fault fault;
            if (sched_solve(p, &o, &r, &fault)) {
                expect_honest(c, r);
                assert_true(r->memory_peak <= limit);
            } else {
                assert_int_equal(fault.code, SCHED_FAULT_MEMORY);
            }
            sched_result_close(r);
        }
        sched_close(p);
    }
}

static void a_cancelled_solve_ends_with_what_it_has(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        sched_cancel cancel = {0};
        sched_ask_cancel(&cancel);
        sched_options o = sched_default_options();
        o.cancel = &cancel;
        sched_result *r = case_solve(c, p, &o);
        expect_honest(c, r);
        assert_int_equal(r->conflicts, 0);
        sched_result_close(r);
        sched_close(p);
    }
}

typedef struct {
    int32_t best, bound;
    int calls;
} watch;

static void watch_progress(void *user, const sched_progress *now) {
    watch *w = user;
    assert_true(w->best == SCHED_NONE || (now->best != SCHED_NONE && now->best <= w->best));
    assert_true(now->lower_bound >= w->bound);
    assert_true(now->best == SCHED_NONE || now->lower_bound <= now->best);
    *w = (watch){now->best, now->lower_bound, w->calls + 1};
}

static void progress_only_gets_better(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        watch w = {SCHED_NONE, 0, 0};
        sched_options o = sched_default_options();
        o.progress = watch_progress;
        o.user = &w;
        sched_result *r = case_solve(c, p, &o);
        case_expect_answer(c, r, 1);
        if (c->feasible) {
            assert_true(w.calls > 0);
            assert_int_equal(w.best, c->makespan);
        }
        sched_result_close(r);
        sched_close(p);
    }
}

static void what_is_known_is_used_and_changes_nothing(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        sched_result *first = case_solve(c, p, NULL);
        if (c->feasible) {
            sched_options o = sched_default_options();
            o.known_starts = first->starts;
            o.known_lower_bound = (int32_t)c->makespan;
            sched_result *again = case_solve(c, p, &o);
            case_expect_answer(c, again, 1);
            sched_result_close(again);
            int32_t wrong[CASE_LINES]; /* all at once at 0: mostly no schedule */
            memset(wrong, 0, sizeof wrong);
            o.known_starts = wrong;
            again = case_solve(c, p, &o);
            case_expect_answer(c, again, 1);
            sched_result_close(again);
        }
        sched_result_close(first);
        sched_close(p);
    }
}

/* ---- refusals in place of rules ---------------------------------------------------------------------------- */

typedef struct {
    const case_entry *c;
    const sched_problem *p; /* the problem without the rules that are refused instead */
    const bool *skip;
} judge;

static int numbers_of(const char *line, int32_t *v, int room) {
    int n = 0;
    for (char *at = strchr(line, ' '); at && *at && n < room; n++)
        v[n] = (int32_t)strtol(at, &at, 10);
    return n;
}

static bool all_overlap(const judge *j, const int32_t *task, int n, const int32_t *starts) {
    int32_t from = 0, to = INT32_MAX;
    for (int k = 0; k < n; k++) {
        int32_t s = starts[task[k]], e = sched_end_of(j->p, task[k], s);
        from = s > from ? s : from;
        to = e < to ? e : to;
    }
    return from < to;
}

static bool judge_schedule(void *user, const int32_t *starts, sched_refusal *why) {
    const judge *j = user;
    bool good = true;
    for (int k = 0; k < j->c->lines; k++) {
        const char *line = j->c->line[k];
        int32_t v[16];
        if (!j->skip[k])
            continue;
        int n = numbers_of(line, v, 16);
        if (case_is(line, "after_start") && starts[v[1]] < starts[v[0]] + v[2]) {
            const sched_start_bound both[] = {{v[0], false, starts[v[0]]},
                                              {v[1], true, starts[v[0]] + v[2] - 1}};
            sched_refuse_bounds(why, both, 2);
            good = false;
        } else if (!case_is(line, "after_start") && all_overlap(j, v, n, starts)) {
            sched_refuse_overlap(why, v, (size_t)n);
            good = false;
        }
    }
    return good;
}

static void refusals_stand_for_rules(void **state) {
    (void)state;
    int tried = 0;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        bool skip[CASE_LINES] = {false}, any = false;
        for (int q = 0; q < c->lines; q++) {
            size_t n = strlen(c->line[q]);
            bool mapped = n < 2 || strcmp(c->line[q] + n - 2, "-1") != 0;
            skip[q] = case_is(c->line[q], "apart") || case_is(c->line[q], "not_all") ||
                      (case_is(c->line[q], "after_start") && !mapped);
            any = any || skip[q];
        }
        if (!any)
            continue;
        tried++;
        sched_problem *p = case_problem(c, skip);
        judge j = {c, p, skip};
        sched_options o = sched_default_options();
        o.check = judge_schedule;
        o.user = &j;
        sched_result *r = case_solve(c, p, &o);
        case_expect_answer(c, r, 1);
        sched_result_close(r);
        sched_close(p);
    }
    assert_true(tried >= 100);
}

static int open_cases(void **state) {
    (void)state;
    cases = case_list_open(CASES_FOLDER "/random.txt");
    return cases.n >= 300 ? 0 : -1;
}

static int close_cases(void **state) {
    (void)state;
    case_list_close(&cases);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_effort_gives_the_same_answer),
        cmocka_unit_test(little_memory_is_kept_and_nothing_false_said),
        cmocka_unit_test(a_cancelled_solve_ends_with_what_it_has),
        cmocka_unit_test(progress_only_gets_better),
        cmocka_unit_test(what_is_known_is_used_and_changes_nothing),
        cmocka_unit_test(refusals_stand_for_rules),
    };
    return cmocka_run_group_tests(tests, open_cases, close_cases);
}
