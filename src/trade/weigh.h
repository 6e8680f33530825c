/* weigh.h: counting by weight, and when it must not be trusted.
 *
 * The count is net mass / mean piece mass. Three things blur it: the scatter of the pieces themselves, the mean known only
 * from a reference sample, and the scale. In pieces, for N pieces and a reference of n:
 *   sd^2 = N cv^2 + N^2 cv^2/n + (s/m)^2 + (N s/(n m))^2
 * cv: scatter of one piece, share of its mass; s: standard deviation of the scale; m: mean mass. Error propagation, as in
 * Steiner and MacKay, "Scale Counting"; without a scale error it is N cv sqrt(1/N + 1/n).
 * Before weighing, the chance that the count will be exactly right is 2 Phi(0.5/sd) - 1; after it, the reading itself
 * tells more: one near a whole number is surer than one half-way.
 *
 * Not covered: damp or oily pieces, dirt in the bag, a second sort among them. A mixed bag counts wrong with confidence.
 */
#ifndef TRADE_WEIGH_H
#define TRADE_WEIGH_H

#include <stdint.h>

#include "base/err.h"

typedef struct {
    double scale_step_g; /* smallest step shown; its standard deviation is taken as the step / sqrt(12) */
    double scale_sd_g;   /* repeatability besides, 0 when not known */
    double piece_cv; /* scatter of one piece: 0.005 to 0.015 is usual for turned and pressed metal parts */
    int32_t reference_n; /* pieces in the reference sample */
    double reference_g;  /* their net mass */
    double tare_g, gross_g;
} weighing;

typedef struct {
    double pieces;        /* net / mean, not rounded */
    int32_t count;        /* rounded */
    double sd;            /* of the count, in pieces */
    double chance_before; /* that a count of so many pieces comes out exactly right: 2 Phi(0.5/sd) - 1 */
    double chance_right;  /* of this one, whose reading is known */
    int32_t low, high;    /* 95 of 100 such bags lie within */
    bool told; /* both chances reach the one that was asked for; otherwise only low..high may be said */
    int32_t reference_needed; /* sample that reaches it at this count; 0: none is large enough */
} weighed_count;

/* `wanted` is the chance that is asked for, 0.5 to 0.9999 (0.95 is usual). Refuses NAN, negative or absurd
 * masses, and counts that cannot be told from the next one at all (sd above 0.75:
 * then even the likeliest count is wrong every other time). */
MUST_USE bool weigh_count(const weighing *w, double wanted, weighed_count *out, err *e);

/* Before weighing: sd in pieces for an expected count; scale_sd_share is s/m, 0 for a perfect scale. NAN when out of range. */
double weigh_sd(int32_t pieces, int32_t reference_n, double piece_cv, double scale_sd_share);
double weigh_chance_right(double sd);
/* Smallest reference sample that reaches `wanted`; 0 when none does. */
int32_t weigh_reference_needed(int32_t pieces, double piece_cv, double scale_sd_share, double wanted);

/* Mean and scatter from single weighings, n >= 5; the scatter includes the scale's own. */
MUST_USE bool weigh_scatter(const double *masses_g, int32_t n, double *mean_g, double *cv, err *e);

#endif
