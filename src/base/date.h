/* date.h: days and minutes on the workshop's wall clock.
 *
 * A build lives in one place, so all times are local wall-clock time without a zone: a day is a count of days since
 * 1970-01-01 in the proleptic Gregorian calendar, a moment is a count of minutes since that day's midnight. Days
 * from 1970-01-01 to 2199-12-31 are accepted. Method: era arithmetic on a year that begins in March.
 */
#ifndef BASE_DATE_H
#define BASE_DATE_H

#include <stdint.h>

#include "base/text.h"

typedef int32_t date_day;    /* days since 1970-01-01 */
typedef int64_t date_moment; /* minutes since 1970-01-01 00:00, wall clock */

enum { MINUTES_PER_DAY = 1440 };

typedef struct {
    int year, month, day; /* month 1..12, day 1..31 */
} date_civil;

date_day date_from_civil(date_civil c);
date_civil date_to_civil(date_day d);

/* 0 is Monday .. 6 is Sunday, as in ISO 8601 less one. */
int date_weekday(date_day d);
const char *date_weekday_name(date_day d); /* "Monday" */

/* "2027-03-14"; false for anything else or a day that no calendar has. */
MUST_USE bool date_read(text t, date_day *out);

/* "18:30" to minutes after midnight, 00:00 to 24:00. */
MUST_USE bool date_read_clock(text t, int *minutes);

/* "2027-03-14 18:30" (also with T between). */
MUST_USE bool date_read_moment(text t, date_moment *out);

/* "2027-03-14", "18:30", "2027-03-14 18:30" */
void date_print(date_day d, char out[11]);
void date_print_clock(int minutes, char out[6]);
void date_print_moment(date_moment m, char out[17]);

date_day date_of_moment(date_moment m);

/* "1 h 25 min", "40 min", "3 h" */
void date_print_duration(int64_t minutes, char out[32]);

#endif
