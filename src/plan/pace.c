/* pace.c: the crew's own minutes. */
#include "plan/pace.h"

#include <math.h>

typedef struct {
    uint32_t n;
    double sum; /* of logarithms of ratios */
} seen;

static double ratio_of(const kit *k, const plan_worked *it) {
    double r = log((double)it->minutes / (double)k->steps[it->step].likely_min), most = log(PLAN_PACE_MOST);
    return r > most ? most : r < -most ? -most : r;
}

static double drawn_towards(const seen *s, double before) {
    return (s->sum + PLAN_PACE_STEPS * before) / (s->n + PLAN_PACE_STEPS);
}

static int64_t percent_of(double log_ratio) {
    return llround(100 * exp(log_ratio));
}

static plan_pace pace_of(kit_index work, const seen *s, double before) {
    return (plan_pace){.work = work,
                       .steps = s->n,
                       .percent = percent_of(drawn_towards(s, before)),
                       .seen_percent = s->n ? percent_of(s->sum / s->n) : 0};
}

void plan_learn_pace(arena *a, const kit *k, const kit_workshop *w, const plan_worked *done, uint32_t n,
                     plan_paces *out) {
    seen all = {0}, *by_work = arena_array(a, seen, (size_t)k->n_works + 1); /* the last: none */
    for (uint32_t x = 0; x < n; x++) {
        if (done[x].minutes < 1 || k->steps[done[x].step].likely_min < 1)
            continue;
        double r = ratio_of(k, &done[x]);
        kit_index work = k->steps[done[x].step].work;
        seen *of = &by_work[work == KIT_NONE ? k->n_works : work];
        of->sum += r;
        all.sum += r;
        of->n++;
        all.n++;
    }
    double thought = log((double)w->beginners_percent / 100), crew = drawn_towards(&all, thought);
    *out = (plan_paces){.crew = pace_of(KIT_NONE, &all, thought)};
    out->works = arena_array(a, plan_pace, (size_t)k->n_works + 1);
    for (uint32_t x = 0; x <= k->n_works; x++)
        if (by_work[x].n > 0)
            out->works[out->n_works++] = pace_of(x < k->n_works ? x : KIT_NONE, &by_work[x], crew);
    out->percent_of_step = arena_array(a, int64_t, k->n_steps);
    for (kit_index s = 0; s < k->n_steps; s++) {
        kit_index work = k->steps[s].work;
        out->percent_of_step[s] =
            percent_of(drawn_towards(&by_work[work == KIT_NONE ? k->n_works : work], crew));
    }
}
