/* solve_read.h: problem files for `kitbench solve`: the open PSPLIB text format and our JSON form (docs/models.md). */
#ifndef CLI_SOLVE_READ_H
#define CLI_SOLVE_READ_H

#include "base/faults.h"
#include "sched/sched.h"

/* Reads `content` into the open problem `p`, which sched_validate then finds right. false: the fault, told with its line under the
 * name `file`, is in `found`; reading ends at the first. */
MUST_USE bool solve_read_psplib(sched_problem *p, const char *file, text content, faults *found);

/* The same for JSON; all faults are found, each with its line and element ("needs[3]"), but for those of the whole (relations that
 * go round), which are looked for when there are no others. */
MUST_USE bool solve_read_json(sched_problem *p, const char *file, text content, faults *found);

#endif
