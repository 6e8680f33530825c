/* check_tightening.c: is each piece closed in the end, with a figure where one is due? */
#include <stdlib.h>

#include "kit/inside.h"

static void check_torque(kit_checker *c, const kit_step_part *p) {
    if (p->tightening == KIT_TORQUE && p->torque_cnm < 0)
        fault_add(c->faults, kit_place(c, "step_parts", p->row, "torque_nm"),
                  "write the maker's figure, or tighten by hand",
                  "the tightening is torque, but there is no figure");
    if (p->tightening != KIT_TORQUE && p->torque_cnm >= 0)
        fault_add(c->faults, kit_place(c, "step_parts", p->row, "torque_nm"),
                  "make the tightening torque, or leave the cell empty",
                  "there is a torque, but the tightening is %.*s",
                  TEXT_ARG(kit_word("step_parts", "tightening", p->tightening)));
}

static void check_closing(kit_checker *c, const kit_step_part *p) {
    const kit *k = c->kit;
    fault_place place = kit_place(c, "step_parts", p->row, "closed_by");
    if (p->closed_by == KIT_NONE) {
        if (p->tightening == KIT_LOOSE)
            fault_add(c->faults, place, "name the later step that tightens it",
                      "it is left loose, and no step closes it");
        return;
    }
    if (p->tightening != KIT_LOOSE) {
        fault_add(c->faults, place, "make the tightening loose, or leave the cell empty",
                  "step %.*s closes it, but it is not left loose", TEXT_ARG(k->steps[p->closed_by].number));
        return;
    }
    if (kit_state(k, "step_after")->damaged ||
        (p->closed_by != p->step && kit_comes_before(&c->order, p->step, p->closed_by)))
        return;
    fault_add(c->faults, place, "name a later step, or add the order to step_after",
              "step %.*s closes it, but does not come after step %.*s",
              TEXT_ARG(k->steps[p->closed_by].number), TEXT_ARG(k->steps[p->step].number));
}

static int compare_numbers(int64_t a, int64_t b) {
    return (a > b) - (a < b);
}

/* All that makes two lines the same work. */
static int compare_lines(const kit_step_part *a, const kit_step_part *b) {
    int order = compare_numbers(a->step, b->step);
    if (!order)
        order = compare_numbers(a->part, b->part);
    if (!order)
        order = compare_numbers(a->tightening, b->tightening);
    if (!order)
        order = compare_numbers(a->torque_cnm, b->torque_cnm);
    if (!order)
        order = compare_numbers(a->condition, b->condition);
    if (!order)
        order = compare_numbers(a->closed_by, b->closed_by);
    return order ? order : text_compare(a->order, b->order);
}

static int compare_positions(const void *left, const void *right, void *context) {
    const kit_step_part *lines = context;
    uint32_t i = *(const uint32_t *)left, j = *(const uint32_t *)right;
    int order = compare_lines(&lines[i], &lines[j]);
    return order ? order : (i > j) - (i < j);
}

static void check_doubled(kit_checker *c) {
    const kit *k = c->kit;
    uint32_t *sorted = arena_array(c->memory, uint32_t, k->n_step_parts);
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_step_parts; i++)
        if (!kit_state(k, "step_parts")->faulty[i])
            sorted[n++] = i;
    qsort_r(sorted, n, sizeof *sorted, compare_positions, k->step_parts);
    for (uint32_t i = 1, first = 0; i < n; i++) {
        const kit_step_part *line = &k->step_parts[sorted[i]];
        if (compare_lines(&k->step_parts[sorted[first]], line) != 0)
            first = i;
        else
            fault_add(c->faults, kit_place(c, "step_parts", line->row, ""),
                      "add the quantities and keep one of the rows", "it says the same of \"%.*s\" as row %u",
                      TEXT_ARG(k->parts[line->part].number), k->step_parts[sorted[first]].row);
    }
}

void kit_check_tightening(kit_checker *c) {
    for (uint32_t i = 0; i < c->kit->n_step_parts; i++) {
        if (kit_state(c->kit, "step_parts")->faulty[i])
            continue;
        check_torque(c, &c->kit->step_parts[i]);
        check_closing(c, &c->kit->step_parts[i]);
    }
    check_doubled(c);
}
