/* jobs.h: a step as this crew does it: how long, in which teams, from which minutes on.
 *
 * Private to plan/. A job is a step that is still to be done, with the beginners' factor in its minutes. The people it
 * needs are told as teams: a team is a list of seats, each with the set of those who may sit there; a group of people
 * can do the job when it fills the seats of one of its teams. Most steps have one team; several only arise when one
 * person may answer for two skills at once.
 */
#ifndef PLAN_JOBS_H
#define PLAN_JOBS_H

#include "plan/calendar.h"

enum { JOBS_MAX_TEAMS = 2048 };

typedef struct {
    people_set *seats; /* the supervisor beside the work first, when the job has one */
} job_team;

typedef struct {
    int32_t first, last; /* both included */
} job_starts;

typedef struct {
    kit_index step;
    int32_t duration, resume; /* minutes; resume 0 when it may not pause or costs nothing */
    bool may_pause;
    int32_t
        *change_over; /* minutes of work done at which people may change, ascending, inside the duration */
    uint32_t n_change_over;
    bool beside;      /* seat 0 is the supervisor's */
    uint32_t n_seats; /* of every team */
    job_team *teams;
    uint32_t n_teams;
    bool teams_cut; /* there are more teams than were kept: a plan may be missed, never a wrong one made */

    /* Minutes at which it can start when nothing else runs: it has its team in every stretch. */
    job_starts *starts;
    uint32_t n_starts;
} plan_job;

/* A piece of a job without a change of people. */
typedef struct {
    uint32_t session;
    int32_t from, to;
} job_stretch;

typedef struct {
    job_stretch *list;
    size_t n, cap;
} job_stretches;

/* Fills everything but `starts`. */
void job_of_step(arena *a, const kit *k, const calendar *c, kit_index step, int64_t percent, plan_job *out);

/* The end of the job started at `start`; -1 when it would run past the line, or across a session's end it may not. */
int32_t job_end(const calendar *c, const plan_job *j, int32_t start);

/* The stretches of the job started at `start` into `out` (which is emptied first, its memory in `a`). false: see
 * job_end. */
bool job_stretch_out(arena *a, const calendar *c, const plan_job *j, int32_t start, job_stretches *out);

/* Works out `starts`. */
void job_find_starts(arena *a, const calendar *c, plan_job *j);

/* The first possible start at or after t; -1 when there is none. The last at or before t; -1. */
int32_t job_next_start(const plan_job *j, int32_t t);
int32_t job_last_start(const plan_job *j, int32_t t);

/* Can these people fill the seats of one of the teams? */
bool job_can_staff(const plan_job *j, people_set there);

/* Can each seat get a person of its own? At most PLAN_MAX_CREW seats can. */
bool seats_can_fill(const people_set *seats, uint32_t n, people_set there);

/* The same, with a person for each seat into `people`. */
bool seats_fill(const people_set *seats, uint32_t n, people_set there, kit_index *people);

#endif
