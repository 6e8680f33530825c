/* solve_read.h: problem files for `kitbench solve`: the open PSPLIB text format and our JSON form (docs/models.md). */
#ifndef CLI_SOLVE_READ_H
#define CLI_SOLVE_READ_H

#include "base/err.h"
#include "base/text.h"
#include "sched/sched.h"

/* Reads `content` into the open problem `p`. `file` names it in failures, which tell the line. */
MUST_USE bool solve_read_psplib(sched_problem *p, const char *file, text content, err *e);

/* The same for JSON; a failure tells the line of a syntax fault, else the element ("needs[3][2]"). */
MUST_USE bool solve_read_json(sched_problem *p, const char *file, text content, err *e);

#endif
