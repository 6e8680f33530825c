/* test_solve_read.c: problem files of `kitbench solve`: what is read right, and how faults are told. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cli/solve_read.h"

typedef bool reader(sched_problem *p, const char *file, text content, faults *found);

/* "place: cause" of each fault, in order of the file. */
static void expect_faults(reader *read, const char *content, const char *const *expected) {
    arena *a = arena_open();
    sched_problem *p = sched_open();
    faults found = faults_in(a);
    assert_false(read(p, "file", text_of(content), &found));
    for (size_t k = 0; k < found.n; k++) {
        text told = arena_format(a, "%.*s: %.*s", TEXT_ARG(fault_place_text(a, found.list[k].place)),
                                 TEXT_ARG(found.list[k].cause));
        if (!expected[k] || text_find(told, text_of(expected[k])) != 0)
            fail_msg("\"%.*s\" is not \"%s\"", TEXT_ARG(told), expected[k] ? expected[k] : "nothing");
    }
    assert_null(expected[found.n]);
    sched_close(p);
    arena_close(a);
}

static void expect_fault(reader *read, const char *content, const char *told) {
    expect_faults(read, content, (const char *const[]){told, NULL});
}

static void expect_makespan(reader *read, const char *content, int32_t makespan) {
    sched_problem *p = sched_open();
    arena *a = arena_open();
    faults wrong = faults_in(a);
    if (!read(p, "file", text_of(content), &wrong))
        fail_msg("%.*s", TEXT_ARG(wrong.list[0].cause));
    arena_close(a);
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
    expect_fault(solve_read_psplib, "", "file: a section is missing");
    expect_fault(solve_read_psplib, HEAD REQUESTS CAPACITY, "file: a section is missing");
    expect_fault(solve_read_psplib, RELATIONS, "file line 1: a section begins before the numbers of jobs");
    expect_fault(solve_read_psplib,
                 HEAD "PRECEDENCE RELATIONS:\nx\n 1 1 2 2 9\n 2 1 1 4\n 3 1 1 4\n 4 1 0\n" REQUESTS CAPACITY,
                 "file line 7: 9 is outside 1 .. 4");
    expect_fault(solve_read_psplib,
                 HEAD RELATIONS
                 "REQUESTS/DURATIONS:\n\n\n  1 1 0 0\n  2 1 -3 1\n  3 1 4 1\n  4 1 0 0\n" CAPACITY,
                 "file line 15: a number is missing or malformed");
    expect_fault(solve_read_psplib,
                 HEAD RELATIONS
                 "REQUESTS/DURATIONS:\n\n\n  1 1 0 0\n  2 2 3 1\n  3 1 4 1\n  4 1 0 0\n" CAPACITY,
                 "file line 15: 2 is outside 1 .. 1");
    expect_fault(
        solve_read_psplib,
        HEAD RELATIONS
        "REQUESTS/DURATIONS:\n\n\n  1 1 0 0\n  2 1 999999999999999999 1\n  3 1 4 1\n  4 1 0 0\n" CAPACITY,
        "file line 15: a number is missing or malformed");
    expect_fault(solve_read_psplib, "- nonrenewable : 2 N\n", "file line 1: 2 is outside 0 .. 0");
    expect_fault(solve_read_psplib,
                 HEAD "PRECEDENCE RELATIONS:\nx\n 1 1 2 2 3\n 2 1 1 3\n 3 1 1 2\n 4 1 0\n" REQUESTS CAPACITY,
                 "file line 9: the relations go round: job 3 must come before job 2");
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

static void json_faults_tell_their_line(void **state) {
    (void)state;
    expect_fault(solve_read_json, "{\n\"duration\": [1,,2]}", "file line 2: column 16: unexpected token");
    expect_fault(solve_read_json, "\n[]", "file line 2: this is no problem");
    expect_fault(solve_read_json, "{\"duration\": [1],\n \"durations\": 3}",
                 "file line 2, durations: there is no such key");
    expect_fault(solve_read_json, "{}", "file line 1, duration: the list is missing");
    expect_fault(solve_read_json, "{\"duration\":\n[1,\n-1]}",
                 "file line 3, duration[1]: this is no duration");
    expect_fault(solve_read_json, "{\"duration\": [99999999999]}",
                 "file line 1, duration[0]: this is no duration");
    expect_fault(solve_read_json, "{\"duration\": [1],\n\"capacity\": [1],\n\"needs\": [\n[1, 2]]}",
                 "file line 4, needs[0]: this row does not fit");
    expect_fault(solve_read_json, "{\"duration\": [1], \"release\": [1, 2]}",
                 "file line 1, release: the list has the wrong length");
    expect_fault(solve_read_json, "{\"duration\": [1],\n\"after\": [[0]]}",
                 "file line 2, after[0]: this row");
    expect_fault(solve_read_json, "{\"duration\": [1], \"maps\": [[[0, 1]]]}",
                 "file line 1, maps[0]: this is no list of pieces");
    expect_fault(solve_read_json, "{\"duration\": [1], \"maps\": [[[5, 2, 1]]]}",
                 "file line 1, maps[0]: map 0 maps a time to an earlier one");
    expect_fault(solve_read_json, "{\"duration\": [1], \"reservoirs\": [{}]}",
                 "file line 1, reservoirs[0]: the first stock");
    expect_fault(solve_read_json,
                 "{\"duration\": [1], \"reservoirs\": [{\"draws\":\n[[0, 1],\n[7, 1]], \"initial\": 2}]}",
                 "file line 3, reservoirs[0].draws[1]: task 7 does not exist");
    expect_fault(solve_read_json, "{\"duration\": [1, 2, 3],\n\"after\": [[0, 1],\n[1, 2],\n[2, 1]]}",
                 "file line 3, after[1]: task 1 must come before task 2 and also after it");
    expect_fault(solve_read_json, "{\"duration\": [1],\n\"allowed_starts\": [[0, 5, 4]]}",
                 "file line 2, allowed_starts: the allowed starts 5 .. 4 of task 0 are empty");
}

static void all_json_faults_are_told_at_once(void **state) {
    (void)state;
    expect_faults(
        solve_read_json,
        "{ \"dura\\u0074ions\": 3,\n\"duration\": [1,\n2.5],\n\"capacity\": [1, null],\n\"crossing\": "
        "[\"maybe\"],\n\"after\": [[0, 1],\n[\"]{\\\"\", 1],\n[0, 9]],\n\"cuts\": 7}",
        (const char *const[]){
            "file line 1, durations: there is no such key", "file line 3, duration[1]: this is no duration",
            "file line 4, capacity[1]: this is no capacity", "file line 9, cuts: this is no list",
            "file line 5, crossing[0]: this is no crossing rule", "file line 7, after[1]: this row",
            "file line 8, after[2]: task 9 does not exist", NULL});
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(psplib_text_is_read),
        cmocka_unit_test(psplib_faults_tell_their_line),
        cmocka_unit_test(json_is_read),
        cmocka_unit_test(json_faults_tell_their_line),
        cmocka_unit_test(all_json_faults_are_told_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
