/* validate.c: everything wrong with a problem, told at once. */
#include "sched/model.h"

static void add(sched_fault *out, size_t room, size_t *found, sched_fault f) {
    if (*found < room)
        out[*found] = f;
    ++*found;
}

static void validate_map(const sched_problem *p, size_t map, sched_fault *out, size_t room, size_t *found) {
    const problem_span span = p->maps.at[map];
    int64_t before = INT64_MIN, end = 0; /* value just before the piece, and where the piece before began */
    const char *wrong = NULL;
    for (size_t k = 0; k < span.n && !wrong; k++) {
        const sched_map_piece *piece = &p->map_pieces.at[span.at + k];
        if (k == 0)
            before = (int64_t)piece->from - 1;
        else
            before = piece[-1].value + (int64_t)piece[-1].slope * ((int64_t)piece->from - 1 - piece[-1].from);
        if (piece->slope < 0 || piece->slope > 1)
            wrong = "has a slope that is neither 0 nor 1";
        else if (piece->from < 0 || piece->from > SCHED_TIME_MAX || piece->value > SCHED_TIME_MAX ||
                 (k > 0 && piece->from <= end))
            wrong = "has pieces out of order or out of range";
        else if (piece->value < piece->from || (k > 0 && before < (int64_t)piece->from - 1))
            wrong = "maps a time to an earlier one";
        else if (piece->value < before)
            wrong = "falls";
        end = piece->from;
    }
    if (!wrong && span.n > 0 && p->map_pieces.at[span.at + span.n - 1].slope == 0)
        wrong = "ends with a flat piece, which in the end maps a time to an earlier one";
    if (!wrong)
        return;
    sched_fault f;
    fault_set(&f, SCHED_FAULT_MAP, SCHED_NONE, SCHED_NONE, SCHED_NONE, (int64_t)map, "map %zu %s", map,
              wrong);
    add(out, room, found, f);
}

static void validate_cost(const sched_problem *p, const problem_cost *cost, sched_fault *out, size_t room,
                          size_t *found) {
    const int64_t value_max = 1000000000000;
    const int32_t slope_max = 1000000;
    const char *wrong = NULL;
    for (size_t k = 0; k < cost->pieces.n && !wrong; k++) {
        const sched_cost_piece *piece = &p->cost_pieces.at[cost->pieces.at + k];
        if (piece->from < 0 || piece->from > SCHED_TIME_MAX || (k > 0 && piece->from <= piece[-1].from))
            wrong = "has pieces out of order or out of range";
        else if (piece->value > value_max || piece->value < -value_max || piece->slope > slope_max ||
                 piece->slope < -slope_max)
            wrong = "has a value or slope out of range";
    }
    if (!wrong)
        return;
    sched_fault f;
    fault_set(&f, SCHED_FAULT_COST, cost->task, SCHED_NONE, SCHED_NONE, cost->objective,
              "the cost of task %d in objective %d %s", cost->task, cost->objective, wrong);
    add(out, room, found, f);
}

size_t sched_validate(const sched_problem *p, sched_fault *out, size_t room) {
    size_t found = 0;
    for (size_t k = 0; k < p->faults.n; k++)
        add(out, room, &found, p->faults.at[k]);
    if (p->out_of_memory) {
        sched_fault f;
        fault_set(&f, SCHED_FAULT_MEMORY, SCHED_NONE, SCHED_NONE, SCHED_NONE, 0,
                  "no memory to write the problem down");
        add(out, room, &found, f);
        return found;
    }
    for (size_t k = 0; k < p->maps.n; k++)
        validate_map(p, k, out, room, &found);
    for (size_t k = 0; k < p->costs.n; k++)
        validate_cost(p, &p->costs.at[k], out, room, &found);
    for (size_t k = 0; k < p->windows.n; k++)
        if (p->windows.at[k].first > p->windows.at[k].last) {
            sched_fault f;
            fault_set(&f, SCHED_FAULT_VALUE, p->windows.at[k].task, SCHED_NONE, SCHED_NONE,
                      p->windows.at[k].first, "the allowed starts %d .. %d of task %d are empty",
                      p->windows.at[k].first, p->windows.at[k].last, p->windows.at[k].task);
            add(out, room, &found, f);
        }
    size_t whole = model_find_faults(p, found < room ? out + found : NULL, found < room ? room - found : 0);
    return found + whole;
}
