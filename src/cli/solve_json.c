/* solve_json.c: our JSON form of a whole scheduling problem; docs/models.md describes each key. */
#include <jansson.h>
#include <stdio.h>
#include <string.h>

#include "cli/solve_read.h"

typedef struct {
    const char *file;
    err *e;
    sched_problem *p;
    json_t *root;
} reader;

static bool fail(const reader *r, const char *element, const char *remedy, const char *cause) {
    char place[192];
    snprintf(place, sizeof place, "%s, %s", r->file, element);
    return err_input(r->e, place, remedy, "%s", cause);
}

static bool fail_at(const reader *r, const char *key, size_t k, const char *remedy, const char *cause) {
    char element[96];
    snprintf(element, sizeof element, "%s[%zu]", key, k);
    return fail(r, element, remedy, cause);
}

static bool in_range(const json_t *v, int64_t high) {
    return json_is_integer(v) && json_integer_value(v) >= 0 && json_integer_value(v) <= high;
}

static int32_t number(const json_t *v) {
    return (int32_t)json_integer_value(v);
}

/* The list under `key`; *out NULL when it is not there. */
static bool list_of(const reader *r, const char *key, json_t **out) {
    *out = json_object_get(r->root, key);
    return !*out || json_is_array(*out) || fail(r, key, "write a list [ ... ]", "this is no list");
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

static bool each_row(const reader *r, const char *key, size_t least, size_t most, const char *shape,
                     use_row *use) {
    json_t *list, *row;
    size_t k;
    if (!list_of(r, key, &list))
        return false;
    json_array_foreach(list, k, row) {
        if (!is_row(row, least, most))
            return fail_at(r, key, k, shape,
                           "this row is not of whole numbers from 0 on, or has the wrong length");
        use(r->p, row);
    }
    return true;
}

typedef void use_number(sched_problem *p, int32_t index, int32_t value);

/* A list with one number (or null) for each task. */
static bool each_task(const reader *r, const char *key, use_number *use) {
    json_t *list, *v;
    size_t k;
    if (!list_of(r, key, &list))
        return false;
    if (list && json_array_size(list) != (size_t)sched_task_count(r->p))
        return fail(r, key, "give one value for each task, null where there is none",
                    "the list has the wrong length");
    json_array_foreach(list, k, v) {
        if (json_is_null(v))
            continue;
        if (!in_range(v, SCHED_TIME_MAX))
            return fail_at(r, key, k, "write a whole number from 0 on, or null", "this is no time");
        use(r->p, (int32_t)k, number(v));
    }
    return true;
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
static void use_allowed(sched_problem *p, const json_t *row) {
    sched_allow_starts(p, cell(row, 0, 0), cell(row, 1, 0), cell(row, 2, 0));
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

static bool read_tasks(const reader *r) {
    json_t *durations = json_object_get(r->root, "duration"), *v;
    size_t k;
    if (!json_is_array(durations))
        return fail(r, "duration", "give the duration of each task", "the list is missing");
    json_array_foreach(durations, k, v) {
        if (!in_range(v, SCHED_TIME_MAX))
            return fail_at(r, "duration", k, "write a whole number from 0 on", "this is no duration");
        sched_add_task(r->p, number(v));
        sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_KEPT, 0);
    }
    return each_task(r, "release", sched_set_release) && each_task(r, "deadline", sched_set_deadline) &&
           each_task(r, "fixed_start", sched_fix_start);
}

static bool read_resources(const reader *r) {
    json_t *capacities, *needs, *row, *v;
    size_t k, q;
    if (!list_of(r, "capacity", &capacities) || !list_of(r, "needs", &needs))
        return false;
    json_array_foreach(capacities, k, v) {
        if (!in_range(v, SCHED_AMOUNT_MAX))
            return fail_at(r, "capacity", k, "write a whole number from 0 on", "this is no capacity");
        sched_add_resource(r->p, number(v));
    }
    size_t resources = json_array_size(capacities);
    if (needs && json_array_size(needs) != (size_t)sched_task_count(r->p))
        return fail(r, "needs", "give one row for each task", "the list has the wrong length");
    json_array_foreach(needs, k, row) {
        if (!is_row(row, resources, resources))
            return fail_at(r, "needs", k, "give one amount for each resource",
                           "this row does not fit the resources");
        json_array_foreach(row, q, v) if (number(v) > 0)
            sched_set_demand(r->p, (int32_t)k, (int32_t)q, number(v));
    }
    return each_row(r, "capacity_changes", 4, 4, "[resource, from, to, capacity]", use_change);
}

static bool read_calendar(const reader *r) {
    const json_t *minutes = json_object_get(r->root, "session_minutes"),
                 *sessions = json_object_get(r->root, "sessions");
    const json_t *horizon = json_object_get(r->root, "horizon");
    if ((minutes && !in_range(minutes, SCHED_TIME_MAX)) ||
        (sessions && !in_range(sessions, SCHED_TASKS_MAX)) || (horizon && !in_range(horizon, SCHED_TIME_MAX)))
        return fail(r, "session_minutes, sessions, horizon", "write whole numbers from 0 on",
                    "this is no whole number");
    if (minutes && sessions) {
        int64_t length = json_integer_value(minutes), n = json_integer_value(sessions);
        if (length * n > SCHED_TIME_MAX)
            return fail(r, "sessions", "count in a coarser unit", "the sessions are too long in all");
        for (int64_t k = 1; k <= n; k++)
            sched_add_cut(r->p, (int32_t)(k * length));
        sched_set_horizon(r->p, (int32_t)(length * n));
    }
    if (horizon)
        sched_set_horizon(r->p, number(horizon));
    json_t *cuts, *crossing, *v;
    size_t k;
    if (!list_of(r, "cuts", &cuts) || !list_of(r, "crossing", &crossing))
        return false;
    json_array_foreach(cuts, k, v) {
        if (!in_range(v, SCHED_TIME_MAX))
            return fail_at(r, "cuts", k, "write a whole number from 0 on", "this is no time");
        sched_add_cut(r->p, number(v));
    }
    json_array_foreach(crossing, k, v) {
        const char *word = json_string_value(v);
        if (word && strcmp(word, "kept") == 0)
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_KEPT, 0);
        else if (word && strcmp(word, "ignored") == 0)
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_IGNORED, 0);
        else if (in_range(v, SCHED_TIME_MAX))
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_COSTS, number(v));
        else
            return fail_at(r, "crossing", k, "write \"kept\", \"ignored\" or the extra time",
                           "this is no crossing rule");
    }
    return each_row(r, "allowed_starts", 3, 3, "[task, first, last]", use_allowed);
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

