/* run_lists.c: the evening as lists: by time, what to lay out, what to mind, what is tested. */
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

void run_draw_times(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "from", .width = MM(13), .align = TYPE_END, .bold = true},
        {.head = "to", .width = MM(13), .align = TYPE_END, .bold = true, .ledger = true},
        {.head = "step", .share = 10},
        {.head = "who", .share = 8},
        {.head = "where", .share = 6},
        {.head = "done", .width = MM(11), .align = TYPE_CENTRE},
    };
    const kit *k = r->plan->kit;
    run_heading(s, "Who does what", 60);
    table_form form = {.columns = columns, .n = 6};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < r->n_steps; i++) {
        const run_step *step = &r->steps[i];
        const kit_step *what = &k->steps[step->planned->step];
        for (uint32_t j = 0; j < step->n; j++) {
            const plan_stretch *stretch = step->stretches[j];
            bool first = j == 0, last = j + 1 == step->n;
            table_cell cells[] = {
                {.main = run_clock(r, stretch->start_min)},
                {.main = run_clock(r, stretch->end_min)},
                {.main = first
                             ? wording_step(r->memory, k, step->planned->step)
                             : arena_format(r->memory, "%.*s after the change-over", TEXT_ARG(what->number)),
                 .under = first ? state_of(r, step) : TEXT("")},
                {.main = supervision_of(r, what, stretch)},
                {.main = what->zone == KIT_NONE ? TEXT("anywhere") : k->zones[what->zone].name},
                {.kind = last && !step->goes_on ? CELL_TICK : CELL_TEXT},
            };
            table_row(&t, cells);
        }
    }
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
            run_heading(s, "Lay out tonight", 30);
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

void run_draw_wear(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "step", .width = MM(16), .bold = true, .ledger = true},
        {.head = "wear", .share = 1},
        {.head = "do not wear", .share = 1},
    };
    const kit *k = r->plan->kit;
    table_form form = {.columns = columns, .n = 3};
    table t = {0};
    bool any = false;
    for (uint32_t i = 0; i < r->n_steps; i++) {
        const kit_step *step = &k->steps[r->steps[i].planned->step];
        if (!step->wear.n && !step->not_wear.n)
            continue;
        if (!any) {
            run_heading(s, "Clothing and protection", 46);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        table_cell cells[] = {
            {.main = step->number},
            {.main = wording_list(r->memory, step->wear, "–")},
            {.main = wording_list(r->memory, step->not_wear, "–")},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}

void run_draw_cautions(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "step", .width = MM(16), .bold = true, .ledger = true},
        {.head = "what can happen", .share = 4, .bold = true},
        {.head = "to whom", .share = 3},
        {.head = "what prevents it", .share = 5},
    };
    const kit *k = r->plan->kit;
    table_form form = {.columns = columns, .n = 4};
    table t = {0};
    bool any = false;
    for (uint32_t i = 0; i < r->n_steps; i++) {
        for (uint32_t j = 0; j < k->n_step_cautions; j++) {
            const kit_step_caution *c = &k->step_cautions[j];
            if (c->step != r->steps[i].planned->step)
                continue;
            if (!any) {
                run_heading(s, "Cautions", 46);
                t = table_begin(s, &form, s->left);
            }
            any = true;
            table_cell cells[] = {{.main = k->steps[c->step].number},
                                  {.main = c->hazard},
                                  {.main = c->who},
                                  {.main = c->control}};
            table_row(&t, cells);
        }
    }
    if (any)
        table_end(&t);
}

void run_draw_tests(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "step", .width = MM(16), .bold = true, .ledger = true},
        {.head = "test", .share = 5},
        {.head = "must be", .share = 3},
        {.head = "signed by", .share = 2},
    };
    const kit *k = r->plan->kit;
    table_form form = {.columns = columns, .n = 4};
    table t = {0};
    bool any = false;
    for (uint32_t i = 0; i < r->n_steps; i++) {
        for (uint32_t j = 0; j < k->n_step_tests; j++) {
            const kit_step_test *test = &k->step_tests[j];
            if (test->step != r->steps[i].planned->step || r->steps[i].goes_on)
                continue;
            if (!any) {
                run_heading(s, "Tests and hold points", 46);
                t = table_begin(s, &form, s->left);
            }
            any = true;
            table_cell cells[] = {
                {.main = k->steps[test->step].number},
                {.main = test->what, .under = test->hold_point ? TEXT("HOLD POINT") : TEXT("")},
                {.main = wording_limits(r->memory, test)},
                {.main = text_of(wording_signer(test->signed_by))},
            };
            table_row(&t, cells);
        }
    }
    if (any)
        table_end(&t);
}
