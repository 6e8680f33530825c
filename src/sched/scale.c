/* scale.c: time counted in a coarser unit, so that a problem told in minutes, all of it whole hours, is as small as one told in hours.
 *
 * Rounding the starts of a schedule down to multiples of the unit keeps all rules: tasks that overlap then overlapped before, just before
 * the next multiple; what had to come before still does; releases, first allowed starts, cuts and changes are multiples themselves. */
#include "sched/scale.h"

#include <stdlib.h>

#include "sched/subset.h"

static int32_t common(int32_t a, int32_t b) {
    while (b != 0) {
        int32_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

int32_t scale_unit(const sched_problem *p) {
    int32_t unit = 0;
    for (size_t k = 0; k < p->tasks.n && unit != 1; k++) {
        const problem_task *t = &p->tasks.at[k];
        unit = common(common(common(unit, t->duration), t->release), t->extra);
        unit = t->fixed == SCHED_NONE ? unit : common(unit, t->fixed);
    }
    for (size_t k = 0; k < p->relations.n && unit != 1; k++)
        unit = common(unit, p->relations.at[k].delay);
    for (size_t k = 0; k < p->windows.n && unit != 1; k++)
        unit = common(unit, p->windows.at[k].first);
    for (size_t k = 0; k < p->cuts.n && unit != 1; k++)
        unit = common(unit, p->cuts.at[k]);
    for (size_t k = 0; k < p->changes.n && unit != 1; k++)
        unit = common(common(unit, p->changes.at[k].from), p->changes.at[k].to);
    for (size_t k = 0; k < p->map_pieces.n && unit != 1; k++)
        unit = common(common(unit, p->map_pieces.at[k].from), p->map_pieces.at[k].value);
    for (size_t k = 0; k < p->arrivals.n && unit != 1; k++)
        unit = common(unit, p->arrivals.at[k].time);
    return unit > 0 ? unit : 1;
}

/* Limits from above are rounded down, everything else divides. */
static void divide(sched_problem *q, int32_t unit) {
    for (size_t k = 0; k < q->tasks.n; k++) {
        problem_task *t = &q->tasks.at[k];
        t->duration /= unit;
        t->release /= unit;
        t->extra /= unit;
        t->fixed = t->fixed == SCHED_NONE ? SCHED_NONE : t->fixed / unit;
        t->deadline = t->deadline == SCHED_TIME_MAX ? SCHED_TIME_MAX : t->deadline / unit;
    }
    for (size_t k = 0; k < q->relations.n; k++)
        q->relations.at[k].delay /= unit;
    for (size_t k = 0; k < q->windows.n; k++) {
        q->windows.at[k].first /= unit;
        q->windows.at[k].last /= unit;
    }
    for (size_t k = 0; k < q->cuts.n; k++)
        q->cuts.at[k] /= unit;
    for (size_t k = 0; k < q->changes.n; k++) {
        q->changes.at[k].from /= unit;
        q->changes.at[k].to /= unit;
    }
    for (size_t k = 0; k < q->map_pieces.n; k++) {
        q->map_pieces.at[k].from /= unit;
        q->map_pieces.at[k].value /= unit;
    }
    for (size_t k = 0; k < q->arrivals.n; k++)
        q->arrivals.at[k].time /= unit;
    q->horizon = q->horizon == SCHED_NONE ? SCHED_NONE : q->horizon / unit;
    q->unit = unit;
}

sched_problem *scale_open(const sched_problem *p, int32_t unit) {
    size_t n = p->tasks.n > p->capacities.n ? p->tasks.n : p->capacities.n;
    bool *keep = malloc((n + 1) * sizeof *keep);
    int32_t *name = malloc((n + 1) * sizeof *name);
    for (size_t k = 0; keep && k < n; k++)
        keep[k] = true;
    sched_problem *q = keep && name ? subset_open(p, keep, keep, p->horizon, name) : NULL;
    free(keep);
    free(name);
    if (q)
        divide(q, unit);
    return q;
}
