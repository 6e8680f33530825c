/* print.h: what `kitbench print` can print: one table of sheets; private to cmd_print.c and print_*.c. */
#ifndef CLI_PRINT_H
#define CLI_PRINT_H

#include "cli/build.h"
#include "paper/paper.h"

typedef struct {
    cli_call *call;
    const char *source; /* a kit folder or a build file */
    const kit *kit;
    desk *build; /* NULL: a kit folder */
    paper_setup setup;
    buf pdf;
    paper_notes notes;
    const struct print_kind *kind;
} print_job;

/* A new sheet is a row of the table in print_kinds.c. */
typedef struct print_kind {
    const char *name;
    const char *options;                   /* those that choose what is on it: "box copies" */
    bool of_build;                         /* a kit folder does not do */
    bool (*compose)(print_job *j, err *e); /* NULL: all of them */
    paper_kit_sheet sheet;                 /* of those that need no more than a kit */
} print_kind;

/* False when something other than a PDF stands there: a slip of the hand must not cost a build file. */
MUST_USE bool print_may_replace(const char *path, err *e);

int print_all(print_job *j, const char *folder);
bool print_bag_labels(print_job *j, err *e);
bool print_sorter_labels(print_job *j, err *e);

const print_kind *print_kinds(size_t *n);

#endif
