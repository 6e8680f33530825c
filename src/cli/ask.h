/* ask.h: asking for what must not stand on a command line: codes. */
#ifndef CLI_ASK_H
#define CLI_ASK_H

#include "cli/build.h"

/* One line of standard input; on a terminal `prompt` is shown and what is typed is not. In the call's memory. */
MUST_USE bool ask_secret(const cli_call *call, const char *prompt, const char **out, err *e);

/* When codes are set in the build, each of these people (NULL: left out) must prove what they say: asks for the code. */
MUST_USE bool ask_proof(const cli_call *call, desk *d, const char *person, err *e);

#endif
