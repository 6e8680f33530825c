/* check.c: judges a schedule by the problem as it was written down.
 *
 * Written for plainness and in its own words: nothing here is used by the solver and nothing of the solver is used
 * here, so that one misunderstanding would have to be made twice. Runs on every answer, in release builds too; a few
 * milliseconds even for thousands of tasks.
 */
#include <stdlib.h>

#include "sched/problem.h"

int32_t sched_end_of(const sched_problem *p, int32_t task, int32_t start) {
    const problem_task *t = &p->tasks.at[task];
    if (t->crossing != SCHED_CUT_COSTS)
        return start + t->duration;
    int64_t now = start, left = t->duration;
    while (left > 0) {
        int64_t cut = INT64_MAX; /* the next one met with work left */
        for (size_t k = 0; k < p->cuts.n; k++)
            if (p->cuts.at[k] > now && p->cuts.at[k] < now + left && p->cuts.at[k] < cut)
                cut = p->cuts.at[k];
        if (cut == INT64_MAX)
            break;
        left = left - (cut - now) + t->extra;
        now = cut;
        if (now + left > SCHED_TIME_MAX)
            return SCHED_TIME_MAX + 1;
    }
    return (int32_t)(now + left);
}

typedef struct {
    const sched_problem *p;
    const int32_t *start, *end;
    sched_fault *fault;
} checked;

static bool broken(const checked *c, int32_t task, int32_t other, int32_t resource, int64_t value,
                   const char *rule) {
    fault_set(c->fault, SCHED_FAULT_INTERNAL, task, other, resource, value, "rule broken by task %d: %s",
              task, rule);
    return false;
}

static bool windows_ok(const checked *c) {
    enum { HAS_WINDOWS = 1, INSIDE_ONE = 2 };
    unsigned char *mark = calloc(c->p->tasks.n + 1, 1);
    bool ok = mark != NULL;
    for (size_t k = 0; ok && k < c->p->windows.n; k++) {
        const problem_window *w = &c->p->windows.at[k];
        bool inside = c->start[w->task] >= w->first && c->start[w->task] <= w->last;
        mark[w->task] = (unsigned char)(mark[w->task] | HAS_WINDOWS | (inside ? INSIDE_ONE : 0));
    }
    for (size_t i = 0; ok && i < c->p->tasks.n; i++)
        if (mark[i] == HAS_WINDOWS)
            ok = broken(c, (int32_t)i, SCHED_NONE, SCHED_NONE, c->start[i],
                        "starts outside its allowed starts");
    free(mark);
    return ok;
}

static bool tasks_ok(const checked *c) {
    const sched_problem *p = c->p;
    for (size_t k = 0; k < p->tasks.n; k++) {
        const problem_task *t = &p->tasks.at[k];
        int32_t i = (int32_t)k, s = c->start[i], e = c->end[i];
        if (s < t->release || s < 0)
            return broken(c, i, SCHED_NONE, SCHED_NONE, s, "starts before its release");
        if (e > t->deadline || e > SCHED_TIME_MAX || (p->horizon != SCHED_NONE && e > p->horizon))
            return broken(c, i, SCHED_NONE, SCHED_NONE, e, "ends after its deadline or the horizon");
        if (t->fixed != SCHED_NONE && s != t->fixed)
            return broken(c, i, SCHED_NONE, SCHED_NONE, s, "does not start at its fixed start");
        for (size_t q = 0; t->crossing == SCHED_CUT_KEPT && q < p->cuts.n; q++)
            if (s < p->cuts.at[q] && p->cuts.at[q] < e)
                return broken(c, i, SCHED_NONE, SCHED_NONE, p->cuts.at[q], "runs across a cut");
    }
    return windows_ok(c);
}

/* f(t) by walking the pieces in order. */
static int64_t mapped(const sched_problem *p, int32_t map, int64_t t) {
    int64_t value = t;
    for (size_t k = 0; k < p->maps.at[map].n; k++) {
        const sched_map_piece *piece = &p->map_pieces.at[p->maps.at[map].at + k];
        if (piece->from <= t)
            value = piece->value + piece->slope * (t - piece->from);
    }
    return value;
}

static bool relations_ok(const checked *c) {
    for (size_t k = 0; k < c->p->relations.n; k++) {
        const problem_relation *r = &c->p->relations.at[k];
        int64_t x = r->kind == SCHED_END_START ? c->end[r->before] : c->start[r->before];
        if (r->map != SCHED_NONE)
            x = mapped(c->p, r->map, x);
        if (c->start[r->after] < x + r->delay)
            return broken(c, r->after, r->before, SCHED_NONE, x + r->delay,
                          "starts before what must come before it");
    }
    return true;
}

/* ---- amounts over time ------------------------------------------------------------------------------------- */

