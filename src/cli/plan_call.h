/* plan_call.h: what the commands that plan have in common: --from, --seconds, progress, Ctrl-C. */
#ifndef CLI_PLAN_CALL_H
#define CLI_PLAN_CALL_H

#include "cli/cli.h"
#include "desk/desk.h"

typedef struct {
    desk *desk;
    plan_input in;
    bool told; /* progress stands on the terminal's last line */
} plan_call;

/* Reads the options and the build file FILE (the first argument). From now on Ctrl-C ends the search for a plan with the best so
 * far. `out` must stay where it is until it is closed. */
MUST_USE bool plan_call_open(cli_call *call, const char *command, plan_call *out, err *e);

/* The same for a command that writes something down once the plan is made. */
MUST_USE bool plan_call_open_writing(cli_call *call, const char *command, plan_call *out, err *e);

/* Wipes the progress and closes the file; `in` and what was made from it stay. */
void plan_call_close(plan_call *it);

#endif
