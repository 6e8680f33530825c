/* look.h: which two pieces a beginner mixes up.
 *
 * Two bags swapped by the packer, or two screws in one hand: what matters is how much the eye can see. Each visible
 * measure (length, thread, head or outside width, thickness) gives a difference in units of what the eye notices
 * without a ruler, seen one piece at a time; the largest one decides. Fixed differences of shape (other head, other
 * drive, nut against screw) are seen at once.
 *
 * What the eye notices without a ruler: 10 % of the size or 0.7 mm, whichever is more (common practice, no source).
 */
#ifndef TRADE_LOOK_H
#define TRADE_LOOK_H

#include "trade/designation.h"

typedef enum {
    LOOK_DIFFERENT, /* nobody who looks takes one for the other */
    LOOK_NEAR,      /* told apart side by side, mixed up when seen alone: M5 and M6, 25 and 30 long */
    LOOK_ALIKE,     /* needs a ruler, a gauge or a mark on the head */
    LOOK_SAME       /* same piece by all that this program knows */
} look_grade;

typedef struct {
    look_grade grade;
    double
        seen; /* largest visible difference, 1 = just noticed by the eye; 0 = nothing to see; 99 = other shape */
    char reason[160]; /* "same head and thread, 25 and 30 mm long" */
    char tell[160];   /* how to tell them apart: "hold them side by side" */
} look_alike;

/* Both must have a kind; pieces without any stated size are LOOK_DIFFERENT. Symmetric but for the wording. */
void designation_look_alike(const designation *a, const designation *b, look_alike *out);

#endif
