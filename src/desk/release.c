/* release.c: closing counts, and what stands between now and "list complete". */
#include "desk/reasons.h"

/* Nobody closes while a box still lies on a table. */
static void check_boxes(const desk *d, desk_reasons *why) {
    for (uint32_t i = 0; i < d->record.n_holds; i++) {
        const stock_hold *h = &d->record.holds[i];
        reasons_add(d, why, "%.*s is not back where it came from%s%.*s",
                    TEXT_ARG(d->kit->containers[h->container].number),
                    h->place.len ? "; it was taken to " : "", TEXT_ARG(h->place));
    }
}

bool desk_close_count(desk *d, const char *missing, desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    int64_t number;
    if (!act_check_text(text_of(missing), "--missing", e) || !act_begin(d, who, &stamp, e))
        return false;
    check_boxes(d, why);
    store_entry n = act_entry(&stamp, STORE_CLOSE);
    n.note = text_trim(text_of(missing));
    return reasons_end(d, why->n || store_append(d->file, &n, &number, e), why, e);
}

static void check_steps(const desk *d, desk_reasons *why) {
    for (kit_index i = 0; i < d->kit->n_steps; i++) {
        stock_step_state s = d->stock->work->steps[i].state;
        if (s != STOCK_DONE)
            reasons_add(d, why, "%.*s is %s", TEXT_ARG(d->kit->steps[i].number), stock_state_word(s));
    }
}

/* Every test must have a result that counts; hold points and failed ones are told by may_follow. */
static void check_tests(const desk *d, desk_reasons *why) {
    for (kit_index i = 0; i < d->kit->n_steps; i++)
        if (d->stock->work->steps[i].state == STOCK_DONE)
            may_follow(d, i, why);
    for (kit_index i = 0; i < d->kit->n_step_tests; i++) {
        const kit_step_test *t = &d->kit->step_tests[i];
        const stock_test *s = &d->stock->work->tests[i];
        if (t->hold_point || s->there || d->stock->work->steps[t->step].state != STOCK_DONE)
            continue;
        reasons_add(d, why, "test %lld of %.*s %s: %.*s", (long long)stock_test_number(d->kit, i),
                    TEXT_ARG(d->kit->steps[t->step].number),
                    s->disturbed ? "was disturbed and must be done again" : "is not done", TEXT_ARG(t->what));
    }
}

static void check_loose(const desk *d, desk_reasons *why) {
    stock_loose *list;
    uint32_t n = stock_loose_list(d->memory, d->kit, d->stock->work, &list);
    for (uint32_t i = 0; i < n; i++) {
        const kit_step_part *p = &d->kit->step_parts[list[i].need];
        reasons_add(d, why, "%lld x %.*s of %.*s are loose", (long long)p->quantity,
                    TEXT_ARG(d->kit->parts[p->part].number), TEXT_ARG(d->kit->steps[p->step].number));
    }
}

static void check_pieces(const desk *d, desk_reasons *why) {
    for (kit_index s = 0; s < d->kit->n_steps; s++)
        for (kit_index p = 0; p < d->kit->n_parts; p++) {
            int64_t n = stock_at_step(&d->record, s, p, STOCK_IN_TUB);
            if (n > 0)
                reasons_add(d, why, "%lld x %.*s lie in the tub of %.*s", (long long)n,
                            TEXT_ARG(d->kit->parts[p].number), TEXT_ARG(d->kit->steps[s].number));
        }
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        int64_t n = d->stock->work->at[p][STOCK_LOST];
        if (n > 0)
            reasons_add(d, why, "%lld x %.*s are lost and may lie in the machine", (long long)n,
                        TEXT_ARG(d->kit->parts[p].number));
    }
}

static void check_tools(const desk *d, desk_reasons *why) {
    const stock_record *r = &d->record;
    const stock_closing *last = r->n_closings ? &r->closings[r->n_closings - 1] : NULL;
    if (!last || last->entry < d->stock->work->last_entry)
        reasons_add(d, why, "no closing count was done after the last work; the tools may not all be back");
    else if (last->missing.len)
        reasons_add(d, why, "missing at the closing count: %.*s", TEXT_ARG(last->missing));
    tidy_check_tools(d, why);
    check_boxes(d, why);
}

void desk_release(const desk *d, desk_reasons *why) {
    check_steps(d, why);
    check_tests(d, why);
    check_loose(d, why);
    check_pieces(d, why);
    check_tools(d, why);
}
