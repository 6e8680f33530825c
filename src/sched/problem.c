/* problem.c: writing a problem down. Every call appends; faults are remembered (see sched.h). */
#include "sched/problem.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void fault_set(sched_fault *f, sched_fault_code code, int32_t task, int32_t other, int32_t resource,
               int64_t value, const char *format, ...) {
    if (!f)
        return;
    *f = (sched_fault){.code = code, .task = task, .other = other, .resource = resource, .value = value};
    va_list list;
    va_start(list, format);
    vsnprintf(f->text, sizeof f->text, format,
              list); /* NOLINT(clang-analyzer-valist.Uninitialized): va_start above */
    va_end(list);
}

/* Room for one more item; false and a note in the problem when there is no memory. */
static bool make_room(sched_problem *p, void **at, size_t n, size_t *room, size_t item) {
    if (n < *room)
        return true;
    size_t wanted = *room ? 2 * *room : 16;
    void *bigger = wanted > SIZE_MAX / item ? NULL : realloc(*at, wanted * item);
    if (!bigger) {
        p->out_of_memory = true;
        return false;
    }
    *at = bigger;
    *room = wanted;
    return true;
}

#define APPEND(p, list, ...)                                                                                 \
    do {                                                                                                     \
        void *at_ = (p)->list.at;                                                                            \
        if (make_room((p), &at_, (p)->list.n, &(p)->list.room, sizeof *(p)->list.at)) {                      \
            (p)->list.at = at_;                                                                              \
            (p)->list.at[(p)->list.n++] = __VA_ARGS__;                                                       \
        }                                                                                                    \
    } while (0)

#define FAULTS_KEPT 64

static void note(sched_problem *p, sched_fault f) {
    if (p->faults.n < FAULTS_KEPT)
        APPEND(p, faults, f);
}

size_t sched_faults_so_far(const sched_problem *p, sched_fault *last) {
    if (p->faults.n > 0 && last)
        *last = p->faults.at[p->faults.n - 1];
    return p->faults.n;
}

static bool index_ok(sched_problem *p, const char *what, int32_t index, size_t n) {
    if (index >= 0 && (size_t)index < n)
        return true;
    sched_fault f;
    fault_set(&f, SCHED_FAULT_INDEX, SCHED_NONE, SCHED_NONE, SCHED_NONE, index,
              "%s %d does not exist; there are %zu", what, index, n);
    note(p, f);
    return false;
}

static bool task_ok(sched_problem *p, int32_t task) {
    return index_ok(p, "task", task, p->tasks.n);
}

static bool value_ok(sched_problem *p, const char *what, int32_t task, int64_t value, int64_t max) {
    if (value >= 0 && value <= max)
        return true;
    char of[32] = "";
    if (task != SCHED_NONE)
        snprintf(of, sizeof of, "task %d: ", task);
    sched_fault f;
    fault_set(&f, SCHED_FAULT_VALUE, task, SCHED_NONE, SCHED_NONE, value, "%s%s %lld is outside 0 .. %lld",
              of, what, (long long)value, (long long)max);
    note(p, f);
    return false;
}

sched_problem *sched_open(void) {
    sched_problem *p = calloc(1, sizeof *p);
    if (p)
        *p = (sched_problem){.horizon = SCHED_NONE, .unit = 1};
    return p;
}

void sched_close(sched_problem *p) {
    if (!p)
        return;
    free(p->tasks.at);
    free(p->windows.at);
    free(p->cuts.at);
    free(p->capacities.at);
    free(p->changes.at);
    free(p->demands.at);
    free(p->map_pieces.at);
    free(p->maps.at);
    free(p->relations.at);
    free(p->pairs.at);
    free(p->set_members.at);
    free(p->sets.at);
    free(p->reservoirs.at);
    free(p->arrivals.at);
    free(p->draws.at);
    free(p->gives.at);
    free(p->cost_pieces.at);
    free(p->costs.at);
    free(p->faults.at);
    free(p);
}

int32_t sched_task_count(const sched_problem *p) {
    return (int32_t)p->tasks.n;
}

int32_t sched_add_task(sched_problem *p, int32_t duration) {
    int32_t index = (int32_t)p->tasks.n;
    if (!value_ok(p, "duration", index, duration, SCHED_TIME_MAX))
        duration = 0;
    if (!value_ok(p, "number of tasks", SCHED_NONE, (int64_t)index + 1, SCHED_TASKS_MAX))
        return SCHED_NONE;
    APPEND(p, tasks, (problem_task){.duration = duration, .deadline = SCHED_TIME_MAX, .fixed = SCHED_NONE});
    return (size_t)index < p->tasks.n ? index : SCHED_NONE;
}

