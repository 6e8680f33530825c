/* late_parts.h: which missing pieces to chase first, and what to order by when.
 *
 * Both answers come from planning again: a part's arrival is put off until the finish moves.
 */
#ifndef PLAN_LATE_PARTS_H
#define PLAN_LATE_PARTS_H

#include "plan/plan.h"

enum { PLAN_LATE_WEEKS = 4 };

/* A part of which pieces are lacking for the steps still to be done. All is told for this part alone: of the others the
 * promised ones come as promised, the rest is here. */
typedef struct {
    kit_index part;
    int64_t lacking;       /* of the part's unit: pieces that the steps to do need beyond those usable */
    bool promised;         /* for all of them, some day */
    date_day promised_for; /* of the last of them; valid when promised */
    date_day
        last_free; /* they may come as late as this day and the finish stays as early as with them here today */
    plan_outcome best, as_promised;     /* with them here at the start; as promised (valid when promised) */
    plan_outcome week[PLAN_LATE_WEEKS]; /* when they come so many weeks after last_free */
    kit_index *held_up; /* steps that wait when they never come, in build order; all others go ahead */
    uint32_t n_held_up;
    bool sure; /* every plan asked was proven */
} plan_late_part;

/* Something to be there when the first step that uses it starts. */
typedef struct {
    bool is_tool;
    kit_index what;   /* tool or consumable */
    int64_t quantity; /* of a tool: lacking in the workshop; of a consumable: what the planned steps take */
    kit_index step;   /* the first that uses it */
    date_moment needed;
    bool dated;        /* that step's session has a date */
    bool days_known;   /* the kit says how long it takes to obtain */
    date_day order_by; /* valid when both */
} plan_order;

typedef struct {
    plan_late_part *parts; /* what to chase first, first */
    uint32_t n_parts;
    plan_order *orders; /* by the day to order, those without one last */
    uint32_t n_orders;
    uint32_t n_plans;
} plan_chase;

/* By how many calendar days and minutes on the clock `then` finishes later than `best`, never below 0; false when that cannot be
 * told: one of them has no date, or not all steps of the other. */
bool plan_cost_of(const plan_outcome *best, const plan_outcome *then, int32_t *days, int32_t *minutes);

/* Failing as plan_make. */
MUST_USE bool plan_ask_chase(arena *a, const plan_input *in, plan_chase **out, err *e);

/* As docs/json.md gives it. */
void plan_write_chase_json(const plan_input *in, const plan_chase *c, buf *out);

#endif
