/* subset.c: a problem with some tasks and resources left out: every rule that is only about what is kept, written down anew. */
#include "sched/subset.h"

#include <stdlib.h>

static void copy_tasks(const sched_problem *p, const bool *keep, int32_t *name, sched_problem *q) {
    for (size_t i = 0; i < p->tasks.n; i++) {
        const problem_task *t = &p->tasks.at[i];
        name[i] = keep[i] ? sched_add_task(q, t->duration) : SCHED_NONE;
        if (name[i] == SCHED_NONE)
            continue;
        q->tasks.at[name[i]] = *t;
    }
    for (size_t k = 0; k < p->windows.n; k++) {
        const problem_window *w = &p->windows.at[k];
        if (name[w->task] != SCHED_NONE)
            sched_allow_starts(q, name[w->task], w->first, w->last);
    }
}

static void copy_relations(const sched_problem *p, const int32_t *name, sched_problem *q) {
    for (size_t k = 0; k < p->maps.n; k++)
        sched_add_map(q, p->map_pieces.at + p->maps.at[k].at, p->maps.at[k].n);
    for (size_t k = 0; k < p->relations.n; k++) {
        const problem_relation *r = &p->relations.at[k];
        if (name[r->before] != SCHED_NONE && name[r->after] != SCHED_NONE)
            sched_add_relation(q, r->kind, name[r->before], name[r->after], r->delay, r->map);
    }
}

/* Resources keep their numbers; one that is left out has no demands. */
static void copy_resources(const sched_problem *p, const bool *keep, const int32_t *name, sched_problem *q) {
    for (size_t k = 0; k < p->capacities.n; k++)
        sched_add_resource(q, p->capacities.at[k]);
    for (size_t k = 0; k < p->changes.n; k++) {
        const problem_change *c = &p->changes.at[k];
        sched_set_capacity(q, c->resource, c->from, c->to, c->capacity);
    }
    for (size_t k = 0; k < p->demands.n; k++) {
        const problem_amount *d = &p->demands.at[k];
        if (name[d->task] != SCHED_NONE && keep[d->owner])
            sched_set_demand(q, name[d->task], d->owner, d->amount);
    }
}

/* True when all are kept; their new numbers in `out`. */
static bool rename_all(const int32_t *task, size_t n, const int32_t *name, int32_t *out) {
    for (size_t k = 0; k < n; k++) {
        out[k] = name[task[k]];
        if (out[k] == SCHED_NONE)
            return false;
    }
    return true;
}

static bool copy_sets(const sched_problem *p, const int32_t *name, sched_problem *q) {
    int32_t *member = malloc((p->set_members.n + 1) * sizeof *member);
    for (size_t k = 0; member && k < p->sets.n; k++) {
        const problem_span *set = &p->sets.at[k];
        if (rename_all(p->set_members.at + set->at, set->n, name, member))
            sched_forbid_all_overlap(q, member, set->n);
    }
    free(member);
    for (size_t k = 0; k < p->pairs.n; k++) {
        int32_t pair[2];
        if (rename_all(p->pairs.at[k].task, 2, name, pair))
            sched_forbid_overlap(q, pair[0], pair[1]);
    }
    return member != NULL;
}

/* Draws and gives; of several for one task and reservoir the last counts, as in the problem. What is given by tasks left out
 * arrives at 0. */
static bool copy_stock(const sched_problem *p, const int32_t *name, sched_problem *q) {
    problem_amount *given = malloc((p->gives.n + 1) * sizeof *given);
    size_t n = 0;
    if (!given || !problem_last_amounts(p->gives.at, p->gives.n, given, &n)) {
        free(given);
        return false;
    }
    for (size_t k = 0; k < p->reservoirs.n; k++)
        sched_add_reservoir(q, p->reservoirs.at[k]);
    for (size_t k = 0; k < p->arrivals.n; k++)
        sched_add_arrival(q, p->arrivals.at[k].reservoir, p->arrivals.at[k].time, p->arrivals.at[k].amount);
    for (size_t k = 0; k < p->draws.n; k++)
        if (name[p->draws.at[k].task] != SCHED_NONE)
            sched_set_draw(q, name[p->draws.at[k].task], p->draws.at[k].owner, p->draws.at[k].amount);
    for (size_t k = 0; k < n; k++) {
        if (name[given[k].task] != SCHED_NONE)
            sched_set_give(q, name[given[k].task], given[k].owner, given[k].amount);
        else
            sched_add_arrival(q, given[k].owner, 0, given[k].amount);
    }
    free(given);
    return true;
}

sched_problem *subset_open(const sched_problem *p, const bool *keep_task, const bool *keep_resource,
                           int32_t horizon, int32_t *name) {
    sched_problem *q = sched_open();
    if (!q)
        return NULL;
    q->horizon = horizon;
    q->unit = p->unit;
    for (size_t k = 0; k < p->cuts.n; k++)
        sched_add_cut(q, p->cuts.at[k]);
    copy_tasks(p, keep_task, name, q);
    copy_relations(p, name, q);
    copy_resources(p, keep_resource, name, q);
    if (copy_sets(p, name, q) && copy_stock(p, name, q) && !q->out_of_memory)
        return q;
    sched_close(q);
    return NULL;
}

void subset_refusals(const sched_refusal *from, const int32_t *name, sched_refusal *to) {
    int32_t most = from->tasks > from->bounds ? from->tasks : from->bounds;
    int32_t *task = memory_array(to->mem, int32_t, most);
    sched_start_bound *bound = memory_array(to->mem, sched_start_bound, from->bounds);
    for (int32_t k = 0, at = 0; task && k < from->sets; at = from->set_at[k++]) {
        size_t n = (size_t)(from->set_at[k] - at);
        if (rename_all(from->task + at, n, name, task))
            sched_refuse_overlap(to, task, n);
    }
    for (int32_t k = 0, at = 0; task && bound && k < from->bound_sets; at = from->bound_at[k++]) {
        bool all = true;
        for (int32_t j = at; j < from->bound_at[k]; j++) {
            bound[j - at] = from->bound[j];
            bound[j - at].task = name[from->bound[j].task];
            all = all && bound[j - at].task != SCHED_NONE;
        }
        if (all)
            sched_refuse_bounds(to, bound, (size_t)(from->bound_at[k] - at));
    }
}
