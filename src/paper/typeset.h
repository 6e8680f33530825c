/* typeset.h: texts of any script, set in lines.
 *
 * One type scale for all sheets: six sizes, each with its own fixed distance between lines, all on a grid of 2 points.
 * A text is wrapped at words (inside a word only when it is wider than the column), so its height is always a whole
 * number of lines whatever its script. Digits all have one width. A line that runs from right to left stands at the
 * right of its column when its text takes several lines; a single line stands where the column's alignment says.
 *
 * Characters without a glyph are drawn as a box holding the code point, and remembered for the notes.
 *
 * Workload: some ten thousand short texts, each measured once or twice and drawn once, so one layout object is used
 * again and again and nothing is kept.
 */
#ifndef PAPER_TYPESET_H
#define PAPER_TYPESET_H

#include "base/buf.h"
#include "paper/fonts.h"
#include "paper/ink.h"
#include "paper/paper.h"

typedef enum { TYPE_SMALL, TYPE_BODY, TYPE_LARGE, TYPE_HEAD, TYPE_TITLE, TYPE_POSTER, TYPE_SIZES } type_size;
typedef enum { TYPE_START, TYPE_CENTRE, TYPE_END } type_align;

typedef struct {
    type_size size;
    bool bold;
    ink colour;
    type_align align;
    int most_lines; /* the rest is cut with "…"; 0: as many as it takes */
} type_style;

typedef struct typeset typeset;

/* In the arena, but the caller closes it. */
MUST_USE bool typeset_open(arena *a, typeset **out, err *e);
void typeset_close(typeset *t); /* NULL is allowed */

/* Distance between two lines, in points. */
double type_leading(type_size size);
/* Size of the letters, in points. */
double type_points(type_size size);

/* Lines that `words` takes in a column of `width` points; 0 for an empty text. */
int typeset_lines(typeset *t, text words, type_style style, double width);

/* typeset_lines times the leading. */
double typeset_height(typeset *t, text words, type_style style, double width);

/* Width of `words` on one line. */
double typeset_width(typeset *t, text words, type_style style);

/* Draws with the upper left corner of the column at x, y. */
void typeset_draw(typeset *t, cairo_t *cr, text words, type_style style, double x, double y, double width);

/* Adds a note on the characters that had no glyph, if there were any. */
void typeset_add_notes(const typeset *t, arena *a, paper_notes *notes);

#endif
