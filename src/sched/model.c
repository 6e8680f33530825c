/* model.c: compiling a problem: tasks, arcs, order; the other parts are called from here. */
#include "sched/model.h"

#include <stdlib.h>
#include <string.h>

#include "sched/model_parts.h"

void model_counts_to_offsets(int32_t *at, int32_t n) {
    for (int32_t i = 0; i < n; i++)
        at[i + 1] += at[i];
}

/* How much later than x a map can put things once all its pieces have begun. */
static int64_t map_shift(const sched_problem *p, int32_t map) {
    const problem_span span = p->maps.at[map];
    if (span.n == 0)
        return 0;
    const sched_map_piece *last = &p->map_pieces.at[span.at + span.n - 1];
    return (int64_t)last->value - last->from;
}

static int64_t larger(int64_t a, int64_t b) {
    return a > b ? a : b;
}

/* Past every dated event the world is the same for ever, so that one task after the other fits from there on. */
int64_t model_long_enough(const sched_problem *p) {
    int64_t dated = 0, busy = 0;
    for (size_t i = 0; i < p->tasks.n; i++) {
        dated = larger(dated, larger(p->tasks.at[i].release, p->tasks.at[i].fixed));
        busy += p->tasks.at[i].duration;
    }
    for (size_t i = 0; i < p->windows.n; i++)
        dated = larger(dated, p->windows.at[i].first);
    for (size_t i = 0; i < p->cuts.n; i++)
        dated = larger(dated, p->cuts.at[i]);
    for (size_t i = 0; i < p->changes.n; i++)
        dated = larger(dated, p->changes.at[i].to);
    for (size_t i = 0; i < p->arrivals.n; i++)
        dated = larger(dated, p->arrivals.at[i].time);
    for (size_t i = 0; i < p->map_pieces.n; i++)
        dated = larger(dated, p->map_pieces.at[i].from);
    for (size_t i = 0; i < p->relations.n; i++) {
        const problem_relation *r = &p->relations.at[i];
        busy += r->delay + (r->map == SCHED_NONE ? 0 : map_shift(p, r->map));
    }
    return dated + busy;
}

static bool build_tasks(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    int32_t n = m->n;
    m->duration = memory_array(mem, int32_t, n);
    m->extra = memory_array(mem, int32_t, n);
    m->est = memory_array(mem, int32_t, n);
    m->lst = memory_array(mem, int32_t, n);
    if (!m->duration || !m->extra || !m->est || !m->lst)
        return false;
    for (int32_t i = 0; i < n; i++) {
        const problem_task *t = &p->tasks.at[i];
        m->duration[i] = t->duration;
        m->extra[i] = t->crossing == SCHED_CUT_COSTS && t->duration > 1 ? t->extra : 0;
        m->est[i] = t->release;
    }
    return true;
}

static int compare_times(const void *x, const void *y) {
    int32_t a = *(const int32_t *)x, b = *(const int32_t *)y;
    return a < b ? -1 : a > b;
}

static bool build_cuts(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    m->cut = memory_array(mem, int32_t, p->cuts.n);
    if (!m->cut)
        return false;
    if (p->cuts.n)
        memcpy(m->cut, p->cuts.at, p->cuts.n * sizeof *m->cut);
    qsort(m->cut, p->cuts.n, sizeof *m->cut, compare_times);
    for (size_t k = 0; k < p->cuts.n; k++)
        if (m->cut_count == 0 || m->cut[m->cut_count - 1] != m->cut[k])
            m->cut[m->cut_count++] = m->cut[k];
    return true;
}

static bool build_arcs(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    m->after_at = memory_array(mem, int32_t, m->n + 2);
    m->before_at = memory_array(mem, int32_t, m->n + 2);
    m->after = memory_array(mem, model_arc, p->relations.n);
    m->before = memory_array(mem, model_arc, p->relations.n);
    if (!m->after_at || !m->before_at || !m->after || !m->before)
        return false;
    /* Offsets are built one place further on, then each fill moves its own offset to where it belongs. */
    int32_t *after_at = m->after_at + 1, *before_at = m->before_at + 1;
    for (size_t k = 0; k < p->relations.n; k++) {
        const problem_relation *r = &p->relations.at[k];
        if (r->before + 1 < m->n)
            after_at[r->before + 1]++;
        if (r->after + 1 < m->n)
            before_at[r->after + 1]++;
    }
    for (int32_t i = 1; i < m->n; i++) {
        after_at[i] += after_at[i - 1];
        before_at[i] += before_at[i - 1];
    }
    for (size_t k = 0; k < p->relations.n; k++) {
        const problem_relation *r = &p->relations.at[k];
        m->after[after_at[r->before]++] = (model_arc){r->after, r->delay, r->map, r->kind};
        m->before[before_at[r->after]++] = (model_arc){r->before, r->delay, r->map, r->kind};
    }
    return true;
}

