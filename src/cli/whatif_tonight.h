/* whatif_tonight.h: what is left of the next session when somebody stays away from it. */
#ifndef CLI_WHATIF_TONIGHT_H
#define CLI_WHATIF_TONIGHT_H

#include "plan/plan.h"

/* Is the step worked on at the session (of the workshop)? `s` may be NULL: no. */
bool whatif_works_at(const plan *p, const plan_step *s, kit_index session);

/* Which steps of the session `first` of the plan `now` are forbidden then, and who does what in the plan `then`. */
void whatif_tonight(arena *a, const plan_forbidden *forbidden, uint32_t n_forbidden, const plan *now,
                    const plan *then, kit_index first, buf *out);

#endif
