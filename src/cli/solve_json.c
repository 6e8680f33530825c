/* solve_json.c: our JSON form of a whole scheduling problem; docs/models.md describes each key. */
#include <jansson.h>
#include <stdio.h>
#include <string.h>

#include "cli/json_line.h"
#include "cli/solve_read.h"

typedef struct {
    const char *file;
    text content;
    faults *found;
    sched_problem *p;
    json_t *root;
    size_t told; /* faults of the problem */
} reader;

/* A fault of the element at `path`: "needs[3]". */
static void complain(const reader *r, const char *path, const char *remedy, const char *cause) {
    char place[192];
    snprintf(place, sizeof place, "%s line %u", r->file, json_line(r->content, path));
    fault_add(r->found, (fault_place){text_of(place), 0, text_of(path)}, remedy, "%s", cause);
}

static void complain_at(const reader *r, const char *key, size_t k, const char *remedy, const char *cause) {
    char path[96];
    snprintf(path, sizeof path, "%s[%zu]", key, k);
    complain(r, path, remedy, cause);
}

/* What the problem itself finds wrong with the row just handed to it. */
static void pass_on(reader *r, const char *key, size_t k) {
    sched_fault last;
    size_t n = sched_faults_so_far(r->p, &last);
    if (n > r->told)
        complain_at(r, key, k, "", last.text);
    r->told = n;
}

static bool in_range(const json_t *v, int64_t high) {
    return json_is_integer(v) && json_integer_value(v) >= 0 && json_integer_value(v) <= high;
}

static int32_t number(const json_t *v) {
    return (int32_t)json_integer_value(v);
}

/* The list under `key`; false and *out NULL when it is not there. */
static bool list_of(const reader *r, const char *key, json_t **out) {
    *out = json_object_get(r->root, key);
    if (*out && !json_is_array(*out)) {
        complain(r, key, "write a list [ ... ]", "this is no list");
        *out = NULL;
    }
    return *out != NULL;
}

/* A row of `least` .. `most` whole numbers >= 0. */
static bool is_row(const json_t *v, size_t least, size_t most) {
    if (!json_is_array(v) || json_array_size(v) < least || json_array_size(v) > most)
        return false;
    for (size_t k = 0; k < json_array_size(v); k++)
        if (!in_range(json_array_get(v, k), SCHED_AMOUNT_MAX))
            return false;
    return true;
}

static int32_t cell(const json_t *row, size_t k, int32_t otherwise) {
    return k < json_array_size(row) ? number(json_array_get(row, k)) : otherwise;
}

typedef void use_row(sched_problem *p, const json_t *row);

static void each_row(reader *r, const char *key, size_t least, size_t most, const char *shape, use_row *use) {
    json_t *list, *row;
    size_t k;
    if (!list_of(r, key, &list))
        return;
    json_array_foreach(list, k, row) {
        if (is_row(row, least, most)) {
            use(r->p, row);
            pass_on(r, key, k);
        } else {
            complain_at(r, key, k, shape,
                        "this row is not of whole numbers from 0 on, or has the wrong length");
        }
    }
}

typedef void use_number(sched_problem *p, int32_t index, int32_t value);

/* A list with one number (or null) for each task. */
static void each_task(reader *r, const char *key, use_number *use) {
    json_t *list, *v;
    size_t k;
    if (!list_of(r, key, &list))
        return;
    if (json_array_size(list) != (size_t)sched_task_count(r->p)) {
        complain(r, key, "give one value for each task, null where there is none",
                 "the list has the wrong length");
        return;
    }
    json_array_foreach(list, k, v) {
        if (json_is_null(v))
            continue;
        if (in_range(v, SCHED_TIME_MAX))
            use(r->p, (int32_t)k, number(v));
        else
            complain_at(r, key, k, "write a whole number from 0 on, or null", "this is no time");
    }
}

static void use_change(sched_problem *p, const json_t *row) {
    sched_set_capacity(p, cell(row, 0, 0), cell(row, 1, 0), cell(row, 2, 0), cell(row, 3, 0));
}
static void use_after(sched_problem *p, const json_t *row) {
    sched_add_relation(p, SCHED_END_START, cell(row, 0, 0), cell(row, 1, 0), cell(row, 2, 0),
                       cell(row, 3, SCHED_NONE));
}
static void use_after_start(sched_problem *p, const json_t *row) {
    sched_add_relation(p, SCHED_START_START, cell(row, 0, 0), cell(row, 1, 0), cell(row, 2, 0),
                       cell(row, 3, SCHED_NONE));
}
static void use_pair(sched_problem *p, const json_t *row) {
    sched_forbid_overlap(p, cell(row, 0, 0), cell(row, 1, 0));
}
static void use_set(sched_problem *p, const json_t *row) {
    int32_t task[64];
    for (size_t k = 0; k < json_array_size(row); k++)
        task[k] = cell(row, k, 0);
    sched_forbid_all_overlap(p, task, json_array_size(row));
}

