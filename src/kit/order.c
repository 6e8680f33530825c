/* order.c: what comes before what. */
#include <string.h>

#include "kit/inside.h"

/* A kit that was put together rather than read has no lookup and no faults. */
static bool usable(const kit *k, uint32_t i) {
    const kit_after *after = &k->step_after[i];
    bool faulty = k->lookup && kit_state(k, "step_after")->faulty[i];
    return !faulty && after->step != KIT_NONE && after->after != KIT_NONE;
}

kit_order kit_order_of(arena *a, const kit *k) {
    kit_order o = {.n = k->n_steps};
    o.first = arena_array(a, uint32_t, k->n_steps + (size_t)2);
    o.before = arena_array(a, kit_index, k->n_step_after);
    o.by = arena_array(a, uint32_t, k->n_step_after);
    o.seen = arena_array(a, uint32_t, k->n_steps);
    o.open = arena_array(a, kit_index, k->n_steps);
    /* Counts two places on, so that after the filling each first[i] has moved to where its list begins. */
    for (uint32_t i = 0; i < k->n_step_after; i++)
        if (usable(k, i))
            o.first[k->step_after[i].step + 2]++;
    for (uint32_t i = 0; i < k->n_steps; i++)
        o.first[i + 2] += o.first[i + 1];
    for (uint32_t i = 0; i < k->n_step_after; i++) {
        if (!usable(k, i))
            continue;
        uint32_t at = o.first[k->step_after[i].step + 1]++;
        o.before[at] = k->step_after[i].after;
        o.by[at] = i;
    }
    return o;
}

bool kit_comes_before(kit_order *o, kit_index earlier, kit_index later) {
    uint32_t question = ++o->questions, n_open = 0;
    o->open[n_open++] = later;
    o->seen[later] = question;
    while (n_open) {
        kit_index step = o->open[--n_open];
        for (uint32_t i = o->first[step]; i < o->first[step + 1]; i++) {
            kit_index before = o->before[i];
            if (before == earlier)
                return true;
            if (o->seen[before] == question)
                continue;
            o->seen[before] = question;
            o->open[n_open++] = before;
        }
    }
    return false;
}

const kit_index *kit_build_order(arena *a, const kit *k) {
    kit_order o = kit_order_of(a, k);
    kit_index *order = arena_array(a, kit_index, k->n_steps);
    uint32_t *waits_for =
        arena_array(a, uint32_t, k->n_steps); /* steps before it that are not in the order yet */
    uint32_t *first_after = arena_array(a, uint32_t, k->n_steps + (size_t)2);
    kit_index *after = arena_array(a, kit_index, o.first[o.n]);
    for (uint32_t i = 0; i < o.first[o.n]; i++)
        first_after[o.before[i] + 2]++;
    for (uint32_t i = 0; i < o.n; i++)
        first_after[i + 2] += first_after[i + 1];
    for (kit_index step = 0; step < o.n; step++) {
        waits_for[step] = o.first[step + 1] - o.first[step];
        for (uint32_t i = o.first[step]; i < o.first[step + 1]; i++)
            after[first_after[o.before[i] + 1]++] = step;
    }
    /* The lowest step that waits for nothing comes next; `from` is below none that is ready. */
    for (uint32_t n = 0, from = 0; n < o.n && from < o.n;) {
        if (waits_for[from] != 0) {
            from++;
            continue;
        }
        kit_index step = from++;
        order[n++] = step;
        waits_for[step] = UINT32_MAX;
        for (uint32_t i = first_after[step]; i < first_after[step + 1]; i++)
            if (--waits_for[after[i]] == 0 && after[i] < from)
                from = after[i];
    }
    return order;
}
