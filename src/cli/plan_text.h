/* plan_text.h: a plan as text of 80 columns. */
#ifndef CLI_PLAN_TEXT_H
#define CLI_PLAN_TEXT_H

#include "plan/plan.h"
#include "stock/stock.h"

void plan_text(arena *a, const plan *p, const stock *s, buf *out);

/* The part of it that says who does what, session by session. */
void plan_text_sessions(arena *a, const plan *p, buf *out);

/* What each of the crew gets to do; nothing for a plan without turns. */
void plan_text_turns(arena *a, const plan *p, buf *out);

/* The crew's own pace by kind of work; nothing while no step is done. */
void plan_text_pace(arena *a, const plan *p, buf *out);

/* What it changes of what was announced; nothing when nothing was. */
void plan_text_changes(arena *a, const plan *p, buf *out);

/* "Saturday 2027-05-01" */
text plan_text_day(arena *a, date_moment m);

#endif
