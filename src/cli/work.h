/* work.h: what the commands of the running build share: a step and a part by number, and the answer "yes" or "no,
 * because". */
#ifndef CLI_WORK_H
#define CLI_WORK_H

#include "cli/build.h"

/* Opens the build and finds the step of the second argument. NULL: it failed, and the failure was told with `code`. */
desk *work_open(cli_call *call, desk_mode mode, kit_index *step, int *code);

/* Part by number; the failure says how numbers are written. */
MUST_USE bool work_part(const desk *d, const char *number, kit_index *out, err *e);

/* Tells `line`, or "not done:" and every reason (exit code 1). With --json an object of `step` (KIT_NONE: left out),
 * `state`, `written` and `reasons`. */
int work_answer(cli_call *call, const desk *d, kit_index step, const desk_reasons *why, text line);

/* Lists: one JSON object with an array `key`, into which `add` puts its members, or lines of text; `none` when there is
 * none. */
typedef void (*work_add)(const cli_call *call, const desk *d, json_out *j, buf *out);
int work_list(const cli_call *call, const desk *d, const char *key, const char *none, work_add add, int code);

/* A member `key` with an array of sentences. */
void work_put_reasons(json_out *j, const char *key, const desk_reasons *list);

/* "Comet, Otter", and the same as an array; of nobody "somebody" and an empty one. */
text work_people(const desk *d, const kit_texts *people);
void work_put_people(json_out *j, const char *key, const desk *d, const kit_texts *people);

#endif
