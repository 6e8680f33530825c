/* late_parts.c: the last day on which a part may come, found by bisection over the sessions: later never ends earlier. */
#include "plan/late_parts.h"

#include <stdlib.h>
#include <string.h>

#include "plan/order_by.h"
#include "plan/supply.h"

/* Effort for each plan when the caller sets no limit. */
enum { EFFORT_EACH = 12000 };

typedef struct {
    arena *memory;
    const plan_input *in;
    plan_input base; /* what is lacking and not promised is here */
    plan_chase *out;
    bool sure;
} asking;

/* ---- the stock --------------------------------------------------------------------------------------------------------- */

static bool is_done(const plan_input *in, kit_index step) {
    for (uint32_t k = 0; k < in->n_done; k++)
        if (in->done[k].step == step)
            return true;
    return false;
}

static int64_t lacking(const plan_input *in, kit_index part) {
    int64_t need = 0;
    for (uint32_t x = 0; x < in->kit->n_step_parts; x++)
        if (in->kit->step_parts[x].part == part && !is_done(in, in->kit->step_parts[x].step))
            need += in->kit->step_parts[x].quantity;
    int64_t here = supply_usable(in, part);
    return need > here ? need - here : 0;
}

static int64_t promised(const plan_input *in, kit_index part, date_moment *last) {
    int64_t sum = 0;
    for (uint32_t x = 0; x < in->n_arrivals; x++)
        if (in->arrivals[x].part == part) {
            sum += in->arrivals[x].quantity;
            *last = in->arrivals[x].at > *last ? in->arrivals[x].at : *last;
        }
    return sum;
}

/* The input with `here` pieces of the part from the start and `coming` at `at`, and none of its own promises. */
static plan_input with_part(arena *a, const plan_input *in, kit_index part, int64_t here, int64_t coming,
                            date_moment at) {
    plan_input out = *in;
    plan_arrival *arrivals = arena_array(a, plan_arrival, (size_t)in->n_arrivals + 1);
    int64_t *usable = arena_array(a, int64_t, in->kit->n_parts);
    out.n_arrivals = 0;
    for (uint32_t x = 0; x < in->n_arrivals; x++)
        if (in->arrivals[x].part != part)
            arrivals[out.n_arrivals++] = in->arrivals[x];
    for (kit_index p = 0; p < in->kit->n_parts; p++)
        usable[p] = p == part ? here : supply_usable(in, p);
    if (coming > 0)
        arrivals[out.n_arrivals++] = (plan_arrival){part, coming, at};
    out.arrivals = arrivals;
    out.usable = usable;
    return out;
}

static plan_input all_here(arena *a, const asking *q, const plan_late_part *x) {
    return with_part(a, &q->base, x->part, supply_usable(q->in, x->part) + x->lacking, 0, 0);
}

static plan_input all_on_day(arena *a, const asking *q, const plan_late_part *x, date_day day) {
    return with_part(a, &q->base, x->part, supply_usable(q->in, x->part), x->lacking,
                     (date_moment)day * MINUTES_PER_DAY);
}

static plan_input never(arena *a, const asking *q, const plan_late_part *x) {
    return with_part(a, &q->base, x->part, supply_usable(q->in, x->part), 0, 0);
}

/* ---- asking -------------------------------------------------------------------------------------------------------------- */

/* Makes a plan; `starts` (by step, or NULL) are known, and those found stand there afterwards. No plan beats `bound`. */
static bool solve(asking *q, plan_input in, int32_t *starts, int32_t bound, plan_outcome *out, err *e) {
    arena *scratch = arena_open();
    plan *p;
    in.finish_only = true;
    in.known_starts = starts && starts[0] != INT32_MIN ? starts : NULL;
    in.known_bound_min = bound;
    if (in.effort == 0 && in.seconds <= 0)
        in.effort = EFFORT_EACH;
    bool made = plan_make(scratch, &in, &p, e);
    if (made) {
        *out = plan_outcome_of(p);
        for (kit_index s = 0; starts && s < in.kit->n_steps; s++) {
            const plan_step *x = plan_find_step(p, s);
            starts[s] = x ? x->start_min : -1;
        }
        q->sure = q->sure && out->proven;
    }
    arena_close(scratch);
    q->out->n_plans++;
    return made;
}

/* The finish when all that is lacking of the part comes on the day. */
static bool solve_day(asking *q, const plan_late_part *x, date_day day, const int32_t *known,
                      plan_outcome *out, err *e) {
    arena *scratch = arena_open();
    int32_t *starts = arena_array(scratch, int32_t, q->in->kit->n_steps);
    memcpy(starts, known, q->in->kit->n_steps * sizeof *starts);
    bool made =
        solve(q, all_on_day(scratch, q, x, day), starts, x->best.proven ? x->best.makespan_min : 0, out, e);
    arena_close(scratch);
    return made;
}

bool plan_cost_of(const plan_outcome *best, const plan_outcome *then, int32_t *days, int32_t *minutes) {
    *days = *minutes = 0;
    if (!best->found || !then->found || !best->dated || !then->dated ||
        best->steps_planned != then->steps_planned)
        return false;
    if (then->finish > best->finish) {
        *days = date_of_moment(then->finish) - date_of_moment(best->finish);
        *minutes = (int32_t)(then->finish - best->finish);
    }
    return true;
}

static int compare_days(const void *a, const void *b) {
    const date_day *x = a, *y = b;
    return *x < *y ? -1 : *x > *y;
}

