/* check_supplies.c: are the tools and consumables that the kit asks for enough for its own steps? */
#include "kit/inside.h"

static bool faulty(const kit_checker *c, const char *table, uint32_t i) {
    return kit_state(c->kit, table)->faulty[i];
}

static void check_tools(kit_checker *c) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_step_tools; i++) {
        const kit_step_tool *one = &k->step_tools[i];
        if (faulty(c, "step_tools", i) || faulty(c, "tools", one->tool))
            continue;
        const kit_tool *t = &k->tools[one->tool];
        if (one->quantity > t->needed)
            fault_add(c->faults, kit_place(c, "step_tools", one->row, "quantity"),
                      "lower it, or raise needed in the tools table",
                      "step %.*s needs %lld of \"%.*s\" at once, the kit asks to have %lld",
                      TEXT_ARG(k->steps[one->step].number), (long long)one->quantity, TEXT_ARG(t->number),
                      (long long)t->needed);
    }
}

static void check_consumables(kit_checker *c) {
    const kit *k = c->kit;
    int64_t *used = arena_array(c->memory, int64_t, k->n_consumables);
    bool *told = arena_array(c->memory, bool, k->n_consumables);
    for (uint32_t i = 0; i < k->n_step_consumables; i++) {
        const kit_step_consumable *one = &k->step_consumables[i];
        if (faulty(c, "step_consumables", i) || faulty(c, "consumables", one->consumable) ||
            told[one->consumable])
            continue;
        const kit_consumable *what = &k->consumables[one->consumable];
        used[one->consumable] += one->quantity;
        if (used[one->consumable] <= what->quantity)
            continue;
        told[one->consumable] = true;
        fault_add(c->faults, kit_place(c, "step_consumables", one->row, "quantity"),
                  "lower it, or raise the quantity in the consumables table",
                  "with this row the steps use %lld %s of \"%.*s\", the kit asks to have %lld",
                  (long long)used[one->consumable], kit_unit_word(what->unit), TEXT_ARG(what->number),
                  (long long)what->quantity);
    }
}

void kit_check_supplies(kit_checker *c) {
    check_tools(c);
    check_consumables(c);
}
