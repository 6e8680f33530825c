/* test_solve_read.c: problem files of `kitbench solve`: what is read right, and how faults are told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cli/solve_read.h"

typedef bool reader(sched_problem *p, const char *file, text content, err *e);

static void expect_fault(reader *read, const char *content, const char *place, const char *cause) {
    sched_problem *p = sched_open();
    err e = {0};
    assert_false(read(p, "file", text_of(content), &e));
    assert_string_equal(e.place, place);
    if (!strstr(e.cause, cause))
        fail_msg("\"%s\" does not say \"%s\"", e.cause, cause);
    assert_int_equal(e.kind, ERR_INPUT);
    sched_close(p);
}

static void expect_makespan(reader *read, const char *content, int32_t makespan) {
    sched_problem *p = sched_open();
    err e = {0};
    if (!read(p, "file", text_of(content), &e))
        fail_msg("%s: %s", e.place, e.cause);
    sched_options o = sched_default_options();
    sched_result *r;
    sched_fault found = {0};
    if (!sched_solve(p, &o, &r, &found))
        fail_msg("%s", found.text);
    assert_int_equal(r->status, makespan < 0 ? SCHED_INFEASIBLE : SCHED_OPTIMAL);
    assert_int_equal(r->makespan, makespan);
    sched_result_close(r);
    sched_close(p);
}

#define HEAD                                                                                                 \
    "jobs (incl. supersource/sink ):  4\nRESOURCES\n  - renewable                 :  1   R\n"                \
    "  - nonrenewable              :  0   N\n"
#define RELATIONS                                                                                            \
    "PRECEDENCE RELATIONS:\njobnr.    #modes  #successors   successors\n   1  1  2  2 3\n   2  1  1  4\n"    \
    "   3  1  1  4\n   4  1  0\n"
#define REQUESTS                                                                                             \
    "REQUESTS/DURATIONS:\njobnr. mode duration  R 1\n------\n  1 1 0 0\n  2 1 3 1\n  3 1 4 1\n  4 1 0 0\n"
#define CAPACITY "RESOURCEAVAILABILITIES:\n  R 1\n   1\n"

static void psplib_text_is_read(void **state) {
    (void)state;
    expect_makespan(solve_read_psplib, HEAD RELATIONS REQUESTS CAPACITY, 7);
}

static void psplib_faults_tell_their_line(void **state) {
    (void)state;
    expect_fault(solve_read_psplib, "", "file", "a section is missing");
    expect_fault(solve_read_psplib, HEAD REQUESTS CAPACITY, "file", "a section is missing");
    expect_fault(solve_read_psplib, RELATIONS, "file line 1", "before the numbers of jobs");
    expect_fault(solve_read_psplib,
                 HEAD "PRECEDENCE RELATIONS:\nx\n 1 1 2 2 9\n 2 1 1 4\n 3 1 1 4\n 4 1 0\n" REQUESTS CAPACITY,
                 "file line 7", "9 is outside 1 .. 4");
    expect_fault(solve_read_psplib,
                 HEAD RELATIONS
                 "REQUESTS/DURATIONS:\n\n\n  1 1 0 0\n  2 1 -3 1\n  3 1 4 1\n  4 1 0 0\n" CAPACITY,
                 "file line 15", "missing or malformed");
    expect_fault(solve_read_psplib,
                 HEAD RELATIONS
                 "REQUESTS/DURATIONS:\n\n\n  1 1 0 0\n  2 2 3 1\n  3 1 4 1\n  4 1 0 0\n" CAPACITY,
                 "file line 15", "2 is outside 1 .. 1");
    expect_fault(solve_read_psplib, "- nonrenewable : 2 N\n", "file line 1", "2 is outside 0 .. 0");
}

static void json_is_read(void **state) {
    (void)state;
    expect_makespan(solve_read_json, "{\"duration\": [3, 4], \"capacity\": [1], \"needs\": [[1], [1]]}", 7);
    expect_makespan(solve_read_json,
                    "{\"duration\": [3, 4], \"after_start\": [[0, 1, 2]], \"release\": [1, null]}", 7);
    expect_makespan(solve_read_json,
                    "{\"session_minutes\": 5, \"sessions\": 3, \"duration\": [3, 4], \"after\": [[0, 1]]}",
                    9);
    expect_makespan(
        solve_read_json,
        "{\"cuts\": [5], \"crossing\": [2, \"ignored\"], \"duration\": [7, 6], \"no_overlap\": [[0, 1]]}",
        13);
    expect_makespan(
        solve_read_json,
        "{\"duration\": [1, 1], \"deadline\": [4, null], \"reservoirs\": [{\"initial\": 0, \"arrivals\": "
        "[[4, 1]], \"draws\": [[0, 1]]}]}",
        -1);
}

static void json_faults_tell_their_place(void **state) {
    (void)state;
    expect_fault(solve_read_json, "{\n\"duration\": [1,,2]}", "file line 2, column 16", "unexpected token");
    expect_fault(solve_read_json, "[]", "file, the whole", "no problem");
    expect_fault(solve_read_json, "{\"duration\": [1], \"durations\": 3}", "file, durations", "no such key");
    expect_fault(solve_read_json, "{}", "file, duration", "missing");
    expect_fault(solve_read_json, "{\"duration\": [1, -1]}", "file, duration[1]", "no duration");
    expect_fault(solve_read_json, "{\"duration\": [1], \"capacity\": [1], \"needs\": [[1, 2]]}",
                 "file, needs[0]", "does not fit");
    expect_fault(solve_read_json, "{\"duration\": [1], \"release\": [1, 2]}", "file, release",
                 "wrong length");
    expect_fault(solve_read_json, "{\"duration\": [1], \"after\": [[0]]}", "file, after[0]", "wrong length");
    expect_fault(solve_read_json, "{\"duration\": [1], \"crossing\": [\"maybe\"]}", "file, crossing[0]",
                 "no crossing rule");
    expect_fault(solve_read_json, "{\"duration\": [1], \"maps\": [[[0, 1]]]}", "file, maps[0]",
                 "no list of pieces");
    expect_fault(solve_read_json, "{\"duration\": [1], \"reservoirs\": [{}]}", "file, reservoirs[0]",
                 "first stock");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(psplib_text_is_read),
        cmocka_unit_test(psplib_faults_tell_their_line),
        cmocka_unit_test(json_is_read),
        cmocka_unit_test(json_faults_tell_their_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