/* Days of the sessions that are not over, ascending. */
static date_day *session_days(asking *q, uint32_t *n) {
    const kit_workshop *w = q->in->workshop;
    date_day *days = arena_array(q->memory, date_day, w->n_sessions);
    *n = 0;
    for (kit_index s = 0; s < w->n_sessions; s++)
        if ((date_moment)w->sessions[s].day * MINUTES_PER_DAY + w->sessions[s].end > q->in->from)
            days[(*n)++] = w->sessions[s].day;
    if (*n > 1)
        qsort(days, *n, sizeof *days, compare_days);
    return days;
}

/* The last session's day that costs nothing; the first one costs nothing, since whatever comes on its day is there. */
static bool find_last_free(asking *q, plan_late_part *x, const int32_t *known, err *e) {
    uint32_t n, low = 0;
    date_day *days = session_days(q, &n);
    uint32_t high = n;
    x->last_free = n > 0 ? days[0] : 0;
    while (n > 0 && low + 1 < high) {
        uint32_t mid = low + (high - low) / 2;
        plan_outcome o;
        if (!solve_day(q, x, days[mid], known, &o, e))
            return false;
        if (plan_compare_outcomes(&o, &x->best) <= 0)
            low = mid;
        else
            high = mid;
    }
    x->last_free = n > 0 ? days[low] : 0;
    return true;
}

/* The steps that cannot go ahead when the part never comes: told before any search, so hardly any effort is allowed. */
static bool find_held_up(asking *q, plan_late_part *x, err *e) {
    arena *scratch = arena_open();
    plan_input in = never(scratch, q, x);
    plan *p;
    in.finish_only = true;
    in.effort = 1;
    bool made = plan_make(scratch, &in, &p, e);
    x->held_up = arena_array(q->memory, kit_index, q->in->kit->n_steps);
    const kit_index *order = kit_build_order(scratch, q->in->kit);
    for (uint32_t k = 0; made && k < q->in->kit->n_steps; k++) {
        bool held = false;
        for (uint32_t y = 0; y < p->n_stopped; y++)
            held = held || p->stopped[y].step == order[k];
        for (uint32_t y = 0; y < p->n_waiting; y++)
            held = held || p->waiting[y].step == order[k];
        if (held)
            x->held_up[x->n_held_up++] = order[k];
    }
    arena_close(scratch);
    return made;
}

static bool ask_part(asking *q, plan_late_part *x, err *e) {
    int32_t *known = arena_array(q->memory, int32_t, q->in->kit->n_steps);
    known[0] = INT32_MIN;
    q->sure = true;
    if (!solve(q, all_here(q->memory, q, x), known, 0, &x->best, e) ||
        (x->promised && !solve(q, q->base, NULL, 0, &x->as_promised, e)) || !find_last_free(q, x, known, e) ||
        !find_held_up(q, x, e))
        return false;
    for (uint32_t k = 0; k < PLAN_LATE_WEEKS; k++)
        if (!solve_day(q, x, x->last_free + 7 * (date_day)(k + 1), known, &x->week[k], e))
            return false;
    x->sure = q->sure;
    return true;
}

/* Minutes that the promise costs; most where that cannot be told. */
static int32_t cost_of_promise(const plan_late_part *x) {
    int32_t days, minutes;
    return !x->promised ? 0 : plan_cost_of(&x->best, &x->as_promised, &days, &minutes) ? minutes : INT32_MAX;
}

/* Not promised before promised; then what costs most; then what leaves the least room. */
static int compare_parts(const void *a, const void *b) {
    const plan_late_part *x = a, *y = b;
    if (x->promised != y->promised)
        return x->promised ? 1 : -1;
    int32_t cost_x = cost_of_promise(x), cost_y = cost_of_promise(y);
    if (cost_x != cost_y)
        return cost_x > cost_y ? -1 : 1;
    int32_t room_x = x->last_free - (x->promised ? x->promised_for : 0),
            room_y = y->last_free - (y->promised ? y->promised_for : 0);
    if (room_x != room_y)
        return room_x < room_y ? -1 : 1;
    return x->part < y->part ? -1 : x->part > y->part;
}

/* Lists what is lacking, and lets be here in q->base what nobody promised. */
static void list_parts(asking *q) {
    plan_chase *c = q->out;
    c->parts = arena_array(q->memory, plan_late_part, q->in->kit->n_parts);
    q->base = *q->in;
    for (kit_index p = 0; p < q->in->kit->n_parts; p++) {
        plan_late_part x = {.part = p, .lacking = lacking(q->in, p)};
        date_moment last = INT64_MIN;
        if (x.lacking == 0)
            continue;
        x.promised = promised(q->in, p, &last) >= x.lacking;
        x.promised_for = x.promised ? date_of_moment(last) : 0;
        if (!x.promised)
            q->base = all_here(q->memory, q, &x);
        c->parts[c->n_parts++] = x;
    }
}

bool plan_ask_chase(arena *a, const plan_input *in, plan_chase **out, err *e) {
    plan_chase *c = arena_new(a, plan_chase);
    *c = (plan_chase){0};
    asking q = {.memory = a, .in = in, .out = c};
    list_parts(&q);
    for (uint32_t k = 0; k < c->n_parts; k++)
        if (!ask_part(&q, &c->parts[k], e))
            return false;
    if (c->n_parts > 1)
        qsort(c->parts, c->n_parts, sizeof *c->parts, compare_parts);
    *out = c;
    return order_by(a, &q.base, c, e);
}