typedef struct {
    int32_t owner, task, amount;
    size_t call;
} amount_call;

static int by_owner_task_call(const void *x, const void *y) {
    const amount_call *a = x, *b = y;
    if (a->owner != b->owner)
        return a->owner < b->owner ? -1 : 1;
    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    return a->call < b->call ? -1 : a->call > b->call;
}

/* The calls that count, sorted by owner. */
static size_t last_calls(const problem_amount *list, size_t n, amount_call *out) {
    for (size_t k = 0; k < n; k++)
        out[k] = (amount_call){list[k].owner, list[k].task, list[k].amount, k};
    qsort(out, n, sizeof *out, by_owner_task_call);
    size_t kept = 0;
    for (size_t k = 0; k < n; k++)
        if (k + 1 == n || out[k + 1].owner != out[k].owner || out[k + 1].task != out[k].task)
            out[kept++] = out[k];
    return kept;
}

typedef struct {
    int32_t time;
    int64_t change;
    int32_t task;
} event;

static int by_time_then_change(const void *x, const void *y) {
    const event *a = x, *b = y;
    if (a->time != b->time)
        return a->time < b->time ? -1 : 1;
    return a->change < b->change ? -1 : a->change > b->change;
}

typedef struct {
    int32_t time;
    int64_t used; /* from this time to that of the next level */
    int32_t task; /* one that begins or ends here, or SCHED_NONE */
} level;

/* Events into levels, one for each instant; returns how many. */
static size_t levels_of(event *e, size_t n, level *out) {
    qsort(e, n, sizeof *e, by_time_then_change);
    size_t levels = 0;
    int64_t used = 0;
    for (size_t k = 0; k < n; k++) {
        used += e[k].change;
        if (levels == 0 || out[levels - 1].time != e[k].time)
            levels++;
        out[levels - 1] = (level){e[k].time, used, e[k].task};
    }
    return levels;
}

static int64_t most_used(const level *l, size_t n, int32_t from, int32_t to, int32_t *task) {
    size_t low = 0, high = n; /* the first level after `from` */
    while (low < high) {
        size_t mid = (low + high) / 2;
        if (l[mid].time > from)
            high = mid;
        else
            low = mid + 1;
    }
    int64_t most = 0;
    for (size_t k = low > 0 ? low - 1 : 0; k < n && l[k].time < to; k++)
        if (l[k].used > most) {
            most = l[k].used;
            *task = l[k].task;
        }
    return most;
}

static int by_time(const void *x, const void *y) {
    int32_t a = *(const int32_t *)x, b = *(const int32_t *)y;
    return a < b ? -1 : a > b;
}

/* The times at which the capacity of r may change, ascending, ending with the end of time. */
static size_t boundaries(const sched_problem *p, int32_t r, int32_t *time) {
    size_t n = 0;
    time[n++] = 0;
    for (size_t k = 0; k < p->changes.n; k++)
        if (p->changes.at[k].resource == r) {
            time[n++] = p->changes.at[k].from;
            time[n++] = p->changes.at[k].to;
        }
    time[n++] = INT32_MAX;
    qsort(time, n, sizeof *time, by_time);
    return n;
}

/* Nothing of resource r is used above its capacity at any instant. */
static bool resource_ok(const checked *c, int32_t r, const level *l, size_t n, int32_t *time) {
    const sched_problem *p = c->p;
    size_t times = boundaries(p, r, time);
    for (size_t b = 0; b + 1 < times; b++) {
        if (time[b] == time[b + 1])
            continue;
        int32_t task = SCHED_NONE, capacity = p->capacities.at[r];
        int64_t used = most_used(l, n, time[b], time[b + 1], &task);
        for (size_t k = p->changes.n; k-- > 0;) /* the last call that covers this stretch */
            if (p->changes.at[k].resource == r && p->changes.at[k].from <= time[b] &&
                time[b] < p->changes.at[k].to) {
                capacity = p->changes.at[k].capacity;
                break;
            }
        if (used > capacity)
            return broken(c, task, SCHED_NONE, r, used, "more of a resource is used than there is");
    }
    return true;
}

typedef struct {
    amount_call *call;
    event *event;
    level *level;
    int32_t *time;
} scratch;

static bool resources_ok(const checked *c, const scratch *s) {
    size_t n = last_calls(c->p->demands.at, c->p->demands.n, s->call);
    for (size_t k = 0; k < n;) {
        int32_t r = s->call[k].owner;
        size_t events = 0;
        for (; k < n && s->call[k].owner == r; k++) {
            int32_t i = s->call[k].task;
            if (c->start[i] == c->end[i])
                continue;
            s->event[events++] = (event){c->start[i], s->call[k].amount, i};
            s->event[events++] = (event){c->end[i], -(int64_t)s->call[k].amount, i};
        }
        if (!resource_ok(c, r, s->level, levels_of(s->event, events, s->level), s->time))
            return false;
    }
    return true;
}

