/* json_line.h: where in a JSON text an element stands. */
#ifndef CLI_JSON_LINE_H
#define CLI_JSON_LINE_H

#include <stdint.h>

#include "base/text.h"

/* The line, from 1 on, on which the element begins that `path` names from the outermost object on: "needs[3][2]",
 * "reservoirs[0].draws[1]". The text must be JSON (RFC 8259). Where the path leads nowhere, or has a key with escapes
 * in it, the line of the last element on it that is there. One pass over the text, no allocation. */
uint32_t json_line(text json, const char *path);

#endif
