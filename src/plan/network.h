/* network.h: early and late times of a network of jobs.
 *
 * Network planning's forward and backward pass (the critical path method: Kelley and Walker 1959), here on a line of
 * working minutes with sessions: a job ends where its sessions let it, starts only at its possible starts, and a
 * link's delay may count on the wall clock. Without sessions it gives the textbook's figures; tests/plan checks
 * published examples.
 *
 * Private to plan/. The passes ask for the calendar through the job list; a network without a calendar (tests) has
 * starts everywhere and ends of start + duration.
 */
#ifndef PLAN_NETWORK_H
#define PLAN_NETWORK_H

#include "plan/jobs.h"

/* `after` starts no earlier than the end of `before` (its start when from_start) plus the delay. On the wall clock the
 * delay is a table: reaches[x] is the first minute allowed for an event at minute x (NULL: x + delay). */
typedef struct {
    uint32_t before, after; /* jobs */
    bool from_start;
    int32_t delay;
    const int32_t *reaches;
} network_link;

typedef struct {
    const calendar *calendar; /* NULL: no sessions */
    const plan_job *jobs;
    uint32_t n_jobs;
    const network_link *links;
    uint32_t n_links;
    const uint32_t *order;  /* jobs so that links lead onward */
    const int32_t *release; /* by job, or NULL */

    /* A further condition on the starts that the backward pass may give, or NULL. */
    bool (*may_start)(void *user, uint32_t job, int32_t start);
    void *user;
} network;

typedef struct {
    int32_t early_start, early_end, late_start, late_end;
} network_times;

/* The end of a job of the network, -1 when it has none. */
int32_t network_end(const network *n, uint32_t job, int32_t start);

/* The minute from which `after` may start for an event (end or start of `before`) at minute x. */
int32_t network_reach(const network_link *l, int32_t x);

/* Early times into `out`. UINT32_MAX, or the first job that has no start left. */
uint32_t network_forward(const network *n, network_times *out);

/* Late times for the given finish into `out`: the latest possible start of each job at which it ends by `finish` and all
 * links from it leave the late starts after them in reach. Never earlier than earliest[job], which must be such a
 * start itself. */
void network_backward(const network *n, int32_t finish, const int32_t *earliest, network_times *out);

#endif
