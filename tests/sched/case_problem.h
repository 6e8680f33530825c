/* case_problem.h: problems written as lines, one call of sched.h a line; see make_random.py for the words. */
#ifndef TESTS_SCHED_CASE_PROBLEM_H
#define TESTS_SCHED_CASE_PROBLEM_H

#include "sched/sched.h"

/* Does what one line says. False: the line is not known. */
bool case_apply_line(sched_problem *p, const char *line);

/* The same with every time multiplied by `factor`; objectives are left out. */
bool case_apply_scaled(sched_problem *p, const char *line, int32_t factor);

#endif