static bool stock_ok(const checked *c, const scratch *s) {
    const sched_problem *p = c->p;
    for (size_t v = 0; v < p->reservoirs.n; v++) {
        size_t events = 0;
        s->event[events++] = (event){0, p->reservoirs.at[v], SCHED_NONE};
        for (size_t k = 0; k < p->arrivals.n; k++)
            if (p->arrivals.at[k].reservoir == (int32_t)v)
                s->event[events++] = (event){p->arrivals.at[k].time, p->arrivals.at[k].amount, SCHED_NONE};
        size_t n = last_calls(p->draws.at, p->draws.n, s->call);
        for (size_t k = 0; k < n; k++)
            if (s->call[k].owner == (int32_t)v)
                s->event[events++] =
                    (event){c->start[s->call[k].task], -(int64_t)s->call[k].amount, s->call[k].task};
        n = last_calls(p->gives.at, p->gives.n, s->call);
        for (size_t k = 0; k < n; k++)
            if (s->call[k].owner == (int32_t)v)
                s->event[events++] = (event){c->end[s->call[k].task], s->call[k].amount, s->call[k].task};
        size_t levels = levels_of(s->event, events, s->level);
        for (size_t k = 0; k < levels; k++)
            if (s->level[k].used < 0)
                return broken(c, s->level[k].task, SCHED_NONE, SCHED_NONE, s->level[k].used,
                              "stock is drawn that is not there");
    }
    return true;
}

static bool overlaps_ok(const checked *c) {
    const sched_problem *p = c->p;
    for (size_t k = 0; k < p->pairs.n; k++) {
        int32_t a = p->pairs.at[k].task[0], b = p->pairs.at[k].task[1];
        bool empty = c->start[a] == c->end[a] || c->start[b] == c->end[b];
        if (!empty && c->start[a] < c->end[b] && c->start[b] < c->end[a])
            return broken(c, a, b, SCHED_NONE, c->start[a], "overlaps a task it must not overlap");
    }
    for (size_t k = 0; k < p->sets.n; k++) {
        const int32_t *member = p->set_members.at + p->sets.at[k].at;
        int32_t from = 0, to = INT32_MAX; /* all of them run in [from, to) */
        for (size_t j = 0; j < p->sets.at[k].n; j++) {
            from = c->start[member[j]] > from ? c->start[member[j]] : from;
            to = c->end[member[j]] < to ? c->end[member[j]] : to;
        }
        if (from < to)
            return broken(c, member[0], SCHED_NONE, SCHED_NONE, from, "a set that may not all overlap does");
    }
    return true;
}

bool sched_check(const sched_problem *p, const int32_t *starts, int32_t *makespan, sched_fault *fault) {
    size_t amounts = p->demands.n + p->draws.n + p->gives.n;
    size_t events = 2 * amounts + p->arrivals.n + 1;
    int32_t *end = malloc((p->tasks.n + 1) * sizeof *end);
    scratch s = {malloc((amounts + 1) * sizeof *s.call), malloc(events * sizeof *s.event),
                 malloc(events * sizeof *s.level), malloc((2 * p->changes.n + 2) * sizeof *s.time)};
    bool ok = false;
    if (!end || !s.call || !s.event || !s.level || !s.time) {
        fault_set(fault, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0,
                  "no memory to check a schedule");
    } else {
        int32_t latest = 0;
        for (size_t i = 0; i < p->tasks.n; i++) {
            end[i] = sched_end_of(p, (int32_t)i, starts[i]);
            latest = end[i] > latest ? end[i] : latest;
        }
        checked c = {p, starts, end, fault};
        ok = tasks_ok(&c) && relations_ok(&c) && resources_ok(&c, &s) && stock_ok(&c, &s) && overlaps_ok(&c);
        if (ok && makespan)
            *makespan = latest;
    }
    free(end);
    free(s.call);
    free(s.event);
    free(s.level);
    free(s.time);
    return ok;
}

int64_t sched_objective_value(const sched_problem *p, int32_t objective, const int32_t *starts) {
    int64_t sum = 0;
    for (size_t k = 0; k < p->costs.n; k++) {
        const problem_cost *cost = &p->costs.at[k];
        if (cost->objective != objective)
            continue;
        const sched_cost_piece *piece = p->cost_pieces.at + cost->pieces.at;
        int64_t value = piece[0].value;
        for (size_t j = 0; j < cost->pieces.n; j++)
            if (piece[j].from <= starts[cost->task])
                value = piece[j].value + (int64_t)piece[j].slope * (starts[cost->task] - piece[j].from);
        sum += value;
    }
    return sum;
}