/* Tasks in an order in which each stands after what must come before it (Kahn, "Topological sorting of large
 * networks", 1962). Returns how many got a place: fewer than n when relations go round. */
static int32_t sort_tasks(const model *m, int32_t *order, int32_t *waiting) {
    int32_t done = 0, n = 0;
    for (int32_t i = 0; i < m->n; i++) {
        waiting[i] = m->before_at[i + 1] - m->before_at[i];
        if (waiting[i] == 0)
            order[n++] = i;
    }
    for (; done < n; done++)
        for (int32_t k = m->after_at[order[done]]; k < m->after_at[order[done] + 1]; k++)
            if (--waiting[m->after[k].task] == 0)
                order[n++] = m->after[k].task;
    return n;
}

static bool build_order(model *m, memory *mem, int32_t *sorted) {
    int32_t *waiting = memory_array(mem, int32_t, m->n);
    m->order = memory_array(mem, int32_t, m->n);
    if (!waiting || !m->order)
        return false;
    *sorted = sort_tasks(m, m->order, waiting);
    memory_give_back(mem, waiting);
    return true;
}

bool model_build(model *m, const sched_problem *p, const sched_refusal *refused, memory *mem) {
    *m = (model){.problem = p, .refused = refused, .n = (int32_t)p->tasks.n, .reason_resource = SCHED_NONE};
    m->horizon = p->horizon == SCHED_NONE ? (int32_t)model_long_enough(p) : p->horizon;
    m->reason_task = memory_array(mem, int32_t, m->n);
    int32_t sorted = 0;
    return m->reason_task && build_tasks(m, mem) && build_cuts(m, mem) && build_arcs(m, mem) &&
           build_order(m, mem, &sorted) && model_build_domains(m, mem) && model_build_resources(m, mem) &&
           model_build_lanes(m, mem) && model_build_stock(m, mem) && model_build_bounds(m, mem);
}

/* ---- faults of the whole ----------------------------------------------------------------------------------- */

/* Two neighbours on a cycle: a task that never got a place, and one before it that did not either. */
static void find_cycle(const model *m, int32_t sorted, const int32_t *order, sched_fault *out) {
    bool *placed = calloc((size_t)m->n + 1, sizeof *placed);
    int32_t task = SCHED_NONE, before = SCHED_NONE;
    for (int32_t k = 0; placed && k < sorted; k++)
        placed[order[k]] = true;
    for (int32_t i = 0; placed && i < m->n && task == SCHED_NONE; i++)
        if (!placed[i])
            task = i;
    for (int32_t walk = 0; placed && walk <= m->n; walk++) { /* n steps backwards end on the cycle itself */
        before = task;
        for (int32_t k = m->before_at[before]; k < m->before_at[before + 1]; k++)
            if (!placed[m->before[k].task])
                task = m->before[k].task;
    }
    free(placed);
    fault_set(out, SCHED_FAULT_CYCLE, task, before, SCHED_NONE, 0,
              "task %d must come before task %d and also after it: the relations go round", task, before);
}

size_t model_find_faults(const sched_problem *p, sched_fault *out, size_t room) {
    size_t found = 0;
    int64_t horizon = model_long_enough(p);
    if (p->horizon == SCHED_NONE && horizon > SCHED_TIME_MAX) {
        if (found++ < room)
            fault_set(out, SCHED_FAULT_HORIZON, SCHED_NONE, SCHED_NONE, SCHED_NONE, horizon,
                      "all tasks one after the other end at %lld, past %d; count time in a coarser unit",
                      (long long)horizon, SCHED_TIME_MAX);
    }
    memory mem;
    memory_open(&mem, UINT64_MAX / 2);
    model m = {.problem = p, .n = (int32_t)p->tasks.n};
    int32_t sorted = 0;
    if (!build_arcs(&m, &mem) || !build_order(&m, &mem, &sorted)) {
        if (found++ < room)
            fault_set(out, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0,
                      "no memory to validate");
    } else if (sorted < m.n) {
        if (found++ < room)
            find_cycle(&m, sorted, m.order, out + found - 1);
    }
    memory_close(&mem);
    return found;
}
