/* breed.c: see breed.h.
 *
 * Crossing is that of Debels and Vanhoucke, "A decomposition-based genetic algorithm for the resource-constrained
 * project-scheduling problem", 2007, in spirit: a child keeps the order of one parent but for a stretch, where it has the other's; the
 * stretch lies where the resources are used least, for there is most to win. (They take the densest stretch of the other parent.) */
#include "sched/breed.h"

#include <string.h>

#include "sched/generate.h"

#define TRIED_STRETCHES 4 /* the loosest of them is changed; more gain nothing (measured) */

bool breeder_open(breeder *b, const model *m, rng *r, memory *mem) {
    *b = (breeder){.m = m, .r = r, .longest = 1};
    b->work = memory_array(mem, int64_t, m->n);
    b->work_before = memory_array(mem, int64_t, m->n + 1);
    b->taken = memory_array(mem, bool, m->n);
    b->key = memory_array(mem, int32_t, m->n);
    b->heap = memory_array(mem, int32_t, m->n);
    b->waiting = memory_array(mem, int32_t, m->n);
    if (!b->work || !b->work_before || !b->taken || !b->key || !b->heap || !b->waiting)
        return false;
    for (int32_t i = 0; i < m->n; i++) {
        b->longest = m->duration[i] > b->longest ? m->duration[i] : b->longest;
        for (int32_t k = m->demand_at[i]; k < m->demand_at[i + 1]; k++)
            b->work[i] += (int64_t)m->duration[i] *
                          (m->demand[k].amount * (int64_t)1000 / m->peak[m->demand[k].resource]);
    }
    return true;
}

/* Noise on the latest start. Five longest durations of it keep the first population various enough (measured). */
void breed_random(breeder *b, int32_t *list) {
    const model *m = b->m;
    uint32_t noise = 5 * (uint32_t)b->longest;
    for (int32_t i = 0; i < m->n; i++)
        b->key[i] = m->lst[i] + (int32_t)rng_below(b->r, noise);
    order_by_key(m, b->key, list, b->heap, b->waiting);
}

/* Where of a's list a stretch of this length holds least work for the time it spans, of a few places looked at. */
static int32_t loosest_stretch(breeder *b, const individual *a, int32_t length) {
    int32_t n = b->m->n, best = 0;
    double least = 0;
    for (int32_t k = 0; k < n; k++)
        b->work_before[k + 1] = b->work_before[k] + b->work[a->list[k]];
    for (int32_t tries = 0; tries < TRIED_STRETCHES; tries++) {
        int32_t from = (int32_t)rng_below(b->r, (uint32_t)(n - length + 1));
        int32_t time = a->start[a->list[from + length - 1]] - a->start[a->list[from]];
        double density =
            (double)(b->work_before[from + length] - b->work_before[from]) / (time > 1 ? time : 1);
        if (tries == 0 || density < least) {
            least = density;
            best = from;
        }
    }
    return best;
}

/* Neighbours change places now and then. */
static void mutate(breeder *b, int32_t *list) {
    const model *m = b->m;
    for (int32_t k = 0; k + 1 < m->n; k++) {
        if (rng_below(b->r, 50) > 0)
            continue;
        bool bound = false;
        for (int32_t a = m->after_at[list[k]]; a < m->after_at[list[k] + 1]; a++)
            bound = bound || m->after[a].task == list[k + 1];
        if (bound)
            continue;
        int32_t t = list[k];
        list[k] = list[k + 1];
        list[k + 1] = t;
    }
}

void breed_cross(breeder *b, const individual *a, const individual *c, int32_t *list) {
    int32_t n = b->m->n, length = n / 3 + (int32_t)rng_below(b->r, (uint32_t)(n / 3 + 1));
    int32_t from = loosest_stretch(b, a, length), at = from;
    memcpy(list, a->list, (size_t)n * sizeof *list);
    memset(b->taken, 0, (size_t)n * sizeof *b->taken);
    for (int32_t k = from; k < from + length; k++)
        b->taken[a->list[k]] = true;
    for (int32_t k = 0; at < from + length; k++)
        if (b->taken[c->list[k]])
            list[at++] = c->list[k];
    mutate(b, list);
}

void breed_stir(breeder *b, const individual *a, int32_t *list) {
    int32_t n = b->m->n, most = n / 3 > 4 ? n / 3 : 4;
    int32_t length = 3 + (int32_t)rng_below(b->r, (uint32_t)most);
    int32_t from = (int32_t)rng_below(b->r, (uint32_t)(n + length)) - length;
    for (int32_t k = 0; k < n; k++) {
        bool inside = k >= from && k < from + length;
        b->key[a->list[k]] = k + (inside ? (int32_t)rng_below(b->r, (uint32_t)length) : 0);
    }
    order_by_key(b->m, b->key, list, b->heap, b->waiting);
}
