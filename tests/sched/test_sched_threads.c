/* test_sched_threads.c: several solves at once, several threads in one solve, cancelling from outside; also run under the thread
 * sanitizer. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <pthread.h>
#include <time.h>

#include <cmocka.h>

#include "case_list.h"

enum { SOLVERS = 4 };

static case_list cases;

typedef struct {
    const case_entry *c;
    const sched_problem *p;
    uint64_t seed;
    sched_result *result;
} job;

static void *solve_job(void *at) {
    job *j = at;
    sched_options o = sched_default_options();
    o.effort = 20000000;
    o.seed = j->seed;
    sched_fault fault;
    (void)!sched_solve(j->p, &o, &j->result, &fault);
    return NULL;
}

/* One problem, solved by several threads at the same time with one seed: as if each were alone. */
static void solves_side_by_side_do_not_disturb_each_other(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k += 3) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        pthread_t thread[SOLVERS];
        job jobs[SOLVERS];
        for (int q = 0; q < SOLVERS; q++) {
            jobs[q] = (job){c, p, 7, NULL};
            assert_int_equal(pthread_create(&thread[q], NULL, solve_job, &jobs[q]), 0);
        }
        for (int q = 0; q < SOLVERS; q++)
            pthread_join(thread[q], NULL);
        for (int q = 0; q < SOLVERS; q++) {
            assert_non_null(jobs[q].result);
            case_expect_answer(c, jobs[q].result, 1);
            assert_int_equal(jobs[q].result->effort, jobs[0].result->effort);
            assert_int_equal(jobs[q].result->conflicts, jobs[0].result->conflicts);
            if (jobs[0].result->starts)
                assert_memory_equal(jobs[q].result->starts, jobs[0].result->starts,
                                    (size_t)c->tasks * sizeof(int32_t));
        }
        for (int q = 0; q < SOLVERS; q++)
            sched_result_close(jobs[q].result);
        sched_close(p);
    }
}

static void a_portfolio_proves_the_same(void **state) {
    (void)state;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        sched_problem *p = case_problem(c, NULL);
        sched_options o = sched_default_options();
        o.threads = 3;
        sched_result *r = case_solve(c, p, &o);
        case_expect_answer(c, r, 1);
        sched_result_close(r);
        sched_close(p);
    }
}

/* ---- a problem nobody closes soon -------------------------------------------------------------------------- */

/* 60 tasks of three resources, drawn by a small generator of its own; no relations, so that bounds stay weak. */
static sched_problem *hard_problem(void) {
    sched_problem *p = sched_open();
    uint32_t x = 1;
    for (int r = 0; r < 3; r++)
        sched_add_resource(p, 10);
    for (int i = 0; i < 60; i++) {
        x = x * 1664525U + 1013904223U;
        int32_t t = sched_add_task(p, 5 + (int32_t)((x >> 16) % 37));
        for (int r = 0; r < 3; r++) {
            x = x * 1664525U + 1013904223U;
            sched_set_demand(p, t, r, 1 + (int32_t)((x >> 16) % 7));
        }
        if (i >= 10)
            sched_add_relation(p, SCHED_END_START, i - 10, t, (int32_t)((x >> 20) % 5), SCHED_NONE);
    }
    return p;
}

static void *ask_soon(void *at) {
    const struct timespec pause = {0, 50000000};
    nanosleep(&pause, NULL);
    sched_ask_cancel(at);
    return NULL;
}

/* The solve has no limit at all: only the cancel ends it. */
static void another_thread_cancels(void **state) {
    (void)state;
    sched_problem *p = hard_problem();
    for (int32_t threads = 1; threads <= 3; threads += 2) {
        sched_cancel cancel = {0};
        sched_options o = sched_default_options();
        o.threads = threads;
        o.cancel = &cancel;
        pthread_t asker;
        assert_int_equal(pthread_create(&asker, NULL, ask_soon, &cancel), 0);
        sched_result *r;
        sched_fault fault;
        assert_true(sched_solve(p, &o, &r, &fault));
        pthread_join(asker, NULL);
        assert_int_equal(r->status, SCHED_FEASIBLE);
        assert_true(r->lower_bound < r->makespan);
        assert_string_equal(r->reason, "it was cancelled");
        assert_true(sched_check(p, r->starts, NULL, &fault));
        sched_result_close(r);
    }
    sched_close(p);
}

typedef struct {
    sched_cancel cancel;
    int calls;
} canceller;

static void cancel_at_first_progress(void *user, const sched_progress *now) {
    canceller *c = user;
    c->calls++; /* one call at a time is promised: no lock */
    if (now->best != SCHED_NONE)
        sched_ask_cancel(&c->cancel);
}

static void progress_may_cancel(void **state) {
    (void)state;
    sched_problem *p = hard_problem();
    for (int32_t threads = 1; threads <= 3; threads += 2) {
        canceller c = {.calls = 0};
        sched_options o = sched_default_options();
        o.threads = threads;
        o.cancel = &c.cancel;
        o.progress = cancel_at_first_progress;
        o.user = &c;
        sched_result *r;
        sched_fault fault;
        assert_true(sched_solve(p, &o, &r, &fault));
        assert_int_equal(r->status, SCHED_FEASIBLE);
        assert_true(c.calls > 0);
        sched_result_close(r);
    }
    sched_close(p);
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
        cmocka_unit_test(solves_side_by_side_do_not_disturb_each_other),
        cmocka_unit_test(a_portfolio_proves_the_same),
        cmocka_unit_test(another_thread_cancels),
        cmocka_unit_test(progress_may_cancel),
    };
    return cmocka_run_group_tests(tests, open_cases, close_cases);
}
