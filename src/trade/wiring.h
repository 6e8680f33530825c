/* wiring.h: cables, drops and fuses of a machine on 12 or 24 V from a lead-acid battery.
 *
 * Resistance: the largest that IEC 60228 allows for flexible copper (class 5) at 20 C, both ways; at other temperatures
 * x (1 + 0.00393 (t - 20)). Current a cable may carry: the low end of trade tables for a single flexible cable in free air
 * (from memory, they differ by half): bundled or warm cables carry less. Fuse: at the battery, at or below what the
 * cable carries, at least 1.25 x the load (common practice, no source).
 *
 * Above 24 V nominal, above 100 A, in vehicles on the road, on water, near mains: not covered; ask a licensed person.
 */
#ifndef TRADE_WIRING_H
#define TRADE_WIRING_H

#include "base/err.h"

/* Areas we know, mm2 ascending; 0 after the last. */
double cable_area_at(unsigned i);
/* Ohm per km of one conductor; NAN for an unknown area or a temperature outside -20 to 90 C. */
double cable_ohm_per_km(double area_mm2, bool tinned, double celsius);
/* Amperes; NAN for an unknown area. */
double cable_carries_a(double area_mm2);
/* Volts lost on the way there and back; NAN for arguments out of range. */
double cable_drop_v(double area_mm2, double one_way_m, double amperes, double celsius);

/* i-th usual fuse rating, A (ISO 8820, M); 0 after the last. */
double fuse_rating_at(unsigned i);

typedef struct {
    double volts;        /* 12 or 24 */
    double load_a;       /* steady current, 0.1 to 80 */
    double one_way_m;    /* 0.05 to 20 */
    double drop_allowed; /* share of the voltage, 0.005 to 0.1; 0.03 for motors and electronics is usual */
    double celsius;      /* around the cable, -20 to 60; 20 if unknown. Above 30 it carries less */
    double
        battery_ohm; /* internal resistance; 0: taken as 0.008, a full 12 V 40 Ah AGM (one maker's sheet) */
} wiring_task;

typedef struct {
    double area_mm2;
    bool enough; /* it carries the fuse and keeps the drop */
    double fuse_a;
    double carries_a;
    double drop_v, drop_share;
    double short_at_battery_a; /* prospective, at the terminals: what a spanner across them would draw */
    double short_at_load_a;    /* at the far end of the cable */
    bool fuse_blows;           /* the far-end short is at least three times the fuse */
} wiring_answer;

/* The smallest cable that is enough; refuses when none is. */
MUST_USE bool wiring_choose(const wiring_task *t, wiring_answer *out, err *e);

/* A given cable, enough or not; refuses an area that is not known. */
MUST_USE bool wiring_judge(const wiring_task *t, double area_mm2, wiring_answer *out, err *e);

/* Order of connecting and disconnecting as lines of text; NULL after the last. */
const char *wiring_connect_step(unsigned i);
const char *wiring_disconnect_step(unsigned i);

#endif
