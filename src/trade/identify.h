/* identify.h: which part of the kit is this piece, and what to look at next.
 *
 * From what a beginner sees or measures, each part of the kit gets a probability: prior by how many pieces the kit has,
 * times how likely the observations are for it. Then every look or measurement that is still open is tried on paper: how
 * many bits would it give on average? The largest comes first (expected information, Lindley 1956).
 *
 * Errors taken (one standard deviation; common practice, no source): ruler 0.5 mm, caliper 0.05 mm, both also for
 * diameters; a thread measures about 0.1 mm under its nominal size (ISO 965-1, 6g). A shape is named wrongly once in 20
 * when two shapes are alike, once in 200 otherwise. A nut runs on freely 98 times in 100 when thread and pitch are its
 * own, 3 in 100 with another pitch, 5 in 100 when it is up to 2 mm too large (it slips over), else hardly ever.
 */
#ifndef TRADE_IDENTIFY_H
#define TRADE_IDENTIFY_H

#include "trade/dimensions.h"

typedef enum {
    LOOK_KIND,   /* screw, nut, washer */
    LOOK_FORM,   /* head, kind of nut or washer */
    LOOK_DRIVE,  /* what turns it */
    LOOK_THREAD, /* outside diameter of the thread; hole of nuts and washers */
    LOOK_LENGTH, /* under the head; countersunk: all */
    LOOK_WIDTH,  /* across flats, or diameter of head or washer */
    LOOK_PITCH,  /* with a gauge, or by trying a nut */
    LOOK_MARK,   /* strength mark */
    LOOK_FINISH, /* bright, black, zinc */
    LOOK_MATE,   /* does this nut run on freely, or does the piece run into it? */
    LOOK_COUNT
} look_sort;

typedef enum { GAUGE_EYE, GAUGE_RULER, GAUGE_CALIPER } gauge_sort;

/* One thing seen. Shapes go by enum value, lengths in mm, marks by text. */
typedef struct {
    look_sort look;
    gauge_sort gauge;        /* of a measurement */
    double mm;               /* thread, length, width, pitch */
    unsigned shape;          /* fastener_kind, fastener_form, fastener_drive or fastener_finish */
    text mark;               /* "8.8", "A2-70" */
    const designation *mate; /* the nut or screw that was tried with the piece */
    bool runs;               /* it ran on freely */
} seen_thing;

typedef struct {
    const designation *name;
    double pieces; /* in the kit, or another weight: the prior; 0 counts as 1 */
} candidate;

typedef struct {
    uint32_t candidate;
    double chance;
} ranked;

typedef struct {
    look_sort look;
    gauge_sort gauge;
    double bits;   /* expected */
    uint32_t mate; /* of LOOK_MATE: the candidate to try it with */
} next_look;

enum { NEXT_LOOKS = 12, CANDIDATES_MAX = 2000, SEEN_MAX = 32 };

typedef struct {
    ranked *order; /* all candidates, likeliest first; in the arena */
    uint32_t n;
    double bits_open; /* entropy that is left */
    next_look next
        [NEXT_LOOKS]; /* best first, the simpler one when two give the same within 0.06 bit; only those that
                                 * give 0.05 bit or more */
    uint32_t n_next;
    bool nothing_fits;    /* the observations fit none of the parts well: look again */
    bool ruler_is_coarse; /* a ruler on a thread cannot tell the likeliest two apart */
} identity;

/* Refuses no candidates or too many, measures out of range (0.05 to 1000 mm), mates that are neither nut nor screw;
 * unknown marks are simply unlikely. */
MUST_USE bool identify_piece(arena *a, const candidate *list, uint32_t n, const seen_thing *seen,
                             uint32_t n_seen, identity *out, err *e);

const char *look_name(look_sort look);
const char *gauge_name(gauge_sort gauge);

#endif
