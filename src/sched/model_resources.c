/* model_resources.c: capacities as steps, demands by task and by resource. */
#include <stdlib.h>
#include <string.h>

#include "sched/model_parts.h"
#include "sched/refusal.h"

static int compare_times(const void *x, const void *y) {
    int32_t a = *(const int32_t *)x, b = *(const int32_t *)y;
    return a < b ? -1 : a > b;
}

static int by_resource(const void *x, const void *y) {
    /* Stable by address of the original: both point into one array of pointers. */
    const problem_change *a = *(const problem_change *const *)x, *b = *(const problem_change *const *)y;
    if (a->resource != b->resource)
        return a->resource < b->resource ? -1 : 1;
    return a < b ? -1 : a > b;
}

static int32_t first_at_least(const int32_t *time, int32_t n, int32_t t) {
    int32_t low = 0, high = n;
    while (low < high) {
        int32_t mid = (low + high) / 2;
        if (time[mid] >= t)
            high = mid;
        else
            low = mid + 1;
    }
    return low;
}

/* The steps of one resource into `out` (room for 2 * n + 1): later changes paint over earlier ones. */
static int32_t paint_steps(int32_t base, const problem_change *const *change, int32_t n, int32_t *time,
                           model_step *out) {
    int32_t times = 1, unique = 0;
    time[0] = 0;
    for (int32_t k = 0; k < n; k++) {
        time[times++] = change[k]->from;
        time[times++] = change[k]->to;
    }
    qsort(time, (size_t)times, sizeof *time, compare_times);
    for (int32_t k = 0; k < times; k++)
        if (unique == 0 || time[unique - 1] != time[k])
            time[unique++] = time[k];
    for (int32_t k = 0; k < unique; k++)
        out[k] = (model_step){time[k], base};
    for (int32_t k = 0; k < n; k++)
        for (int32_t s = first_at_least(time, unique, change[k]->from); s < unique && time[s] < change[k]->to;
             s++)
            out[s].capacity = change[k]->capacity;
    int32_t kept = 0;
    for (int32_t k = 0; k < unique; k++)
        if (kept == 0 || out[kept - 1].capacity != out[k].capacity)
            out[kept++] = out[k];
    return kept;
}

/* ---- pairs and sets as resources --------------------------------------------------------------------------- */

static int32_t refused_sets(const model *m) {
    return m->refused ? m->refused->sets : 0;
}

/* The k-th pair or set: its tasks. */
static const int32_t *set_tasks(const model *m, size_t k, int32_t *n) {
    const sched_problem *p = m->problem;
    if (k < p->pairs.n) {
        *n = 2;
        return p->pairs.at[k].task;
    }
    k -= p->pairs.n;
    if (k < p->sets.n) {
        *n = (int32_t)p->sets.at[k].n;
        return p->set_members.at + p->sets.at[k].at;
    }
    k -= p->sets.n;
    int32_t from = k > 0 ? m->refused->set_at[k - 1] : 0;
    *n = m->refused->set_at[k] - from;
    return m->refused->task + from;
}

static size_t set_count(const model *m) {
    return m->problem->pairs.n + m->problem->sets.n + (size_t)refused_sets(m);
}

/* All demands: the caller's, then those of pairs and sets. NULL: no memory. */
static problem_amount *all_demands(const model *m, memory *mem, size_t *n) {
    const sched_problem *p = m->problem;
    size_t room =
        p->demands.n + 2 * p->pairs.n + p->set_members.n + (size_t)(m->refused ? m->refused->tasks : 0);
    problem_amount *all = memory_array(mem, problem_amount, room);
    *n = p->demands.n;
    if (all && *n)
        memcpy(all, p->demands.at, *n * sizeof *all);
    for (size_t k = 0; all && k < set_count(m); k++) {
        int32_t members;
        const int32_t *task = set_tasks(m, k, &members);
        for (int32_t j = 0; j < members; j++)
            all[(*n)++] = (problem_amount){task[j], m->own_resources + (int32_t)k, 1};
    }
    return all;
}

static int32_t base_capacity(const model *m, int32_t r) {
    int32_t members;
    if (r < m->own_resources)
        return m->problem->capacities.at[r];
    (void)set_tasks(m, (size_t)(r - m->own_resources), &members);
    return members - 1;
}

static bool build_steps(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    int32_t r_count = m->resources;
    m->peak = memory_array(mem, int32_t, r_count);
    m->step_at = memory_array(mem, int32_t, r_count + 1);
    m->step = memory_array(mem, model_step, 2 * p->changes.n + (size_t)r_count);
    int32_t *time = memory_array(mem, int32_t, 2 * p->changes.n + 1);
    const problem_change **change = memory_array(mem, const problem_change *, p->changes.n);
    if (!m->peak || !m->step_at || !m->step || !time || !change)
        return false;
    for (size_t k = 0; k < p->changes.n; k++)
        change[k] = &p->changes.at[k];
    qsort(change, p->changes.n, sizeof(void *), by_resource);
    int32_t from = 0, changes = (int32_t)p->changes.n;
    for (int32_t r = 0; r < r_count; r++) {
        int32_t to = from;
        while (to < changes && change[to]->resource == r)
            to++;
        int32_t steps =
            paint_steps(base_capacity(m, r), change + from, to - from, time, m->step + m->step_at[r]);
        m->step_at[r + 1] = m->step_at[r] + steps;
        from = to;
        for (int32_t k = m->step_at[r]; k < m->step_at[r + 1]; k++)
            if (m->step[k].capacity > m->peak[r])
                m->peak[r] = m->step[k].capacity;
    }
    memory_give_back(mem, time);
    memory_give_back(mem, change);
    return true;
}

bool model_build_resources(model *m, memory *mem) {
    m->own_resources = (int32_t)m->problem->capacities.n;
    m->resources = m->own_resources + (int32_t)set_count(m);
    size_t calls, n = 0;
    problem_amount *call = all_demands(m, mem, &calls), *amount = memory_array(mem, problem_amount, calls);
    m->demand_at = memory_array(mem, int32_t, m->n + 1);
    m->demand = memory_array(mem, model_demand, calls);
    m->user_at = memory_array(mem, int32_t, m->resources + 1);
    m->user = memory_array(mem, model_user, calls);
    int32_t *fill = memory_array(mem, int32_t, m->resources + 1);
    if (!m->demand_at || !m->demand || !m->user_at || !m->user || !call || !amount || !fill ||
        !build_steps(m, mem) || !problem_last_amounts(call, calls, amount, &n))
        return false;
    int32_t kept = 0;
    for (size_t k = 0; k < n; k++) {
        if (m->duration[amount[k].task] == 0)
            continue;
        m->demand_at[amount[k].task + 1]++;
        m->user_at[amount[k].owner + 1]++;
        m->demand[kept++] = (model_demand){amount[k].owner, amount[k].amount};
        amount[kept - 1] = amount[k];
    }
    model_counts_to_offsets(m->demand_at, m->n);
    model_counts_to_offsets(m->user_at, m->resources);
    for (int32_t r = 0; r < m->resources; r++)
        fill[r] = m->user_at[r];
    for (int32_t k = 0; k < kept; k++)
        m->user[fill[amount[k].owner]++] = (model_user){amount[k].task, amount[k].amount};
    memory_give_back(mem, call);
    memory_give_back(mem, amount);
    memory_give_back(mem, fill);
    return true;
}
