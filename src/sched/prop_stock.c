/* prop_stock.c: reservoirs.
 *
 * At an instant t the stock is at most: what has arrived, and what tasks that can have ended give, less what tasks that must have
 * started draw. Below zero is a conflict; a draw that would make it so starts after t; a give without which it would be so has
 * ended by t. The most stock changes only where something arrives, can end or must start, so that looking just before each of
 * these, at the last starts and at the end is enough. Quadratic in the users of a reservoir, which are few.
 *
 * Explanation at t: the draws that must have started (start <= t) and the gives that cannot have happened (start > the last that
 * ends by t), thinned to what is needed. */
#include "sched/prover.h"

static int64_t arrived(const model *m, int32_t v, int32_t t) {
    int64_t stock = 0;
    for (int32_t k = m->stock_at[v]; k < m->stock_at[v + 1] && m->stock[k].time <= t; k++)
        stock = m->stock[k].stock;
    return stock;
}

static int32_t first_end(const prover *p, int32_t j) {
    return model_least_end(p->m, j, lower(p, j), upper(p, j));
}

static int64_t most_at(prover *p, int32_t v, int32_t t) {
    const model *m = p->m;
    int64_t stock = arrived(m, v, t);
    for (int32_t k = m->giver_at[v]; k < m->giver_at[v + 1]; k++)
        if (first_end(p, m->giver[k].task) <= t)
            stock += m->giver[k].amount;
    for (int32_t k = m->drawer_at[v]; k < m->drawer_at[v + 1]; k++)
        if (upper(p, m->drawer[k].task) <= t)
            stock -= m->drawer[k].amount;
    p->steps += (uint64_t)(m->giver_at[v + 1] - m->giver_at[v] + m->drawer_at[v + 1] - m->drawer_at[v]);
    return stock;
}

static bool look_at(prover *p, int32_t v, int32_t t) {
    const model *m = p->m;
    if (t < 0)
        return true;
    int64_t most = most_at(p, v, t);
    if (most < 0) {
        fail_with(p, WHY_STOCK, v, t);
        return false;
    }
    for (int32_t k = m->drawer_at[v]; k < m->drawer_at[v + 1]; k++) {
        int32_t i = m->drawer[k].task;
        if (most < m->drawer[k].amount && lower(p, i) <= t && upper(p, i) > t &&
            !set_bound(p, 2 * i, t + 1, WHY_STOCK, v, t))
            return false;
    }
    for (int32_t k = m->giver_at[v]; k < m->giver_at[v + 1]; k++) {
        int32_t j = m->giver[k].task;
        if (most >= m->giver[k].amount || first_end(p, j) > t)
            continue;
        int32_t by = model_start_ending_by(m, j, t, p->horizon);
        if (!set_bound(p, 2 * j + 1, by < 0 ? 1 : -by, WHY_STOCK, v, t))
            return false;
    }
    return true;
}

static bool propagate_reservoir(prover *p, int32_t v) {
    const model *m = p->m;
    for (int32_t k = m->stock_at[v]; k < m->stock_at[v + 1]; k++)
        if (!look_at(p, v, m->stock[k].time - 1))
            return false;
    for (int32_t k = m->giver_at[v]; k < m->giver_at[v + 1]; k++)
        if (!look_at(p, v, first_end(p, m->giver[k].task) - 1))
            return false;
    for (int32_t k = m->drawer_at[v]; k < m->drawer_at[v + 1]; k++)
        if (!look_at(p, v, upper(p, m->drawer[k].task) - 1) || !look_at(p, v, upper(p, m->drawer[k].task)))
            return false;
    return look_at(p, v, p->horizon);
}

bool propagate_stock(prover *p) {
    for (int32_t v = 0; v < p->m->reservoirs; v++)
        if (!propagate_reservoir(p, v))
            return false;
    return true;
}

/* The bounds by which j has not ended by t, into why[]; false when they do not hold. */
static bool not_ended(prover *p, int32_t j, int32_t t) {
    int32_t s = p->past[2 * j], u = -p->past[2 * j + 1];
    int32_t by = model_start_ending_by(p->m, j, t, p->horizon);
    if (by < s) {
        add_why(p, 2 * j, by + 1);
        return true;
    }
    if (p->m->extra[j] == 0)
        return false;
    by = model_start_ending_by(p->m, j, t, u);
    if (by >= s)
        return false;
    add_why(p, 2 * j, by + 1);
    add_why(p, 2 * j + 1, -u);
    return true;
}

void explain_stock(prover *p, int32_t v, int32_t t, literal l) {
    const model *m = p->m;
    int32_t pushed = l.node >= 0 && !(l.node & 1) ? l.node >> 1 : SCHED_NONE;
    int32_t pulled = l.node >= 0 && (l.node & 1) ? l.node >> 1 : SCHED_NONE;
    /* What the literals must bring about: most stock, with the pushed draw and without the pulled give, below 0. */
    int64_t most = arrived(m, v, t);
    for (int32_t k = m->drawer_at[v]; k < m->drawer_at[v + 1]; k++) {
        int32_t i = m->drawer[k].task;
        if (i == pushed)
            most -= m->drawer[k].amount;
        else if (-p->past[2 * i + 1] <= t)
            most -= m->drawer[k].amount;
    }
    for (int32_t k = m->giver_at[v]; k < m->giver_at[v + 1]; k++) {
        int32_t j = m->giver[k].task;
        if (j == pulled || not_ended(p, j, t))
            continue;
        most += m->giver[k].amount;
    }
    int64_t spare = -1 - most; /* so much may be left out */
    for (int32_t k = m->drawer_at[v]; k < m->drawer_at[v + 1]; k++) {
        int32_t i = m->drawer[k].task;
        if (i == pushed || -p->past[2 * i + 1] > t)
            continue;
        if (m->drawer[k].amount <= spare && -t > p->root[2 * i + 1] && -t > p->need[2 * i + 1])
            spare -= m->drawer[k].amount;
        else
            add_why(p, 2 * i + 1, -t);
    }
}
