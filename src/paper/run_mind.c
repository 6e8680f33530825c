/* run_mind.c: what to mind tonight: cautions, clothing, tests. What several steps share is said once. */
#include "paper/masthead.h"
#include "paper/run.h"
#include "paper/table.h"
#include "paper/wording.h"

/* "S01, S04": collects the numbers of steps. */
static void add_step(const run *r, buf *b, uint32_t i) {
    buf_addf(b, "%s%.*s", b->len ? ", " : "",
             TEXT_ARG(r->plan->kit->steps[r->steps[i].planned->step].number));
}

static text settle(const run *r, buf *b) {
    text t = arena_text(r->memory, buf_text(b));
    buf_free(b);
    return t;
}

static bool same_texts(kit_texts a, kit_texts b) {
    if (a.n != b.n)
        return false;
    for (uint32_t i = 0; i < a.n; i++)
        if (!text_equal(a.list[i], b.list[i]))
            return false;
    return true;
}

static const kit_step *step_at(const run *r, uint32_t i) {
    return &r->plan->kit->steps[r->steps[i].planned->step];
}

static bool same_clothing(const kit_step *a, const kit_step *b) {
    return same_texts(a->wear, b->wear) && same_texts(a->not_wear, b->not_wear);
}

/* The steps dressed like step i, or an empty text when one before it already named them. */
static text dressed_alike(const run *r, uint32_t i) {
    buf b = {0};
    for (uint32_t j = 0; j < r->n_steps; j++) {
        if (!same_clothing(step_at(r, i), step_at(r, j)))
            continue;
        if (j < i) {
            buf_free(&b);
            return TEXT("");
        }
        add_step(r, &b, j);
    }
    return settle(r, &b);
}

void run_draw_wear(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "steps", .share = 2, .bold = true, .ledger = true},
        {.head = "wear", .share = 5},
        {.head = "do not wear", .share = 5},
    };
    table_form form = {.columns = columns, .n = 3};
    table t = {0};
    bool any = false;
    for (uint32_t i = 0; i < r->n_steps; i++) {
        const kit_step *step = step_at(r, i);
        text steps = step->wear.n || step->not_wear.n ? dressed_alike(r, i) : TEXT("");
        if (!steps.len)
            continue;
        if (!any) {
            heading_draw(s, "Clothing and protection", 46);
            t = table_begin(s, &form, s->left);
        }
        any = true;
        table_cell cells[] = {
            {.main = steps},
            {.main = wording_list(r->memory, step->wear, "–")},
            {.main = wording_list(r->memory, step->not_wear, "–")},
        };
        table_row(&t, cells);
    }
    if (any)
        table_end(&t);
}

static bool same_caution(const kit_step_caution *a, const kit_step_caution *b) {
    return text_equal(a->hazard, b->hazard) && text_equal(a->who, b->who) &&
           text_equal(a->control, b->control);
}

/* Cautions of the session's steps, in their order. */
static const kit_step_caution **list_cautions(const run *r, uint32_t *n) {
    const kit *k = r->plan->kit;
    const kit_step_caution **list = arena_array(r->memory, const kit_step_caution *, k->n_step_cautions);
    *n = 0;
    for (uint32_t i = 0; i < r->n_steps; i++)
        for (uint32_t j = 0; j < k->n_step_cautions; j++)
            if (k->step_cautions[j].step == r->steps[i].planned->step)
                list[(*n)++] = &k->step_cautions[j];
    return list;
}

void run_draw_cautions(const run *r, sheet *s) {
    static const table_column columns[] = {
        {.head = "steps", .share = 2, .bold = true, .ledger = true},
        {.head = "what can happen", .share = 4, .bold = true},
        {.head = "to whom", .share = 3},
        {.head = "what prevents it", .share = 5},
    };
    uint32_t n;
    const kit_step_caution **list = list_cautions(r, &n);
    if (n == 0)
        return;
    heading_draw(s, "Cautions", 46);
    table_form form = {.columns = columns, .n = 4};
    table t = table_begin(s, &form, s->left);
    for (uint32_t i = 0; i < n; i++) {
        if (!list[i])
            continue; /* named with an earlier one */
        const kit_step_caution *c = list[i];
        buf steps = {0};
        for (uint32_t j = i; j < n; j++) {
            if (!list[j] || !same_caution(c, list[j]))
                continue;
            buf_addf(&steps, "%s%.*s", steps.len ? ", " : "",
                     TEXT_ARG(r->plan->kit->steps[list[j]->step].number));
            list[j] = NULL;
        }
        table_cell cells[] = {
            {.main = settle(r, &steps)}, {.main = c->hazard}, {.main = c->who}, {.main = c->control}};
        table_row(&t, cells);
    }
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
                heading_draw(s, "Tests and hold points", 46);
                t = table_begin(s, &form, s->left);
            }
            any = true;
            table_cell cells[] = {
                {.main = k->steps[test->step].number},
                {.main = test->what, .under = test->hold_point ? TEXT("HOLD POINT") : TEXT(""), .loud = true},
                {.main = wording_limits(r->memory, test)},
                {.main = text_of(wording_signer(test->signed_by))},
            };
            table_row(&t, cells);
        }
    }
    if (any)
        table_end(&t);
}
