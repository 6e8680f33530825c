/* picture.h: drawings as plain shapes and texts.
 *
 * The geometry of a drawing is computed once, here; paper paints the shapes into a PDF, the pages paint the same ones
 * as SVG. So a shape says where it is and what tone it has, and nothing of how a face draws it. Lengths are points
 * (1/72 inch), y downwards. This room knows no fonts: a text has a box to stand in, and the painter cuts what does not
 * fit with "…".
 *
 * Ownership: shapes and their texts live in the arena given to picture_in. A picture is a plain value.
 */
#ifndef PICTURE_PICTURE_H
#define PICTURE_PICTURE_H

#include "base/text.h"

typedef enum { PICTURE_BOX, PICTURE_LINE, PICTURE_TEXT } picture_kind;

/* Tones by their use; black and white first, so a picture never tells two things apart by tone alone. */
typedef enum {
    PICTURE_NOTHING,
    PICTURE_INK,
    PICTURE_QUIET,
    PICTURE_FAINT,
    PICTURE_WASH,
    PICTURE_ACCENT,
    PICTURE_PAPER
} picture_tone;

typedef enum { PICTURE_SMALL, PICTURE_BODY, PICTURE_LARGE } picture_size;
typedef enum { PICTURE_START, PICTURE_MIDDLE, PICTURE_END } picture_anchor;

typedef struct {
    picture_kind kind;
    double x, y, width,
        height; /* a line runs from x, y to x + width, y + height; a text stands at the top of its box */
    picture_tone stroke; /* of the outline or line; of the letters of a text */
    double weight;       /* of the stroke */
    picture_tone fill;   /* of a box */
    bool hatched;        /* a box: the fill is thin slanting lines of its tone */
    text words;
    picture_size size;
    picture_anchor anchor;
    bool bold;
    int most_lines; /* 0: one */
} picture_shape;

typedef struct {
    arena *memory;
    double width, height;
    picture_shape *shapes; /* later ones lie above earlier ones */
    size_t n, cap;
} picture;

picture picture_in(arena *a, double width, double height);
void picture_add(picture *p, picture_shape shape);

#endif
