/* session_rule.h: dates of sessions in plain words; private to the room.
 *
 *   Tuesdays 18:30 to 20:30, 5 September to 14 November, not 24 October
 *   Mondays and Thursdays 18:30-20:30, 2027-09-06 to 2027-12-16, not 25 October and 28 October
 *   Saturday 12 September, 19 September 10:00 to 16:00
 *
 * Words: weekdays, one or more; two clock times; either a first and a last day with "to" between, or single days; after
 * "not" the days that are left out. A day is "5 September", "September 5", "5 Sep 2027" or "2027-09-05"; without a year it is the
 * first one that is not before `today`; the last day and those left out: not before the first day. English only, as the commands are.
 */
#ifndef DESK_SESSION_RULE_H
#define DESK_SESSION_RULE_H

#include "base/date.h"
#include "base/err.h"

typedef struct {
    date_day *days; /* ascending, at least one */
    uint32_t n;
    int start, end; /* minutes after midnight, start < end */
} session_rule;

/* In the arena. ERR_INPUT with what is wrong and what would be right. At most 200 days. */
MUST_USE bool session_rule_read(arena *a, text rule, date_day today, session_rule *out, err *e);

#endif
