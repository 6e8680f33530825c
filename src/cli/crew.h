/* crew.h: what the commands that change the crew and its dates share. */
#ifndef CLI_CREW_H
#define CLI_CREW_H

#include "cli/build.h"

/* Runs one of them: with at least so many arguments `change` writes, then `fill` shows what there is now; into an open
 * JSON object with --json. What does not fit any more is told. */
int crew_run(cli_call *call, int least_to_write,
             bool (*change)(const cli_call *call, desk *d, desk_reasons *mind, err *e),
             void (*fill)(const cli_call *call, const desk *d, json_out *j, buf *out));

int crew_answer(const cli_call *call, const desk *d, const desk_reasons *mind,
                void (*fill)(const cli_call *call, const desk *d, json_out *j, buf *out));

#endif
