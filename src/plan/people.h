/* people.h: gives the work of a schedule to named people.
 *
 * Private to plan/. A schedule says when each job runs; here each of its stretches gets its people so that nobody is at
 * two of them at once and everybody is there all the time. Sessions do not touch each other (people may change between
 * them), so each is a small problem of its own: seats with candidates, seats at the same time not filled by the same
 * person. It is solved exactly by search: the seat with the fewest candidates first, learners before adults, those
 * with the fewest minutes first.
 */
#ifndef PLAN_PEOPLE_H
#define PLAN_PEOPLE_H

#include "plan/jobs.h"

/* A stretch with its people: seats[0] is the supervisor when the job has one beside it. */
typedef struct {
    uint32_t job;
    job_stretch when;
    kit_index *seats;
} people_stretch;

typedef struct {
    const calendar *calendar;
    const plan_job *jobs;
    uint32_t n_jobs;
    const kit_index *const
        *told; /* by job, or NULL: who was told to be at its first stretch, by seat; or NULL */
} people_work;

typedef enum { PEOPLE_NAMED, PEOPLE_CANNOT, PEOPLE_GAVE_UP } people_answer;

/* Why there are no names for a schedule: these jobs cannot all be staffed while each starts in its range; starts given are in it. */
typedef struct {
    uint32_t *jobs;
    job_starts *ranges;
    uint32_t n;
    bool
        together; /* they can never run at the same instant, whoever of the crew is there: ranges do not matter */
} people_conflict;

/* Names everybody for the schedule `starts` (by job). PEOPLE_NAMED: `out` gets all stretches by job, then time, `n`
 * of them. Otherwise `why` is filled for the first session that fails. All in `a`. */
people_answer people_name(arena *a, const people_work *w, const int32_t *starts, people_stretch **out,
                          uint32_t *n, people_conflict *why);

#endif
