/* model_stock.c: reservoirs: the stock that arrives over time, and who draws and gives. */
#include <stdlib.h>

#include "sched/model_parts.h"

static int by_reservoir_then_time(const void *x, const void *y) {
    const problem_arrival *a = x, *b = y;
    if (a->reservoir != b->reservoir)
        return a->reservoir < b->reservoir ? -1 : 1;
    return a->time < b->time ? -1 : a->time > b->time;
}

static bool build_arrivals(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    m->stock_at = memory_array(mem, int32_t, m->reservoirs + 1);
    m->stock = memory_array(mem, model_stock_step, p->arrivals.n + (size_t)m->reservoirs);
    problem_arrival *arrival = memory_array(mem, problem_arrival, p->arrivals.n);
    if (!m->stock_at || !m->stock || !arrival)
        return false;
    for (size_t k = 0; k < p->arrivals.n; k++)
        arrival[k] = p->arrivals.at[k];
    qsort(arrival, p->arrivals.n, sizeof *arrival, by_reservoir_then_time);
    size_t k = 0;
    int32_t n = 0;
    for (int32_t v = 0; v < m->reservoirs; v++) {
        m->stock_at[v] = n;
        m->stock[n++] = (model_stock_step){0, p->reservoirs.at[v]};
        for (; k < p->arrivals.n && arrival[k].reservoir == v; k++) {
            if (m->stock[n - 1].time != arrival[k].time) {
                m->stock[n] = (model_stock_step){arrival[k].time, m->stock[n - 1].stock};
                n++;
            }
            m->stock[n - 1].stock += arrival[k].amount;
        }
    }
    m->stock_at[m->reservoirs] = n;
    memory_give_back(mem, arrival);
    return true;
}

/* One list of amounts, by task and by reservoir. */
static bool build_amounts(const model *m, memory *mem, const problem_amount *list, size_t list_n,
                          int32_t **task_at, model_demand **by_task, int32_t **owner_at,
                          model_user **by_owner) {
    *task_at = memory_array(mem, int32_t, m->n + 1);
    *by_task = memory_array(mem, model_demand, list_n);
    *owner_at = memory_array(mem, int32_t, m->reservoirs + 1);
    *by_owner = memory_array(mem, model_user, list_n);
    problem_amount *amount = memory_array(mem, problem_amount, list_n);
    int32_t *fill = memory_array(mem, int32_t, m->reservoirs + 1);
    size_t n = 0;
    if (!*task_at || !*by_task || !*owner_at || !*by_owner || !amount || !fill ||
        !problem_last_amounts(list, list_n, amount, &n))
        return false;
    for (size_t k = 0; k < n; k++) {
        (*task_at)[amount[k].task + 1]++;
        (*owner_at)[amount[k].owner + 1]++;
        (*by_task)[k] = (model_demand){amount[k].owner, amount[k].amount};
    }
    model_counts_to_offsets(*task_at, m->n);
    model_counts_to_offsets(*owner_at, m->reservoirs);
    for (int32_t v = 0; v < m->reservoirs; v++)
        fill[v] = (*owner_at)[v];
    for (size_t k = 0; k < n; k++)
        (*by_owner)[fill[amount[k].owner]++] = (model_user){amount[k].task, amount[k].amount};
    memory_give_back(mem, amount);
    memory_give_back(mem, fill);
    return true;
}

bool model_build_stock(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    m->reservoirs = (int32_t)p->reservoirs.n;
    return build_arrivals(m, mem) &&
           build_amounts(m, mem, p->draws.at, p->draws.n, &m->draw_at, &m->draw, &m->drawer_at, &m->drawer) &&
           build_amounts(m, mem, p->gives.at, p->gives.n, &m->give_at, &m->give, &m->giver_at, &m->giver);
}
