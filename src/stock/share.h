/* share.h: the one rule by which pieces are given out to the steps. Part of stock.h, which includes it.
 *
 * In build order, each step gets all its pieces, usable ones first and then promised ones by their day, or none: a step
 * that cannot start draws nothing, and neither does a step after it. So what they leave is there for the steps that can
 * go ahead. What is left after those is then set against the steps that are held up, again in build order, to name each
 * lacking piece at the step that will lack it: all of them can be asked for at once, not one after the other.
 *
 * Therefore, of each part, what all stops miss together is what all steps need less what is usable (when more is needed).
 */
#ifndef STOCK_SHARE_H
#define STOCK_SHARE_H

#include "kit/kit.h"

/* Promised and not yet come, in the order of the days. */
typedef struct {
    date_day day;
    int64_t quantity;
} stock_supply;

/* What there is of a part. */
typedef struct {
    int64_t usable; /* >= 0 */
    const stock_supply *supplies;
    uint32_t n_supplies;
} stock_pieces;

/* A step for which not all pieces of a part are here yet. It is stopped when some are not promised either. */
typedef struct {
    kit_index step, part;
    int64_t needed;     /* by this step */
    int64_t missing;    /* of these; > 0 */
    int64_t unpromised; /* of the missing */
    date_day ready; /* the day the last of them is promised for; INT32_MAX when they are not all promised */
} stock_stop;

typedef enum {
    STOCK_FATE_DONE,      /* its pieces are drawn */
    STOCK_FATE_GOES,      /* gets all its pieces, at once or when they come */
    STOCK_FATE_STOPPED,   /* pieces are missing and not promised */
    STOCK_FATE_WAITING,   /* has its pieces, but a step it follows does not go ahead */
    STOCK_FATE_IMPOSSIBLE /* for another reason; draws nothing */
} stock_fate;

typedef struct {
    stock_fate *fate;     /* by step */
    kit_index *waits_for; /* by step: one right before it that does not go ahead, or KIT_NONE */
    stock_stop *stops;    /* in build order, the parts of a step in the order of step_parts */
    uint32_t n_stops;
    int64_t *drawn; /* by part: by the steps that go ahead */
} stock_sharing;

/* Fills the rest of `s`: s->fate, by the kit's steps, says which steps are done and which impossible; all else is found.
 * `order` is the build order, `pieces` is by the kit's parts. In the arena. O(needs + steps * relations). */
void stock_share_pieces(arena *a, const kit *k, const kit_index *order, const stock_pieces *pieces,
                        stock_sharing *s);

#endif
