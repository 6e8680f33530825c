/* planner.h: what the steps of making a plan hand to each other.
 *
 * Private to plan/. Filled from top to bottom by plan.c; jobs stand in build order, so every link leads from an earlier
 * job to a later one.
 */
#ifndef PLAN_PLANNER_H
#define PLAN_PLANNER_H

#include "plan/network.h"
#include "plan/people.h"
#include "plan/supply.h"
#include "sched/sched.h"

#define NO_JOB UINT32_MAX

typedef struct {
    arena *memory;
    plan_input in; /* arrivals too far away left out */
    const kit *kit;
    const kit_workshop *workshop;
    const kit_index *build_order;
    text *reasons, *remedies; /* by step: why it is impossible; empty text otherwise */

    supply supply;
    calendar calendar;
    plan_job *jobs;
    uint32_t n_jobs;
    uint32_t *job_of;    /* by step: NO_JOB when it is not planned */
    network_link *links; /* after-relations between jobs */
    uint32_t n_links;
    const int32_t *buffers; /* by link, or NULL: minutes kept free beyond its delay (just in time) */
    int32_t *release;       /* by job: from steps done before, and from its parts */
    uint32_t *order;        /* 0 .. n_jobs - 1 */
    bool turns_exact;       /* turns.c went through all namings */
    const kit_index *const *told_people; /* people_work's */
} planner;

static inline people_work planner_people(const planner *p) {
    return (people_work){&p->calendar, p->jobs, p->n_jobs, p->told_people};
}

/* ---- plan.c: a build up to the point where it is scheduled -------------------------------------------------------------- */

/* Jobs, links and a line of sessions long enough for one step after another, with room to spare. Failing as plan_make. */
MUST_USE bool planner_begin(planner *p, arena *a, const plan_input *in, err *e);

/* ---- relations.c: what follows what ------------------------------------------------------------------------------ */

/* Fills links and release from the jobs and the calendar. */
void planner_relate(planner *p);

/* ---- limits.c: what this crew cannot do --------------------------------------------------------------------------- */

/* Looks at tools, workplaces and the whole crew. true: it can be done as far as these go. false: reason and remedy. */
bool limits_allow(const planner *p, const plan_job *j, text *reason, text *remedy);

/* Why a job that limits_allow lets pass has no start in any session. */
void limits_tell_no_start(const planner *p, const plan_job *j, text *reason, text *remedy);

/* How many of a tool or workplace the workshop has: what its table says, 0 for what the table leaves out; a workshop
 * without such a table at all is taken to have enough (PLAN_ENOUGH). */
enum { PLAN_ENOUGH = 1000000 };
int64_t limits_tools(const kit_workshop *w, kit_index tool);
int64_t limits_workplaces(const kit_workshop *w, kit_index zone);

/* ---- problem.c: jobs as a problem for sched/ ---------------------------------------------------------------------- */

/* The problem of all jobs up to the end of the line. With `alone` no two jobs run together. Closed by the caller; NULL
 * without memory. */
sched_problem *problem_build(const planner *p, bool alone);

/* ---- links.c: who waits for whom in a finished plan ---------------------------------------------------------------- */

/* The latest start of each job with the finish unmoved, everybody's steps and their order kept. Of `movable` (by job)
 * only those may move, and p->buffers are kept; NULL: all may, without buffers. */
void links_late_starts(planner *p, const int32_t *starts, const people_stretch *named, uint32_t n_named,
                       int32_t finish, const bool *movable, int32_t *late);

#endif