/* ---- the parts --------------------------------------------------------------------------------------------- */

static void read_tasks(reader *r) {
    json_t *durations = json_object_get(r->root, "duration"), *v;
    size_t k;
    if (!json_is_array(durations)) {
        complain(r, "duration", "give the duration of each task", "the list is missing");
        return;
    }
    json_array_foreach(durations, k, v) {
        bool good = in_range(v, SCHED_TIME_MAX);
        if (!good)
            complain_at(r, "duration", k, "write a whole number from 0 on", "this is no duration");
        sched_add_task(r->p, good ? number(v) : 0); /* those behind it keep their numbers */
        sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_KEPT, 0);
    }
    each_task(r, "release", sched_set_release);
    each_task(r, "deadline", sched_set_deadline);
    each_task(r, "fixed_start", sched_fix_start);
}

static void read_needs(reader *r, size_t resources) {
    json_t *needs, *row, *v;
    size_t k, q;
    if (!list_of(r, "needs", &needs))
        return;
    if (json_array_size(needs) != (size_t)sched_task_count(r->p)) {
        complain(r, "needs", "give one row for each task", "the list has the wrong length");
        return;
    }
    json_array_foreach(needs, k, row) {
        if (!is_row(row, resources, resources)) {
            complain_at(r, "needs", k, "give one amount for each resource",
                        "this row does not fit the resources");
            continue;
        }
        json_array_foreach(row, q, v) if (number(v) > 0)
            sched_set_demand(r->p, (int32_t)k, (int32_t)q, number(v));
    }
}

static void read_resources(reader *r) {
    json_t *capacities, *v;
    size_t k;
    (void)list_of(r, "capacity", &capacities);
    json_array_foreach(capacities, k, v) {
        bool good = in_range(v, SCHED_AMOUNT_MAX);
        if (!good)
            complain_at(r, "capacity", k, "write a whole number from 0 on", "this is no capacity");
        sched_add_resource(r->p, good ? number(v) : 0);
    }
    read_needs(r, json_array_size(capacities));
    each_row(r, "capacity_changes", 4, 4, "[resource, from, to, capacity]", use_change);
}

/* A whole number from 0 on under `key`; false: not there. */
static bool number_of(const reader *r, const char *key, int64_t high, int64_t *out) {
    const json_t *v = json_object_get(r->root, key);
    if (v && !in_range(v, high)) {
        complain(r, key, "write a whole number from 0 on", "this is no whole number, or too large");
        v = NULL;
    }
    *out = v ? json_integer_value(v) : 0;
    return v != NULL;
}

static void read_sessions(const reader *r) {
    int64_t length, n, horizon;
    bool both = number_of(r, "session_minutes", SCHED_TIME_MAX, &length);
    both = number_of(r, "sessions", SCHED_TASKS_MAX, &n) && both;
    if (both && length * n > SCHED_TIME_MAX) {
        complain(r, "sessions", "count in a coarser unit", "the sessions are too long in all");
    } else if (both) {
        for (int64_t k = 1; k <= n; k++)
            sched_add_cut(r->p, (int32_t)(k * length));
        sched_set_horizon(r->p, (int32_t)(length * n));
    }
    if (number_of(r, "horizon", SCHED_TIME_MAX, &horizon))
        sched_set_horizon(r->p, (int32_t)horizon);
}

static void read_crossing(reader *r) {
    json_t *crossing, *v;
    size_t k;
    (void)list_of(r, "crossing", &crossing);
    json_array_foreach(crossing, k, v) {
        const char *word = json_string_value(v);
        if (word && strcmp(word, "kept") == 0)
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_KEPT, 0);
        else if (word && strcmp(word, "ignored") == 0)
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_IGNORED, 0);
        else if (in_range(v, SCHED_TIME_MAX))
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_COSTS, number(v));
        else
            complain_at(r, "crossing", k, "write \"kept\", \"ignored\" or the extra time",
                        "this is no crossing rule");
        pass_on(r, "crossing", k);
    }
}

static void use_window(sched_problem *p, const json_t *row) {
    sched_allow_starts(p, cell(row, 0, 0), cell(row, 1, 0), cell(row, 2, 0));
}

