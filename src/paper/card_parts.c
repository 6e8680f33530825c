/* card_parts.c: what is drawn and fetched for a step: parts, tools, consumables. */
#include "paper/card.h"
#include "paper/table.h"
#include "paper/wording.h"

void card_parts(const card *c, sheet *s) {
    static const table_column columns[] = {
        {.head = "drawn", .width = MM(12), .align = TYPE_CENTRE},
        {.head = "how many", .width = MM(18), .align = TYPE_END, .bold = true},
        {.head = "number", .width = MM(22)},
        {.head = "what it is", .share = 8},
        {.head = "tightening", .share = 5},
    };
    const kit *k = c->kit;
    arena *a = c->memory;
    table_form form = {.columns = columns, .n = 5, .least_row = 18};
    table t;
    bool any = false;
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->step != c->step)
            continue;
        if (!any) {
            card_block(s, "Parts to draw", 60);
            t = table_begin(s, &form, card_left(s));
        }
        any = true;
        table_cell cells[] = {
            {.kind = CELL_TICK},
            {.main = wording_quantity(a, p->quantity, wording_unit(k, p->part))},
            {.main = k->parts[p->part].number},
            {.main = wording_part_line(a, &k->parts[p->part])},
            {.main = wording_tightening(a, k, p)},
        };
        table_row(&t, cells);
    }
    if (any) {
        table_end(&t);
        card_end_block(s);
    }
}

/* Everything to fetch, in the order of the tables. */
static uint32_t list_things(const card *c, text *list, uint32_t most) {
    const kit *k = c->kit;
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_step_tools && n < most; i++)
        if (k->step_tools[i].step == c->step)
            list[n++] = wording_tool(c->memory, &k->tools[k->step_tools[i].tool], k->step_tools[i].quantity);
    for (uint32_t i = 0; i < k->n_step_consumables && n < most; i++) {
        const kit_step_consumable *use = &k->step_consumables[i];
        if (use->step != c->step)
            continue;
        const kit_consumable *thing = &k->consumables[use->consumable];
        list[n++] = arena_format(c->memory, "%.*s %.*s",
                                 TEXT_ARG(wording_quantity(c->memory, use->quantity, thing->unit)),
                                 TEXT_ARG(thing->name));
    }
    return n;
}

/* Two beside each other, so that a list of tools stays short. */
void card_tools(const card *c, sheet *s) {
    static const table_column columns[] = {
        {.head = "", .width = MM(7)},
        {.head = "", .share = 1},
        {.head = "", .width = MM(7)},
        {.head = "", .share = 1},
    };
    uint32_t most = c->kit->n_step_tools + c->kit->n_step_consumables;
    text *things = arena_array(c->memory, text, most);
    uint32_t n = list_things(c, things, most);
    if (n == 0)
        return;
    card_block(s, "Tools", 30);
    table_form form = {.columns = columns, .n = 4, .no_head = true};
    table t = table_begin(s, &form, card_left(s));
    for (uint32_t i = 0; i < n; i += 2) {
        bool pair = i + 1 < n;
        table_cell cells[] = {
            {.kind = CELL_TICK},
            {.main = things[i]},
            {.kind = pair ? CELL_TICK : CELL_TEXT},
            {.main = pair ? things[i + 1] : TEXT("")},
        };
        table_row(&t, cells);
    }
    table_end(&t);
    card_end_block(s);
}
