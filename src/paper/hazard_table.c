/* hazard_table.c: what can hurt whom at which step, as input for the leader's own risk assessment. */
#include "paper/kit_sheet.h"

static const table_column columns[] = {
    {.head = "step", .share = 3, .ledger = true},
    {.head = "what can happen", .share = 3, .bold = true},
    {.head = "to whom", .share = 2},
    {.head = "what prevents it", .share = 4},
    {.head = "supervision", .share = 2},
    {.head = "what we do besides", .share = 3},
};
enum { N_COLUMNS = sizeof columns / sizeof columns[0] };

static const char *supervision_word(kit_supervision s) {
    return s == KIT_BESIDE       ? "supervisor beside"
           : s == KIT_ADULT_DOES ? "an adult does it"
                                 : "adult in the room";
}

static void compose(sheet *s, const void *what) {
    const kit_sheet *c = what;
    const kit *k = c->kit;
    masthead m = {.kind = "HAZARDS",
                  .title = k->name,
                  .subtitle =
                      TEXT("What the kit's maker names, step by step. Input for your own risk assessment, "
                           "which only you can make: room, crew and local rules are not known here.")};
    masthead_draw(s, &m);
    sheet_blank(s, "assessed by", s->left, s->y, sheet_width(s) * 0.5);
    sheet_blank(s, "day", s->left + sheet_width(s) * 0.55, s->y, sheet_width(s) * 0.2);
    s->y += 22;
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 22};
    table t = table_begin(s, &form, s->left);
    for (kit_index step = 0; step < k->n_steps; step++)
        for (uint32_t i = 0; i < k->n_step_cautions; i++) {
            const kit_step_caution *h = &k->step_cautions[i];
            if (h->step != step)
                continue;
            table_cell cells[N_COLUMNS] = {{.main = wording_step(c->memory, k, step)},
                                           {.main = h->hazard},
                                           {.main = h->who},
                                           {.main = h->control},
                                           {.main = text_of(supervision_word(k->steps[step].supervision))},
                                           {.kind = CELL_TEXT}};
            table_row(&t, cells);
        }
    table_end(&t);
    s->y += 6;
    masthead_defer(
        s,
        "A hazard that stands here is not yet controlled; one that does not stand here may be there all the same.");
}

void add_hazard_table(book *b, const kit_sheet *k) {
    book_add(b, &(book_section){.outline = TEXT("Hazards"),
                                .running = TEXT("Hazards"),
                                .landscape = true,
                                .compose = compose,
                                .what = k});
}
