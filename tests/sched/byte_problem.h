/* byte_problem.h: any bytes as a tiny problem with every kind of rule, and its answer by trying every schedule with sched_check. For
 * the fuzzer and for tests. */
#ifndef TESTS_SCHED_BYTE_PROBLEM_H
#define TESTS_SCHED_BYTE_PROBLEM_H

#include "sched/sched.h"

enum { BYTE_TASKS = 4, BYTE_HORIZON = 9, BYTE_OBJECTIVES = 2 };

/* At most BYTE_TASKS tasks and BYTE_HORIZON units of time. The caller closes it. */
sched_problem *byte_problem(const uint8_t *at, size_t n, int32_t *objectives);

typedef struct {
    bool feasible;
    int32_t makespan;
    int64_t objective[BYTE_OBJECTIVES];
} byte_best;

/* The best of all schedules: makespan, then the objectives in order. */
byte_best byte_try_all(const sched_problem *p, int32_t objectives);

/* Does the kernel say the same, proven? */
bool byte_agrees(const sched_problem *p, const byte_best *best, int32_t threads);

#endif
