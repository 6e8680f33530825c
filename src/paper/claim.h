/* claim.h: the missing-parts report in pieces; report.c puts them together. */
#ifndef PAPER_CLAIM_H
#define PAPER_CLAIM_H

#include "paper/sheet.h"

typedef struct {
    arena *memory;
    const kit *kit;
    const stock *found;
    text from;
} claim;

/* A quantity in the unit of a row. */
text claim_quantity(const claim *r, kit_index row, int64_t n);

/* "Box 3 › Bag B3 (lot 7) row 7" */
text claim_place(const claim *r, kit_index row);

/* One line of evidence: where it is listed and what was found there. */
text claim_evidence(const claim *r, kit_index row);

/* The rows of a part where something lacks, a line each. */
text claim_part_evidence(const claim *r, kit_index part);

/* Each draws its heading and table, or nothing when there is nothing to tell. */
void claim_draw_absent(const claim *r, sheet *s);
void claim_draw_to_send(const claim *r, sheet *s);
void claim_draw_damaged(const claim *r, sheet *s);
void claim_draw_extra(const claim *r, sheet *s);
void claim_draw_elsewhere(const claim *r, sheet *s);
void claim_draw_finds(const claim *r, sheet *s);
void claim_draw_batteries(const claim *r, sheet *s);

/* Damage on the way, for the carrier. */
bool claim_has_transit_damage(const claim *r);
void claim_draw_boxes(const claim *r, sheet *s);
void claim_draw_contents(const claim *r, sheet *s);

#endif
