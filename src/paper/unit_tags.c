/* unit_tags.c: a tag to tie to each half-built unit: what is done to it, what is only hand-tight, what comes next. */
#include "paper/kit_sheet.h"

typedef struct {
    const kit_sheet *sheet;
    kit_index unit;
} unit_tag;

static bool leaves_loose(const kit *k, kit_index step) {
    for (uint32_t i = 0; i < k->n_step_parts; i++)
        if (k->step_parts[i].step == step && k->step_parts[i].closed_by != KIT_NONE)
            return true;
    return false;
}

/* The first step on the main machine that waits for a step of the unit. */
static kit_index joining_step(const kit *k, kit_index unit) {
    for (uint32_t i = 0; i < k->n_step_after; i++) {
        const kit_after *a = &k->step_after[i];
        if (k->steps[a->after].sub_assembly == unit && k->steps[a->step].sub_assembly != unit)
            return a->step;
    }
    return KIT_NONE;
}

static const table_column columns[] = {
    {.head = "done", .width = MM(12), .align = TYPE_CENTRE, .ledger = true},
    {.head = "step: the first without a tick is next", .share = 5},
    {.head = "left loose", .share = 2, .bold = true},
    {.head = "unit 2, 3, …", .width = MM(32)},
    {.head = "by, day", .width = MM(34)},
};
enum { N_COLUMNS = sizeof columns / sizeof columns[0] };

static void add_steps(const unit_tag *tag, sheet *s) {
    const kit *k = tag->sheet->kit;
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 20};
    table t = table_begin(s, &form, s->left);
    for (kit_index i = 0; i < k->n_steps; i++) {
        if (k->steps[i].sub_assembly != tag->unit)
            continue;
        table_cell cells[N_COLUMNS] = {{.kind = CELL_TICK},
                                       {.main = wording_step(tag->sheet->memory, k, i)},
                                       {.main = leaves_loose(k, i) ? TEXT("hand-tight only") : TEXT("")},
                                       {.kind = CELL_LINE},
                                       {.kind = CELL_LINE}};
        table_row(&t, cells);
    }
    table_end(&t);
}

static void compose(sheet *s, const void *what) {
    const unit_tag *tag = what;
    const kit *k = tag->sheet->kit;
    const kit_sub_assembly *unit = &k->sub_assemblies[tag->unit];
    kit_index join = joining_step(k, tag->unit);
    text joins = join == KIT_NONE ? TEXT("stays by itself")
                                  : arena_format(tag->sheet->memory, "joins at %.*s",
                                                 TEXT_ARG(wording_step(tag->sheet->memory, k, join)));
    masthead m = {
        .kind = "UNIT TAG · NOT FINISHED, DO NOT USE",
        .title = arena_format(tag->sheet->memory, "%.*s %.*s", TEXT_ARG(unit->number), TEXT_ARG(unit->name)),
        .subtitle = joins};
    masthead_draw(s, &m);
    add_steps(tag, s);
    s->y += 10;
    sheet_blank(s, "lies at", s->left, s->y, sheet_width(s) * 0.45);
    sheet_blank(s, "waits for", s->left + sheet_width(s) * 0.5, s->y, sheet_width(s) * 0.5);
    s->y += 26;
    type_style big = {.size = TYPE_HEAD, .bold = true, .colour = INK_BLACK};
    sheet_tick(s, s->left, s->y + 2, 14);
    sheet_paragraph(s, TEXT("hand-tight only: nothing may hang on it"), big, s->left + 22,
                    sheet_width(s) - 22);
    s->y += 4;
    sheet_tick(s, s->left, s->y + 2, 14);
    sheet_paragraph(s, TEXT("glue or sealant is curing until"), big, s->left + 22, sheet_width(s) - 22);
}

void add_unit_tags(book *b, const kit_sheet *k) {
    for (kit_index i = 0; i < k->kit->n_sub_assemblies; i++) {
        text name = arena_format(k->memory, "Tag · %.*s", TEXT_ARG(k->kit->sub_assemblies[i].name));
        unit_tag tag = {k, i};
        book_add(b, &(book_section){.outline = name, .running = name, .compose = compose, .what = &tag});
    }
}
