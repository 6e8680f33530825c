/* wrap.h: text in lines of a width, for terminals and plain text files.
 *
 * Widths are columns (utf8_width), so that wide characters and combining marks line up.
 */
#ifndef BASE_WRAP_H
#define BASE_WRAP_H

#include "base/buf.h"

/* Adds `t`, broken at blanks into lines of at most `width` columns, and a line end. Blanks at its start are kept; the
 * lines after the first are indented. A word longer than a line stands alone on a line that is too long. */
void wrap_add(buf *out, text t, size_t width, size_t indent);

/* Adds `t` padded with blanks to `columns`, cut with "…" when it is longer. */
void wrap_pad(buf *out, text t, size_t columns);

#endif
