/* lift_kit.h: the part of `kitbench lift` that looks at a kit. */
#ifndef CLI_LIFT_KIT_H
#define CLI_LIFT_KIT_H

#include "cli/cli.h"
#include "trade/lifting.h"

/* How a load is lifted: lifting_person, lifting_height. */
typedef struct {
    unsigned who, height;
    bool arms_out;
} lift_posture;

/* "2 adults" */
void lift_people_text(const lift_team *t, char out[64]);

/* Tells of the kit or build file of the first argument, with --unit of one unit; returns the exit code. */
int lift_kit(const cli_call *call, const lift_posture *p, err *e);

#endif
