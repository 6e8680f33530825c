/* missing.h: what is not as on the list, as text and as JSON. */
#ifndef CLI_MISSING_H
#define CLI_MISSING_H

#include "base/number.h"
#include "cli/build.h"

void missing_text(const cli_call *call, const desk *d, buf *out);
void missing_json(const desk *d, buf *out);

#endif
