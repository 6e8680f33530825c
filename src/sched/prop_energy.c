/* prop_energy.c: energy: what must be done inside a window against what can be done there.
 *
 * Time-table edge finding (Vilim, "Timetable edge finding filtering algorithm for discrete cumulative resources", 2011;
 * explanations after Schutt, Feydy, Stuckey, 2013). For windows [a, b) from an earliest start to a latest end: the free capacity
 * left by the time table, less the energy of tasks that start at a or later and must lie in the window in part or whole. Below zero
 * is a conflict. Where the task that would add most does not fit any more it must start later, so that at most what is left lies
 * before b. Latest ends by the same code on a mirrored time axis. Quadratic in the tasks of a resource.
 *
 * Explanation: each task lies in [a, b) for at least x when a + x - d <= start <= b - x. With all x from the bounds of that moment the
 * sum exceeds the capacity; what it exceeds it by is used to leave tasks out, dearest first, and to shrink one x. */
#include "sched/prover.h"

/* A resource's tasks as the sweep sees them; on the mirrored axis with all times negated. */
typedef struct {
    int32_t task, amount, duration;
    int32_t est, lst, ect, lct;
} item;

struct energy {
    bool *dirty;  /* by resource */
    bool *suits;  /* no task whose length depends on its start */
    int64_t *sum; /* by time: free capacity before it, of the resource looked at */
    item *item;
    int32_t *by_start, *by_end; /* by resource (offset user_at): kept sorted from call to call */
};

bool energy_open(prover *p) {
    const model *m = p->m;
    energy *g = memory_array(p->mem, energy, 1);
    int32_t users = m->user_at[m->resources];
    if (!g)
        return false;
    g->dirty = memory_array(p->mem, bool, m->resources);
    g->suits = memory_array(p->mem, bool, m->resources);
    g->sum = memory_array(p->mem, int64_t, p->horizon + 2);
    g->item = memory_array(p->mem, item, 2 * p->n);
    g->by_start = memory_array(p->mem, int32_t, users);
    g->by_end = memory_array(p->mem, int32_t, users);
    p->note_room = 1024;
    p->note = memory_array(p->mem, energy_note, p->note_room);
    if (!g->dirty || !g->suits || !g->sum || !g->item || !g->by_start || !g->by_end || !p->note)
        return false;
    for (int32_t r = 0; r < m->resources; r++) {
        int32_t n = m->user_at[r + 1] - m->user_at[r];
        g->suits[r] = n > 2;
        g->dirty[r] = true;
        for (int32_t k = 0; k < n; k++) {
            g->by_start[m->user_at[r] + k] = g->by_end[m->user_at[r] + k] = k;
            g->suits[r] = g->suits[r] && m->extra[m->user[m->user_at[r] + k].task] == 0;
        }
    }
    p->energy = g;
    return true;
}

void energy_touch(prover *p, int32_t task) {
    for (int32_t k = p->m->demand_at[task]; k < p->m->demand_at[task + 1]; k++)
        p->energy->dirty[p->m->demand[k].resource] = true;
}

static void sum_free(prover *p, int32_t r) {
    const model *m = p->m;
    size_t words = (size_t)p->words;
    const uint64_t *at = p->free + m->lane_word[r];
    int32_t shift = m->lane_shift[r];
    uint64_t guards = m->guard[m->lane_word[r]] >> shift;
    uint64_t mask = ((uint64_t)1 << __builtin_ctzll(guards)) - 1; /* up to the lane's own guard bit */
    int64_t sum = 0;
    for (int32_t t = 0; t <= p->horizon; t++, at += words) {
        p->energy->sum[t] = sum;
        sum += (int64_t)((*at >> shift) & mask);
    }
    p->energy->sum[p->horizon + 1] = sum;
}

static int64_t span(const prover *p, int32_t a, int32_t b, bool mirrored) {
    const int64_t *sum = p->energy->sum;
    return mirrored ? sum[-a] - sum[-b] : sum[b] - sum[a];
}

static int32_t at_least_0(int32_t x) {
    return x > 0 ? x : 0;
}

static int32_t smaller(int32_t a, int32_t b) {
    return a < b ? a : b;
}

bool energy_reserve(prover *p) {
    energy_note *bigger =
        memory_grow(p->mem, p->note, (size_t)p->notes, 2 * (size_t)p->note_room, sizeof *bigger);
    if (!bigger) {
        fail_with(p, WHY_ROOT, 0, 0);
        p->out_of_memory = true;
        return false;
    }
    p->note = bigger;
    p->note_room *= 2;
    return true;
}

