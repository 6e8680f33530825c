/* err.h: one failure, told so that the reader can mend it.
 *
 * A failure has a place ("parts.csv row 17, mass_g"), a cause ("\"12,5\" is not a number") and a remedy
 * ("write 12.5"). A call that can fail returns false and fills the `err` given last; the caller passes it up or
 * prints it. An `err` is a plain value: nothing to free, longer texts are cut at a whole character and end in "…".
 */
#ifndef BASE_ERR_H
#define BASE_ERR_H

#include <stdbool.h>
#include <stddef.h>

#include "base/attributes.h"

/* The number is the exit code of the command that failed. */
typedef enum {
    ERR_NONE = 0,
    ERR_INPUT = 2, /* what was given is wrong: mend it */
    ERR_RUN = 3    /* it cannot run here and now: disk full, file in use, newer version */
} err_kind;

typedef struct {
    err_kind kind;
    char place[192];
    char cause[384];
    char remedy[256];
} err;

/* Fills `e` and returns false, so that a function can end with `return err_input(...)`. `e` may be NULL, then the
 * failure is only returned. An empty remedy is allowed where there is none. */
bool err_input(err *e, const char *place, const char *remedy, const char *cause_format, ...)
    PRINTF_LIKE(4, 5);
bool err_run(err *e, const char *place, const char *remedy, const char *cause_format, ...) PRINTF_LIKE(4, 5);

/* "place: cause; remedy" into `out` (cut at `size`), and its length as snprintf gives it. */
int err_print(const err *e, char *out, size_t size);

#endif
