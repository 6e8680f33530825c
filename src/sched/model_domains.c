/* model_domains.c: which starts each task may have, as lists of intervals; equal tasks share one list.
 *
 * A list is the task's windows, merged, without the starts that would put a cut inside a task that keeps its cuts, or let a task that
 * pays for cuts end past its deadline: there an earlier start may end later, so that no latest start says it all. */
#include <stdlib.h>

#include "sched/model_parts.h"

typedef struct {
    const model *m;
    memory *mem;
    model_interval *interval;
    int32_t n, room;
} interval_list;

static bool add_interval(interval_list *list, int32_t first, int32_t last) {
    if (first > last)
        return true;
    if (list->n == list->room) {
        int32_t room = list->room ? 2 * list->room : 64;
        model_interval *bigger =
            memory_grow(list->mem, list->interval, (size_t)list->n, (size_t)room, sizeof *bigger);
        if (!bigger)
            return false;
        list->interval = bigger;
        list->room = room;
    }
    list->interval[list->n++] = (model_interval){first, last};
    return true;
}

/* Adds first .. last without the starts from which a run of `duration` would have a cut inside it. */
static bool add_between_cuts(interval_list *list, int32_t first, int32_t last, int32_t duration, bool kept) {
    if (!kept || duration <= 1)
        return add_interval(list, first, last);
    const model *m = list->m;
    int32_t from = 0;
    for (int32_t k = 0; k <= m->cut_count; k++) {
        int32_t to = k < m->cut_count ? m->cut[k] - duration : last;
        int32_t a = from > first ? from : first, b = to < last ? to : last;
        if (!add_interval(list, a, b))
            return false;
        from = k < m->cut_count ? m->cut[k] : from;
    }
    return true;
}

/* Pays for cuts and has a deadline before the horizon (the makespan looks after the horizon itself). */
static bool may_end_late(const model *m, int32_t i) {
    return m->extra[i] > 0 && m->cut_count > 0 && m->problem->tasks.at[i].deadline < m->horizon;
}

/* Adds first .. last without the starts of task i that end past its deadline: stretch by stretch between cuts, in each of which a
 * later start ends later. */
static bool add_in_time(interval_list *list, int32_t i, int32_t first, int32_t last) {
    const model *m = list->m;
    int32_t deadline = m->problem->tasks.at[i].deadline, from = first, open = first;
    if (last > deadline - m->duration[i])
        last = deadline - m->duration[i];
    while (from <= last) {
        int32_t cut = model_next_cut(m, from), to = cut <= last ? cut - 1 : last;
        int32_t latest = model_start_ending_by(m, i, deadline, to);
        if (latest < to) { /* the stretch, or its end, is out: close what is open */
            if (!add_interval(list, open, latest < from ? from - 1 : latest))
                return false;
            open = to + 1;
        }
        from = to + 1;
    }
    return add_interval(list, open, last);
}

static bool add_allowed(interval_list *list, int32_t i, int32_t first, int32_t last, bool kept) {
    return may_end_late(list->m, i) ? add_in_time(list, i, first, last)
                                    : add_between_cuts(list, first, last, list->m->duration[i], kept);
}

static int by_task_then_first(const void *x, const void *y) {
    const problem_window *a = x, *b = y;
    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    return a->first < b->first ? -1 : a->first > b->first;
}

/* The list of task i with windows [w, end). */
static bool add_windows(interval_list *list, int32_t i, const problem_window *w, const problem_window *end,
                        bool kept) {
    if (w == end)
        return add_allowed(list, i, 0, list->m->horizon, kept);
    while (w < end) {
        int32_t first = w->first, last = w->last;
        for (w++; w < end && (int64_t)w->first <= (int64_t)last + 1; w++)
            if (w->last > last)
                last = w->last;
        if (!add_allowed(list, i, first, last, kept))
            return false;
    }
    return true;
}

typedef struct {
    int32_t duration, task;
} kept_task;

static int by_duration(const void *x, const void *y) {
    const kept_task *a = x, *b = y;
    if (a->duration != b->duration)
        return a->duration < b->duration ? -1 : 1;
    return a->task < b->task ? -1 : a->task > b->task;
}

static bool keeps_cuts(const model *m, int32_t i) {
    return m->problem->tasks.at[i].crossing == SCHED_CUT_KEPT && m->cut_count > 0 && m->duration[i] > 1;
}

/* Tasks without windows that keep their cuts: one list for each duration. */
static bool share_by_duration(model *m, interval_list *list, const int32_t *window_at) {
    kept_task *kept = memory_array(list->mem, kept_task, m->n);
    if (!kept)
        return false;
    int32_t n = 0;
    for (int32_t i = 0; i < m->n; i++)
        if (window_at[i] == window_at[i + 1] && keeps_cuts(m, i))
            kept[n++] = (kept_task){m->duration[i], i};
    qsort(kept, (size_t)n, sizeof *kept, by_duration);
    for (int32_t k = 0; k < n; k++) {
        if (k == 0 || kept[k].duration != kept[k - 1].duration) {
            m->interval_at[m->domains++] = list->n;
            if (!add_between_cuts(list, 0, m->horizon, kept[k].duration, true))
                return false;
        }
        m->domain[kept[k].task] = m->domains - 1;
    }
    memory_give_back(list->mem, kept);
    return true;
}

bool model_build_domains(model *m, memory *mem) {
    const sched_problem *p = m->problem;
    interval_list list = {.m = m, .mem = mem};
    m->domain = memory_array(mem, int32_t, m->n);
    m->interval_at = memory_array(mem, int32_t, m->n + 2);
    int32_t *window_at = memory_array(mem, int32_t, m->n + 1);
    problem_window *window = memory_array(mem, problem_window, p->windows.n);
    if (!m->domain || !m->interval_at || !window_at || !window)
        return false;
    for (size_t k = 0; k < p->windows.n; k++) {
        window[k] = p->windows.at[k];
        window_at[window[k].task + 1]++;
    }
    model_counts_to_offsets(window_at, m->n);
    qsort(window, p->windows.n, sizeof *window, by_task_then_first);
    m->domains = 1; /* number 0: everything */
    for (int32_t i = 0; i < m->n; i++) {
        if (window_at[i] == window_at[i + 1] && !may_end_late(m, i))
            continue;
        m->interval_at[m->domains] = list.n;
        m->domain[i] = m->domains++;
        if (!add_windows(&list, i, window + window_at[i], window + window_at[i + 1], keeps_cuts(m, i)))
            return false;
    }
    if (!share_by_duration(m, &list, window_at))
        return false;
    m->interval_at[m->domains] = list.n;
    m->interval = list.interval;
    memory_give_back(mem, window);
    memory_give_back(mem, window_at);
    return true;
}
