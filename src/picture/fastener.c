/* fastener.c: a fastener seen from its end and from its side, in true scale.
 *
 * Everything is laid out in millimetres around the axis of the piece (y = 0) and turned into points by one pen. */
#include <math.h>

#include "picture/fastener_pen.h"

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
    pen_path(p, mm, 6, true, pen_outline, PICTURE_PAPER);
    double from = m->threaded > 0 && end - m->threaded > x ? end - m->threaded : x;
    if (from > x)
        pen_line(p, from, -r, from, r, pen_outline);
    pen_line(p, from, -m->core / 2, end, -m->core / 2, pen_thin);
    pen_line(p, from, m->core / 2, end, m->core / 2, pen_thin);
}

static void countersunk_side(const pen *p, const piece *m) {
    double r = m->thread / 2, k = m->height;
    const double mm[] = {0, -m->width / 2, k, -r, k, r, 0, m->width / 2};
    shank(p, m, k, m->length);
    pen_path(p, mm, 4, true, pen_outline, PICTURE_PAPER);
}

/* True when the form is drawn. */
static bool screw_side(const pen *p, const piece *m) {
    double k = m->height;
    switch ((int)m->d->form) {
    case FORM_HEX_HEAD:
        shank(p, m, k, k + m->length);
        pen_hexagon_side(p, 0, k, m->flats);
        return true;
    case FORM_CYLINDER_HEAD:
    case FORM_LOW_CYLINDER_HEAD:
    case FORM_CHEESE_HEAD:
        shank(p, m, k, k + m->length);
        pen_rectangle(p, 0, k, m->width / 2);
        return true;
    case FORM_BUTTON_HEAD:
    case FORM_PAN_HEAD:
        shank(p, m, k, k + m->length);
        pen_cap(p, m->width, k);
        return true;
    case FORM_MUSHROOM_HEAD:
        shank(p, m, k, k + m->length);
        pen_rectangle(p, k, k + 0.6 * m->thread, 0.515 * m->thread);
        pen_cap(p, m->width, k);
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
    pen_hexagon_side(p, 0, hexagonal, m->flats);
    if (ring)
        pen_rectangle(p, hexagonal, m->height, 0.44 * m->flats);
}

/* A straight pin; chamfered at both ends. A spring pin is a rolled sheet: its inside shows as thin lines. */
static void pin_side(const pen *p, const piece *m) {
    double r = m->thread / 2, tip = fmin(0.15 * m->thread, m->length / 4);
    const double mm[] = {0,         -r + tip, tip,       -r,      m->length - tip, -r,
                         m->length, -r + tip, m->length, r - tip, m->length - tip, r,
                         tip,       r,        0,         r - tip};
    pen_path(p, mm, 8, true, pen_outline, PICTURE_PAPER);
    if (m->d->form == FORM_SPRING_PIN) {
        pen_line(p, 0, -0.6 * r, m->length, -0.6 * r, pen_thin);
        pen_line(p, 0, 0.6 * r, m->length, 0.6 * r, pen_thin);
    }
}

/* The eye on the left, two half-round legs behind it, one a little longer. */
static void split_pin_side(const pen *p, const piece *m) {
    pen eye = *p;
    double r = m->hole / 2;
    eye.x += m->width / 2 * p->unit;
    const double upper[] = {m->width * 0.9,       -r, m->width + m->length, -r,
                            m->width + m->length, 0,  m->width * 0.9,       0};
    const double lower[] = {m->width * 0.9,           0, m->width + m->length - r, 0,
                            m->width + m->length - r, r, m->width * 0.9,           r};
    pen_path(p, upper, 4, true, pen_outline, PICTURE_PAPER);
    pen_path(p, lower, 4, true, pen_outline, PICTURE_PAPER);
    pen_circle(&eye, m->width, pen_outline, PICTURE_PAPER);
    pen_circle(&eye, fmax(0.2, m->width - 2 * r), pen_outline, PICTURE_PAPER);
}

static bool draw_pin(const pen *p, const piece *m) {
    if (m->length <= 0)
        return false;
    if (m->d->form == FORM_SPLIT_PIN)
        split_pin_side(p, m);
    else
        pin_side(p, m);
    return true;
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
        pen_rectangle(p, 0, m->height, m->width / 2);
        return m->height > 0;
    case FASTENER_ROD:
        shank(p, m, 0, m->length);
        return m->length > 0;
    case FASTENER_PIN:
        return draw_pin(p, m);
    case FASTENER_UNKNOWN:
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
        pen_hexagon(p, m->key, PICTURE_FAINT);
        break;
    case DRIVE_CROSS:
        pen_line(p, -r, 0, r, 0, 2 * pen_outline);
        pen_line(p, 0, -r, 0, r, 2 * pen_outline);
        break;
    case DRIVE_SLOT:
        pen_line(p, -m->width / 2, 0, m->width / 2, 0, 2 * pen_outline);
        break;
    case DRIVE_HEXALOBULAR:
        pen_hexagon(p, 0.45 * m->width, PICTURE_FAINT);
        pen_circle(p, 0.36 * m->width, pen_outline, PICTURE_FAINT);
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

/* Rods and pins: a circle; the core of a thread, the slot of a rolled pin, the parting of a split one. */
static void draw_round_end(const pen *p, const piece *m) {
    double d = m->d->form == FORM_SPLIT_PIN ? m->hole : m->thread;
    pen_circle(p, d, pen_outline, PICTURE_PAPER);
    if (m->d->kind == FASTENER_ROD)
        pen_circle(p, m->core, pen_thin, PICTURE_NOTHING);
    if (m->d->form == FORM_SPRING_PIN) {
        pen_circle(p, 0.6 * d, pen_outline, PICTURE_FAINT);
        pen_line(p, 0.3 * d, 0, d / 2, 0, 2 * pen_outline);
    }
    if (m->d->form == FORM_SPLIT_PIN)
        pen_line(p, -d / 2, 0, d / 2, 0, pen_outline);
}

static void draw_end(const pen *p, const piece *m) {
    bool nut = m->d->kind == FASTENER_NUT;
    if (m->d->kind == FASTENER_ROD || m->d->kind == FASTENER_PIN) {
        draw_round_end(p, m);
        return;
    }
    if (m->flats > 0)
        pen_hexagon(p, m->flats, PICTURE_PAPER);
    else
        pen_circle(p, m->d->kind == FASTENER_SET_SCREW ? m->thread : m->width, pen_outline, PICTURE_PAPER);
    if (nut) {
        pen_circle(p, m->core, pen_outline, PICTURE_FAINT);
        pen_circle(p, m->thread, pen_thin, PICTURE_NOTHING);
    } else if (m->d->kind == FASTENER_WASHER) {
        pen_circle(p, m->hole, pen_outline, PICTURE_FAINT);
        if (m->d->form == FORM_SPRING_WASHER) { /* cut through */
            pen_line(p, m->hole / 2, -0.3, m->width / 2, -0.3, pen_outline);
            pen_line(p, m->hole / 2, 0.3, m->width / 2, 0.3, pen_outline);
        }
    }
    draw_drive(p, m);
}

/* Rods and straight pins are known by their name alone; the rest needs a table. */
static bool find_size(const designation *d, fastener_size *out, err *e) {
    bool named = d->kind == FASTENER_ROD || d->form == FORM_DOWEL_PIN || d->form == FORM_SPRING_PIN;
    if (fastener_size_of(d, out, named ? NULL : e))
        return true;
    *out = (fastener_size){.drive_number = -1};
    return named;
}

/* How long the side view is. */
static double side_length(const piece *m) {
    bool head_counts = m->d->form == FORM_COUNTERSUNK_HEAD || m->d->kind == FASTENER_SET_SCREW ||
                       m->d->kind == FASTENER_ROD || m->d->kind == FASTENER_PIN;
    double length = m->length > 0 ? m->length : 0;
    return length + (m->d->form == FORM_SPLIT_PIN ? m->width : head_counts ? 0 : m->height);
}

bool picture_fastener(arena *a, const designation *d, double scale, picture *out, err *e) {
    char place[DESIGNATION_TEXT];
    fastener_size size;
    designation_print(d, place, sizeof place);
    if (!(scale >= 0.2 && scale <= 5))
        return err_input(e, place, "take 1 for true scale", "a scale must be from 0.2 to 5");
    if (!find_size(d, &size, e))
        return false;
    piece m = measure(d, &size);
    double wide = fmax(fmax(m.flats * pen_corners, m.width), m.thread), gap = 4;
    double side = side_length(&m);
    double unit = scale * PICTURE_MM, margin = pen_outline;
    *out = picture_in(a, (wide + gap + side) * unit + 2 * margin, wide * unit + 2 * margin);
    pen end = {out, unit, margin + wide / 2 * unit, margin + wide / 2 * unit};
    pen across = {out, unit, margin + (wide + gap) * unit, end.y};
    draw_end(&end, &m);
    if (!draw_side(&across, &m))
        return err_input(e, place, "print its name instead", "this kind of piece is not drawn");
    return true;
}
