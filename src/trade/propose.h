/* propose.h: loose names of real parts lists, read as a proposal.
 *
 * Lists write "M5x16mm-socket-head", "M6 nyloc", "8mm penny washer", "M2,5x25" or put "Screw" in one cell and
 * "M3x4, grub" in the next. The reader takes the cells of one row, the name first, and says
 *   - what is stated, as a designation with gaps;
 *   - what was assumed, each with its reason, and applied to `guess` only;
 *   - what is missing or contradictory.
 * Nothing is guessed silently: `stated` holds only what the text says.
 */
#ifndef TRADE_PROPOSE_H
#define TRADE_PROPOSE_H

#include "trade/designation.h"

#define PROPOSAL_NOTES 8

typedef struct {
    bool is_fastener;
    designation stated; /* only what the text says */
    designation guess;  /* stated, with the assumptions applied */
    uint8_t n_assumed, n_missing, n_conflicts;
    text assumed[PROPOSAL_NOTES];   /* "standard ISO 4762: the usual socket cap screw" */
    text missing[PROPOSAL_NOTES];   /* "length" */
    text conflicts[PROPOSAL_NOTES]; /* "the name says button head, the note ISO 4762 (socket cap)" */
    text why_not;                   /* when it is no fastener: what spoke against */
} proposal;

/* Reads the cells of one row; the first names the part, the others may add. Texts of `out` live in `a`. Never fails:
 * whatever cannot be understood is "no fastener" or listed under `missing`. Cells longer than 512 bytes are cut. */
void designation_propose(arena *a, const text *cells, size_t n_cells, proposal *out);

#endif
