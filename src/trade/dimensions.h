/* dimensions.h: how large a named fastener is, M2 to M16 where the standard has it.
 *
 * One answer for all kinds; a value that the piece does not have, or that we do not know, is 0. Nominal or maximum sizes
 * as the standards print them; `source` names where they come from and says "M" for values from memory alone.
 *
 * Two widths: hexagons of M10, M12 and M14 have other widths across flats by the older DIN standards (17, 19, 22) than by
 * ISO (16, 18, 21). Kits mix them, whatever the bag says: `other_flats_um` is the second width to expect.
 */
#ifndef TRADE_DIMENSIONS_H
#define TRADE_DIMENSIONS_H

#include "trade/designation.h"

typedef struct {
    int32_t flats_um;         /* across flats of an outside hexagon or square (s) */
    int32_t other_flats_um;   /* the width of the other family of standards, when it differs */
    int32_t key_um;           /* hex key (s of a socket) */
    int32_t width_um;         /* of a round head (dk), of a washer outside (d2), eye of a split pin (c) */
    int32_t height_um;        /* of a head (k), of a nut (m or h), thickness of a washer (h, s) */
    int32_t hole_um;          /* of a washer (d1) */
    int32_t depth_um;         /* of a socket, least (t) */
    int32_t thread_length_um; /* of a screw up to 125 long (b); 0: not known or threaded to the head */
    int32_t ring_um;          /* width of a spring washer's wire (b) */
    int drive_number;         /* cross recess or hexalobular number; -1 none or not known */
    const char *source;
} fastener_size;

/* By standard; without one by form and drive, as the usual ISO standard has it. Refuses sizes outside the tables. */
MUST_USE bool fastener_size_of(const designation *d, fastener_size *out, err *e);

/* Length of thread on this screw: the tables' b, for l <= 125 mm; all of it when it is not longer than b plus a run-out
 * or threaded to the head. 0 when not known. */
int32_t fastener_threaded_um(const designation *d, const fastener_size *size);

typedef enum { HOLE_FINE, HOLE_MEDIUM, HOLE_COARSE } hole_fit;

/* Clearance hole of ISO 273, M2 to M16; 0 when outside. */
int32_t thread_clearance_hole_um(int32_t thread_um, hole_fit fit);
/* Drill before tapping: diameter minus pitch (common practice; ISO 2306 rounds it), 0 when the thread is not known. */
int32_t thread_tapping_drill_um(int32_t thread_um, int32_t pitch_um);

/* ISO 68-1 and ISO 724, in mm: pitch diameter d2 = d - 0.649519 P, core d3 = d - 1.226869 P, D1 = d - 1.082532 P.
 * ISO 898-1: stress area As = pi/4 ((d2 + d3)/2)^2. NAN for a pitch that ISO 261 does not list for this diameter. */
double thread_pitch_diameter_mm(int32_t thread_um, int32_t pitch_um);
double thread_core_diameter_mm(int32_t thread_um, int32_t pitch_um);
double thread_stress_area_mm2(int32_t thread_um, int32_t pitch_um);

#endif
