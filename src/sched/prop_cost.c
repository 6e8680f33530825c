/* prop_cost.c: objectives of the second stage: a variable that is at least the sum of what single starts cost.
 *
 * The variable z of a row, counted from the least the row can ever be, is at least the sum over its tasks of the least cost between
 * the task's bounds. A start at an end of its range that would put the sum above what z may be is cut off.
 *
 * Explanation: the bounds of the row's tasks, each left out where the least cost stays the same without it, or where the sum can
 * spare what it then falls by; for a cut-off start also the upper bound of z. */
#include "sched/prover.h"

struct cost_term {
    int32_t task;
    const sched_cost_piece *piece;
    int32_t pieces;
};

static int64_t cost_at(const cost_term *c, int32_t s) {
    int32_t k = c->pieces - 1;
    while (k > 0 && c->piece[k].from > s)
        k--;
    if (c->piece[k].from > s)
        return c->piece[0].value;
    return c->piece[k].value + (int64_t)c->piece[k].slope * (s - c->piece[k].from);
}

/* The least cost of a start in [a, b], and the first start that has it. */
static int64_t least_cost(const cost_term *c, int32_t a, int32_t b, int32_t *where) {
    int64_t least = cost_at(c, a);
    int32_t at = a;
    for (int32_t k = 0; k < c->pieces; k++) {
        int32_t ends[2] = {c->piece[k].from, k + 1 < c->pieces ? c->piece[k + 1].from - 1 : b};
        for (int j = 0; j < 2; j++)
            if (ends[j] > a && ends[j] <= b && cost_at(c, ends[j]) < least) {
                least = cost_at(c, ends[j]);
                at = ends[j];
            }
    }
    if (cost_at(c, b) < least) {
        least = cost_at(c, b);
        at = b;
    }
    if (where)
        *where = at;
    return least;
}

/* The first start in [a, b] that costs at most `most`, walking piece by piece; b + 1 when none does. */
static int32_t first_affordable(const cost_term *c, int32_t a, int32_t b, int64_t most) {
    while (a <= b) {
        if (cost_at(c, a) <= most)
            return a;
        int32_t next = b + 1, slope = 0;
        for (int32_t k = 0; k < c->pieces; k++) {
            if (c->piece[k].from <= a)
                slope = c->piece[k].slope;
            else {
                next = c->piece[k].from < next ? c->piece[k].from : next;
                break;
            }
        }
        if (slope < 0) {
            int64_t step = (cost_at(c, a) - most + (-(int64_t)slope) - 1) / -(int64_t)slope;
            if (a + step < next)
                return (int32_t)(a + step);
        }
        a = next;
    }
    return b + 1;
}

static int32_t last_affordable(const cost_term *c, int32_t a, int32_t b, int64_t most) {
    while (b >= a) {
        if (cost_at(c, b) <= most)
            return b;
        int32_t from = 0, slope = 0; /* of the piece that b lies in */
        for (int32_t k = 0; k < c->pieces && c->piece[k].from <= b; k++) {
            from = c->piece[k].from;
            slope = c->piece[k].slope;
        }
        if (slope > 0) {
            int64_t step = (cost_at(c, b) - most + slope - 1) / slope;
            if (b - step >= from)
                return (int32_t)(b - step) >= a ? (int32_t)(b - step) : a - 1;
        }
        b = from - 1;
    }
    return a - 1;
}

bool costs_open(prover *p, int32_t rows) {
    const sched_problem *q = p->m->problem;
    p->rows = rows;
    p->row_at = memory_array(p->mem, int32_t, rows + 1);
    p->term = memory_array(p->mem, cost_term, q->costs.n);
    p->row_base = memory_array(p->mem, int64_t, rows);
    if (!p->row_at || !p->term || !p->row_base)
        return false;
    int32_t n = 0;
    for (int32_t row = 0; row < rows; row++) {
        for (size_t k = 0; k < q->costs.n; k++)
            if (q->costs.at[k].objective == row)
                p->term[n++] = (cost_term){q->costs.at[k].task, q->cost_pieces.at + q->costs.at[k].pieces.at,
                                           (int32_t)q->costs.at[k].pieces.n};
        p->row_at[row + 1] = n;
    }
    return true;
}

