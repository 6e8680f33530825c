/* assess.h: the stages of stock_assess, in the order they run; private to the room. */
#ifndef STOCK_ASSESS_H
#define STOCK_ASSESS_H

#include "stock/stock.h"

/* What the stages share while they work. */
typedef struct {
    arena *memory;
    const kit *kit;
    const stock_record *record;
    stock *out;
} assessment;

void assess_receipts(assessment *as);   /* receipts.c: containers' receipt, mass, the days to report by */
void assess_rows(assessment *as);       /* rows.c: each row, and the lists of rows; needs receipts */
void assess_containers(assessment *as); /* containers.c: sums over rows */
void assess_parts(assessment *as);      /* parts.c: sums over rows, and what is promised */
void assess_swaps(assessment *as);      /* swaps.c */
void assess_stops(assessment *as);      /* stops.c: needs parts */
void assess_batteries(assessment *as);  /* batteries.c */

/* How alike two parts look. 0: nobody takes one for the other; larger: more easily mixed up. */
typedef struct {
    int grade;   /* 0..4; 4: the very same part */
    text reason; /* in the arena */
    text tell;
} likeness;

/* Of two parts of the kit, or of a part and a text for something that was found. */
likeness alike_parts(arena *a, const kit *k, kit_index one, kit_index other);
likeness alike_found(arena *a, const kit *k, text what, kit_index part);

#endif
