/* fastener.c: a fastener seen from its end and from its side, in true scale.
 *
 * Everything is laid out in millimetres around the axis of the piece (y = 0) and turned into points by one pen. */
#include <math.h>
#include <string.h>

#include "picture/picture.h"

enum { CIRCLE_POINTS = 48, ARC_POINTS = 13, PATH_MOST = 64 };

static const double pi = 3.14159265358979323846;
static const double corners = 1.1547005383792515; /* across corners = this x across flats */

typedef struct {
    picture *to;
    double unit; /* points for a millimetre */
    double x, y; /* the axis in points: where x_mm = 0, y_mm = 0 comes to lie */
} pen;

static void path(const pen *p, const double *mm, size_t n, bool closed, double weight, picture_tone fill) {
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

static const double outline = 0.8, thin = 0.3;

static void line(const pen *p, double x1, double y1, double x2, double y2, double weight) {
    const double mm[] = {x1, y1, x2, y2};
    path(p, mm, 2, false, weight, PICTURE_NOTHING);
}

static void rectangle(const pen *p, double x1, double x2, double half) {
    const double mm[] = {x1, -half, x2, -half, x2, half, x1, half};
    path(p, mm, 4, true, outline, PICTURE_PAPER);
}

static void circle(const pen *p, double diameter, double weight, picture_tone fill) {
    double mm[2 * CIRCLE_POINTS];
    for (size_t i = 0; i < CIRCLE_POINTS; i++) {
        mm[2 * i] = diameter / 2 * cos(2 * pi * (double)i / CIRCLE_POINTS);
        mm[2 * i + 1] = diameter / 2 * sin(2 * pi * (double)i / CIRCLE_POINTS);
    }
    path(p, mm, CIRCLE_POINTS, true, weight, fill);
}

/* Flats above and below. */
static void hexagon(const pen *p, double flats, picture_tone fill) {
    double mm[12];
    for (size_t i = 0; i < 6; i++) {
        mm[2 * i] = flats * corners / 2 * cos(pi / 3 * (double)i);
        mm[2 * i + 1] = flats * corners / 2 * sin(pi / 3 * (double)i);
    }
    path(p, mm, 6, true, outline, fill);
}

/* A spherical cap from x = height (its base) up to x = 0. */
static void cap(const pen *p, double width, double height) {
    double mm[2 * ARC_POINTS], radius = (width * width / 4 + height * height) / (2 * height);
    double half = asin(fmin(1, width / 2 / radius));
    if (height > radius)
        half = pi - half;
    for (size_t i = 0; i < ARC_POINTS; i++) {
        double angle = -half + 2 * half * (double)i / (ARC_POINTS - 1);
        mm[2 * i] = radius - radius * cos(angle);
        mm[2 * i + 1] = radius * sin(angle);
    }
    path(p, mm, ARC_POINTS, true, outline, PICTURE_PAPER);
}

/* A hexagon from the side, one edge towards the eye. */
static void hexagon_side(const pen *p, double x1, double x2, double flats) {
    double half = flats * corners / 2;
    rectangle(p, x1, x2, half);
    line(p, x1, -half / 2, x2, -half / 2, outline);
    line(p, x1, half / 2, x2, half / 2, outline);
}

/* What is needed of a piece, in mm. */
typedef struct {
    const designation *d;
    double thread, core, pitch, length, threaded;
    double flats, key, width, height, hole;
} piece;

static piece measure(const designation *d, const fastener_size *z) {
    piece m = {.d = d,
               .thread = d->thread_um / 1e3,
               .pitch = d->pitch_um / 1e3,
               .length = d->length_um / 1e3,
               .threaded = fastener_threaded_um(d, z) / 1e3,
               .flats = z->flats_um / 1e3,
               .key = z->key_um / 1e3,
               .width = z->width_um / 1e3,
               .height = z->height_um / 1e3,
               .hole = z->hole_um / 1e3};
    m.core = d->pitch_um ? thread_core_diameter_mm(d->thread_um, d->pitch_um) : m.thread;
    return m;
}

/* From x to the end; the last pitch is chamfered. */
static void shank(const pen *p, const piece *m, double x, double end) {
    double r = m->thread / 2, tip = m->pitch < end - x ? m->pitch / 2 : 0;
    const double mm[] = {x, -r, end - tip, -r, end, -r + tip, end, r - tip, end - tip, r, x, r};
    path(p, mm, 6, true, outline, PICTURE_PAPER);
    double from = m->threaded > 0 && end - m->threaded > x ? end - m->threaded : x;
    if (from > x)
        line(p, from, -r, from, r, outline);
    line(p, from, -m->core / 2, end, -m->core / 2, thin);
    line(p, from, m->core / 2, end, m->core / 2, thin);
}

static void countersunk_side(const pen *p, const piece *m) {
    double r = m->thread / 2, k = m->height;
    const double mm[] = {0, -m->width / 2, k, -r, k, r, 0, m->width / 2};
    shank(p, m, k, m->length);
    path(p, mm, 4, true, outline, PICTURE_PAPER);
}

/* True when the form is drawn. */
static bool screw_side(const pen *p, const piece *m) {
    double k = m->height;
    switch ((int)m->d->form) {
    case FORM_HEX_HEAD:
        shank(p, m, k, k + m->length);
        hexagon_side(p, 0, k, m->flats);
        return true;
    case FORM_CYLINDER_HEAD:
    case FORM_LOW_CYLINDER_HEAD:
    case FORM_CHEESE_HEAD:
        shank(p, m, k, k + m->length);
        rectangle(p, 0, k, m->width / 2);
        return true;
    case FORM_BUTTON_HEAD:
    case FORM_PAN_HEAD:
        shank(p, m, k, k + m->length);
        cap(p, m->width, k);
        return true;
    case FORM_MUSHROOM_HEAD:
        shank(p, m, k, k + m->length);
        rectangle(p, k, k + 0.6 * m->thread, 0.515 * m->thread);
        cap(p, m->width, k);
        return true;
    case FORM_COUNTERSUNK_HEAD:
        countersunk_side(p, m);
        return true;
    default:
        return false;
    }
}

/* The plastic ring of a locking nut sits in a round collar: what tells it from a plain one at a glance. */
static void nut_side(const pen *p, const piece *m) {
    bool ring = m->d->form == FORM_LOCK_NUT || m->d->form == FORM_THIN_LOCK_NUT;
    double hexagonal = ring ? 0.72 * m->height : m->height;
    hexagon_side(p, 0, hexagonal, m->flats);
    if (ring)
        rectangle(p, hexagonal, m->height, 0.44 * m->flats);
}

static bool draw_side(const pen *p, const piece *m) {
    switch (m->d->kind) {
    case FASTENER_SCREW:
        return m->length > m->height && screw_side(p, m);
    case FASTENER_SET_SCREW:
        shank(p, m, 0, m->length);
        return m->length > 0;
    case FASTENER_NUT:
        if (m->flats <= 0 || m->height <= 0)
            return false;
        nut_side(p, m);
        return true;
    case FASTENER_WASHER:
        rectangle(p, 0, m->height, m->width / 2);
        return m->height > 0;
    case FASTENER_UNKNOWN:
    case FASTENER_ROD:
    case FASTENER_PIN:
    case FASTENER_RING:
    case FASTENER_INSERT:
    default:
        return false;
    }
}

static void draw_drive(const pen *p, const piece *m) {
    double r = 0.3 * m->width;
    switch (m->d->drive) {
    case DRIVE_HEX_SOCKET:
        hexagon(p, m->key, PICTURE_FAINT);
        break;
    case DRIVE_CROSS:
        line(p, -r, 0, r, 0, 2 * outline);
        line(p, 0, -r, 0, r, 2 * outline);
        break;
    case DRIVE_SLOT:
        line(p, -m->width / 2, 0, m->width / 2, 0, 2 * outline);
        break;
    case DRIVE_HEXALOBULAR:
        hexagon(p, 0.45 * m->width, PICTURE_FAINT);
        circle(p, 0.36 * m->width, outline, PICTURE_FAINT);
        break;
    case DRIVE_UNKNOWN:
    case DRIVE_NONE:
    case DRIVE_HEXAGON:
    case DRIVE_SQUARE:
    case DRIVE_HAND:
    case DRIVE_COUNT:
    default:
        break;
    }
}

static void draw_end(const pen *p, const piece *m) {
    bool nut = m->d->kind == FASTENER_NUT;
    if (m->flats > 0)
        hexagon(p, m->flats, PICTURE_PAPER);
    else
        circle(p, m->d->kind == FASTENER_SET_SCREW ? m->thread : m->width, outline, PICTURE_PAPER);
    if (nut) {
        circle(p, m->core, outline, PICTURE_FAINT);
        circle(p, m->thread, thin, PICTURE_NOTHING);
    } else if (m->d->kind == FASTENER_WASHER) {
        circle(p, m->hole, outline, PICTURE_FAINT);
        if (m->d->form == FORM_SPRING_WASHER) { /* cut through */
            line(p, m->hole / 2, -0.3, m->width / 2, -0.3, outline);
            line(p, m->hole / 2, 0.3, m->width / 2, 0.3, outline);
        }
    }
    draw_drive(p, m);
}

bool picture_fastener(arena *a, const designation *d, double scale, picture *out, err *e) {
    char place[DESIGNATION_TEXT];
    fastener_size size;
    designation_print(d, place, sizeof place);
    if (!(scale >= 0.2 && scale <= 5))
        return err_input(e, place, "take 1 for true scale", "a scale must be from 0.2 to 5");
    if (!fastener_size_of(d, &size, e))
        return false;
    piece m = measure(d, &size);
    double wide = fmax(fmax(m.flats * corners, m.width), m.thread), gap = 4;
    bool head_counts = d->form == FORM_COUNTERSUNK_HEAD || d->kind == FASTENER_SET_SCREW;
    double side = (m.length > 0 ? m.length : 0) + (head_counts ? 0 : m.height);
    double unit = scale * PICTURE_MM, margin = outline;
    *out = picture_in(a, (wide + gap + side) * unit + 2 * margin, wide * unit + 2 * margin);
    pen end = {out, unit, margin + wide / 2 * unit, margin + wide / 2 * unit};
    pen across = {out, unit, margin + (wide + gap) * unit, end.y};
    draw_end(&end, &m);
    if (!draw_side(&across, &m))
        return err_input(e, place, "print its name instead", "this kind of piece is not drawn");
    return true;
}
