/* case_list.h: the solved problems of a case file, held as lines so that tests can bend them. */
#ifndef TESTS_SCHED_CASE_LIST_H
#define TESTS_SCHED_CASE_LIST_H

#include "sched/sched.h"

enum { CASE_LINES = 160, CASE_LINE = 256, CASE_OBJECTIVES = 4 };

typedef struct {
    char name[32];
    char line[CASE_LINES][CASE_LINE];
    int lines, tasks;
    bool feasible;
    long makespan;
    int objectives;
    long long objective[CASE_OBJECTIVES];
} case_entry;

typedef struct {
    case_entry *at;
    int n;
} case_list;

/* Fails the test on a file that cannot be read. The caller closes the list. */
case_list case_list_open(const char *path);
void case_list_close(case_list *list);

/* Does the line begin with this word? */
bool case_is(const char *line, const char *word);

/* The problem of the lines for which `skip`, by line, is false (or of all: NULL). The caller closes it. */
sched_problem *case_problem(const case_entry *c, const bool *skip);

/* Solves with these options, or (NULL) until it is proven; fails the test on a fault. */
sched_result *case_solve(const case_entry *c, sched_problem *p, const sched_options *options);

/* Fails the test unless the answer is the one in the file, proven; its makespan `scale`-fold. */
void case_expect_answer(const case_entry *c, const sched_result *r, long scale);

#endif
