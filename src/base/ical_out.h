/* ical_out.h: writes iCalendar (RFC 5545) in the order of the calls.
 *
 * Times are "floating" local times (RFC 5545 3.3.5, form 1), as everything here is the workshop's wall clock. Lines end
 * with CRLF and are folded at 75 octets between characters (3.1); texts are escaped (3.3.11).
 */
#ifndef BASE_ICAL_OUT_H
#define BASE_ICAL_OUT_H

#include "base/buf.h"
#include "base/date.h"

typedef enum { ICAL_CONFIRMED, ICAL_TENTATIVE, ICAL_CANCELLED } ical_status;

typedef struct {
    text uid;          /* unique in the world and the same in every later calendar that tells of this event */
    int64_t sequence;  /* grows with every later version of the event (3.8.7.4) */
    date_moment stamp; /* when the state it is taken from was written */
    bool whole_day;
    date_moment from, to;      /* of a whole day only the day of `from` counts; to > from otherwise */
    int64_t every_days;        /* repeats for ever; 0: once */
    text summary, description; /* UTF-8, lines with \n; may be empty */
    ical_status status;
} ical_event;

/* `name` is shown by programs that list calendars. */
void ical_begin(buf *out, text name);
void ical_put_event(buf *out, const ical_event *event);
void ical_end(buf *out);

#endif
