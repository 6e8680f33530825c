/* demo_kit.c: reads demo/kit and demo/workshop from the project's root. */
#include "demo/demo_kit.h"

#include <stdio.h>

static int print_faults(faults *f, const err *e) {
    char line[1024];
    if (e->kind != ERR_NONE) {
        err_print(e, line, sizeof line);
        fprintf(stderr, "%s\n", line);
    }
    for (size_t i = 0; i < f->n; i++) {
        text place = fault_place_text(f->memory, f->list[i].place);
        fprintf(stderr, "%.*s: %.*s; %.*s\n", TEXT_ARG(place), TEXT_ARG(f->list[i].cause),
                TEXT_ARG(f->list[i].remedy));
    }
    return -1;
}

/* The closure of step_after, step by step in build order: what a step follows, and all that those follow. */
static const bool *close_order(arena *a, const kit *k) {
    bool *after = arena_array(a, bool, (size_t)k->n_steps * k->n_steps);
    const kit_index *order = kit_build_order(a, k);
    for (uint32_t i = 0; i < k->n_steps; i++)
        for (uint32_t r = 0; r < k->n_step_after; r++) {
            if (k->step_after[r].step != order[i])
                continue;
            bool *mine = after + (size_t)order[i] * k->n_steps;
            const bool *theirs = after + (size_t)k->step_after[r].after * k->n_steps;
            mine[k->step_after[r].after] = true;
            for (uint32_t s = 0; s < k->n_steps; s++)
                mine[s] = mine[s] || theirs[s];
        }
    return after;
}

int demo_open(void **state) {
    arena *a = arena_open();
    demo *d = arena_new(a, demo);
    faults f = faults_in(a);
    err e = {0};
    d->memory = a;
    *state = d;
    if (!kit_read(a, "demo/kit", "demo/workshop", &f, &d->kit, &d->workshop, &e) ||
        !kit_check(d->kit, d->workshop, &f))
        return print_faults(&f, &e);
    d->after = close_order(a, d->kit);
    return 0;
}

int demo_close(void **state) {
    arena_close(((demo *)*state)->memory);
    return 0;
}

const demo *demo_of(void **state) {
    return *state;
}

bool demo_comes_after(const demo *d, kit_index step, kit_index earlier) {
    return d->after[(size_t)step * d->kit->n_steps + earlier];
}

static bool lies_in(const kit *k, kit_index inner, kit_index container) {
    for (; inner != KIT_NONE; inner = k->containers[inner].inside)
        if (inner == container)
            return true;
    return false;
}

int64_t demo_batteries_in(const kit *k, kit_index container, int64_t capacity_mah) {
    int64_t n = 0;
    for (uint32_t b = 0; b < k->n_batteries; b++)
        for (uint32_t r = 0; r < k->n_rows; r++)
            if (k->batteries[b].capacity_mah == capacity_mah && k->rows[r].part == k->batteries[b].part &&
                lies_in(k, k->rows[r].container, container))
                n += k->rows[r].quantity;
    return n;
}

bool demo_is_work(const kit *k, kit_index step, const char *work) {
    kit_index w = k->steps[step].work;
    return w != KIT_NONE && text_is(k->works[w].number, work);
}

bool demo_says(kit_texts texts, const char *word) {
    for (uint32_t i = 0; i < texts.n; i++)
        if (text_find(texts.list[i], text_of(word)) >= 0)
            return true;
    return false;
}

bool demo_cautions(const kit *k, kit_index step, const char *word) {
    for (uint32_t c = 0; c < k->n_step_cautions; c++) {
        const kit_step_caution *caution = &k->step_cautions[c];
        if (caution->step == step && (text_find(caution->hazard, text_of(word)) >= 0 ||
                                      text_find(caution->control, text_of(word)) >= 0))
            return true;
    }
    return false;
}
