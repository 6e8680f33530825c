/* order_by.h: the last days to order tools and consumables.
 *
 * Private to plan/.
 */
#ifndef PLAN_ORDER_BY_H
#define PLAN_ORDER_BY_H

#include "plan/late_parts.h"

/* Fills the orders of `c` from the plan of `in` in which the workshop has every tool: what it lacks is to be ordered. */
MUST_USE bool order_by(arena *a, const plan_input *in, plan_chase *c, err *e);

#endif