static bool read_maps(const reader *r) {
    json_t *maps, *map;
    size_t k, n;
    if (!list_of(r, "maps", &maps))
        return false;
    json_array_foreach(maps, k, map) {
        sched_cost_piece wide[256];
        sched_map_piece piece[256];
        if (!read_pieces(map, wide, &n))
            return fail_at(r, "maps", k, "[[from, value, slope], ...]", "this is no list of pieces");
        for (size_t q = 0; q < n; q++) {
            if (wide[q].value < 0 || wide[q].value > SCHED_TIME_MAX)
                return fail_at(r, "maps", k, "write times from 0 on", "a value is no time");
            piece[q] = (sched_map_piece){wide[q].from, (int32_t)wide[q].value, wide[q].slope};
        }
        sched_add_map(r->p, piece, n);
    }
    return true;
}

static bool read_reservoirs(const reader *r) {
    json_t *reservoirs, *one, *row;
    size_t k, q;
    if (!list_of(r, "reservoirs", &reservoirs))
        return false;
    json_array_foreach(reservoirs, k, one) {
        const json_t *initial = json_object_get(one, "initial");
        if (!in_range(initial, SCHED_AMOUNT_MAX))
            return fail_at(r, "reservoirs", k, "give \"initial\"", "the first stock is missing or no amount");
        int32_t v = sched_add_reservoir(r->p, number(initial));
        const char *key[] = {"arrivals", "draws", "gives"};
        for (int part = 0; part < 3; part++) {
            const json_t *list = json_object_get(one, key[part]);
            json_array_foreach(list, q, row) {
                if (!is_row(row, 2, 2))
                    return fail_at(r, "reservoirs", k, "[time, amount] or [task, amount]",
                                   "a row is malformed");
                if (part == 0)
                    sched_add_arrival(r->p, v, cell(row, 0, 0), cell(row, 1, 0));
                else if (part == 1)
                    sched_set_draw(r->p, cell(row, 0, 0), v, cell(row, 1, 0));
                else
                    sched_set_give(r->p, cell(row, 0, 0), v, cell(row, 1, 0));
            }
        }
    }
    return true;
}

static bool read_objectives(const reader *r) {
    json_t *objectives, *costs, *cost;
    size_t k, q, n;
    if (!list_of(r, "objectives", &objectives))
        return false;
    json_array_foreach(objectives, k, costs) {
        int32_t objective = sched_add_objective(r->p);
        json_array_foreach(costs, q, cost) {
            sched_cost_piece piece[256];
            const json_t *task = json_object_get(cost, "task");
            if (!in_range(task, SCHED_TASKS_MAX) || !read_pieces(json_object_get(cost, "pieces"), piece, &n))
                return fail_at(r, "objectives", k,
                               "[{\"task\": T, \"pieces\": [[from, value, slope], ...]}, ...]",
                               "a cost is malformed");
            sched_add_cost(r->p, objective, number(task), piece, n);
        }
    }
    return true;
}

static bool keys_known(const reader *r) {
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
            return fail(r, key, "see docs/models.md for the keys", "there is no such key");
    }
    return true;
}

bool solve_read_json(sched_problem *p, const char *file, text content, err *e) {
    json_error_t syntax;
    reader r = {.file = file, .e = e, .p = p};
    r.root = json_loadb(content.at, content.len, JSON_REJECT_DUPLICATES, &syntax);
    if (!r.root) {
        char place[192];
        snprintf(place, sizeof place, "%s line %d, column %d", file, syntax.line, syntax.column);
        return err_input(e, place, "mend the JSON", "%s", syntax.text);
    }
    bool ok =
        json_is_object(r.root) || fail(&r, "the whole", "write an object { ... }", "this is no problem");
    ok = ok && keys_known(&r) && read_tasks(&r) && read_resources(&r) && read_calendar(&r) && read_maps(&r) &&
         each_row(&r, "after", 2, 4, "[before, after, delay, map]", use_after) &&
         each_row(&r, "after_start", 2, 4, "[before, after, delay, map]", use_after_start) &&
         each_row(&r, "no_overlap", 2, 2, "[task, task]", use_pair) &&
         each_row(&r, "not_all_at_once", 2, 64, "[task, task, ...]", use_set) && read_reservoirs(&r) &&
         read_objectives(&r);
    json_decref(r.root);
    return ok;
}
