/* test_sched_properties.c: what must hold of every problem, tried on the solved problems of cases/random.txt, whose optima come from
 * another solver: other names, other units of time, fewer rules. */
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

/* ---- the same problem in other words ----------------------------------------------------------------------- */

/* Which numbers of a line are tasks: the first `n` from number `from` on; -1: all of them. */
static void task_numbers(const char *line, int *from, int *n) {
    static const struct {
        const char *word;
        int from, n;
    } places[] = {{"crossing", 0, 1}, {"release", 0, 1}, {"deadline", 0, 1}, {"fixed", 0, 1},
                  {"allow", 0, 1},    {"need", 0, 1},    {"after", 0, 2},    {"after_start", 0, 2},
                  {"draw", 0, 1},     {"give", 0, 1},    {"cost", 1, 1},     {"apart", 0, 99},
                  {"not_all", 0, 99}};
    *from = *n = 0;
    for (size_t k = 0; k < sizeof places / sizeof *places; k++)
        if (case_is(line, places[k].word)) {
            *from = places[k].from;
            *n = places[k].n;
        }
}

/* Copies a line, with each number put through `change`. */
static void rewrite(const char *line, char *out,
                    long (*change)(const char *line, int place, long value, const void *with),
                    const void *with) {
    int place = 0;
    size_t at = 0;
    for (const char *word = line; *word;) {
        size_t n = strcspn(word, " ");
        char *end;
        long value = strtol(word, &end, 10);
        if (end == word + n && n > 0)
            at += (size_t)snprintf(out + at, CASE_LINE - at, "%ld", change(line, place++, value, with));
        else
            at += (size_t)snprintf(out + at, CASE_LINE - at, "%.*s", (int)n, word);
        word += n;
        while (*word == ' ')
            out[at++] = *word++;
        assert_in_range(at, 0, CASE_LINE - 1);
    }
    out[at] = 0;
}

static long renamed(const char *line, int place, long value, const void *with) {
    const int *name = with;
    int from, n;
    task_numbers(line, &from, &n);
    return place >= from && place < from + n ? name[value] : value;
}

/* Tasks in another order, every task rule behind them. */
static void permute(const case_entry *c, unsigned seed, case_entry *out) {
    int name[CASE_LINES], task_line[CASE_LINES], n = 0;
    for (int k = 0; k < c->lines; k++)
        if (case_is(c->line[k], "task"))
            task_line[n++] = k;
    for (int i = 0; i < n; i++)
        name[i] = i;
    for (int i = n - 1; i > 0; i--) {
        seed = seed * 1103515245U + 12345U;
        int j = (int)((seed >> 16) % (unsigned)(i + 1)), keep = name[i];
        name[i] = name[j];
        name[j] = keep;
    }
    *out = *c;
    for (int k = 0; k < c->lines; k++)
        rewrite(c->line[k], out->line[k], renamed, name);
    for (int i = 0; i < n; i++)
        strcpy(out->line[task_line[name[i]]], c->line[task_line[i]]);
}

static void renaming_tasks_changes_nothing(void **state) {
    (void)state;
    static case_entry other;
    for (int k = 0; k < cases.n; k++) {
        permute(&cases.at[k], (unsigned)k, &other);
        sched_problem *p = case_problem(&other, NULL);
        sched_result *r = case_solve(&other, p, NULL);
        case_expect_answer(&other, r, 1);
        sched_result_close(r);
        sched_close(p);
    }
}

/* Every number that is a time, `with` times as large. */
static long scaled(const char *line, int place, long value, const void *with) {
    long by = *(const long *)with;
    bool is_time = case_is(line, "horizon") || case_is(line, "task") || case_is(line, "cut") ||
                   ((case_is(line, "crossing") || case_is(line, "release") || case_is(line, "deadline") ||
                     case_is(line, "fixed") || case_is(line, "allow") || case_is(line, "arrive")) &&
                    place >= 1 && !(case_is(line, "arrive") && place == 2)) ||
                   (case_is(line, "capacity") && (place == 1 || place == 2)) ||
                   ((case_is(line, "after") || case_is(line, "after_start")) && place == 2) ||
                   (case_is(line, "map") && place % 3 != 2);
    return is_time ? by * value : value;
}

/* With all times k-fold the best makespan is k-fold: rounding the starts of a schedule down to multiples of k breaks no rule. Costs
 * are left out, since they need not fall by that. */
static void a_scaled_problem_scales(void **state) {
    (void)state;
    static case_entry other;
    const long scales[] = {2, 7, 480};
    for (int k = 0; k < cases.n; k++) {
        long by = scales[k % 3];
        other = cases.at[k];
        bool skip[CASE_LINES] = {false};
        for (int q = 0; q < other.lines; q++) {
            rewrite(cases.at[k].line[q], other.line[q], scaled, &by);
            skip[q] = case_is(other.line[q], "objective") || case_is(other.line[q], "cost");
        }
        sched_problem *p = case_problem(&other, skip);
        sched_result *r = case_solve(&other, p, NULL);
        case_expect_answer(&other, r, by);
        sched_result_close(r);
        sched_close(p);
    }
}

/* ---- relaxing ---------------------------------------------------------------------------------------------- */

