/* plan.c: the plan of a build, from its stock and from what happened so far. */
#include "base/sys.h"
#include "desk/desk.h"

static void add_supplies(const desk *d, plan_input *in) {
    uint32_t n = 0;
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        n += d->stock->parts[p].n_supplies;
    plan_arrival *arrivals = arena_array(d->memory, plan_arrival, n);
    n = 0;
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        for (uint32_t k = 0; k < d->stock->parts[p].n_supplies; k++) {
            const stock_supply *s = &d->stock->parts[p].supplies[k];
            arrivals[n++] = (plan_arrival){p, s->quantity, (date_moment)s->day * MINUTES_PER_DAY};
        }
    in->arrivals = arrivals;
    in->n_arrivals = n;
}

static void add_done(const desk *d, plan_input *in) {
    plan_done *done = arena_array(d->memory, plan_done, d->kit->n_steps);
    for (kit_index s = 0; s < d->kit->n_steps; s++)
        if (d->stock->work->steps[s].state == STOCK_DONE)
            done[in->n_done++] = (plan_done){s, d->stock->work->steps[s].since};
    in->done = done;
}

/* Who worked how long on the steps begun so far: each of a step's builders its whole time, since the journal does not say
 * who left earlier. */
static void add_own_minutes(const desk *d, plan_input *in) {
    int32_t *own = arena_array(d->memory, int32_t, d->workshop ? d->workshop->n_crew : 0);
    for (kit_index s = 0; s < d->kit->n_steps && d->workshop; s++) {
        const stock_step *b = &d->stock->work->steps[s];
        for (uint32_t k = 0; k < b->builders.n && b->state != STOCK_TO_DO; k++) {
            kit_index person = kit_find_person(d->workshop, b->builders.list[k]);
            if (person != KIT_NONE && b->worked_min < MINUTES_PER_DAY)
                own[person] += (int32_t)b->worked_min;
        }
    }
    in->own_before_min = own;
}

/* What is drawn lies in the tub of a begun step, and that step's plan draws it again. */
static void add_pieces(const desk *d, plan_input *in) {
    int64_t *usable = arena_array(d->memory, int64_t, d->kit->n_parts);
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        usable[p] = stock_available(d->stock, p);
        for (kit_index s = 0; s < d->kit->n_steps; s++)
            if (d->stock->work->steps[s].state != STOCK_TO_DO)
                usable[p] += stock_at_step(&d->record, s, p, STOCK_IN_TUB);
    }
    in->usable = usable;
}

static int64_t left_of(int64_t minutes, int64_t worked_percent) {
    int64_t left = minutes - worked_percent / 100;
    return left > 1 ? left : 1;
}

/* From the minutes of the steps done. */
static const plan_paces *learn_pace(const desk *d) {
    if (!d->workshop)
        return NULL;
    plan_worked *done = arena_array(d->memory, plan_worked, d->kit->n_steps);
    uint32_t n = 0;
    for (kit_index s = 0; s < d->kit->n_steps; s++)
        if (d->stock->work->steps[s].state == STOCK_DONE)
            done[n++] = (plan_worked){s, d->stock->work->steps[s].worked_min};
    plan_paces *paces = arena_new(d->memory, plan_paces);
    plan_learn_pace(d->memory, d->kit, d->workshop, done, n, paces);
    return paces;
}

/* A begun step takes what is left of its minutes: worked minutes over this crew's pace are behind it. At least one
 * minute is left, since nobody said that it is done. */
static const kit *shorten_begun(const desk *d, const plan_paces *paces, date_moment now) {
    kit *k = arena_new(d->memory, kit);
    *k = *d->kit;
    k->steps = arena_array(d->memory, kit_step, k->n_steps);
    for (kit_index s = 0; s < k->n_steps; s++) {
        const stock_step *b = &d->stock->work->steps[s];
        k->steps[s] = d->kit->steps[s];
        if (b->state == STOCK_TO_DO || b->state == STOCK_DONE)
            continue;
        int64_t worked = b->worked_min;
        if (b->state == STOCK_RUNNING && now > b->since)
            worked += now - b->since;
        int64_t behind =
            worked * 100 * 100 / (paces && paces->percent_of_step[s] > 0 ? paces->percent_of_step[s] : 100);
        k->steps[s].low_min = left_of(k->steps[s].low_min, behind);
        k->steps[s].likely_min = left_of(k->steps[s].likely_min, behind);
        k->steps[s].high_min = left_of(k->steps[s].high_min, behind);
        k->steps[s].change_over_min = (kit_integers){0}; /* they counted from its start */
    }
    return k;
}

void desk_plan_input(const desk *d, const plan_input *how, plan_input *out) {
    *out = *how;
    date_moment now = sys_now();
    out->kit = d->kit;
    out->workshop = d->workshop;
    out->own_before_min = NULL;
    out->done = NULL;
    out->n_done = 0;
    for (uint32_t k = 0; k < d->n_announced; k++)
        d->announced[k].begun = d->stock->work->steps[d->announced[k].step].state != STOCK_TO_DO;
    out->told = d->announced;
    out->n_told = d->n_announced;
    add_supplies(d, out);
    add_pieces(d, out);
    if (out->from == INT64_MIN)
        out->from = now;
    if (!d->stock->work->begun)
        return;
    add_done(d, out);
    add_own_minutes(d, out);
    out->paces = learn_pace(d);
    out->kit = shorten_begun(d, out->paces, now);
}

bool desk_plan(const desk *d, const plan_input *how, plan **out, err *e) {
    plan_input in;
    desk_plan_input(d, how, &in);
    return plan_make(d->memory, &in, out, e);
}
