/* buf.h: a text that grows.
 *
 * Used for everything the program writes: CSV, JSON, HTML, reports. Markup is only ever written through the
 * escaping writers below. Start with {0}; the buffer owns its bytes until buf_free. `at` is followed by a NUL once
 * anything was added. Out of memory ends the process as in arena.h.
 */
#ifndef BASE_BUF_H
#define BASE_BUF_H

#include "base/text.h"

typedef struct {
    char *at;
    size_t len;
    size_t cap;
} buf;

void buf_free(buf *b);
void buf_clear(buf *b);
void buf_add(buf *b, text t);
void buf_add_z(buf *b, const char *z);
void buf_add_char(buf *b, char c);
void buf_addf(buf *b, const char *format, ...) PRINTF_LIKE(2, 3);

/* As one CSV field of RFC 4180: quoted when it holds a comma, quote, CR, LF, or blanks at an end. */
void buf_add_csv(buf *b, text t);

/* As a JSON string with its quotes (RFC 8259); control characters as \u00XX. `t` must be UTF-8. */
void buf_add_json(buf *b, text t);

/* As HTML or XML text or attribute value: & < > " ' escaped. */
void buf_add_html(buf *b, text t);

/* For a terminal: control characters, C1 of UTF-8 included, as \r, \n, \t or \xNN, so that no text of a file moves the
 * cursor or colours what follows. */
void buf_add_visible(buf *b, text t);

/* A view of the content; dies with the next change of `b`. */
text buf_text(const buf *b);

#endif
