/* image.h: a picture file (PNG or JPEG) put on a sheet.
 *
 * The bytes come from a kit, so they are trusted in nothing: sizes are read from the header and checked before
 * anything is decoded. A JPEG is not decoded at all, its bytes go into the PDF as they are.
 */
#ifndef PAPER_IMAGE_H
#define PAPER_IMAGE_H

#include "paper/sheet.h"

typedef struct {
    cairo_surface_t *surface; /* NULL: none */
    int width, height;        /* in its own points */
} image;

/* Reads the picture; `bytes` must live until the PDF is closed. False with the reason in *why, a string that lives for
 * ever. The caller closes it. */
MUST_USE bool image_open(text bytes, image *out, const char **why);
void image_close(image *i); /* of an empty one is allowed */

/* The height it takes when it fills `width`, but at most `most_height`; 0 for an empty one. */
double image_height(const image *i, double width, double most_height);

/* Draws it with the upper left corner at x, y, as large as image_height says. */
void image_draw(sheet *s, const image *i, double x, double y, double width, double most_height);

#endif
