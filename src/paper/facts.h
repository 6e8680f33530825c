/* facts.h: a strip of short facts, each with a small name above it. */
#ifndef PAPER_FACTS_H
#define PAPER_FACTS_H

#include "paper/sheet.h"

typedef struct {
    const char *label;
    text value;
    text under; /* smaller, below the value; may be empty */
    bool loud;  /* white on black: must not be overlooked */
} fact;

/* Draws the strip over the full width at the cursor and moves the cursor below it. `shares` are the widths' parts. */
void facts_draw(sheet *s, const fact *facts, const double *shares, int n);

#endif