void sched_set_release(sched_problem *p, int32_t task, int32_t earliest_start) {
    if (task_ok(p, task) && value_ok(p, "release", task, earliest_start, SCHED_TIME_MAX))
        p->tasks.at[task].release = earliest_start;
}

void sched_set_deadline(sched_problem *p, int32_t task, int32_t latest_end) {
    if (task_ok(p, task) && value_ok(p, "deadline", task, latest_end, SCHED_TIME_MAX))
        p->tasks.at[task].deadline = latest_end;
}

void sched_fix_start(sched_problem *p, int32_t task, int32_t start) {
    if (task_ok(p, task) && value_ok(p, "fixed start", task, start, SCHED_TIME_MAX))
        p->tasks.at[task].fixed = start;
}

void sched_set_horizon(sched_problem *p, int32_t horizon) {
    if (value_ok(p, "horizon", SCHED_NONE, horizon, SCHED_TIME_MAX))
        p->horizon = horizon;
}

void sched_allow_starts(sched_problem *p, int32_t task, int32_t first, int32_t last) {
    if (!task_ok(p, task) || !value_ok(p, "allowed start", task, first, SCHED_TIME_MAX) ||
        !value_ok(p, "allowed start", task, last, SCHED_TIME_MAX))
        return;
    APPEND(p, windows, (problem_window){task, first, last});
}

void sched_add_cut(sched_problem *p, int32_t time) {
    if (value_ok(p, "cut", SCHED_NONE, time, SCHED_TIME_MAX))
        APPEND(p, cuts, time);
}

void sched_set_crossing(sched_problem *p, int32_t task, sched_crossing crossing, int32_t extra) {
    if (!task_ok(p, task) || !value_ok(p, "extra time at a cut", task, extra, SCHED_TIME_MAX) ||
        !value_ok(p, "crossing rule", task, (int64_t)crossing, SCHED_CUT_COSTS))
        return;
    p->tasks.at[task].crossing = crossing;
    p->tasks.at[task].extra = extra;
}

int32_t sched_add_resource(sched_problem *p, int32_t capacity) {
    int32_t index = (int32_t)p->capacities.n;
    if (!value_ok(p, "capacity", SCHED_NONE, capacity, SCHED_AMOUNT_MAX))
        capacity = 0;
    APPEND(p, capacities, capacity);
    return (size_t)index < p->capacities.n ? index : SCHED_NONE;
}

void sched_set_capacity(sched_problem *p, int32_t resource, int32_t from, int32_t to, int32_t capacity) {
    if (!index_ok(p, "resource", resource, p->capacities.n) ||
        !value_ok(p, "time of a capacity", SCHED_NONE, from, SCHED_TIME_MAX) ||
        !value_ok(p, "time of a capacity", SCHED_NONE, to, SCHED_TIME_MAX) ||
        !value_ok(p, "capacity", SCHED_NONE, capacity, SCHED_AMOUNT_MAX))
        return;
    if (from < to)
        APPEND(p, changes, (problem_change){resource, from, to, capacity});
}

void sched_set_demand(sched_problem *p, int32_t task, int32_t resource, int32_t amount) {
    if (task_ok(p, task) && index_ok(p, "resource", resource, p->capacities.n) &&
        value_ok(p, "demand", task, amount, SCHED_AMOUNT_MAX))
        APPEND(p, demands, (problem_amount){task, resource, amount});
}

int32_t sched_add_map(sched_problem *p, const sched_map_piece *pieces, size_t n) {
    int32_t index = (int32_t)p->maps.n;
    problem_span span = {p->map_pieces.n, n};
    for (size_t i = 0; i < n; i++)
        APPEND(p, map_pieces, pieces[i]);
    APPEND(p, maps, span);
    return (size_t)index < p->maps.n ? index : SCHED_NONE;
}

void sched_add_relation(sched_problem *p, sched_relation_kind kind, int32_t before, int32_t after,
                        int32_t delay, int32_t map) {
    if (!task_ok(p, before) || !task_ok(p, after) || !value_ok(p, "delay", before, delay, SCHED_TIME_MAX) ||
        !value_ok(p, "kind of relation", before, (int64_t)kind, SCHED_START_START) ||
        (map != SCHED_NONE && !index_ok(p, "map", map, p->maps.n)))
        return;
    APPEND(p, relations, (problem_relation){before, after, delay, map, kind});
}

void sched_forbid_overlap(sched_problem *p, int32_t a, int32_t b) {
    if (!task_ok(p, a) || !task_ok(p, b))
        return;
    if (a == b) {
        sched_fault f;
        fault_set(&f, SCHED_FAULT_VALUE, a, b, SCHED_NONE, 0,
                  "task %d cannot be kept from overlapping itself", a);
        note(p, f);
        return;
    }
    APPEND(p, pairs, (problem_pair){{a, b}});
}

