/* identify_inside.h: candidates under suspicion; private to identify*.c. */
#ifndef TRADE_IDENTIFY_INSIDE_H
#define TRADE_IDENTIFY_INSIDE_H

#include "trade/identify.h"

/* What one candidate would show. */
typedef struct {
    const designation *name;
    double expected[LOOK_COUNT]; /* mm; NAN: not known or none */
    double chance;
} suspect;

bool look_is_measure(look_sort look);
double look_error_mm(look_sort look, gauge_sort gauge);

/* Fills `name` and `expected`. */
void suspect_expect(suspect *s, const designation *d);

/* How likely it is that this is seen when the piece is this suspect; for shapes up to a factor that is the same for all. */
double suspect_likelihood(const suspect *s, const seen_thing *t);

/* Has the thread that a nut or a screw can be tried on. */
bool look_can_mate(const designation *d);
double look_mate_chance(const designation *piece, const designation *mate);
double look_finish_chance(const designation *d, fastener_finish said);

/* Fills out->next from the suspects that are still likely; out->bits_open is known. `room`: n numbers. */
void identify_next(const suspect *list, uint32_t n, const candidate *all, const seen_thing *seen,
                   uint32_t n_seen, double *room, identity *out);

/* Entropy of chances that need not sum to 1. */
double identify_entropy_bits(const double *chances, uint32_t n);

#endif
