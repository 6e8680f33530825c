/* state_work.c: steps, tests, people, sessions, release and the last entries, as the pages see them. */
#include "base/sys.h"
#include "web/state.h"

enum { LAST_ENTRIES = 40 };

static void put_moment(json_out *j, const char *key, date_moment m) {
    char shown[17];
    date_print_moment(m, shown);
    json_put_text(j, key, text_of(shown));
}

static void put_people(json_out *j, const char *key, kit_texts people) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < people.n; i++)
        json_put_text(j, NULL, people.list[i]);
    json_end_array(j);
}

static void put_step(state *s, const desk *d, kit_index i) {
    const stock_step *w = &d->stock->work->steps[i];
    if (w->state == STOCK_TO_DO)
        return;
    json_out *j = state_put(s, false, "step/%.*s", TEXT_ARG(d->kit->steps[i].number));
    json_put_text(j, "state", text_of(stock_state_word(w->state)));
    put_moment(j, "since", w->since);
    json_put_integer(j, "worked_min", w->worked_min);
    put_people(j, "people", w->people);
    put_people(j, "builders", w->builders);
    json_put_text(j, "supervisor", w->supervisor);
    json_put_text(j, "note", w->note);
    state_done(s);
}

static void put_test(state *s, const desk *d, kit_index i) {
    const stock_test *t = &d->stock->work->tests[i];
    const kit_step_test *k = &d->kit->step_tests[i];
    if (!t->last)
        return;
    json_out *j = state_put(s, false, "test/%.*s/%lld", TEXT_ARG(d->kit->steps[k->step].number),
                            (long long)stock_test_number(d->kit, i));
    json_put_bool(j, "counts", t->there);
    json_put_bool(j, "disturbed", t->disturbed);
    json_put_bool(j, "in_limits", t->in_limits);
    json_put_bool(j, "signed", t->is_signed);
    json_put_decimal(j, "value", t->last->milli, 3);
    json_put_text(j, "by", t->last->by);
    json_put_text(j, "signed_by", t->last->signed_by);
    state_done(s);
}

static void put_reasons(json_out *j, const char *key, const desk_reasons *why) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < why->n; i++)
        json_put_text(j, NULL, why->list[i]);
    json_end_array(j);
}

/* What can start, and what speaks against the others. */
static void put_standing(state *s, const desk *d) {
    desk_step_standing *steps;
    desk_standing all;
    date_moment now = sys_now();
    uint32_t n = desk_steps(d, now, &steps);
    for (uint32_t i = 0; i < n; i++) {
        json_out *j = state_put(s, false, "ready/%.*s", TEXT_ARG(d->kit->steps[steps[i].step].number));
        json_put_bool(j, "ready", steps[i].ready);
        put_reasons(j, "why", &steps[i].why);
        state_done(s);
    }
    desk_stand(d, now, &all);
    json_out *j = state_put(s, false, "standing");
    json_put_integer(j, "done", all.done);
    json_put_integer(j, "minutes", all.minutes);
    json_put_integer(j, "minutes_done", all.minutes_done);
    put_reasons(j, "stops", &all.stops);
    put_reasons(j, "decide", &all.decide);
    state_done(s);
}

static void put_codes(state *s, const desk *d) {
    desk_code *codes;
    uint32_t n;
    if (!desk_codes(d, &codes, &n, NULL))
        return;
    for (uint32_t i = 0; i < n; i++) {
        if (!codes[i].person.len)
            continue;
        json_out *j = state_put(s, false, "code/%.*s", TEXT_ARG(codes[i].person));
        json_put_bool(j, "locked", codes[i].locked);
        state_done(s);
    }
}

static void put_crew(state *s, const desk *d) {
    const kit_workshop *w = d->workshop;
    for (kit_index i = 0; w && i < w->n_crew; i++) {
        json_out *j = state_put(s, false, "crew/%.*s", TEXT_ARG(w->crew[i].number));
        json_put_text(j, "name", w->crew[i].name);
        json_put_bool(j, "adult", w->crew[i].adult);
        json_put_bool(j, "leader", w->crew[i].leader);
        json_put_array(j, "supervises");
        for (uint32_t n = 0; n < w->crew[i].supervises.n; n++)
            json_put_text(j, NULL, d->kit->works[w->crew[i].supervises.list[n]].name);
        json_end_array(j);
        state_done(s);
    }
}

static void put_clock(json_out *j, const char *key, int minutes) {
    char shown[6];
    if (minutes < 0)
        return;
    date_print_clock(minutes, shown);
    json_put_text(j, key, text_of(shown));
}

static void put_sessions(state *s, const desk *d) {
    const kit_workshop *w = d->workshop;
    for (kit_index i = 0; w && i < w->n_sessions; i++) {
        const kit_session *one = &w->sessions[i];
        char day[11];
        date_print(one->day, day);
        json_out *j = state_put(s, false, "session/%lld", (long long)one->number);
        json_put_text(j, "day", text_of(day));
        put_clock(j, "start", one->start);
        put_clock(j, "end", one->end);
        json_put_bool(j, "cancelled", one->cancelled);
        json_put_array(j, "differs"); /* who does not come, or not all the time */
        for (kit_index n = 0; n < w->n_attendance; n++) {
            const kit_attendance *a = &w->attendance[n];
            if (a->session != i)
                continue;
            json_put_object(j, NULL);
            json_put_text(j, "person", w->crew[a->person].number);
            json_put_bool(j, "comes", a->comes);
            put_clock(j, "from", a->from);
            put_clock(j, "until", a->until);
            json_end_object(j);
        }
        json_end_array(j);
        state_done(s);
    }
}

