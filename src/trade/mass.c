#include "trade/mass.h"

#include <math.h>
#include <stdio.h>

static const double pi = 3.14159265358979323846;
static const double hexagon = 0.8660254037844386; /* area of a hexagon = this x (across flats)^2 */

double fastener_density(fastener_material material) {
    switch (material) {
    case MATERIAL_A1:
    case MATERIAL_A2:
    case MATERIAL_A4:
    case MATERIAL_STAINLESS:
        return 7.9;
    case MATERIAL_BRASS:
        return 8.5;
    case MATERIAL_ALUMINIUM:
        return 2.7;
    case MATERIAL_PLASTIC:
        return 1.14;
    case MATERIAL_UNKNOWN:
    case MATERIAL_STEEL:
    case MATERIAL_SPRING_STEEL:
    case MATERIAL_COUNT:
    default:
        return 7.85;
    }
}

/* The piece in millimetres. */
typedef struct {
    double d, d2, length, threaded;
    double s, key, width, height, hole, depth, ring;
} in_mm;

static in_mm to_mm(const designation *d, const fastener_size *z) {
    in_mm m = {.d = d->thread_um / 1e3,
               .length = d->length_um / 1e3,
               .threaded = fastener_threaded_um(d, z) / 1e3,
               .s = z->flats_um / 1e3,
               .key = z->key_um / 1e3,
               .width = z->width_um / 1e3,
               .height = z->height_um / 1e3,
               .hole = z->hole_um / 1e3,
               .depth = z->depth_um / 1e3,
               .ring = z->ring_um / 1e3};
    m.d2 = d->pitch_um ? thread_pitch_diameter_mm(d->thread_um, d->pitch_um) : m.d;
    return m;
}

static double disc(double diameter) {
    return pi / 4 * diameter * diameter;
}

static double spherical_cap(double base, double height) {
    return pi * height / 6 * (3 * base * base / 4 + height * height);
}

static double frustum(double large, double small, double height) {
    return pi * height / 12 * (large * large + large * small + small * small);
}

/* Shank from under the head (or from below a countersunk one) to the end. */
static double shank(in_mm m, double length) {
    double threaded = m.threaded > 0 && m.threaded < length ? m.threaded : length;
    return disc(m.d2) * threaded + disc(m.d) * (length - threaded);
}

static double socket(in_mm m) {
    return hexagon * m.key * m.key * m.depth;
}

static double screw_volume(const designation *d, in_mm m, const char **model) {
    switch ((int)d->form) { /* as int: most forms have no case here */
    case FORM_HEX_HEAD:
        *model = "hexagon head and shank";
        return 0.98 * hexagon * m.s * m.s * m.height + shank(m, m.length);
    case FORM_CYLINDER_HEAD:
    case FORM_LOW_CYLINDER_HEAD:
        *model = "cylinder head with socket and shank";
        return disc(m.width) * m.height - socket(m) + shank(m, m.length);
    case FORM_BUTTON_HEAD:
        *model = "spherical cap with socket and shank";
        return spherical_cap(m.width, m.height) - socket(m) + shank(m, m.length);
    case FORM_PAN_HEAD:
    case FORM_CHEESE_HEAD:
        *model = "nine tenths of a cylinder head and shank";
        return 0.9 * disc(m.width) * m.height + shank(m, m.length);
    case FORM_COUNTERSUNK_HEAD:
        *model = "conical head with socket and shank; the length includes the head";
        return frustum(0.94 * m.width, m.d, m.height) - socket(m) + shank(m, m.length - m.height);
    case FORM_MUSHROOM_HEAD: {
        double neck = 0.6 * m.d, side = 1.03 * m.d;
        *model = "spherical cap, square neck and shank";
        return spherical_cap(m.width, m.height) + side * side * neck + shank(m, m.length - neck);
    }
    default:
        return 0;
    }
}

/* Share of the solid hexagon nut of full height, fitted to one published table (M3 to M16): a plastic ring takes room at
 * the top of a locking nut. Castle nuts have no model: a published table lies from 17 % below to 38 % above any share. */
static double nut_share(fastener_form form) {
    return form == FORM_LOCK_NUT ? 0.77 : 1;
}