static bool relaxes(const char *line) {
    static const char *const words[] = {"release",     "deadline", "fixed",   "need", "after",
                                        "after_start", "apart",    "not_all", "draw", "crossing"};
    for (size_t k = 0; k < sizeof words / sizeof *words; k++)
        if (case_is(line, words[k]))
            return true;
    return false;
}

static void relaxing_never_worsens_the_optimum(void **state) {
    (void)state;
    int tried = 0, better = 0;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        for (int q = 0; q < c->lines; q++) {
            if (!relaxes(c->line[q]))
                continue;
            bool skip[CASE_LINES] = {false};
            skip[q] = true;
            for (int j = 0; j < c->lines; j++) /* its objectives are about other schedules now */
                skip[j] = skip[j] || case_is(c->line[j], "objective") || case_is(c->line[j], "cost");
            sched_problem *p = case_problem(c, skip);
            sched_result *r = case_solve(c, p, NULL);
            if (c->feasible && (r->status != SCHED_OPTIMAL || r->makespan > c->makespan))
                fail_msg("%s without \"%s\": %d, not at most %ld", c->name, c->line[q], r->makespan,
                         c->makespan);
            assert_true(r->status == SCHED_OPTIMAL || r->status == SCHED_INFEASIBLE);
            tried++;
            better += r->status == SCHED_OPTIMAL && (!c->feasible || r->makespan < c->makespan);
            sched_result_close(r);
            sched_close(p);
        }
    }
    assert_true(tried > 1000);
    assert_true(better > tried / 50); /* or nothing was tried */
}

/* ---- the reason of an infeasible problem ------------------------------------------------------------------- */

static bool among(int32_t x, const int32_t *list, int32_t n) {
    for (int32_t k = 0; k < n; k++)
        if (list[k] == x)
            return true;
    return false;
}

/* Lines that say something of a task or resource for which `out` is true go; the task itself stays, free of all rules. */
static void leave_out(const case_entry *c, const bool *task_out, const bool *resource_out, bool *skip) {
    for (int k = 0; k < c->lines; k++) {
        long number[CASE_LINE];
        int from, count, n = 0;
        task_numbers(c->line[k], &from, &count);
        for (const char *z = strchr(c->line[k], ' '); z; z = strchr(z + 1, ' '))
            number[n++] = strtol(z, NULL, 10);
        for (int q = from; q < n && q < from + count; q++)
            skip[k] = skip[k] || task_out[number[q]];
        skip[k] = skip[k] || (case_is(c->line[k], "need") && resource_out[number[1]]);
        skip[k] = skip[k] || case_is(c->line[k], "objective") || case_is(c->line[k], "cost");
    }
}

static sched_status status_without(const case_entry *c, const bool *task_out, const bool *resource_out) {
    bool skip[CASE_LINES] = {false};
    leave_out(c, task_out, resource_out, skip);
    sched_problem *p = case_problem(c, skip);
    sched_result *r = case_solve(c, p, NULL);
    sched_status status = r->status;
    sched_result_close(r);
    sched_close(p);
    return status;
}

static bool gives_stock(const case_entry *c) {
    for (int k = 0; k < c->lines; k++)
        if (case_is(c->line[k], "give"))
            return true;
    return false;
}

/* All but the reason left out, there is no schedule; any part of it left out too, there is one. */
static void the_reason_is_enough_and_no_more(void **state) {
    (void)state;
    int seen = 0;
    for (int k = 0; k < cases.n; k++) {
        const case_entry *c = &cases.at[k];
        if (c->feasible || gives_stock(c)) /* without a task that gives stock there is less of it */
            continue;
        sched_problem *p = case_problem(c, NULL);
        sched_result *r = case_solve(c, p, NULL);
        assert_true(r->reason_task_count > 0 && strlen(r->reason) > 0);
        bool task_out[CASE_LINES], resource_out[CASE_LINES];
        for (int32_t i = 0; i < CASE_LINES; i++) {
            task_out[i] = !among(i, r->reason_tasks, r->reason_task_count);
            resource_out[i] = !among(i, r->reason_resources, r->reason_resource_count);
        }
        if (status_without(c, task_out, resource_out) != SCHED_INFEASIBLE)
            fail_msg("%s: not enough: %s", c->name, r->reason);
        for (int32_t q = 0; q < r->reason_task_count + r->reason_resource_count; q++) {
            bool *out = q < r->reason_task_count
                            ? &task_out[r->reason_tasks[q]]
                            : &resource_out[r->reason_resources[q - r->reason_task_count]];
            *out = true;
            if (status_without(c, task_out, resource_out) == SCHED_INFEASIBLE)
                fail_msg("%s: more than needed: %s", c->name, r->reason);
            *out = false;
        }
        seen++;
        sched_result_close(r);
        sched_close(p);
    }
    assert_true(seen > 30);
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
        cmocka_unit_test(renaming_tasks_changes_nothing),
        cmocka_unit_test(a_scaled_problem_scales),
        cmocka_unit_test(relaxing_never_worsens_the_optimum),
        cmocka_unit_test(the_reason_is_enough_and_no_more),
    };
    return cmocka_run_group_tests(tests, open_cases, close_cases);
}
