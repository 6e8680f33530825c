/* mass.h: what one piece weighs, from its geometry and density.
 *
 * For counting by weight, for the mass of a unit as it grows, for noticing that a bag is too light. A computed mass is a
 * hint, never a count: weigh ten pieces where it matters.
 *
 * Model (lengths in mm, mass in mg = volume x density in g/cm3):
 *   thread      cylinder of the pitch diameter; smooth shank: cylinder of d
 *   cap head    cylinder dk x k minus hexagon socket 0.866 s^2 t
 *   hex head    0.98 x 0.866 s^2 k (the 0.98 is the chamfer)
 *   button      spherical cap; countersunk: frustum of a cone from dk to d (dk as cut, 0.94 of the theoretical one)
 *   carriage    spherical cap, square neck 1.03 d wide and 0.6 d high
 *   hex nut     (0.985 x 0.866 s^2 - pi/4 d2^2) m; a locking nut 0.77 of it, see mass.c
 *   washer      pi/4 (d2^2 - d1^2) h; spring washer: pi (d1 + b) b h
 *   pin, rod    cylinder
 * Densities in g/cm3: steel 7.85, stainless 7.9, brass 8.5, aluminium 2.7, plastic 1.14 (handbooks, M).
 */
#ifndef TRADE_MASS_H
#define TRADE_MASS_H

#include "trade/dimensions.h"

typedef struct {
    double mass_mg;
    double low_mg, high_mg; /* how far published tables lie from such figures for this form and size */
    bool compared;          /* the form was compared with a published table; false: geometry alone */
    bool steel_assumed;     /* the designation states no material */
    const char *model;      /* which of the lines above */
} piece_mass;

/* Refuses what has no table of sizes, no length where one is needed, and forms without a model. M2 to M16. */
MUST_USE bool fastener_mass(const designation *d, piece_mass *out, err *e);

/* Density in g/cm3; of steel for an unknown material. */
double fastener_density(fastener_material material);

#endif
