/* fastener_pen.h: the strokes that fasteners are drawn with: millimetres around an axis, turned into points. Private to
 * fastener*.c.
 */
#ifndef PICTURE_FASTENER_PEN_H
#define PICTURE_FASTENER_PEN_H

#include "picture/picture.h"

typedef struct {
    picture *to;
    double unit; /* points for a millimetre */
    double x, y; /* the axis in points: where x_mm = 0, y_mm = 0 comes to lie */
} pen;

/* Weights of lines, in points; across corners of a hexagon = pen_corners x across flats. */
static const double pen_outline = 0.8, pen_thin = 0.3, pen_corners = 1.1547005383792515;

/* n pairs of x, y. */
void pen_path(const pen *p, const double *mm, size_t n, bool closed, double weight, picture_tone fill);
void pen_line(const pen *p, double x1, double y1, double x2, double y2, double weight);
/* From x1 to x2, `half` to either side of the axis. */
void pen_rectangle(const pen *p, double x1, double x2, double half);
/* Around the axis. */
void pen_circle(const pen *p, double diameter, double weight, picture_tone fill);
/* Seen from its end, flats above and below; and from the side, one edge towards the eye. */
void pen_hexagon(const pen *p, double flats, picture_tone fill);
void pen_hexagon_side(const pen *p, double x1, double x2, double flats);
/* A spherical cap from x = height (its base) up to x = 0. */
void pen_cap(const pen *p, double width, double height);

#endif
