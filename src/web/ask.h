/* ask.h: reads the members of a request's JSON object, each with its bounds; private to the room. */
#ifndef WEB_ASK_H
#define WEB_ASK_H

#include <jansson.h>

#include "base/err.h"
#include "base/text.h"

enum { ASK_LONGEST = 500 };

/* The object in `body`. The caller lets it go with json_decref. NULL with ERR_INPUT otherwise. */
json_t *ask_object(text body, err *e);

/* A text of at most ASK_LONGEST bytes; "" when it is not there. It lives as long as the object. */
MUST_USE bool ask_text(const json_t *in, const char *key, const char **out, err *e);

/* The same, and it must say something. */
MUST_USE bool ask_word(const json_t *in, const char *key, const char **out, err *e);

MUST_USE bool ask_integer(const json_t *in, const char *key, int64_t low, int64_t high, int64_t absent,
                          int64_t *out, err *e);
MUST_USE bool ask_bool(const json_t *in, const char *key, bool *out, err *e);

/* A list of texts as one text with commas between; "" when it is not there. In the arena. */
MUST_USE bool ask_names(arena *a, const json_t *in, const char *key, const char **out, err *e);

#endif
