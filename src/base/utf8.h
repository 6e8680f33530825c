/* utf8.h: is it UTF-8, where not, and how people compare words.
 *
 * Validation is our own (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF); folding and widths are
 * utf8proc's.
 */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stdint.h>

#include "base/text.h"

/* Position of the first byte that is not UTF-8, or -1 when all of it is. */
ptrdiff_t utf8_fault(text t);

/* `t` with each byte that is not UTF-8 replaced by U+FFFD; `t` itself when there is none. In the arena. */
text utf8_mend(arena *a, text t);

/* The code point at `at` of valid UTF-8, and its length in bytes (1..4). at < t.len. */
uint32_t utf8_point(text t, size_t at, size_t *length);

/* How many code points. */
size_t utf8_count(text t);

/* Columns on a terminal: wide characters count two, combining marks none. */
size_t utf8_width(text t);

/* The longest start of `t` of at most `columns` columns, whole characters. */
text utf8_clip(text t, size_t columns);

/* For comparing names: NFKC, case folded, marks such as accents removed when `plain`. In the arena. */
text utf8_fold(arena *a, text t, bool plain);

#endif
