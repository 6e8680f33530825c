/* model_bounds.c: earliest and latest starts at the root, and the plain reasons why there is no schedule.
 *
 * Forward and backward passes of network planning (critical path method) over relations, windows and deadlines; plus
 * the earliest start at which the task's own demands fit below the capacities alone. */
#include <stdio.h>
#include <string.h>

#include "sched/model_parts.h"

/* The earliest start of a task whose predecessor over `arc` has its time point (start or end) at x. */
static int32_t pushed_to(const model *m, const model_arc *arc, int32_t x) {
    int64_t t = (arc->map == SCHED_NONE ? x : model_map(m, arc->map, x)) + (int64_t)arc->delay;
    return t > SCHED_TIME_MAX ? SCHED_TIME_MAX + 1 : (int32_t)t;
}

/* The latest time point of the predecessor when the task starts at s. */
static int32_t pulled_to(const model *m, const model_arc *arc, int32_t s) {
    int32_t t = s - arc->delay;
    return t < 0 ? -1 : arc->map == SCHED_NONE ? t : model_map_back(m, arc->map, t);
}

/* First start >= t where demands fit below the bare capacities for the whole run; INT32_MAX when none. */
static int32_t first_fit(const model *m, int32_t i, int32_t t, int32_t *blocking) {
    for (;;) {
        t = model_next_start(m, i, t);
        if (t > m->horizon)
            return INT32_MAX;
        int32_t end = model_end(m, i, t), blocked = -1;
        for (int32_t k = m->demand_at[i]; k < m->demand_at[i + 1]; k++) {
            int32_t r = m->demand[k].resource;
            for (int32_t s = m->step_at[r]; s < m->step_at[r + 1] && m->step[s].from < end; s++) {
                int32_t to = s + 1 < m->step_at[r + 1] ? m->step[s + 1].from : INT32_MAX;
                if (to > t && m->step[s].capacity < m->demand[k].amount && to > blocked) {
                    blocked = to;
                    *blocking = r;
                }
            }
        }
        if (blocked < 0)
            return t;
        if (m->extra[i] > 0) { /* begun at a cut instead it may be over before the stretch that blocks it */
            int32_t cut = model_next_cut(m, t);
            blocked = cut < blocked ? cut : blocked;
        }
        if (blocked == INT32_MAX)
            return INT32_MAX;
        t = blocked;
    }
}

static void forward_pass(model *m, int32_t *pushed_by, int32_t *blocking) {
    for (int32_t k = 0; k < m->n; k++) {
        int32_t i = m->order[k];
        pushed_by[i] = SCHED_NONE;
        for (int32_t a = m->before_at[i]; a < m->before_at[i + 1]; a++) {
            const model_arc *arc = &m->before[a];
            int32_t h = arc->task, x = m->est[h];
            if (arc->kind == SCHED_END_START && x <= m->horizon)
                x = model_least_end(m, h, x, m->horizon);
            int32_t t = x > m->horizon ? x : pushed_to(m, arc, x);
            if (t > m->est[i]) {
                m->est[i] = t;
                pushed_by[i] = h;
            }
        }
        blocking[i] = SCHED_NONE;
        if (m->est[i] <= m->horizon)
            m->est[i] = first_fit(m, i, m->est[i], &blocking[i]);
    }
}

void model_latest_starts(const model *m, int32_t horizon, int32_t *lst, int32_t *pulled_by) {
    for (int32_t k = m->n - 1; k >= 0; k--) {
        int32_t i = m->order[k];
        const problem_task *task = &m->problem->tasks.at[i];
        int32_t end = task->deadline < horizon ? task->deadline : horizon;
        int32_t latest = model_start_ending_by(m, i, end, m->horizon);
        if (pulled_by)
            pulled_by[i] = SCHED_NONE;
        for (int32_t a = m->after_at[i]; a < m->after_at[i + 1]; a++) {
            const model_arc *arc = &m->after[a];
            int32_t x = pulled_to(m, arc, lst[arc->task]);
            int32_t s = x < 0                            ? -1
                        : arc->kind == SCHED_START_START ? x
                                                         : model_start_ending_by(m, i, x, m->horizon);
            if (s < latest) {
                latest = s;
                if (pulled_by)
                    pulled_by[i] = arc->task;
            }
        }
        if (task->fixed != SCHED_NONE && task->fixed < latest)
            latest = task->fixed;
        lst[i] = latest < 0 ? -1 : model_last_start(m, i, latest);
    }
}

static void add_reason(model *m, int32_t task) {
    for (int32_t k = 0; k < m->reason_tasks; k++)
        if (m->reason_task[k] == task)
            return;
    m->reason_task[m->reason_tasks++] = task;
}

/* The first task without a start left, and the chains that pushed and pulled it there. */
static void tell_empty_window(model *m, int32_t i, const int32_t *pushed_by, const int32_t *pulled_by,
                              const int32_t *blocking) {
    int32_t unit = m->problem->unit;
    m->infeasible = true;
    for (int32_t h = i; h != SCHED_NONE; h = pushed_by[h])
        add_reason(m, h);
    for (int32_t h = pulled_by[i]; h != SCHED_NONE; h = pulled_by[h])
        add_reason(m, h);
    m->reason_resource = blocking[i];
    if (m->est[i] > m->horizon)
        snprintf(m->reason, sizeof m->reason, "task %d has no start left before the horizon %d", i,
                 m->horizon * unit);
    else
        snprintf(m->reason, sizeof m->reason, "task %d cannot start before %d and must have started by %d", i,
                 m->est[i] * unit, m->lst[i] * unit);
}

static bool tell_excess(model *m) {
    for (int32_t i = 0; i < m->n; i++)
        for (int32_t k = m->demand_at[i]; k < m->demand_at[i + 1]; k++)
            if (m->demand[k].amount > m->peak[m->demand[k].resource]) {
                m->infeasible = true;
                add_reason(m, i);
                m->reason_resource = m->demand[k].resource;
                snprintf(m->reason, sizeof m->reason,
                         "task %d needs %d of resource %d, which never has more than %d", i,
                         m->demand[k].amount, m->demand[k].resource, m->peak[m->demand[k].resource]);
                return true;
            }
    return false;
}

bool model_build_bounds(model *m, memory *mem) {
    int32_t *pushed_by = memory_array(mem, int32_t, m->n), *pulled_by = memory_array(mem, int32_t, m->n);
    int32_t *blocking = memory_array(mem, int32_t, m->n);
    if (!pushed_by || !pulled_by || !blocking)
        return false;
    for (int32_t i = 0; i < m->n; i++)
        if (m->problem->tasks.at[i].fixed > m->est[i])
            m->est[i] = m->problem->tasks.at[i].fixed;
    if (!tell_excess(m)) {
        forward_pass(m, pushed_by, blocking);
        model_latest_starts(m, m->horizon, m->lst, pulled_by);
        for (int32_t k = 0; k < m->n && !m->infeasible; k++)
            if (m->est[m->order[k]] > m->lst[m->order[k]])
                tell_empty_window(m, m->order[k], pushed_by, pulled_by, blocking);
    }
    memory_give_back(mem, pushed_by);
    memory_give_back(mem, pulled_by);
    memory_give_back(mem, blocking);
    return true;
}