void sched_forbid_all_overlap(sched_problem *p, const int32_t *tasks, size_t n) {
    problem_span span = {p->set_members.n, n};
    for (size_t i = 0; i < n; i++) {
        if (!task_ok(p, tasks[i]))
            return;
        for (size_t j = 0; j < i; j++)
            if (tasks[i] == tasks[j]) {
                sched_fault f;
                fault_set(&f, SCHED_FAULT_VALUE, tasks[i], tasks[j], SCHED_NONE, 0,
                          "task %d stands twice in a set that may not all overlap", tasks[i]);
                note(p, f);
                return;
            }
    }
    if (n < 2) {
        (void)value_ok(p, "tasks missing in a set that may not all overlap", SCHED_NONE, (int64_t)n - 2, 0);
        return;
    }
    for (size_t i = 0; i < n; i++)
        APPEND(p, set_members, tasks[i]);
    APPEND(p, sets, span);
}

int32_t sched_add_reservoir(sched_problem *p, int32_t initial) {
    int32_t index = (int32_t)p->reservoirs.n;
    if (!value_ok(p, "stock", SCHED_NONE, initial, SCHED_AMOUNT_MAX))
        initial = 0;
    APPEND(p, reservoirs, initial);
    return (size_t)index < p->reservoirs.n ? index : SCHED_NONE;
}

void sched_add_arrival(sched_problem *p, int32_t reservoir, int32_t time, int32_t amount) {
    if (index_ok(p, "reservoir", reservoir, p->reservoirs.n) &&
        value_ok(p, "time of an arrival", SCHED_NONE, time, SCHED_TIME_MAX) &&
        value_ok(p, "amount that arrives", SCHED_NONE, amount, SCHED_AMOUNT_MAX))
        APPEND(p, arrivals, (problem_arrival){reservoir, time, amount});
}

void sched_set_draw(sched_problem *p, int32_t task, int32_t reservoir, int32_t amount) {
    if (task_ok(p, task) && index_ok(p, "reservoir", reservoir, p->reservoirs.n) &&
        value_ok(p, "draw", task, amount, SCHED_AMOUNT_MAX))
        APPEND(p, draws, (problem_amount){task, reservoir, amount});
}

void sched_set_give(sched_problem *p, int32_t task, int32_t reservoir, int32_t amount) {
    if (task_ok(p, task) && index_ok(p, "reservoir", reservoir, p->reservoirs.n) &&
        value_ok(p, "give", task, amount, SCHED_AMOUNT_MAX))
        APPEND(p, gives, (problem_amount){task, reservoir, amount});
}

int32_t sched_add_objective(sched_problem *p) {
    return p->objectives++;
}

void sched_add_cost(sched_problem *p, int32_t objective, int32_t task, const sched_cost_piece *pieces,
                    size_t n) {
    if (!index_ok(p, "objective", objective, (size_t)p->objectives) || !task_ok(p, task) || n == 0)
        return;
    problem_span span = {p->cost_pieces.n, n};
    for (size_t i = 0; i < n; i++)
        APPEND(p, cost_pieces, pieces[i]);
    APPEND(p, costs, (problem_cost){objective, task, span});
}

/* ---- amounts ----------------------------------------------------------------------------------------------- */

typedef struct {
    problem_amount amount;
    size_t order;
} ordered_amount;

static int by_task_owner_order(const void *x, const void *y) {
    const ordered_amount *a = x, *b = y;
    if (a->amount.task != b->amount.task)
        return a->amount.task < b->amount.task ? -1 : 1;
    if (a->amount.owner != b->amount.owner)
        return a->amount.owner < b->amount.owner ? -1 : 1;
    return a->order < b->order ? -1 : a->order > b->order;
}

bool problem_last_amounts(const problem_amount *list, size_t list_n, problem_amount *out, size_t *n) {
    ordered_amount *all = malloc((list_n ? list_n : 1) * sizeof *all);
    if (!all)
        return false;
    for (size_t i = 0; i < list_n; i++)
        all[i] = (ordered_amount){list[i], i};
    qsort(all, list_n, sizeof *all, by_task_owner_order);
    *n = 0;
    for (size_t i = 0; i < list_n; i++) {
        bool last = i + 1 == list_n || all[i + 1].amount.task != all[i].amount.task ||
                    all[i + 1].amount.owner != all[i].amount.owner;
        if (last && all[i].amount.amount > 0)
            out[(*n)++] = all[i].amount;
    }
    free(all);
    return true;
}
