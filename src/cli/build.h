/* build.h: what the commands on a build file share: who does it, numbers of the command line, opening. */
#ifndef CLI_BUILD_H
#define CLI_BUILD_H

#include "base/json_out.h"
#include "cli/cli.h"
#include "desk/desk.h"

enum { CLI_WIDTH = 80 };

/* Quantities, masses: nothing in a workshop is larger. */
#define CLI_MOST INT64_C(1000000000)

/* The value of --by (NULL: not said) and this machine. */
desk_who build_who(const cli_call *call);

/* A whole number of the command line, called `name` in the failure. */
MUST_USE bool build_number(const char *name, const char *value, int64_t low, int64_t high, int64_t *out,
                           err *e);

/* An option with a number; `absent` when it is not given. */
MUST_USE bool build_option(const cli_call *call, const char *option, int64_t low, int64_t high,
                           int64_t absent, int64_t *out, err *e);

/* "A1 row 3" in the call's memory. */
text build_place(const cli_call *call, const kit *k, kit_index row);

/* The members "container", "line", "part", "name" of a row into an open JSON object. */
void build_json_row(json_out *j, const kit *k, kit_index row);

/* A plain answer: the line as text, or what `fill` puts into one JSON object. */
int build_answer(const cli_call *call, text line, void (*fill)(json_out *j, const void *what),
                 const void *what, int code);

#endif