static double nut_volume(const designation *d, in_mm m, const char **model) {
    switch ((int)d->form) { /* as int: most forms have no case here */
    case FORM_HEX_NUT:
    case FORM_THIN_NUT:
    case FORM_LONG_NUT:
    case FORM_LOCK_NUT:
        *model = "hexagon minus thread, times height";
        return nut_share(d->form) * (0.985 * hexagon * m.s * m.s - disc(m.d2)) * m.height;
    default:
        return 0;
    }
}

static double volume(const designation *d, in_mm m, const char **model) {
    switch (d->kind) {
    case FASTENER_SCREW:
        return m.length > 0 ? screw_volume(d, m, model) : 0;
    case FASTENER_SET_SCREW:
        *model = "threaded cylinder minus socket";
        return m.length > m.depth ? disc(m.d2) * m.length - socket(m) : 0;
    case FASTENER_ROD:
        *model = "cylinder of the pitch diameter";
        return disc(m.d2) * m.length;
    case FASTENER_NUT:
        return nut_volume(d, m, model);
    case FASTENER_WASHER:
        *model = d->form == FORM_SPRING_WASHER ? "wound wire" : "ring";
        return d->form == FORM_SPRING_WASHER ? pi * (m.hole + m.ring) * m.ring * m.height
                                             : (disc(m.width) - disc(m.hole)) * m.height;
    case FASTENER_PIN:
        *model = "cylinder";
        return d->form == FORM_DOWEL_PIN ? disc(m.d) * m.length : 0;
    case FASTENER_UNKNOWN:
    case FASTENER_RING:
    case FASTENER_INSERT:
    default:
        return 0;
    }
}

/* How far published tables lie from the figure, in per cent of it: below and above. Cap screws: real heads are rounded
 * and sockets deeper than the least depth, so tables are lighter, most at the small sizes. */
typedef struct {
    double below, above;
} spread;

static spread cap_screw_spread(int32_t thread_um) {
    if (thread_um < 3000)
        return (spread){30, 2};
    if (thread_um < 6000)
        return (spread){16, 4};
    if (thread_um <= 10000)
        return (spread){6, 2};
    return (spread){15, 2};
}

static spread spread_of(const designation *d, bool *compared) {
    *compared = true;
    switch ((int)d->form) { /* as int: most forms have no case here */
    case FORM_CYLINDER_HEAD:
        return cap_screw_spread(d->thread_um);
    case FORM_HEX_HEAD:
        return (spread){3, 3};
    case FORM_PLAIN_ROD:
        return (spread){1, 1};
    case FORM_HEX_NUT:
    case FORM_THIN_NUT:
        return (spread){4, 4};
    case FORM_LOCK_NUT:
        return (spread){12, 20};
    case FORM_PLAIN_WASHER:
        return (spread){2, 2};
    case FORM_SPRING_WASHER:
        return (spread){5, 1};
    case FORM_MUSHROOM_HEAD:
        return (spread){8, 6};
    default:
        *compared = false;
        return (spread){20, 20};
    }
}

/* Dowel pins need no table. */
static bool size_or_plain(const designation *d, fastener_size *size, err *e) {
    *size = (fastener_size){.drive_number = -1};
    bool plain = d->form == FORM_DOWEL_PIN || d->form == FORM_PLAIN_ROD;
    return (plain && d->thread_um > 0) || fastener_size_of(d, size, e);
}

bool fastener_mass(const designation *d, piece_mass *out, err *e) {
    fastener_size size;
    char place[DESIGNATION_TEXT];
    designation_print(d, place, sizeof place);
    if (!size_or_plain(d, &size, e))
        return false;
    bool long_one = d->kind == FASTENER_SCREW || d->kind == FASTENER_SET_SCREW || d->kind == FASTENER_ROD ||
                    d->kind == FASTENER_PIN;
    if (long_one && d->length_um <= 0)
        return err_input(e, place, "give the length", "its length is not known");
    piece_mass m = {.model = ""};
    double mm3 = volume(d, to_mm(d, &size), &m.model);
    if (!(mm3 > 0))
        return err_input(e, place, "weigh ten pieces", "there is no model of its mass here");
    spread s = spread_of(d, &m.compared);
    m.mass_mg = mm3 * fastener_density(d->material);
    m.low_mg = m.mass_mg * (1 - s.below / 100);
    m.high_mg = m.mass_mg * (1 + s.above / 100);
    m.steel_assumed = d->material == MATERIAL_UNKNOWN;
    *out = m;
    return true;
}