static void read_calendar(reader *r) {
    json_t *cuts, *v;
    size_t k;
    read_sessions(r);
    (void)list_of(r, "cuts", &cuts);
    json_array_foreach(cuts, k, v) {
        if (in_range(v, SCHED_TIME_MAX))
            sched_add_cut(r->p, number(v));
        else
            complain_at(r, "cuts", k, "write a whole number from 0 on", "this is no time");
    }
    read_crossing(r);
    each_row(r, "allowed_starts", 3, 3, "[task, first, last]", use_window);
}

/* A list of [from, value, slope]; at most 256 pieces. */
static bool read_pieces(const json_t *list, sched_cost_piece *out, size_t *n) {
    *n = json_array_size(list);
    if (!json_is_array(list) || *n == 0 || *n > 256)
        return false;
    for (size_t k = 0; k < *n; k++) {
        const json_t *row = json_array_get(list, k);
        const json_t *from = json_array_get(row, 0), *value = json_array_get(row, 1),
                     *slope = json_array_get(row, 2);
        if (json_array_size(row) != 3 || !in_range(from, SCHED_TIME_MAX) || !json_is_integer(value) ||
            !json_is_integer(slope) || json_integer_value(slope) > INT32_MAX ||
            json_integer_value(slope) < INT32_MIN)
            return false;
        out[k] = (sched_cost_piece){number(from), json_integer_value(value), number(slope)};
    }
    return true;
}

static bool read_map(const json_t *list, sched_map_piece *piece, size_t *n) {
    sched_cost_piece wide[256];
    if (!read_pieces(list, wide, n))
        return false;
    for (size_t q = 0; q < *n; q++) {
        if (wide[q].value < 0 || wide[q].value > SCHED_TIME_MAX)
            return false;
        piece[q] = (sched_map_piece){wide[q].from, (int32_t)wide[q].value, wide[q].slope};
    }
    return true;
}

static void read_maps(reader *r) {
    json_t *maps, *map;
    size_t k, n;
    (void)list_of(r, "maps", &maps);
    json_array_foreach(maps, k, map) {
        sched_map_piece piece[256] = {{0, 0, 1}};
        bool good = read_map(map, piece, &n);
        if (!good)
            complain_at(r, "maps", k, "[[from, value, slope], ...], values from 0 on",
                        "this is no list of pieces");
        sched_add_map(r->p, piece, good ? n : 1);
    }
}

static void use_stock(sched_problem *p, int part, int32_t reservoir, const json_t *row) {
    if (part == 0)
        sched_add_arrival(p, reservoir, cell(row, 0, 0), cell(row, 1, 0));
    else if (part == 1)
        sched_set_draw(p, cell(row, 0, 0), reservoir, cell(row, 1, 0));
    else
        sched_set_give(p, cell(row, 0, 0), reservoir, cell(row, 1, 0));
}

static void read_reservoir(reader *r, size_t k, const json_t *one) {
    const char *key[] = {"arrivals", "draws", "gives"};
    const json_t *initial = json_object_get(one, "initial"), *row;
    size_t q;
    bool good = in_range(initial, SCHED_AMOUNT_MAX);
    if (!good)
        complain_at(r, "reservoirs", k, "give \"initial\"", "the first stock is missing or no amount");
    int32_t reservoir = sched_add_reservoir(r->p, good ? number(initial) : 0);
    for (int part = 0; part < 3; part++) {
        const json_t *list = json_object_get(one, key[part]);
        char path[64];
        snprintf(path, sizeof path, "reservoirs[%zu].%s", k, key[part]);
        if (list && !json_is_array(list))
            complain(r, path, "write a list [ ... ]", "this is no list");
        json_array_foreach(list, q, row) {
            if (is_row(row, 2, 2))
                use_stock(r->p, part, reservoir, row);
            else
                complain_at(r, path, q, "[time, amount] or [task, amount]", "this row is malformed");
            pass_on(r, path, q);
        }
    }
}

static void read_reservoirs(reader *r) {
    json_t *reservoirs, *one;
    size_t k;
    (void)list_of(r, "reservoirs", &reservoirs);
    json_array_foreach(reservoirs, k, one) read_reservoir(r, k, one);
}

