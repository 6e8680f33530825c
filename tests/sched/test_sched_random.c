/* test_sched_random.c: the solved random problems of cases/random.txt (see make_random.py): the kernel finds and proves the
 * optimum that another solver found, or that there is no schedule.
 *
 * With a file name as argument it reads that instead, prints each difference and a count. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "case_problem.h"

static int problems, differences;
static int32_t factor = 1; /* all times are multiplied by it */

static void expect(const sched_problem *p, const char *name, const char *line) {
    sched_options o = sched_default_options();
    o.effort = 20000000;
    sched_result *r;
    sched_fault fault;
    problems++;
    if (!sched_solve(p, &o, &r, &fault)) {
        printf("%s: %s\n", name, fault.text);
        differences++;
        return;
    }
    bool same;
    bool costs = factor == 1; /* objectives are left out when scaled */
    if (strcmp(line, "infeasible") == 0) {
        same = r->status == SCHED_INFEASIBLE;
    } else {
        char *at = NULL;
        long makespan = strtol(line + strlen("optimum"), &at, 10);
        same = r->status == SCHED_OPTIMAL && r->makespan == factor * makespan;
        for (int32_t k = 0; costs && same && k < r->objective_count; k++) {
            long long value = strtoll(at, &at, 10);
            same = r->objective[k] == value && r->objective_bound[k] == value;
        }
    }
    if (!same) {
        differences++;
        printf("%s: status %d, makespan %d, bound %d; expected %s\n", name, (int)r->status, r->makespan,
               r->lower_bound, line);
        for (int32_t k = 0; k < r->objective_count; k++)
            printf("  objective %d: %lld, bound %lld\n", k, (long long)r->objective[k],
                   (long long)r->objective_bound[k]);
    }
    sched_result_close(r);
}

static void run_file(const char *path) {
    FILE *f = fopen(path, "r");
    if (!f)
        fail_msg("cannot open %s", path);
    char line[1024], name[64] = "";
    sched_problem *p = NULL;
    while (fgets(line, sizeof line, f)) {
        line[strcspn(line, "\r\n")] = 0;
        if (line[0] == 0 || line[0] == '#')
            continue;
        if (strncmp(line, "problem ", 8) == 0) {
            sched_close(p);
            p = sched_open();
            snprintf(name, sizeof name, "%.60s", line);
        } else if (strncmp(line, "optimum", 7) == 0 || strcmp(line, "infeasible") == 0) {
            expect(p, name, line);
        } else if (factor == 1 ? !case_apply_line(p, line) : !case_apply_scaled(p, line, factor)) {
            fail_msg("%s: unknown line: %s", path, line);
        }
    }
    sched_close(p);
    fclose(f);
}

static const char *cases = CASES_FOLDER "/random.txt";

static void kernel_agrees_with_the_other_solver(void **state) {
    (void)state;
    run_file(cases);
    assert_true(problems >= 300);
    assert_int_equal(differences, 0);
}

static void a_scaled_problem_scales(void **state) {
    (void)state;
    problems = differences = 0;
    factor = 3;
    run_file(cases);
    factor = 1;
    assert_true(problems >= 300);
    assert_int_equal(differences, 0);
}

int main(int argc, char **argv) {
    if (argc == 2) {
        run_file(argv[1]);
        printf("%d problems, %d differences\n", problems, differences);
        return differences != 0;
    }
    const struct CMUnitTest tests[] = {cmocka_unit_test(kernel_agrees_with_the_other_solver),
                                       cmocka_unit_test(a_scaled_problem_scales)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
