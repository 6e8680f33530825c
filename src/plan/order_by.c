/* order_by.c: backward from the plan: the day of the first step that uses it, less the days to obtain it. */
#include "plan/order_by.h"

#include <stdlib.h>
#include <string.h>

/* How many of a tool one step wants at most, beyond what the workshop has; with no table of tools it has none. */
static int64_t tools_lacking(const plan_input *in, kit_index tool) {
    const kit *k = in->kit;
    const kit_workshop *w = in->workshop;
    int64_t most = 0, owned = 0;
    for (uint32_t x = 0; x < k->n_step_tools; x++)
        if (k->step_tools[x].tool == tool && k->step_tools[x].quantity > most)
            most = k->step_tools[x].quantity;
    for (uint32_t x = 0; w && x < w->n_tools; x++)
        owned += w->tools[x].what == tool ? w->tools[x].quantity : 0;
    return most > owned ? most - owned : 0;
}

/* The workshop with enough of every tool for any one step. */
static const kit_workshop *with_tools(arena *a, const plan_input *in) {
    kit_workshop *w = arena_new(a, kit_workshop);
    *w = *in->workshop;
    if (w->n_tools == 0) /* no table: taken to have enough */
        return w;
    kit_owned *tools = arena_array(a, kit_owned, (size_t)w->n_tools + in->kit->n_tools);
    memcpy(tools, w->tools, w->n_tools * sizeof *tools);
    for (kit_index t = 0; t < in->kit->n_tools; t++) {
        int64_t lacking = tools_lacking(in, t);
        if (lacking > 0)
            tools[w->n_tools++] = (kit_owned){.what = t, .quantity = lacking};
    }
    w->tools = tools;
    return w;
}

static void put_order(plan_chase *c, const plan *p, plan_order x, int64_t days) {
    const plan_step *s = plan_find_step(p, x.step);
    x.needed = s->start;
    x.dated = s->start_dated;
    x.days_known = days > 0;
    if (x.dated && x.days_known)
        x.order_by = date_of_moment(s->start) - (date_day)days;
    c->orders[c->n_orders++] = x;
}

/* The step of the plan that uses it first; KIT_NONE. */
static kit_index first_use(const plan *p, bool is_tool, kit_index what) {
    const kit *k = p->kit;
    for (uint32_t n = 0; n < p->n_steps; n++) { /* by start */
        kit_index step = p->steps[n].step;
        for (uint32_t x = 0; is_tool && x < k->n_step_tools; x++)
            if (k->step_tools[x].tool == what && k->step_tools[x].step == step)
                return step;
        for (uint32_t x = 0; !is_tool && x < k->n_step_consumables; x++)
            if (k->step_consumables[x].consumable == what && k->step_consumables[x].step == step)
                return step;
    }
    return KIT_NONE;
}

static int64_t taken(const plan *p, kit_index consumable) {
    int64_t sum = 0;
    for (uint32_t x = 0; x < p->kit->n_step_consumables; x++)
        if (p->kit->step_consumables[x].consumable == consumable &&
            plan_find_step(p, p->kit->step_consumables[x].step))
            sum += p->kit->step_consumables[x].quantity;
    return sum;
}

static int compare_orders(const void *a, const void *b) {
    const plan_order *x = a, *y = b;
    bool known_x = x->dated && x->days_known, known_y = y->dated && y->days_known;
    if (known_x != known_y)
        return known_x ? -1 : 1;
    if (known_x && x->order_by != y->order_by)
        return x->order_by < y->order_by ? -1 : 1;
    if (x->needed != y->needed)
        return x->needed < y->needed ? -1 : 1;
    if (x->is_tool != y->is_tool)
        return x->is_tool ? -1 : 1;
    return x->what < y->what ? -1 : x->what > y->what;
}

bool order_by(arena *a, const plan_input *in, plan_chase *c, err *e) {
    plan_input all = *in;
    plan *p;
    if (in->workshop) /* without one plan_make says what is missing */
        all.workshop = with_tools(a, in);
    all.known_starts = NULL;
    if (!plan_make(a, &all, &p, e))
        return false;
    c->n_plans++;
    c->orders = arena_array(a, plan_order, (size_t)in->kit->n_tools + in->kit->n_consumables);
    for (kit_index t = 0; t < in->kit->n_tools; t++) {
        plan_order x = {true, t, tools_lacking(in, t), first_use(p, true, t), 0, false, false, 0};
        if (x.quantity > 0 && x.step != KIT_NONE)
            put_order(c, p, x, in->kit->tools[t].days_to_obtain);
    }
    for (kit_index t = 0; t < in->kit->n_consumables; t++) {
        plan_order x = {false, t, taken(p, t), first_use(p, false, t), 0, false, false, 0};
        if (x.step != KIT_NONE)
            put_order(c, p, x, in->kit->consumables[t].days_to_obtain);
    }
    if (c->n_orders > 1)
        qsort(c->orders, c->n_orders, sizeof *c->orders, compare_orders);
    return true;
}
