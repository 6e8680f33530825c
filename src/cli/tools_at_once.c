#include "cli/tools_at_once.h"

#include <stdlib.h>

enum { TRIES_MOST = 2000000 };

bool *tools_order(arena *a, const kit *k) {
    size_t n = k->n_steps;
    bool *ordered = arena_array(a, bool, n *n);
    for (uint32_t i = 0; i < k->n_step_after; i++)
        ordered[k->step_after[i].after * n + k->step_after[i].step] = true;
    for (size_t via = 0; via < n; via++) /* Warshall 1962 */
        for (size_t from = 0; from < n; from++)
            if (ordered[from * n + via])
                for (size_t to = 0; to < n; to++)
                    ordered[from * n + to] |= ordered[via * n + to];
    return ordered;
}

typedef struct {
    kit_index step;
    uint32_t wanted;
} wanting_step;

typedef struct {
    const wanting_step *steps; /* most wanting first */
    uint32_t n;
    const bool *ordered;
    size_t n_all;
    kit_index *chosen;
    uint32_t n_chosen, best, tries;
} search;

static int most_first(const void *a, const void *b) {
    const wanting_step *x = a, *y = b;
    if (x->wanted != y->wanted)
        return x->wanted > y->wanted ? -1 : 1;
    return (x->step > y->step) - (x->step < y->step);
}

static bool fits(const search *s, kit_index step) {
    for (uint32_t i = 0; i < s->n_chosen; i++)
        if (s->ordered[s->chosen[i] * s->n_all + step] || s->ordered[step * s->n_all + s->chosen[i]])
            return false;
    return true;
}

/* What the next `left` steps could add at most. */
static uint32_t bound(const search *s, uint32_t from, uint32_t left) {
    uint32_t sum = 0;
    for (uint32_t i = from; i < s->n && i < from + left; i++)
        sum += s->steps[i].wanted;
    return sum;
}

static void extend(search *s, uint32_t from, uint32_t left, uint32_t sum) {
    if (sum > s->best)
        s->best = sum;
    for (uint32_t i = from; i < s->n && left > 0; i++) {
        if (sum + bound(s, i, left) <= s->best || ++s->tries > TRIES_MOST)
            return;
        if (!fits(s, s->steps[i].step))
            continue;
        s->chosen[s->n_chosen++] = s->steps[i].step;
        extend(s, i + 1, left - 1, sum + s->steps[i].wanted);
        s->n_chosen--;
    }
}

uint32_t tools_at_once(arena *a, const kit *k, const uint32_t *wanted, const bool *ordered, uint32_t groups) {
    wanting_step *steps = arena_array(a, wanting_step, k->n_steps);
    search s = {.steps = steps,
                .ordered = ordered,
                .n_all = k->n_steps,
                .chosen = arena_array(a, kit_index, k->n_steps)};
    for (uint32_t i = 0; i < k->n_steps; i++)
        if (wanted[i])
            steps[s.n++] = (wanting_step){i, wanted[i]};
    if (s.n)
        qsort(steps, s.n, sizeof *steps, most_first);
    extend(&s, 0, groups, 0);
    return s.tries > TRIES_MOST ? bound(&s, 0, groups) : s.best;
}