static bool leave_note(prover *p, int32_t r, int32_t a, int32_t b, bool mirrored) {
    if (p->notes == p->note_room && !energy_reserve(p))
        return false;
    p->note[p->notes] = mirrored ? (energy_note){r, -b, -a} : (energy_note){r, a, b};
    return true;
}

/* Task u may lie before b, on the axis in use, for at most `most` of its time. */
static bool push_out(prover *p, int32_t r, const item *u, int32_t a, int32_t b, int32_t most, bool mirrored) {
    int32_t value = b - most; /* of its start; on the mirrored axis of minus its end */
    int32_t node = 2 * u->task;
    if (mirrored) {
        node++;
        value += u->duration;
    }
    if (value <= p->bound[node])
        return true;
    if (!leave_note(p, r, a, b, mirrored))
        return false;
    int32_t before = p->trail_n;
    if (!set_bound(p, node, value, WHY_ENERGY, r, p->notes))
        return false;
    p->energy_pushes++;
    p->notes += p->trail_n > before;
    return true;
}

/* All windows that end at b. */
static bool sweep(prover *p, int32_t r, const item *it, const int32_t *by_start, int32_t n, int32_t b,
                  bool mirrored) {
    int64_t inner = 0, most_extra = 0, most_counted = 0;
    int32_t most = SCHED_NONE;
    for (int32_t k = n - 1; k >= 0; k--) {
        const item *i = &it[by_start[k]];
        if (i->est >= b)
            continue;
        int64_t table = (int64_t)i->amount * at_least_0(smaller(b, i->ect) - i->lst);
        int64_t inside = (int64_t)i->amount * smaller(i->duration, at_least_0(b - i->lst));
        inner += inside - table;
        if (i->lct > b) {
            int64_t extra = (int64_t)i->amount * (smaller(b, i->ect) - i->est) - inside;
            if (extra > most_extra) {
                most_extra = extra;
                most_counted = inside;
                most = by_start[k];
            }
        }
        int64_t spare = span(p, i->est, b, mirrored) - inner;
        if (spare < 0) {
            if (leave_note(p, r, i->est, b, mirrored))
                fail_with(p, WHY_ENERGY, r, p->notes);
            p->energy_pushes++;
            return false;
        }
        if (most != SCHED_NONE && most_extra > spare &&
            !push_out(p, r, &it[most], i->est, b, (int32_t)((spare + most_counted) / it[most].amount),
                      mirrored))
            return false;
    }
    return true;
}

static void sort_by_est(const item *it, int32_t *order, int32_t n) {
    for (int32_t k = 1; k < n; k++) { /* nearly sorted from the last call */
        int32_t x = order[k], j = k;
        for (; j > 0 && it[order[j - 1]].est > it[x].est; j--)
            order[j] = order[j - 1];
        order[j] = x;
    }
}

static bool look_at(prover *p, int32_t r, bool mirrored) {
    const model *m = p->m;
    int32_t n = m->user_at[r + 1] - m->user_at[r];
    item *it = p->energy->item;
    int32_t *by_start = (mirrored ? p->energy->by_end : p->energy->by_start) + m->user_at[r];
    for (int32_t k = 0; k < n; k++) {
        const model_user *user = &m->user[m->user_at[r] + k];
        int32_t i = user->task, d = m->duration[i], s = lower(p, i), u = upper(p, i);
        it[k] = mirrored ? (item){i, user->amount, d, -u - d, -s - d, -u, -s}
                         : (item){i, user->amount, d, s, u, s + d, u + d};
    }
    sort_by_est(it, by_start, n);
    p->steps += (uint64_t)(n * n) / 8;
    int32_t *ends = (mirrored ? p->energy->by_start : p->energy->by_end) + m->user_at[r];
    int32_t done = INT32_MIN; /* `ends` lists the tasks by latest end, or nearly so: equal ends once */
    for (int32_t k = 0; k < n; k++) {
        const item *i = &it[ends[n - 1 - k]];
        if (i->lct == done || i->est == i->lst)
            continue;
        done = i->lct;
        if (!sweep(p, r, it, by_start, n, i->lct, mirrored))
            return false;
    }
    return true;
}

/* One look at every resource touched since the last. */
static bool look_at_all(prover *p) {
    for (int32_t r = 0; r < p->m->resources; r++) {
        if (!p->energy->dirty[r] || !p->energy->suits[r])
            continue;
        sum_free(p, r);
        p->steps += (uint64_t)p->horizon / 8;
        if (!look_at(p, r, false) || !look_at(p, r, true))
            return false;
        p->energy->dirty[r] = false;
    }
    return true;
}

/* The sweep costs more than everything else together, so that it must earn its turns: each that finds something takes a fifth off
 * the wait to the next, each that finds nothing makes it a tenth longer. With less than about one find in three it is asked
 * rarely. */
