/* check_order.c: no step may wait for itself.
 *
 * A depth-first walk along "after"; an edge back into the walk's own track closes a circle. The walk keeps its own
 * stack, so that a chain of any length is safe. Each circle that the walk closes is told once, at most ten in all.
 */
#include "kit/inside.h"

enum { NEW, ON_TRACK, DONE, MOST_TOLD = 10, LONGEST_TOLD = 40 };

typedef struct {
    kit_checker *checker;
    uint8_t *state;   /* by step */
    kit_index *track; /* steps from the start to here */
    uint32_t *next;   /* by step: the edge to follow next */
    uint32_t length;
    int told;
} walk;

/* "S12 after S15 after S12", from the step where the circle closes around to itself. */
static void tell_circle(walk *w, kit_index closes, uint32_t edge) {
    const kit *k = w->checker->kit;
    arena *a = w->checker->memory;
    uint32_t from = w->length;
    while (w->track[from - 1] != closes)
        from--;
    text circle = k->steps[closes].number;
    for (uint32_t i = from; i < w->length && i - from < LONGEST_TOLD; i++)
        circle = arena_format(a, "%.*s after %.*s", TEXT_ARG(circle), TEXT_ARG(k->steps[w->track[i]].number));
    if (w->length - from > LONGEST_TOLD)
        circle = arena_format(a, "%.*s after %u more", TEXT_ARG(circle), w->length - from - LONGEST_TOLD);
    fault_add(w->checker->faults,
              kit_place(w->checker, "step_after", k->step_after[w->checker->order.by[edge]].row, "after"),
              "remove one of these rows", "the order is a circle: %.*s after %.*s", TEXT_ARG(circle),
              TEXT_ARG(k->steps[closes].number));
    w->told++;
}

static void push(walk *w, kit_index step) {
    w->state[step] = ON_TRACK;
    w->next[step] = w->checker->order.first[step];
    w->track[w->length++] = step;
}

static void walk_from(walk *w, kit_index start) {
    const kit_order *o = &w->checker->order;
    push(w, start);
    while (w->length && w->told < MOST_TOLD) {
        kit_index step = w->track[w->length - 1];
        if (w->next[step] == o->first[step + 1]) {
            w->state[step] = DONE;
            w->length--;
            continue;
        }
        uint32_t edge = w->next[step]++;
        kit_index before = o->before[edge];
        if (w->state[before] == NEW)
            push(w, before);
        else if (w->state[before] == ON_TRACK)
            tell_circle(w, before, edge);
    }
}

void kit_check_order(kit_checker *c) {
    uint32_t n = c->kit->n_steps;
    walk w = {.checker = c,
              .state = arena_array(c->memory, uint8_t, n),
              .track = arena_array(c->memory, kit_index, n),
              .next = arena_array(c->memory, uint32_t, n)};
    for (kit_index step = 0; step < n && w.told < MOST_TOLD; step++)
        if (w.state[step] == NEW)
            walk_from(&w, step);
}
