/* case_problem.c: see case_problem.h. */
#include "case_problem.h"

#include <stdlib.h>
#include <string.h>

enum { NUMBERS = 64 };

typedef struct {
    int32_t v[NUMBERS];
    size_t n;
} numbers;

/* The numbers behind the first word, and behind a second one if there is one. */
static numbers numbers_of(const char *line) {
    numbers out = {{0}, 0};
    const char *at = strchr(line, ' ');
    while (at && *at && out.n < NUMBERS) {
        char *end;
        long value = strtol(at, &end, 10);
        if (end == at) { /* a word */
            while (*at == ' ')
                at++;
            at = strchr(at, ' ');
            continue;
        }
        out.v[out.n++] = (int32_t)value;
        at = end;
    }
    return out;
}

static void add_map(sched_problem *p, const numbers *x) {
    sched_map_piece piece[NUMBERS];
    size_t n = x->n / 3;
    for (size_t k = 0; k < n; k++)
        piece[k] = (sched_map_piece){x->v[3 * k], x->v[3 * k + 1], x->v[3 * k + 2]};
    sched_add_map(p, piece, n);
}

static void add_cost(sched_problem *p, const numbers *x) {
    sched_cost_piece piece[NUMBERS];
    size_t n = (x->n - 2) / 3;
    for (size_t k = 0; k < n; k++)
        piece[k] = (sched_cost_piece){x->v[2 + 3 * k], x->v[3 + 3 * k], x->v[4 + 3 * k]};
    sched_add_cost(p, x->v[0], x->v[1], piece, n);
}

static bool is(const char *line, const char *word) {
    size_t n = strlen(word);
    return strncmp(line, word, n) == 0 && (line[n] == ' ' || line[n] == 0);
}

static bool apply_to_tasks(sched_problem *p, const char *line, const numbers *x) {
    const int32_t *v = x->v;
    if (is(line, "horizon"))
        sched_set_horizon(p, v[0]);
    else if (is(line, "task"))
        sched_add_task(p, v[0]);
    else if (is(line, "cut"))
        sched_add_cut(p, v[0]);
    else if (is(line, "crossing"))
        sched_set_crossing(p, v[0], strstr(line, "kept") ? SCHED_CUT_KEPT : SCHED_CUT_COSTS, v[1]);
    else if (is(line, "release"))
        sched_set_release(p, v[0], v[1]);
    else if (is(line, "deadline"))
        sched_set_deadline(p, v[0], v[1]);
    else if (is(line, "fixed"))
        sched_fix_start(p, v[0], v[1]);
    else if (is(line, "allow"))
        sched_allow_starts(p, v[0], v[1], v[2]);
    else if (is(line, "after"))
        sched_add_relation(p, SCHED_END_START, v[0], v[1], v[2], v[3]);
    else if (is(line, "after_start"))
        sched_add_relation(p, SCHED_START_START, v[0], v[1], v[2], v[3]);
    else if (is(line, "apart"))
        sched_forbid_overlap(p, v[0], v[1]);
    else if (is(line, "not_all"))
        sched_forbid_all_overlap(p, v, x->n);
    else
        return false;
    return true;
}

static bool apply(sched_problem *p, const char *line, numbers x) {
    const int32_t *v = x.v;
    if (apply_to_tasks(p, line, &x))
        return true;
    if (is(line, "resource"))
        sched_add_resource(p, v[0]);
    else if (is(line, "capacity"))
        sched_set_capacity(p, v[0], v[1], v[2], v[3]);
    else if (is(line, "need"))
        sched_set_demand(p, v[0], v[1], v[2]);
    else if (is(line, "map"))
        add_map(p, &x);
    else if (is(line, "reservoir"))
        sched_add_reservoir(p, v[0]);
    else if (is(line, "arrive"))
        sched_add_arrival(p, v[0], v[1], v[2]);
    else if (is(line, "draw"))
        sched_set_draw(p, v[0], v[1], v[2]);
    else if (is(line, "give"))
        sched_set_give(p, v[0], v[1], v[2]);
    else if (is(line, "objective"))
        sched_add_objective(p);
    else if (is(line, "cost"))
        add_cost(p, &x);
    else
        return false;
    return true;
}

bool case_apply_line(sched_problem *p, const char *line) {
    return apply(p, line, numbers_of(line));
}

bool case_apply_scaled(sched_problem *p, const char *line, int32_t factor) {
    /* Which of a line's numbers are times, as bits from the first on. */
    static const struct {
        const char *word;
        unsigned times;
    } rows[] = {{"horizon", 1},  {"task", 1},     {"cut", 1},       {"crossing", 2}, {"release", 2},
                {"deadline", 2}, {"fixed", 2},    {"allow", 6},     {"after", 4},    {"after_start", 4},
                {"arrive", 2},   {"capacity", 6}, {"map", 0},       {"resource", 0}, {"apart", 0},
                {"not_all", 0},  {"need", 0},     {"reservoir", 0}, {"draw", 0},     {"give", 0},
                {"cost", 0},     {"objective", 0}};
    numbers x = numbers_of(line);
    if (is(line, "cost") || is(line, "objective"))
        return true;
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++)
        for (size_t j = 0; is(line, rows[k].word) && j < x.n; j++)
            if (is(line, "map") ? j % 3 != 2 : (rows[k].times >> j) & 1U)
                x.v[j] *= factor;
    return apply(p, line, x);
}