static void read_objective(reader *r, size_t k, json_t *costs) {
    const json_t *cost;
    size_t q, n;
    int32_t objective = sched_add_objective(r->p);
    char path[64];
    snprintf(path, sizeof path, "objectives[%zu]", k);
    if (!json_is_array(costs))
        complain(r, path, "write a list [ ... ]", "this is no list");
    json_array_foreach(costs, q, cost) {
        sched_cost_piece piece[256];
        const json_t *task = json_object_get(cost, "task");
        if (in_range(task, SCHED_TASKS_MAX) && read_pieces(json_object_get(cost, "pieces"), piece, &n))
            sched_add_cost(r->p, objective, number(task), piece, n);
        else
            complain_at(r, path, q, "{\"task\": T, \"pieces\": [[from, value, slope], ...]}",
                        "this cost is malformed");
        pass_on(r, path, q);
    }
}

static void read_objectives(reader *r) {
    json_t *objectives, *costs;
    size_t k;
    (void)list_of(r, "objectives", &objectives);
    json_array_foreach(objectives, k, costs) read_objective(r, k, costs);
}

static void look_at_keys(const reader *r) {
    static const char *const known[] = {"session_minutes",
                                        "sessions",
                                        "horizon",
                                        "capacity",
                                        "capacity_changes",
                                        "duration",
                                        "needs",
                                        "after",
                                        "after_start",
                                        "release",
                                        "deadline",
                                        "fixed_start",
                                        "cuts",
                                        "crossing",
                                        "allowed_starts",
                                        "maps",
                                        "no_overlap",
                                        "not_all_at_once",
                                        "reservoirs",
                                        "objectives"};
    const char *key;
    json_t *value;
    json_object_foreach(r->root, key, value) {
        bool found = false;
        for (size_t k = 0; k < sizeof known / sizeof *known; k++)
            found = found || strcmp(known[k], key) == 0;
        if (!found)
            complain(r, key, "see docs/models.md for the keys", "there is no such key");
    }
}

/* The relation "before, after" in either of the two lists, as a path. */
static bool find_relation(const reader *r, int32_t before, int32_t after, char *path, size_t room) {
    static const char *const lists[] = {"after", "after_start"};
    for (int k = 0; k < 2; k++) {
        const json_t *row;
        size_t q;
        json_array_foreach(json_object_get(r->root, lists[k]), q, row) {
            if (cell(row, 0, 0) != before || cell(row, 1, 0) != after)
                continue;
            snprintf(path, room, "%s[%zu]", lists[k], q);
            return true;
        }
    }
    return false;
}

/* What is wrong with the problem as a whole. */
static void look_at_all(const reader *r) {
    enum { MOST = 64 };
    sched_fault wrong[MOST];
    size_t n = sched_validate(r->p, wrong, MOST);
    for (size_t k = 0; k < n && k < MOST; k++) {
        const sched_fault *f = &wrong[k];
        char path[96] = "";
        if (f->code == SCHED_FAULT_CYCLE)
            (void)find_relation(r, f->task, f->other, path, sizeof path);
        else if (f->code == SCHED_FAULT_MAP)
            snprintf(path, sizeof path, "maps[%lld]", (long long)f->value);
        else if (f->code == SCHED_FAULT_COST)
            snprintf(path, sizeof path, "objectives[%lld]", (long long)f->value);
        else if (f->code == SCHED_FAULT_VALUE && f->task != SCHED_NONE)
            snprintf(path, sizeof path, "allowed_starts");
        complain(r, path, "", f->text);
    }
}

bool solve_read_json(sched_problem *p, const char *file, text content, faults *found) {
    json_error_t syntax;
    size_t before = found->n;
    reader r = {.file = file, .content = content, .found = found, .p = p};
    r.root = json_loadb(content.at, content.len, JSON_REJECT_DUPLICATES, &syntax);
    if (!r.root) {
        char place[192];
        snprintf(place, sizeof place, "%s line %d", file, syntax.line);
        fault_add(found, (fault_place){text_of(place), 0, TEXT("")}, "mend the JSON", "column %d: %s",
                  syntax.column, syntax.text);
        return false;
    }
    if (!json_is_object(r.root)) {
        complain(&r, "", "write an object { ... }", "this is no problem");
        json_decref(r.root);
        return false;
    }
    look_at_keys(&r);
    read_tasks(&r);
    read_resources(&r);
    read_calendar(&r);
    read_maps(&r);
    each_row(&r, "after", 2, 4, "[before, after, delay, map]", use_after);
    each_row(&r, "after_start", 2, 4, "[before, after, delay, map]", use_after_start);
    each_row(&r, "no_overlap", 2, 2, "[task, task]", use_pair);
    each_row(&r, "not_all_at_once", 2, 64, "[task, task, ...]", use_set);
    read_reservoirs(&r);
    read_objectives(&r);
    if (found->n == before)
        look_at_all(&r);
    json_decref(r.root);
    return found->n == before;
}
