/* found.h: a piece lies on the floor: where does it come from? Part of stock.h, which includes it after its own types.
 *
 * Every begun step that drew the part is a source, and so are the bags and a piece that was written down as lost. The
 * weight of a source is the pieces it handled, times
 *   1/10   when all its tests are signed: somebody looked at the work (a step without tests has nothing to sign)
 *   20     when it is finished and fitted fewer pieces than the kit asks for
 *   1/2    for each later evening, since the floor is seen at the beginning of each
 *   1/3    for each closing count after it that missed nothing
 * Bags and compartments weigh a tenth of the pieces that lie there, a piece written down as lost 30. These factors are
 * ours, no source; they rank and are not measured.
 */
#ifndef STOCK_FOUND_H
#define STOCK_FOUND_H

#include "kit/kit.h"

typedef enum { STOCK_FROM_STEP, STOCK_FROM_LOST, STOCK_FROM_BAG } stock_source_kind;

typedef struct {
    stock_source_kind kind;
    kit_index part;
    kit_index step;            /* KIT_NONE unless from a step */
    int64_t pieces;            /* of the part: handled by the step, lost, or lying in bags and compartments */
    int64_t short_by;          /* a finished step: asked for less fitted, not below 0 */
    bool has_tests, is_signed; /* it has tests; all of them count and are signed */
    uint32_t evenings, closings; /* since */
    double weight;
} stock_source;

/* The sources of one part, weightiest first, in the arena; at least the bags. */
uint32_t stock_found_sources(arena *a, const kit *k, const stock *s, kit_index part, stock_source **out);

#endif
