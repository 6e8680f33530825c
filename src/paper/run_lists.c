/* run_lists.c: the evening as lists: who does what by time, and which tools to lay out. */
#include "paper/masthead.h"
#include "paper/run.h"
#include "paper/table.h"
#include "paper/wording.h"

static text supervision_of(const run *r, const kit_step *step, const plan_stretch *s) {
    text people = run_people(r, s);
    if (step->supervision != KIT_ADULT_DOES)
        return people;
    return arena_format(r->memory, "%.*s\nan adult does it", TEXT_ARG(people));
}

static text state_of(const run *r, const run_step *step) {
    const plan_step *p = step->planned;
    const char *from = step->began ? "goes on" : "begins";
    if (step->goes_on)
        return arena_format(r->memory, "%s; left half done tonight", from);
    return p->decides_finish ? arena_format(r->memory, "%s and ends; decides the finish", from)
                             : arena_format(r->memory, "%s and ends; slack %d min", from, p->slack_min);
}

/* The stretches of all steps, by time. */
typedef struct {
    const run_step *step;
    uint32_t stretch;
} entry;

static entry *list_entries(const run *r, size_t *n) {
    size_t most = 0;
    for (uint32_t i = 0; i < r->n_steps; i++)
        most += r->steps[i].n;
    entry *list = arena_array(r->memory, entry, most);
    *n = 0;
    for (uint32_t i = 0; i < r->n_steps; i++) {
        for (uint32_t j = 0; j < r->steps[i].n; j++) {
            size_t at = (*n)++;
            int32_t start = r->steps[i].stretches[j]->start_min;
            for (; at > 0 && list[at - 1].step->stretches[list[at - 1].stretch]->start_min > start; at--)
                list[at] = list[at - 1];
            list[at] = (entry){&r->steps[i], j};
        }
    }
    return list;
}

static void draw_entry(const run *r, table *t, entry e) {
    const kit *k = r->plan->kit;
    const kit_step *what = &k->steps[e.step->planned->step];
    const plan_stretch *stretch = e.step->stretches[e.stretch];
    bool first = e.stretch == 0, last = e.stretch + 1 == e.step->n;
    table_cell cells[] = {
        {.main = run_clock(r, stretch->start_min)},
        {.main = run_clock(r, stretch->end_min)},
        {.main = first ? wording_step(r->memory, k, e.step->planned->step)
                       : arena_format(r->memory, "%.*s after the change-over", TEXT_ARG(what->number)),
         .under = first ? state_of(r, e.step) : TEXT("")},
        {.main = supervision_of(r, what, stretch)},
        {.main = what->zone == KIT_NONE ? TEXT("anywhere") : k->zones[what->zone].name},
        {.kind = last && !e.step->goes_on ? CELL_TICK : CELL_TEXT},
    };
    table_row(t, cells);
}

void run_draw_times(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "from", .width = MM(13), .align = TYPE_END, .bold = true},
        {.head = "to", .width = MM(14), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "step", .share = 10},
        {.head = "who", .share = 8},
        {.head = "where", .share = 6},
        {.head = "done", .width = MM(12), .align = TYPE_CENTRE},
    };
    size_t n;
    entry *entries = list_entries(r, &n);
    heading_draw(s, "Who does what", 60);
    table_form form = {.columns = columns, .n = 6};
    table t = table_begin(s, &form, s->left);
    for (size_t i = 0; i < n; i++)
        draw_entry(r, &t, entries[i]);
    table_end(&t);
}

static bool works_at(const run_step *step, int32_t minute) {
    for (uint32_t i = 0; i < step->n; i++)
        if (step->stretches[i]->start_min <= minute && minute < step->stretches[i]->end_min)
            return true;
    return false;
}

static int64_t used_by(const kit *k, kit_index step, kit_index tool) {
    int64_t sum = 0;
    for (uint32_t i = 0; i < k->n_step_tools; i++)
        if (k->step_tools[i].step == step && k->step_tools[i].tool == tool)
            sum += k->step_tools[i].quantity;
    return sum;
}

/* The most pieces of a tool in use at once: needs only grow when a step starts, so those minutes are looked at. */
static int64_t peak_of(const run *r, kit_index tool) {
    int64_t peak = 0;
    for (uint32_t i = 0; i < r->n_steps; i++) {
        int64_t sum = 0;
        for (uint32_t j = 0; j < r->n_steps; j++)
            if (works_at(&r->steps[j], r->steps[i].stretches[0]->start_min))
                sum += used_by(r->plan->kit, r->steps[j].planned->step, tool);
        peak = sum > peak ? sum : peak;
    }
    return peak;
}

void run_draw_tools(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "", .width = MM(7)},
        {.head = "", .share = 1},
        {.head = "", .width = MM(7)},
        {.head = "", .share = 1},
    };
    const kit *k = r->plan->kit;
    table_cell cells[4] = {0};
    table_form form = {.columns = columns, .n = 4, .no_head = true};
    table t = {0};
    int filled = 0;
    bool any = false;
    for (kit_index i = 0; i < k->n_tools; i++) {
        int64_t n = peak_of(r, i);
        if (n == 0)
            continue;
        if (!any) {
            heading_draw(s, "Lay out tonight", 30);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        cells[filled++] = (table_cell){.kind = CELL_TICK};
        cells[filled++] = (table_cell){.main = wording_tool(r->memory, &k->tools[i], n)};
        if (filled == 4) {
            table_row(&t, cells);
            filled = 0;
        }
    }
    if (filled) {
        cells[2] = cells[3] = (table_cell){0};
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}
