/* reasons.h: from a schedule that cannot be named to all that fail for the same reason.
 *
 * Private to people.c.
 */
#ifndef PLAN_REASONS_H
#define PLAN_REASONS_H

#include "plan/naming.h"

/* Writes the jobs of the items and the ranges of their starts into `why`, which has room. Items (all of each job in this
 * session, one after the other) cannot be named together: `proven`; otherwise the ranges are the starts themselves. */
void reasons_widen(arena *a, const people_work *w, const int32_t *starts, const naming_item *items,
                   uint32_t n, bool proven, people_conflict *why);

#endif