static void put_release(state *s, const desk *d) {
    desk_reasons why = {0};
    desk_release(d, &why);
    json_out *j = state_put(s, false, "release");
    json_put_bool(j, "complete", why.n == 0);
    json_put_array(j, "reasons");
    for (uint32_t i = 0; i < why.n; i++)
        json_put_text(j, NULL, why.list[i]);
    json_end_array(j);
    stock_loose *list;
    uint32_t n = stock_loose_list(d->memory, d->kit, d->stock->work, &list);
    json_put_array(j, "loose");
    for (uint32_t i = 0; i < n; i++) {
        const kit_step_part *p = &d->kit->step_parts[list[i].need];
        json_put_object(j, NULL);
        json_put_text(j, "step", d->kit->steps[p->step].number);
        json_put_text(j, "part", d->kit->parts[p->part].number);
        json_put_text(j, "closed_by", d->kit->steps[list[i].closed_by].number);
        json_end_object(j);
    }
    json_end_array(j);
    state_done(s);
}

/* The few compartments and tools whose recount is likeliest to show a mistake of today, within five minutes. */
static void put_recount(state *s, const desk *d) {
    enum { FIVE_MINUTES_S = 300 };
    stock_recount *list;
    date_moment today = (date_moment)date_of_moment(sys_now()) * MINUTES_PER_DAY;
    uint32_t n = stock_closing_count(d->memory, d->kit, d->stock, today, FIVE_MINUTES_S, &list);
    json_out *j = state_put(s, false, "recount");
    json_put_array(j, "list");
    for (uint32_t i = 0; i < n; i++) {
        if (!list[i].chosen)
            continue;
        bool tool = list[i].part == KIT_NONE;
        json_put_object(j, NULL);
        json_put_text(j, tool ? "tool" : "part",
                      tool ? d->kit->tools[list[i].tool].number : d->kit->parts[list[i].part].number);
        json_put_text(j, "name", tool ? d->kit->tools[list[i].tool].name : d->kit->parts[list[i].part].name);
        json_put_integer(j, "pieces", list[i].pieces);
        json_put_integer(j, "percent", (int64_t)(100 * list[i].chance + 0.5));
        json_end_object(j);
    }
    json_end_array(j);
    state_done(s);
}

/* What taking a step apart would cost, before anybody does it. */
void state_write_undoing(const desk *d, kit_index step, buf *out) {
    stock_undoing u;
    desk_plan_undoing(d, step, &u);
    json_out w = json_to(out), *j = &w;
    json_put_object(j, NULL);
    json_put_array(j, "off");
    for (uint32_t i = 0; i < u.n_off; i++)
        json_put_text(j, NULL, d->kit->steps[u.off[i]].number);
    json_end_array(j);
    json_put_array(j, "void_tests");
    for (uint32_t i = 0; i < u.n_void_tests; i++)
        json_put_text(j, NULL, d->kit->step_tests[u.void_tests[i]].what);
    json_end_array(j);
    json_put_array(j, "again");
    for (uint32_t i = 0; i < u.n_again; i++) {
        json_put_object(j, NULL);
        json_put_text(j, "part", d->kit->parts[u.again[i].part].number);
        json_put_integer(j, "quantity", u.again[i].again);
        json_put_integer(j, "available", u.again[i].available);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_integer(j, "off_min", u.off_min);
    json_put_integer(j, "redo_min", u.redo_min);
    json_end_object(j);
}

void state_put_work(state *s, const desk *d) {
    for (kit_index i = 0; i < d->kit->n_steps; i++)
        put_step(s, d, i);
    for (kit_index i = 0; i < d->kit->n_step_tests; i++)
        put_test(s, d, i);
    put_standing(s, d);
    put_crew(s, d);
    put_codes(s, d);
    put_sessions(s, d);
    put_release(s, d);
    put_recount(s, d);
}

void state_put_journal(state *s, const desk *d) {
    store_entry *list;
    size_t n;
    int64_t from = d->last_entry > LAST_ENTRIES ? d->last_entry - LAST_ENTRIES + 1 : 1;
    if (!store_read_journal(d->memory, d->file, from, &list, &n, NULL))
        return;
    for (size_t i = 0; i < n; i++) {
        const store_entry *e = &list[i];
        json_out *j = state_put(s, false, "entry/%lld", (long long)e->entry);
        put_moment(j, "at", e->at_s / 60);
        json_put_integer(j, "act", e->act);
        json_put_text(j, "person", e->person);
        json_put_text(j, "device", e->device);
        json_put_text(j, "do", text_of(store_verb_word(e->verb)));
        json_put_text(j, "words", desk_tell_entry(d, e));
        json_put_bool(j, "undone", e->undone);
        state_done(s);
    }
}
