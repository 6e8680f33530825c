/* work.c: from events to where each step, test and piece stands. */
#include "stock/stock.h"

static const char *const place_words[STOCK_PLACES] = {
    [STOCK_IN_ROW] = "row", [STOCK_IN_COMPARTMENT] = "compartment",
    [STOCK_IN_TUB] = "tub", [STOCK_FITTED_IN] = "fitted",
    [STOCK_LOST] = "lost",  [STOCK_SCRAPPED] = "scrapped",
};

const char *stock_place_word(stock_place p) {
    return place_words[p];
}

stock_place stock_place_of(text word) {
    for (int p = 0; p < STOCK_PLACES; p++)
        if (text_is(word, place_words[p]))
            return (stock_place)p;
    return STOCK_PLACES;
}

const char *stock_state_word(stock_step_state s) {
    static const char *const words[] = {"to do", "running", "left unfinished", "blocked", "done"};
    return words[s];
}

int64_t stock_test_number(const kit *k, kit_index test) {
    int64_t n = 1;
    for (kit_index i = 0; i < test; i++)
        n += k->step_tests[i].step == k->step_tests[test].step;
    return n;
}

kit_index stock_find_test(const kit *k, kit_index step, int64_t number) {
    for (kit_index i = 0; i < k->n_step_tests; i++)
        if (k->step_tests[i].step == step && --number == 0)
            return i;
    return KIT_NONE;
}

bool stock_in_limits(const kit_step_test *t, int64_t milli) {
    if (!t->unit.len)
        return milli == 1000;
    return milli >= t->low_milli && milli <= t->high_milli;
}

static void add_builders(arena *a, stock_step *s, const kit_texts *people) {
    text *list = arena_array(a, text, s->builders.n + people->n);
    uint32_t n = 0;
    for (; n < s->builders.n; n++)
        list[n] = s->builders.list[n];
    for (uint32_t i = 0; i < people->n; i++) {
        bool there = false;
        for (uint32_t j = 0; j < n && !there; j++)
            there = text_equal(list[j], people->list[i]);
        if (!there)
            list[n++] = people->list[i];
    }
    s->builders = (kit_texts){list, n};
}

/* The minutes since the last event count as work when it was running. */
static void pass_time(stock_step *s, const stock_event *v) {
    if (s->state == STOCK_RUNNING && v->at > s->since)
        s->worked_min += v->at - s->since;
    s->since = v->at;
    s->entry = v->entry;
}

static void happen(arena *a, stock_step *s, const stock_event *v) {
    pass_time(s, v);
    switch (v->kind) {
    case STOCK_STARTED:
        if (s->state == STOCK_TO_DO)
            s->began = v->at;
        s->supervisor = v->supervisor;
        s->state = STOCK_RUNNING;
        s->people = v->people;
        add_builders(a, s, &v->people);
        break;
    case STOCK_CHANGED:
        s->people = v->people;
        add_builders(a, s, &v->people);
        break;
    case STOCK_LEFT:
        s->state = STOCK_PAUSED;
        break;
    case STOCK_HELD:
        s->state = STOCK_BLOCKED;
        s->note = v->note;
        break;
    case STOCK_FINISHED:
        s->state = STOCK_DONE;
        s->worked_min = v->minutes >= 0 ? v->minutes : s->worked_min;
        break;
    case STOCK_STRIPPED:
        *s = (stock_step){.since = v->at, .entry = v->entry};
        break;
    }
}

static void follow_steps(arena *a, const kit *k, const stock_record *record, stock_work *w) {
    w->steps = arena_array(a, stock_step, k->n_steps);
    for (uint32_t i = 0; i < record->n_events; i++) {
        const stock_event *v = &record->events[i];
        happen(a, &w->steps[v->step], v);
        w->begun = true;
        w->last_at = v->at;
        w->last_entry = v->entry;
    }
}

static bool disturbs(const kit *k, kit_index one, kit_index other) {
    for (kit_index i = 0; i < k->n_step_effects; i++)
        if (k->step_effects[i].effect == KIT_DISTURBS && k->step_effects[i].step == one &&
            k->step_effects[i].other == other)
            return true;
    return false;
}

/* Is there, after `entry`, work on (or undoing of) a step that disturbs this one, or was this one itself undone? */
static bool made_void(const kit *k, const stock_record *record, kit_index step, int64_t entry) {
    for (uint32_t i = record->n_events; i-- > 0 && record->events[i].entry > entry;) {
        const stock_event *v = &record->events[i];
        if (v->step == step ? v->kind == STOCK_STRIPPED : disturbs(k, v->step, step))
            return true;
    }
    return false;
}

static void follow_tests(arena *a, const kit *k, const stock_record *record, stock_work *w) {
    w->tests = arena_array(a, stock_test, k->n_step_tests);
    for (uint32_t i = 0; i < record->n_results; i++)
        w->tests[record->results[i].test].last = &record->results[i];
    for (kit_index i = 0; i < k->n_step_tests; i++) {
        stock_test *t = &w->tests[i];
        if (!t->last)
            continue;
        t->disturbed = made_void(k, record, k->step_tests[i].step, t->last->entry);
        t->there = !t->disturbed;
        t->in_limits = stock_in_limits(&k->step_tests[i], t->last->milli);
        t->is_signed = t->last->signed_by.len > 0;
    }
}

static void follow_pieces(arena *a, const kit *k, const stock_record *record, stock_work *w) {
    w->at = arena_alloc_array(a, k->n_parts, sizeof *w->at);
    w->row_out = arena_array(a, int64_t, k->n_rows);
    for (uint32_t i = 0; i < record->n_moves; i++) {
        const stock_move *m = &record->moves[i];
        w->at[m->part][m->from] -= m->quantity;
        w->at[m->part][m->to] += m->quantity;
        if (m->row == KIT_NONE)
            continue;
        w->row_out[m->row] += m->from == STOCK_IN_ROW ? m->quantity : 0;
        w->row_out[m->row] -= m->to == STOCK_IN_ROW ? m->quantity : 0;
    }
}

const stock_work *stock_follow_work(arena *a, const kit *k, const stock_record *record) {
    stock_work *w = arena_new(a, stock_work);
    follow_steps(a, k, record, w);
    follow_tests(a, k, record, w);
    follow_pieces(a, k, record, w);
    return w;
}

int64_t stock_at_step(const stock_record *record, kit_index step, kit_index part, stock_place place) {
    int64_t n = 0;
    for (uint32_t i = 0; i < record->n_moves; i++) {
        const stock_move *m = &record->moves[i];
        if (m->step != step || m->part != part)
            continue;
        n += m->to == place ? m->quantity : 0;
        n -= m->from == place ? m->quantity : 0;
    }
    return n;
}

uint32_t stock_loose_list(arena *a, const kit *k, const stock_work *w, stock_loose **out) {
    uint32_t n = 0;
    *out = arena_array(a, stock_loose, k->n_step_parts);
    for (kit_index i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->tightening != KIT_LOOSE || w->steps[p->step].state == STOCK_TO_DO)
            continue;
        if (p->closed_by == KIT_NONE || w->steps[p->closed_by].state != STOCK_DONE)
            (*out)[n++] = (stock_loose){i, p->closed_by};
    }
    return n;
}
