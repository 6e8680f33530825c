/* case_list.c: see case_list.h. */
#include "case_list.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "case_problem.h"

bool case_is(const char *line, const char *word) {
    size_t n = strlen(word);
    return strncmp(line, word, n) == 0 && (line[n] == ' ' || line[n] == 0);
}

static case_entry *next_entry(case_list *list, const char *name) {
    case_entry *grown = realloc(list->at, (size_t)(list->n + 1) * sizeof *grown);
    assert_non_null(grown);
    list->at = grown;
    case_entry *c = &list->at[list->n++];
    memset(c, 0, sizeof *c);
    snprintf(c->name, sizeof c->name, "%.30s", name);
    return c;
}

static void take_optimum(case_entry *c, const char *line) {
    char *at;
    c->feasible = true;
    c->makespan = strtol(line + strlen("optimum"), &at, 10);
    while (*at && c->objectives < CASE_OBJECTIVES)
        c->objective[c->objectives++] = strtoll(at, &at, 10);
}

case_list case_list_open(const char *path) {
    FILE *f = fopen(path, "r");
    if (!f)
        fail_msg("cannot open %s", path);
    case_list list = {NULL, 0};
    case_entry *c = NULL;
    char line[CASE_LINE];
    while (fgets(line, sizeof line, f)) {
        line[strcspn(line, "\r\n")] = 0;
        if (case_is(line, "problem")) {
            c = next_entry(&list, line + strlen("problem "));
        } else if (c && case_is(line, "optimum")) {
            take_optimum(c, line);
        } else if (c && line[0] && line[0] != '#' && strcmp(line, "infeasible") != 0) {
            assert_in_range(c->lines, 0, CASE_LINES - 1);
            strcpy(c->line[c->lines++], line);
            c->tasks += case_is(line, "task");
        }
    }
    fclose(f);
    return list;
}

void case_list_close(case_list *list) {
    free(list->at);
    *list = (case_list){NULL, 0};
}

sched_problem *case_problem(const case_entry *c, const bool *skip) {
    sched_problem *p = sched_open();
    assert_non_null(p);
    for (int k = 0; k < c->lines; k++)
        if ((!skip || !skip[k]) && !case_apply_line(p, c->line[k]))
            fail_msg("%s: unknown line: %s", c->name, c->line[k]);
    return p;
}

sched_result *case_solve(const case_entry *c, sched_problem *p, const sched_options *options) {
    sched_options o = options ? *options : sched_default_options();
    if (!options)
        o.effort = 20000000;
    sched_result *r;
    sched_fault fault;
    if (!sched_solve(p, &o, &r, &fault))
        fail_msg("%s: %s", c->name, fault.text);
    return r;
}

/* The answer is the other solver's, proven. */
void case_expect_answer(const case_entry *c, const sched_result *r, long scale) {
    if (r->status != (c->feasible ? SCHED_OPTIMAL : SCHED_INFEASIBLE))
        fail_msg("%s: status %d", c->name, (int)r->status);
    if (c->feasible && r->makespan != scale * c->makespan)
        fail_msg("%s: %d, not %ld", c->name, r->makespan, scale * c->makespan);
    for (int k = 0; c->feasible && k < r->objective_count; k++)
        if (r->objective[k] != c->objective[k] || r->objective_bound[k] != c->objective[k])
            fail_msg("%s: objective %d is %lld", c->name, k, (long long)r->objective[k]);
}
