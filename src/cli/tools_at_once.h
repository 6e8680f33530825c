/* tools_at_once.h: how many of a tool can be wanted at the same time.
 *
 * Groups work at the same time only on steps of which none must wait for another. So the answer is the heaviest set of at
 * most k steps that are pairwise not ordered, each weighing what it wants of the tool. Exact by branch and bound; kits
 * have few steps for one tool. After a fixed number of tries the bound that is reached by then is given, which is never
 * too low.
 */
#ifndef CLI_TOOLS_AT_ONCE_H
#define CLI_TOOLS_AT_ONCE_H

#include "kit/kit.h"

/* Who waits for whom, also over others: one bool for each pair, [before * n + after]. */
bool *tools_order(arena *a, const kit *k);

/* `wanted` by step; `ordered` from tools_order. */
uint32_t tools_at_once(arena *a, const kit *k, const uint32_t *wanted, const bool *ordered, uint32_t groups);

#endif
