/* recount_rank.h: which rows of the packing list to count again first.
 *
 * By the harm that is to be expected of a wrong count: the chance that the row is wrong times what it would cost.
 *   chance  1 - exp(-(0.02 + 0.002 pieces) f): the rates of the closing count (stock/closing.c); f is 2 when the kit has a
 *           look-alike of the part, 2 again when the count is not as on the list, 1/10 when it was counted twice
 *   cost    person-minutes of the steps that draw the part and of all that come after them; three times as much when
 *           such a drawing step needs care (supervised, adult's work, a hold point, a torque), divided by one and the
 *           row's spares, which swallow so many wrong pieces
 * Our rule, no source: it ranks and measures nothing.
 */
#ifndef CLI_RECOUNT_RANK_H
#define CLI_RECOUNT_RANK_H

#include "kit/kit.h"
#include "stock/stock.h"

typedef struct {
    kit_index row;
    double chance;
    uint32_t steps;     /* that draw the part or come after such a step */
    int64_t person_min; /* of these */
    bool care, spare, alike, differs;
    double harm; /* person-minutes to be expected */
} recount_row;

/* Worst first, in the arena. `s` may be NULL: nothing was counted yet; otherwise rows that nobody counted are left out,
 * since there is nothing to count again. Returns how many. */
uint32_t recount_rank(arena *a, const kit *k, const stock *s, recount_row **out);

#endif
