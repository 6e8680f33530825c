/* fastener_pen.c: the strokes that fasteners are drawn with. */
#include "picture/fastener_pen.h"

#include <math.h>

enum { CIRCLE_POINTS = 48, ARC_POINTS = 13, PATH_MOST = 64 };

static const double pi = 3.14159265358979323846;

void pen_path(const pen *p, const double *mm, size_t n, bool closed, double weight, picture_tone fill) {
    double *points = arena_array(p->to->memory, double, 2 * n);
    for (size_t i = 0; i < n; i++) {
        points[2 * i] = mm[2 * i] * p->unit;
        points[2 * i + 1] = mm[2 * i + 1] * p->unit;
    }
    picture_add(p->to, (picture_shape){.kind = PICTURE_PATH,
                                       .x = p->x,
                                       .y = p->y,
                                       .stroke = PICTURE_INK,
                                       .weight = weight,
                                       .fill = fill,
                                       .points = points,
                                       .n_points = n,
                                       .closed = closed});
}

void pen_line(const pen *p, double x1, double y1, double x2, double y2, double weight) {
    const double mm[] = {x1, y1, x2, y2};
    pen_path(p, mm, 2, false, weight, PICTURE_NOTHING);
}

void pen_rectangle(const pen *p, double x1, double x2, double half) {
    const double mm[] = {x1, -half, x2, -half, x2, half, x1, half};
    pen_path(p, mm, 4, true, pen_outline, PICTURE_PAPER);
}

void pen_circle(const pen *p, double diameter, double weight, picture_tone fill) {
    double mm[2 * CIRCLE_POINTS];
    for (size_t i = 0; i < CIRCLE_POINTS; i++) {
        mm[2 * i] = diameter / 2 * cos(2 * pi * (double)i / CIRCLE_POINTS);
        mm[2 * i + 1] = diameter / 2 * sin(2 * pi * (double)i / CIRCLE_POINTS);
    }
    pen_path(p, mm, CIRCLE_POINTS, true, weight, fill);
}

/* Flats above and below. */
void pen_hexagon(const pen *p, double flats, picture_tone fill) {
    double mm[12];
    for (size_t i = 0; i < 6; i++) {
        mm[2 * i] = flats * pen_corners / 2 * cos(pi / 3 * (double)i);
        mm[2 * i + 1] = flats * pen_corners / 2 * sin(pi / 3 * (double)i);
    }
    pen_path(p, mm, 6, true, pen_outline, fill);
}

/* A spherical cap from x = height (its base) up to x = 0. */
void pen_cap(const pen *p, double width, double height) {
    double mm[2 * ARC_POINTS], radius = (width * width / 4 + height * height) / (2 * height);
    double half = asin(fmin(1, width / 2 / radius));
    if (height > radius)
        half = pi - half;
    for (size_t i = 0; i < ARC_POINTS; i++) {
        double angle = -half + 2 * half * (double)i / (ARC_POINTS - 1);
        mm[2 * i] = radius - radius * cos(angle);
        mm[2 * i + 1] = radius * sin(angle);
    }
    pen_path(p, mm, ARC_POINTS, true, pen_outline, PICTURE_PAPER);
}

/* A hexagon from the side, one edge towards the eye. */
void pen_hexagon_side(const pen *p, double x1, double x2, double flats) {
    double half = flats * pen_corners / 2;
    pen_rectangle(p, x1, x2, half);
    pen_line(p, x1, -half / 2, x2, -half / 2, pen_outline);
    pen_line(p, x1, half / 2, x2, half / 2, pen_outline);
}
