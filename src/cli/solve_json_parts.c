/* solve_json_parts.c: what each key of a JSON problem says; docs/models.md describes them. */
#include "cli/solve_json.h"

#include <stdio.h>
#include <string.h>

static void use_change(sched_problem *p, const json_t *row) {
    sched_set_capacity(p, json_cell(row, 0, 0), json_cell(row, 1, 0), json_cell(row, 2, 0),
                       json_cell(row, 3, 0));
}
static void use_after(sched_problem *p, const json_t *row) {
    sched_add_relation(p, SCHED_END_START, json_cell(row, 0, 0), json_cell(row, 1, 0), json_cell(row, 2, 0),
                       json_cell(row, 3, SCHED_NONE));
}
static void use_after_start(sched_problem *p, const json_t *row) {
    sched_add_relation(p, SCHED_START_START, json_cell(row, 0, 0), json_cell(row, 1, 0), json_cell(row, 2, 0),
                       json_cell(row, 3, SCHED_NONE));
}
static void use_pair(sched_problem *p, const json_t *row) {
    sched_forbid_overlap(p, json_cell(row, 0, 0), json_cell(row, 1, 0));
}
static void use_set(sched_problem *p, const json_t *row) {
    int32_t task[64];
    for (size_t k = 0; k < json_array_size(row); k++)
        task[k] = json_cell(row, k, 0);
    sched_forbid_all_overlap(p, task, json_array_size(row));
}

/* ---- the parts --------------------------------------------------------------------------------------------- */

void json_read_tasks(json_reader *r) {
    json_t *durations = json_object_get(r->root, "duration"), *v;
    size_t k;
    if (!json_is_array(durations)) {
        json_complain(r, "duration", "give the duration of each task", "the list is missing");
        return;
    }
    json_array_foreach(durations, k, v) {
        bool good = json_in_range(v, SCHED_TIME_MAX);
        if (!good)
            json_complain_at(r, "duration", k, "write a whole number from 0 on", "this is no duration");
        sched_add_task(r->p, good ? json_number(v) : 0); /* those behind it keep their numbers */
        sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_KEPT, 0);
    }
    json_each_task(r, "release", sched_set_release);
    json_each_task(r, "deadline", sched_set_deadline);
    json_each_task(r, "fixed_start", sched_fix_start);
}

static void read_needs(json_reader *r, size_t resources) {
    json_t *needs, *row, *v;
    size_t k, q;
    if (!json_list_of(r, "needs", &needs))
        return;
    if (json_array_size(needs) != (size_t)sched_task_count(r->p)) {
        json_complain(r, "needs", "give one row for each task", "the list has the wrong length");
        return;
    }
    json_array_foreach(needs, k, row) {
        if (!json_is_row(row, resources, resources)) {
            json_complain_at(r, "needs", k, "give one amount for each resource",
                             "this row does not fit the resources");
            continue;
        }
        json_array_foreach(row, q, v) if (json_number(v) > 0)
            sched_set_demand(r->p, (int32_t)k, (int32_t)q, json_number(v));
    }
}

void json_read_resources(json_reader *r) {
    json_t *capacities, *v;
    size_t k;
    (void)json_list_of(r, "capacity", &capacities);
    json_array_foreach(capacities, k, v) {
        bool good = json_in_range(v, SCHED_AMOUNT_MAX);
        if (!good)
            json_complain_at(r, "capacity", k, "write a whole number from 0 on", "this is no capacity");
        sched_add_resource(r->p, good ? json_number(v) : 0);
    }
    read_needs(r, json_array_size(capacities));
    json_each_row(r, "capacity_changes", 4, 4, "[resource, from, to, capacity]", use_change);
}

/* A whole number from 0 on under `key`; false: not there. */
static bool number_of(const json_reader *r, const char *key, int64_t high, int64_t *out) {
    const json_t *v = json_object_get(r->root, key);
    if (v && !json_in_range(v, high)) {
        json_complain(r, key, "write a whole number from 0 on", "this is no whole number, or too large");
        v = NULL;
    }
    *out = v ? json_integer_value(v) : 0;
    return v != NULL;
}

static void read_sessions(const json_reader *r) {
    int64_t length, n, horizon;
    bool both = number_of(r, "session_minutes", SCHED_TIME_MAX, &length);
    both = number_of(r, "sessions", SCHED_TASKS_MAX, &n) && both;
    if (both && length * n > SCHED_TIME_MAX) {
        json_complain(r, "sessions", "count in a coarser unit", "the sessions are too long in all");
    } else if (both) {
        for (int64_t k = 1; k <= n; k++)
            sched_add_cut(r->p, (int32_t)(k * length));
        sched_set_horizon(r->p, (int32_t)(length * n));
    }
    if (number_of(r, "horizon", SCHED_TIME_MAX, &horizon))
        sched_set_horizon(r->p, (int32_t)horizon);
}

static void read_crossing(json_reader *r) {
    json_t *crossing, *v;
    size_t k;
    (void)json_list_of(r, "crossing", &crossing);
    json_array_foreach(crossing, k, v) {
        const char *word = json_string_value(v);
        if (word && strcmp(word, "kept") == 0)
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_KEPT, 0);
        else if (word && strcmp(word, "ignored") == 0)
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_IGNORED, 0);
        else if (json_in_range(v, SCHED_TIME_MAX))
            sched_set_crossing(r->p, (int32_t)k, SCHED_CUT_COSTS, json_number(v));
        else
            json_complain_at(r, "crossing", k, "write \"kept\", \"ignored\" or the extra time",
                             "this is no crossing rule");
        json_pass_on(r, "crossing", k);
    }
}

