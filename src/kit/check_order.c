/* check_order.c: no step may wait for itself.
 *
 * Steps that wait for each other form knots (strongly connected components, found by Tarjan's algorithm with a stack of
 * its own). In each round the shortest circle is told, because it is the easiest to see through; the row in it that is
 * most likely the mistake (a step after one that stands later in the table) is passed over from then on, and the knots
 * are found again. At most ten circles are told. A kit without circles costs one pass over the rows.
 */
#include "kit/inside.h"

enum { MOST_TOLD = 10, LONGEST_TOLD = 40 };

typedef struct {
    kit_checker *c;
    const kit_order *o;
    bool *passed_over;          /* by edge */
    uint32_t *knot;             /* by step: the number of its knot */
    uint32_t *met, *low, *next; /* by step, for the search of knots */
    kit_index *track, *open;
    kit_index *
        come_from; /* by step, for the search of circles: the step that waits for it, KIT_NONE when not met */
    uint32_t *come_by; /* and the edge that says so */
    uint32_t n_knots, n_met;
} circle_search;

static circle_search new_search(kit_checker *c) {
    const kit_order *o = &c->order;
    arena *a = c->memory;
    return (circle_search){.c = c,
                           .o = o,
                           .passed_over = arena_array(a, bool, o->first[o->n]),
                           .knot = arena_array(a, uint32_t, o->n),
                           .met = arena_array(a, uint32_t, o->n),
                           .low = arena_array(a, uint32_t, o->n),
                           .next = arena_array(a, uint32_t, o->n),
                           .track = arena_array(a, kit_index, o->n),
                           .open = arena_array(a, kit_index, o->n),
                           .come_from = arena_array(a, kit_index, o->n),
                           .come_by = arena_array(a, uint32_t, o->n)};
}

/* Tarjan's search from one step; open steps have no knot yet (0). */
static void find_knots_from(circle_search *s, kit_index start) {
    uint32_t n_track = 0, n_open = 0;
    s->track[n_track++] = start;
    while (n_track) {
        kit_index step = s->track[n_track - 1];
        if (!s->met[step]) {
            s->met[step] = s->low[step] = ++s->n_met;
            s->next[step] = s->o->first[step];
            s->open[n_open++] = step;
        }
        if (s->next[step] < s->o->first[step + 1]) {
            uint32_t edge = s->next[step]++;
            kit_index before = s->o->before[edge];
            if (s->passed_over[edge] || s->knot[before])
                continue;
            if (!s->met[before])
                s->track[n_track++] = before;
            else if (s->met[before] < s->low[step])
                s->low[step] = s->met[before];
            continue;
        }
        n_track--;
        if (n_track && s->low[step] < s->low[s->track[n_track - 1]])
            s->low[s->track[n_track - 1]] = s->low[step];
        if (s->low[step] != s->met[step])
            continue;
        s->n_knots++;
        do
            s->knot[s->open[--n_open]] = s->n_knots;
        while (s->open[n_open] != step);
    }
}

static void find_knots(circle_search *s) {
    s->n_knots = s->n_met = 0;
    for (uint32_t i = 0; i < s->o->n; i++)
        s->met[i] = s->knot[i] = 0;
    for (kit_index i = 0; i < s->o->n; i++)
        if (!s->met[i])
            find_knots_from(s, i);
}

static bool is_inside(const circle_search *s, kit_index step, uint32_t edge) {
    return !s->passed_over[edge] && s->knot[s->o->before[edge]] == s->knot[step];
}

static bool lies_in_circle(const circle_search *s, kit_index step) {
    for (uint32_t edge = s->o->first[step]; edge < s->o->first[step + 1]; edge++)
        if (is_inside(s, step, edge))
            return true;
    return false;
}

/* Breadth first from `start` inside its knot, back to it. Leaves the way in come_from and come_by, and returns how many
 * steps it has. */
static uint32_t circle_through(circle_search *s, kit_index start) {
    uint32_t n = 0, length = 0;
    for (uint32_t i = 0; i < s->o->n; i++)
        s->come_from[i] = KIT_NONE;
    s->track[n++] = start;
    for (uint32_t i = 0; i < n && s->come_from[start] == KIT_NONE; i++) {
        kit_index step = s->track[i];
        for (uint32_t edge = s->o->first[step]; edge < s->o->first[step + 1]; edge++) {
            kit_index before = s->o->before[edge];
            if (!is_inside(s, step, edge) || s->come_from[before] != KIT_NONE)
                continue;
            s->come_from[before] = step;
            s->come_by[before] = edge;
            if (before != start)
                s->track[n++] = before;
        }
    }
    kit_index at = start;
    do {
        at = s->come_from[at];
        length++;
    } while (at != start);
    return length;
}

/* "S12 after S15 after S12", and the row that is most likely the mistake. */
static void tell_circle(circle_search *s, kit_index start) {
    const kit *k = s->c->kit;
    text circle = k->steps[start].number;
    uint32_t length = circle_through(s, start), worst = s->come_by[start];
    kit_index at = start, worst_step = s->come_from[start];
    for (uint32_t i = 0; i < length; i++) {
        kit_index waits = s->come_from[at];
        if (at > waits &&
            (worst_step >= s->o->before[worst] || at - waits > s->o->before[worst] - worst_step)) {
            worst = s->come_by[at];
            worst_step = waits;
        }
        at = waits;
        if (i < LONGEST_TOLD)
            circle = arena_format(s->c->memory, "%.*s after %.*s", TEXT_ARG(k->steps[at].number),
                                  TEXT_ARG(circle));
        else if (i == LONGEST_TOLD)
            circle = arena_format(s->c->memory, "... after %.*s", TEXT_ARG(circle));
    }
    fault_add(s->c->faults, kit_place(s->c, "step_after", k->step_after[s->o->by[worst]].row, "after"),
              length == 1 ? "remove the row" : "remove this row, or another one of the circle",
              "the order is a circle: %.*s", TEXT_ARG(circle));
    s->passed_over[worst] = true;
}

void kit_check_order(kit_checker *c) {
    circle_search s = new_search(c);
    for (int told = 0; told < MOST_TOLD; told++) {
        kit_index best = KIT_NONE;
        uint32_t shortest = UINT32_MAX;
        find_knots(&s);
        for (kit_index step = 0; step < s.o->n; step++) {
            if (!lies_in_circle(&s, step))
                continue;
            uint32_t length = circle_through(&s, step);
            if (length < shortest) {
                shortest = length;
                best = step;
            }
        }
        if (best == KIT_NONE)
            return;
        tell_circle(&s, best);
    }
}
