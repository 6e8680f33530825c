/* card_before.c: what has to be true before the step begins: steps done, what is worn, what can hurt whom. */
#include "paper/card.h"
#include "paper/table.h"
#include "paper/wording.h"

static void add_effects(const card *c, sheet *s) {
    const kit *k = c->kit;
    for (uint32_t i = 0; i < k->n_step_effects; i++) {
        const kit_step_effect *f = &k->step_effects[i];
        if (f->step != c->step)
            continue;
        text other = wording_step(c->memory, k, f->other);
        card_item(s, false,
                  f->effect == KIT_HIDES
                      ? arena_format(c->memory,
                                     "%.*s cannot be reached afterwards: look at it and its sign-offs now",
                                     TEXT_ARG(other))
                      : arena_format(c->memory, "%.*s may be disturbed by this: test it again afterwards",
                                     TEXT_ARG(other)));
    }
}

void card_before(const card *c, sheet *s) {
    const kit *k = c->kit;
    const kit_step *step = &k->steps[c->step];
    card_block(s, "Before", 14);
    double from = s->y;
    for (uint32_t i = 0; i < k->n_step_after; i++)
        if (k->step_after[i].step == c->step)
            card_item(s, false,
                      arena_format(c->memory, "%.*s is finished",
                                   TEXT_ARG(wording_step(c->memory, k, k->step_after[i].after))));
    add_effects(c, s);
    text *works = arena_array(c->memory, text, step->not_beside.n);
    for (uint32_t i = 0; i < step->not_beside.n; i++)
        works[i] = arena_format(c->memory, "no %.*s next to this",
                                TEXT_ARG(k->works[step->not_beside.list[i]].name));
    card_items(s, true, works, step->not_beside.n);
    if (s->y == from)
        card_line(s, TEXT("nothing: this step can be the first"), false);
    card_end_block(s);
}

void card_wear(const card *c, sheet *s) {
    const kit_step *step = &c->kit->steps[c->step];
    if (step->wear.n) {
        card_block(s, "Wear", 14);
        card_items(s, false, step->wear.list, step->wear.n);
        card_end_block(s);
    }
    if (step->not_wear.n) {
        card_block(s, "Do not wear", 14);
        card_items(s, true, step->not_wear.list, step->not_wear.n);
        card_end_block(s);
    }
}

void card_cautions(const card *c, sheet *s) {
    static const table_column columns[] = {
        {.head = "what can happen", .share = 4, .bold = true},
        {.head = "to whom", .share = 3},
        {.head = "what prevents it", .share = 5},
    };
    const kit *k = c->kit;
    table_form form = {.columns = columns, .n = 3};
    table t;
    bool any = false;
    for (uint32_t i = 0; i < k->n_step_cautions; i++) {
        const kit_step_caution *caution = &k->step_cautions[i];
        if (caution->step != c->step)
            continue;
        if (!any) {
            card_loud_block(s, "Caution", 46);
            t = table_begin(s, &form, card_left(s));
        }
        any = true;
        table_cell cells[] = {{.main = caution->hazard}, {.main = caution->who}, {.main = caution->control}};
        table_row(&t, cells);
    }
    if (any) {
        table_end(&t);
        card_end_block(s);
    }
}
