/* risk_text.h: the risk of a plan in words. */
#ifndef CLI_RISK_TEXT_H
#define CLI_RISK_TEXT_H

#include "plan/plan.h"

/* Adds the text, lines of at most 80 columns. */
void risk_text(arena *a, const plan *p, const plan_risk *r, buf *out);

#endif