bool propagate_energy(prover *p) {
    const float longest = 60;
    if (p->energy_wait > 0 && p->level > 0 && !p->energy_always) {
        p->energy_wait--;
        return true;
    }
    uint64_t before = p->energy_pushes;
    bool ok = look_at_all(p);
    if (p->energy_pushes > before)
        p->energy_pause = p->energy_pause * 0.8F;
    else
        p->energy_pause = p->energy_pause * 1.1F + 0.1F;
    p->energy_pause = p->energy_pause < longest ? p->energy_pause : longest;
    p->energy_wait = (int32_t)p->energy_pause;
    return ok;
}

/* ---- explanations ------------------------------------------------------------------------------------------ */

static int64_t capacity_between(const model *m, int32_t r, int32_t a, int32_t b) {
    int64_t sum = 0;
    for (int32_t k = m->step_at[r]; k < m->step_at[r + 1]; k++) {
        int32_t to = k + 1 < m->step_at[r + 1] ? m->step[k + 1].from : INT32_MAX;
        int32_t from = m->step[k].from > a ? m->step[k].from : a;
        to = to < b ? to : b;
        if (from < to)
            sum += (int64_t)m->step[k].capacity * (to - from);
    }
    return sum;
}

/* At least so long the task lies in [a, b), whatever its start between the bounds of the past. */
static int32_t least_inside(const prover *p, int32_t i, int32_t a, int32_t b) {
    int32_t d = p->m->duration[i], s = p->past[2 * i], u = -p->past[2 * i + 1];
    int32_t x = smaller(smaller(d, b - a), smaller(s + d - a, b - u));
    return x > 0 ? x : 0;
}

static int32_t cost_of(const prover *p, int32_t node, int32_t v) {
    return v <= p->root[node] ? 0 : v <= p->need[node] ? 1 : 4;
}

/* Tasks other than `but` in the window, with `excess` more than needed: leave out what that allows. */
static void explain_others(prover *p, int32_t r, int32_t a, int32_t b, int32_t but, int64_t excess) {
    const model *m = p->m;
    item *it = p->energy->item + p->n; /* est: how long inside; lst: cost */
    int32_t n = 0;
    for (int32_t k = m->user_at[r]; k < m->user_at[r + 1]; k++) {
        int32_t i = m->user[k].task, x = i == but ? 0 : least_inside(p, i, a, b);
        if (x == 0)
            continue;
        int32_t cost = cost_of(p, 2 * i, a + x - m->duration[i]) + cost_of(p, 2 * i + 1, x - b);
        it[n++] =
            (item){.task = i, .amount = m->user[k].amount, .duration = m->duration[i], .est = x, .lst = cost};
    }
    for (int32_t cost = 8; cost > 0; cost--)
        for (int32_t k = n - 1; k >= 0; k--)
            if (it[k].lst == cost && (int64_t)it[k].amount * it[k].est <= excess) {
                excess -= (int64_t)it[k].amount * it[k].est;
                it[k] = it[--n];
            }
    for (int32_t k = 0; k < n; k++) {
        if (it[k].lst > 1 && excess >= it[k].amount) {
            int64_t less = excess / it[k].amount;
            less = less < it[k].est ? less : it[k].est;
            excess -= less * it[k].amount;
            it[k].est -= (int32_t)less;
        }
        if (it[k].est == 0)
            continue;
        add_why(p, 2 * it[k].task, a + it[k].est - it[k].duration);
        add_why(p, 2 * it[k].task + 1, it[k].est - b);
    }
}

void explain_energy(prover *p, int32_t r, int32_t note, literal l) {
    const model *m = p->m;
    int32_t a = p->note[note].from, b = p->note[note].to, i = l.node < 0 ? SCHED_NONE : l.node >> 1;
    int64_t excess = -1 - capacity_between(m, r, a, b);
    int32_t amount = 0;
    for (int32_t k = m->user_at[r]; k < m->user_at[r + 1]; k++) {
        if (m->user[k].task == i)
            amount = m->user[k].amount;
        else
            excess += (int64_t)m->user[k].amount * least_inside(p, m->user[k].task, a, b);
    }
    p->steps += (uint64_t)(m->user_at[r + 1] - m->user_at[r]);
    if (i != SCHED_NONE &&
        amount > 0) { /* from every start excluded it would lie inside for x, and x is too long */
        int32_t x = excess >= 0 ? 0 : (int32_t)((-excess + amount - 1) / amount);
        excess += (int64_t)x * amount;
        if (x > 0 && (l.node & 1) == 0)
            add_why(p, l.node, a + x - m->duration[i]);
        else if (x > 0)
            add_why(p, l.node, x - b);
    }
    explain_others(p, r, a, b, i, excess);
}