int64_t costs_range(prover *p, int32_t row) {
    int64_t base = 0, top = 0;
    for (int32_t k = p->row_at[row]; k < p->row_at[row + 1]; k++) {
        const cost_term *c = &p->term[k];
        base += least_cost(c, p->m->est[c->task], p->m->lst[c->task], NULL);
        int64_t most = INT64_MIN; /* at an end or where a piece begins or ends */
        for (int32_t j = 0; j < c->pieces; j++) {
            int32_t end = j + 1 < c->pieces ? c->piece[j + 1].from - 1 : p->m->lst[c->task];
            int64_t x = c->piece[j].value,
                    y = c->piece[j].value + (int64_t)c->piece[j].slope * (end - c->piece[j].from);
            most = x > most ? x : most;
            most = y > most ? y : most;
        }
        top += most;
    }
    p->row_base[row] = base;
    return top - base;
}

static int64_t least_now(const prover *p, const cost_term *c) {
    return least_cost(c, lower(p, c->task), upper(p, c->task), NULL);
}

static bool propagate_row(prover *p, int32_t row) {
    int32_t z = p->first_cost + row;
    int64_t sum = -p->row_base[row];
    for (int32_t k = p->row_at[row]; k < p->row_at[row + 1]; k++)
        sum += least_now(p, &p->term[k]);
    p->steps += (uint64_t)(p->row_at[row + 1] - p->row_at[row]);
    if (sum > INT32_MAX / 2)
        sum = INT32_MAX / 2;
    if (!set_bound(p, 2 * z, (int32_t)sum, WHY_COST, row, 0))
        return false;
    int64_t spare = upper(p, z) - sum;
    for (int32_t k = p->row_at[row]; k < p->row_at[row + 1]; k++) {
        const cost_term *c = &p->term[k];
        int32_t s = lower(p, c->task), u = upper(p, c->task);
        if (s == u)
            continue;
        int64_t most = least_now(p, c) + spare;
        if (!set_bound(p, 2 * c->task, first_affordable(c, s, u, most), WHY_COST, row, k + 1) ||
            !set_bound(p, 2 * c->task + 1, -last_affordable(c, s, u, most), WHY_COST, row, k + 1))
            return false;
    }
    return true;
}

bool propagate_costs(prover *p) {
    for (int32_t row = 0; row < p->rows; row++)
        if (!propagate_row(p, row))
            return false;
    return true;
}

/* The bounds of the row's tasks but one, whose least costs may fall by `spare` in all. */
static void explain_terms(prover *p, int32_t row, int32_t but, int64_t spare) {
    for (int32_t k = p->row_at[row]; k < p->row_at[row + 1]; k++) {
        const cost_term *c = &p->term[k];
        int32_t a = p->past[2 * c->task], b = -p->past[2 * c->task + 1];
        if (k == but)
            continue;
        int64_t now = least_cost(c, a, b, NULL);
        int32_t wide_a = p->root[2 * c->task], wide_b = -p->root[2 * c->task + 1];
        int64_t fall = now - least_cost(c, wide_a, b, NULL);
        if (fall <= spare) {
            spare -= fall;
            now -= fall;
            a = wide_a;
        }
        fall = now - least_cost(c, a, wide_b, NULL);
        if (fall <= spare) {
            spare -= fall;
            b = wide_b;
        }
        add_why(p, 2 * c->task, a);
        add_why(p, 2 * c->task + 1, -b);
    }
}

void explain_cost(prover *p, int32_t row, int32_t term, literal l) {
    int32_t z = p->first_cost + row;
    int64_t sum = -p->row_base[row];
    for (int32_t k = p->row_at[row]; k < p->row_at[row + 1]; k++)
        if (k != term - 1)
            sum += least_cost(&p->term[k], p->past[2 * p->term[k].task], -p->past[2 * p->term[k].task + 1],
                              NULL);
    if (term == 0) { /* the sum of least costs: z is at least that */
        explain_terms(p, row, SCHED_NONE, sum - l.at_least);
        return;
    }
    /* Every start cut off costs so much that with the others z is exceeded. */
    const cost_term *c = &p->term[term - 1];
    int32_t a, b, top = -p->past[2 * z + 1];
    if ((l.node & 1) == 0) {
        a = p->past[l.node];
        b = l.at_least - 1;
        add_why(p, l.node, a);
    } else {
        a = 1 - l.at_least;
        b = -p->past[l.node];
        add_why(p, l.node, -b);
    }
    add_why(p, 2 * z + 1, -top);
    explain_terms(p, row, term - 1, sum + least_cost(c, a, b, NULL) - top - 1);
}

int32_t cost_best_start(const prover *p, int32_t row, int32_t task) {
    int32_t at = lower(p, task);
    for (int32_t k = p->row_at[row]; k < p->row_at[row + 1]; k++)
        if (p->term[k].task == task)
            (void)least_cost(&p->term[k], lower(p, task), upper(p, task), &at);
    return at;
}
