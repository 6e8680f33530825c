/* tool_sheet.c: the tools to have, by kind, with sizes and counts and how long they take to come. */
#include "paper/kit_sheet.h"

static const table_column columns[] = {
    {.head = "here", .width = MM(12), .align = TYPE_CENTRE, .ledger = true},
    {.head = "how many", .width = MM(17), .align = TYPE_END, .bold = true},
    {.head = "tool", .share = 3},
    {.head = "size", .width = MM(22)},
    {.head = "number", .width = MM(22)},
    {.head = "days to obtain", .width = MM(19), .align = TYPE_END},
    {.head = "steps", .width = MM(15), .align = TYPE_END},
};
enum { N_COLUMNS = sizeof columns / sizeof columns[0] };

static uint32_t steps_with(const kit *k, kit_index tool) {
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_step_tools; i++)
        n += k->step_tools[i].tool == tool;
    return n;
}

static text count_or_dash(arena *a, int64_t n) {
    return n ? arena_format(a, "%lld", (long long)n) : TEXT("–");
}

static void add_row(const kit_sheet *c, table *t, kit_index i) {
    const kit_tool *tool = &c->kit->tools[i];
    table_cell cells[N_COLUMNS] = {
        {.kind = CELL_TICK},
        {.main = count_or_dash(c->memory, tool->needed)},
        {.main = tool->name},
        {.main = tool->size},
        {.main = tool->number},
        {.main = count_or_dash(c->memory, tool->days_to_obtain)},
        {.main = count_or_dash(c->memory, steps_with(c->kit, i))},
    };
    table_row(t, cells);
}

/* Tools of one kind stand together, in the order in which the kinds first come. */
static void add_kinds(const kit_sheet *c, table *t, bool protective) {
    const kit *k = c->kit;
    for (kit_index i = 0; i < k->n_tools; i++) {
        bool first = k->tools[i].protective == protective;
        for (kit_index j = 0; first && j < i; j++)
            first = k->tools[j].protective != protective || !text_equal(k->tools[j].kind, k->tools[i].kind);
        if (!first)
            continue;
        table_band(t, (table_band_text){.title = k->tools[i].kind.len ? k->tools[i].kind : TEXT("other"),
                                        .remark = protective ? TEXT("protective equipment") : TEXT("")});
        for (kit_index j = i; j < k->n_tools; j++)
            if (k->tools[j].protective == protective && text_equal(k->tools[j].kind, k->tools[i].kind))
                add_row(c, t, j);
    }
}

static void compose(sheet *s, const void *what) {
    const kit_sheet *c = what;
    masthead m = {
        .kind = "TOOLS", .title = c->kit->name, .subtitle = TEXT("Tools and protective equipment to have")};
    masthead_draw(s, &m);
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 16};
    table t = table_begin(s, &form, s->left);
    add_kinds(c, &t, false);
    add_kinds(c, &t, true);
    table_end(&t);
}

void add_tool_sheet(book *b, const kit_sheet *k) {
    book_add(b, &(book_section){
                    .outline = TEXT("Tools"), .running = TEXT("Tools"), .compose = compose, .what = k});
}