static void use_window(sched_problem *p, const json_t *row) {
    sched_allow_starts(p, json_cell(row, 0, 0), json_cell(row, 1, 0), json_cell(row, 2, 0));
}

void json_read_calendar(json_reader *r) {
    json_t *cuts, *v;
    size_t k;
    read_sessions(r);
    (void)json_list_of(r, "cuts", &cuts);
    json_array_foreach(cuts, k, v) {
        if (json_in_range(v, SCHED_TIME_MAX))
            sched_add_cut(r->p, json_number(v));
        else
            json_complain_at(r, "cuts", k, "write a whole number from 0 on", "this is no time");
    }
    read_crossing(r);
    json_each_row(r, "allowed_starts", 3, 3, "[task, first, last]", use_window);
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
        if (json_array_size(row) != 3 || !json_in_range(from, SCHED_TIME_MAX) || !json_is_integer(value) ||
            !json_is_integer(slope) || json_integer_value(slope) > INT32_MAX ||
            json_integer_value(slope) < INT32_MIN)
            return false;
        out[k] = (sched_cost_piece){json_number(from), json_integer_value(value), json_number(slope)};
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

void json_read_maps(json_reader *r) {
    json_t *maps, *map;
    size_t k, n;
    (void)json_list_of(r, "maps", &maps);
    json_array_foreach(maps, k, map) {
        sched_map_piece piece[256] = {{0, 0, 1}};
        bool good = read_map(map, piece, &n);
        if (!good)
            json_complain_at(r, "maps", k, "[[from, value, slope], ...], values from 0 on",
                             "this is no list of pieces");
        sched_add_map(r->p, piece, good ? n : 1);
    }
}

static void use_stock(sched_problem *p, int part, int32_t reservoir, const json_t *row) {
    if (part == 0)
        sched_add_arrival(p, reservoir, json_cell(row, 0, 0), json_cell(row, 1, 0));
    else if (part == 1)
        sched_set_draw(p, json_cell(row, 0, 0), reservoir, json_cell(row, 1, 0));
    else
        sched_set_give(p, json_cell(row, 0, 0), reservoir, json_cell(row, 1, 0));
}

static void read_reservoir(json_reader *r, size_t k, const json_t *one) {
    const char *key[] = {"arrivals", "draws", "gives"};
    const json_t *initial = json_object_get(one, "initial"), *row;
    size_t q;
    bool good = json_in_range(initial, SCHED_AMOUNT_MAX);
    if (!good)
        json_complain_at(r, "reservoirs", k, "give \"initial\"", "the first stock is missing or no amount");
    int32_t reservoir = sched_add_reservoir(r->p, good ? json_number(initial) : 0);
    for (int part = 0; part < 3; part++) {
        const json_t *list = json_object_get(one, key[part]);
        char path[64];
        snprintf(path, sizeof path, "reservoirs[%zu].%s", k, key[part]);
        if (list && !json_is_array(list))
            json_complain(r, path, "write a list [ ... ]", "this is no list");
        json_array_foreach(list, q, row) {
            if (json_is_row(row, 2, 2))
                use_stock(r->p, part, reservoir, row);
            else
                json_complain_at(r, path, q, "[time, amount] or [task, amount]", "this row is malformed");
            json_pass_on(r, path, q);
        }
    }
}

void json_read_reservoirs(json_reader *r) {
    json_t *reservoirs, *one;
    size_t k;
    (void)json_list_of(r, "reservoirs", &reservoirs);
    json_array_foreach(reservoirs, k, one) read_reservoir(r, k, one);
}

static void read_objective(json_reader *r, size_t k, json_t *costs) {
    const json_t *cost;
    size_t q, n;
    int32_t objective = sched_add_objective(r->p);
    char path[64];
    snprintf(path, sizeof path, "objectives[%zu]", k);
    if (!json_is_array(costs))
        json_complain(r, path, "write a list [ ... ]", "this is no list");
    json_array_foreach(costs, q, cost) {
        sched_cost_piece piece[256];
        const json_t *task = json_object_get(cost, "task");
        if (json_in_range(task, SCHED_TASKS_MAX) && read_pieces(json_object_get(cost, "pieces"), piece, &n))
            sched_add_cost(r->p, objective, json_number(task), piece, n);
        else
            json_complain_at(r, path, q, "{\"task\": T, \"pieces\": [[from, value, slope], ...]}",
                             "this cost is malformed");
        json_pass_on(r, path, q);
    }
}

void json_read_objectives(json_reader *r) {
    json_t *objectives, *costs;
    size_t k;
    (void)json_list_of(r, "objectives", &objectives);
    json_array_foreach(objectives, k, costs) read_objective(r, k, costs);
}

void json_read_relations(json_reader *r) {
    json_each_row(r, "after", 2, 4, "[before, after, delay, map]", use_after);
    json_each_row(r, "after_start", 2, 4, "[before, after, delay, map]", use_after_start);
    json_each_row(r, "no_overlap", 2, 2, "[task, task]", use_pair);
    json_each_row(r, "not_all_at_once", 2, 64, "[task, task, ...]", use_set);
}
