/* supply.c: shares the pieces out in build order. */
#include "plan/supply.h"

#include <string.h>

int64_t supply_usable(const plan_input *in, kit_index part) {
    int64_t usable = in->usable ? in->usable[part] : kit_packed(in->kit, part);
    return usable > 0 ? usable : 0;
}

date_moment supply_last_arrival(const plan_input *in) {
    date_moment last = INT64_MIN;
    for (uint32_t k = 0; k < in->n_arrivals; k++)
        if (in->arrivals[k].at > last)
            last = in->arrivals[k].at;
    return last;
}

/* A step right before `step` that does not go ahead, or KIT_NONE. */
static kit_index held_up_by(const kit *k, const supply *s, kit_index step) {
    for (uint32_t x = 0; x < k->n_step_after; x++) {
        kit_index before = k->step_after[x].after;
        if (k->step_after[x].step == step && s->state[before] != SUPPLY_DONE &&
            s->state[before] != SUPPLY_GOES)
            return before;
    }
    return KIT_NONE;
}

/* What one step needs of a part, over all its rows; 0 when an earlier row of the step named the part already. */
static int64_t need_of(const kit *k, uint32_t row) {
    const kit_step_part *r = &k->step_parts[row];
    int64_t sum = 0;
    for (uint32_t x = 0; x < k->n_step_parts; x++) {
        if (k->step_parts[x].step != r->step || k->step_parts[x].part != r->part)
            continue;
        if (x < row)
            return 0;
        sum += k->step_parts[x].quantity;
    }
    return sum;
}

/* Gives the step its pieces, or records what is missing and gives none. */
static bool draw(const kit *k, kit_index step, int64_t *left, supply *s) {
    uint32_t before = s->n_stopped;
    for (uint32_t x = 0; x < k->n_step_parts; x++) {
        if (k->step_parts[x].step != step)
            continue;
        kit_index part = k->step_parts[x].part;
        int64_t need = need_of(k, x);
        if (need > left[part])
            s->stopped[s->n_stopped++] = (plan_stopped){step, part, need - left[part]};
    }
    if (s->n_stopped > before)
        return false;
    for (uint32_t x = 0; x < k->n_step_parts; x++) {
        if (k->step_parts[x].step != step)
            continue;
        left[k->step_parts[x].part] -= k->step_parts[x].quantity;
        s->drawn[k->step_parts[x].part] += k->step_parts[x].quantity;
    }
    return true;
}

void supply_share(arena *a, const plan_input *in, const kit_index *order, supply *s) {
    const kit *k = in->kit;
    int64_t *left = arena_array(a, int64_t, k->n_parts);
    for (kit_index p = 0; p < k->n_parts; p++)
        left[p] = supply_usable(in, p);
    for (uint32_t x = 0; x < in->n_arrivals; x++)
        left[in->arrivals[x].part] += in->arrivals[x].quantity;
    s->stopped = arena_array(a, plan_stopped, k->n_step_parts);
    s->n_stopped = 0;
    s->drawn = arena_array(a, int64_t, k->n_parts);
    s->waits_for = arena_array(a, kit_index, k->n_steps);
    memset(s->waits_for, 0xff, k->n_steps * sizeof *s->waits_for);
    for (uint32_t n = 0; n < k->n_steps; n++) {
        kit_index step = order[n];
        if (s->state[step] == SUPPLY_DONE || s->state[step] == SUPPLY_IMPOSSIBLE)
            continue;
        s->waits_for[step] = held_up_by(k, s, step);
        if (s->waits_for[step] != KIT_NONE)
            s->state[step] = SUPPLY_WAITING;
        else
            s->state[step] = draw(k, step, left, s) ? SUPPLY_GOES : SUPPLY_STOPPED;
    }
}
