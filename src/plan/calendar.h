/* calendar.h: sessions laid end to end as one line of working minutes.
 *
 * Private to plan/. The line holds the dated sessions that lie ahead and some undated ones after them; presence says
 * who is there at each minute. Looked up some hundred thousand times while the possible starts of all steps are worked
 * out, so everything is sorted arrays and sets of people are one word.
 *
 * Invariant: sessions and pieces of presence cover 0 .. end without gaps, ascending, none empty; a piece of presence
 * never crosses the end of a session. A minute at which nobody may work (too few adults, or one adult alone with one
 * learner) has nobody there.
 */
#ifndef PLAN_CALENDAR_H
#define PLAN_CALENDAR_H

#include <assert.h>

#include "plan/plan.h"

/* A set of the crew: bit p is person p. */
typedef uint64_t people_set;

static inline people_set one_person(kit_index person) {
    assert(person < PLAN_MAX_CREW);
    return (people_set)1 << person;
}

static inline uint32_t people_count(people_set s) {
    return (uint32_t)__builtin_popcountll(s);
}

typedef struct {
    int32_t from, to;
    people_set there;
} calendar_presence;

typedef struct {
    const kit_workshop *workshop;
    plan_session *sessions;
    uint32_t n_sessions, n_dated;
    calendar_presence *presence;
    uint32_t n_presence;
    people_set everybody, adults;
    int32_t end; /* last minute of the line */
} calendar;

/* The sessions that end after `from` (one that is running begins at `from`), then `undated` more. */
MUST_USE bool calendar_open(arena *a, const kit_workshop *w, date_moment from, uint32_t undated,
                            calendar *out, err *e);

/* How the undated sessions are: minutes of working time, and the days taken to lie between two of them. */
int32_t calendar_undated_minutes(const kit_workshop *w);
int32_t calendar_undated_days(const kit_workshop *w);

/* May anybody work when exactly these people are in the room? */
bool calendar_room_allows(const calendar *c, people_set there);

/* Who is there all the time from a to b, a < b. */
people_set calendar_there(const calendar *c, int32_t a, int32_t b);

/* The session of a minute taken as a start or as an end. */
uint32_t calendar_session(const calendar *c, int32_t minute, bool is_end);

date_moment calendar_moment(const calendar *c, int32_t minute, bool is_end);

/* The first minute that begins at `m` or later; INT32_MAX past the line. */
int32_t calendar_minute_from(const calendar *c, date_moment m);

/* Working minutes of the workshop's dated sessions between two moments. */
int64_t calendar_working_between(const kit_workshop *w, date_moment a, date_moment b);

#endif
