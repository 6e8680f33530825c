/* crew_text.h: `kitbench whatif --crew`: the finish against the size of the crew. */
#ifndef CLI_CREW_TEXT_H
#define CLI_CREW_TEXT_H

#include "cli/plan_call.h"

/* Makes the curve of the build that was opened, closes it and prints the answer. Returns the exit code. */
int crew_curve(cli_call *call, plan_call *it);

#endif
