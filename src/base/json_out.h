/* json_out.h: writes JSON (RFC 8259) in the order of the calls.
 *
 * Commas, nesting and indentation are kept here, so that no caller ever writes a bracket. Inside an object every
 * call takes a key, inside an array the key is NULL. Nesting over 32 levels is a mistake of the program (assert).
 * The calls are named json_put_ because json_object and its like are names of the library that reads JSON.
 */
#ifndef BASE_JSON_OUT_H
#define BASE_JSON_OUT_H

#include <stdint.h>

#include "base/buf.h"

typedef struct {
    buf *to;
    int depth;
    bool first; /* nothing written yet at this depth */
} json_out;

json_out json_to(buf *to);
void json_put_object(json_out *j, const char *key);
void json_put_array(json_out *j, const char *key);
void json_end_object(json_out *j);
void json_end_array(json_out *j);
void json_put_text(json_out *j, const char *key, text value);
void json_put_integer(json_out *j, const char *key, int64_t value);
void json_put_bool(json_out *j, const char *key, bool value);
void json_put_null(json_out *j, const char *key);

/* value / 10^scale as an exact decimal: (1250, 2) gives 12.50. */
void json_put_decimal(json_out *j, const char *key, int64_t value, int scale);

/* A measured figure that no exact decimal holds; finite, 6 significant digits. */
void json_put_number(json_out *j, const char *key, double value);

#endif
