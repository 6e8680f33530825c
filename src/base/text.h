/* text.h: a piece of text that somebody else owns.
 *
 * A text is a pointer and a length; it is not terminated by a NUL unless its maker says so. Texts made by the
 * arena_text functions are followed by a NUL, so that `at` can be given to C functions. All texts are UTF-8 once
 * they passed a reader.
 */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/attributes.h"

typedef struct {
    const char *at;
    size_t len;
} text;

/* A text of a string literal; usable as an initialiser with TEXT_INIT. */
#define TEXT(literal) ((text){(literal), sizeof(literal) - 1})
#define TEXT_INIT(literal)                                                                                   \
    { (literal), sizeof(literal) - 1 }

/* For printf: "%.*s" with TEXT_ARG(t). */
#define TEXT_ARG(t) (int)(t).len, (t).at

/* The text of a NUL-terminated string; NULL gives the empty text. */
text text_of(const char *z);

bool text_is(text a, const char *z);
bool text_equal(text a, text b);

/* By bytes, which for UTF-8 is by code point: <0, 0, >0. */
int text_compare(text a, text b);

/* Numbers inside compare as numbers, so that "B2" stands before "B10"; the order people expect of labels. */
int text_compare_natural(text a, text b);

/* ASCII letters compare without case; other bytes exactly. */
bool text_equal_nocase(text a, text b);
bool text_starts(text t, text prefix);
bool text_ends(text t, text suffix);

/* Without blanks (space, tab, CR, LF, no-break space U+00A0) at both ends. */
text text_trim(text t);

/* The bytes from `from` to before `to`, clipped to the text. */
text text_slice(text t, size_t from, size_t to);

/* Position of the first `piece` in `t`, or -1. */
ptrdiff_t text_find(text t, text piece);

/* Cuts the next piece off `rest` at `separator`: "a;b" gives "a", then "b", then false. A separator at the end is
 * followed by one empty piece; an empty `rest` with at == NULL gives false. Start with a copy of the whole text. */
bool text_next_piece(text *rest, char separator, text *piece);

/* How many bytes must be inserted, deleted, changed or swapped with their neighbour to turn one into the other (optimal
 * string alignment); TEXT_EDITS_FAR for texts longer than 40 bytes. */
enum { TEXT_EDITS_FAR = 1000 };
unsigned text_edits(text a, text b);

/* A copy in the arena, followed by a NUL. */
text arena_text(arena *a, text t);
const char *arena_z(arena *a, text t);

/* printf into the arena, followed by a NUL. */
text arena_format(arena *a, const char *format, ...) PRINTF_LIKE(2, 3);
text arena_format_list(arena *a, const char *format, va_list list) PRINTF_LIKE(2, 0);

#endif
