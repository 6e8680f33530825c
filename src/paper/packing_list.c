/* packing_list.c: what the maker puts into each box and bag, with the mass it must then have. */
#include "paper/kit_sheet.h"

typedef struct {
    const kit_sheet *sheet;
    kit_index box;
} box_list;

static const table_column columns[] = {
    {.head = "row", .width = MM(10), .align = TYPE_END, .ledger = true},
    {.head = "packed", .width = MM(14), .align = TYPE_CENTRE},
    {.head = "how many", .width = MM(19), .align = TYPE_END, .bold = true},
    {.head = "number", .width = MM(26)},
    {.head = "what it is", .share = 1},
    {.head = "of them spare", .width = MM(16), .align = TYPE_END},
    {.head = "mass", .width = MM(22), .align = TYPE_END},
};
enum { N_COLUMNS = sizeof columns / sizeof columns[0] };

static int64_t row_mg(const kit *k, const kit_row *r) {
    int64_t each = k->parts[r->part].mass_mg, all;
    return each < 0 || __builtin_mul_overflow(each, r->quantity, &all) ? -1 : all;
}

/* "contents 1.2 kg", "contents 1.2 kg and 2 rows of unknown mass"; what is nested in it counts. */
static void add_mass(const kit *k, kit_index container, int64_t *mg, uint32_t *unknown) {
    for (uint32_t i = 0; i < k->n_rows; i++) {
        if (k->rows[i].container != container)
            continue;
        int64_t more = row_mg(k, &k->rows[i]);
        if (more < 0 || __builtin_add_overflow(*mg, more, mg))
            (*unknown)++;
    }
    for (kit_index i = 0; i < k->n_containers; i++)
        if (k->containers[i].inside == container)
            add_mass(k, i, mg, unknown);
}

static text masses(const kit_sheet *c, kit_index container) {
    arena *a = c->memory;
    const kit_container *of = &c->kit->containers[container];
    int64_t mg = 0;
    uint32_t unknown = 0;
    add_mass(c->kit, container, &mg, &unknown);
    text contents = arena_format(a, "contents %.*s", TEXT_ARG(wording_mass(a, (mg + 500) / 1000)));
    if (unknown)
        contents = arena_format(a, "%.*s and %u row%s of unknown mass", TEXT_ARG(contents), unknown,
                                unknown == 1 ? "" : "s");
    if (of->gross_mass_g >= 0)
        contents = arena_format(a, "%.*s; with packing %.*s", TEXT_ARG(contents),
                                TEXT_ARG(wording_mass(a, of->gross_mass_g)));
    return contents;
}

static void add_row(const kit_sheet *c, table *t, const kit_row *r) {
    arena *a = c->memory;
    const kit_part *p = &c->kit->parts[r->part];
    int64_t mg = row_mg(c->kit, r);
    table_cell cells[N_COLUMNS] = {
        {.main = arena_format(a, "%lld", (long long)r->line)},
        {.kind = CELL_TICK},
        {.main = wording_quantity(a, r->quantity, r->unit)},
        {.main = p->number},
        {.main = wording_part(a, p)},
        {.main = r->spare ? arena_format(a, "%lld", (long long)r->spare) : TEXT("")},
        {.main = mg < 0 ? TEXT("?") : wording_mass(a, (mg + 500) / 1000)},
    };
    table_row(t, cells);
}

static void add_container(const kit_sheet *c, table *t, kit_index container) {
    const kit *k = c->kit;
    table_band(t, (table_band_text){.title = wording_container(c->memory, k, container),
                                    .remark = masses(c, container),
                                    .tick = "weighed",
                                    .blank = "g"});
    for (uint32_t i = 0; i < k->n_rows; i++)
        if (k->rows[i].container == container)
            add_row(c, t, &k->rows[i]);
    for (kit_index i = 0; i < k->n_containers; i++)
        if (k->containers[i].inside == container)
            add_container(c, t, i);
}

static void compose(sheet *s, const void *what) {
    const box_list *l = what;
    masthead m = {.kind = "PACKING LIST",
                  .title = wording_container(l->sheet->memory, l->sheet->kit, l->box),
                  .subtitle = masses(l->sheet, l->box)};
    masthead_draw(s, &m);
    sheet_blank(s, "packed by", s->left, s->y, sheet_width(s) * 0.4);
    sheet_blank(s, "day", s->left + sheet_width(s) * 0.45, s->y, sheet_width(s) * 0.2);
    sheet_blank(s, "gross, kg", s->left + sheet_width(s) * 0.7, s->y, sheet_width(s) * 0.3);
    s->y += 24;
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 16};
    table t = table_begin(s, &form, s->left);
    add_container(l->sheet, &t, l->box);
    table_end(&t);
}

void add_packing_lists(book *b, const kit_sheet *k) {
    for (kit_index i = 0; i < k->kit->n_containers; i++) {
        if (k->kit->containers[i].kind != KIT_BOX)
            continue;
        arena *a = arena_open(); /* of one box: memory does not grow with their number */
        kit_sheet own = {a, k->kit};
        box_list l = {&own, i};
        text name = arena_format(a, "Packing list · %.*s", TEXT_ARG(wording_container(a, k->kit, i)));
        book_add(b, &(book_section){.outline = name, .running = name, .compose = compose, .what = &l});
        arena_close(a);
    }
}
