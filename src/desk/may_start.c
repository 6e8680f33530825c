/* may_start.c: the rules that a step's start must keep. All that is against it is said at once. */
#include "desk/reasons.h"

#define NUMBER(step) TEXT_ARG(d->kit->steps[step].number)

static const stock_step *step_of(const desk *d, kit_index step) {
    return &d->stock->work->steps[step];
}

static void check_state(const desk *d, kit_index step, desk_reasons *why) {
    stock_step_state s = step_of(d, step)->state;
    if (s == STOCK_RUNNING || s == STOCK_DONE)
        reasons_add(d, why, "%.*s is %s already", NUMBER(step), stock_state_word(s));
}

/* Working minutes of the sessions between two moments. */
static int64_t working_between(const kit_workshop *w, date_moment from, date_moment until) {
    int64_t sum = 0;
    for (kit_index i = 0; w && i < w->n_sessions; i++) {
        const kit_session *s = &w->sessions[i];
        if (s->cancelled)
            continue;
        date_moment midnight = (date_moment)s->day * MINUTES_PER_DAY;
        date_moment a = midnight + s->start + s->opening_min, b = midnight + s->end - s->closing_min;
        a = a < from ? from : a;
        b = b > until ? until : b;
        sum += b > a ? b - a : 0;
    }
    return sum;
}

static void check_delay(const desk *d, kit_index before, date_moment now, desk_reasons *why) {
    const kit_step *s = &d->kit->steps[before];
    if (!s->delay_min)
        return;
    date_moment done = step_of(d, before)->since;
    int64_t passed = s->delay_clock == KIT_WALL_CLOCK ? now - done : working_between(d->workshop, done, now);
    if (passed >= s->delay_min)
        return;
    char wait[32];
    date_print_duration(s->delay_min - passed, wait);
    reasons_add(d, why, "%.*s needs %s more%s before anything follows it%s%.*s", NUMBER(before), wait,
                s->delay_clock == KIT_WALL_CLOCK ? "" : " of working time", s->delay_text.len ? ": " : "",
                TEXT_ARG(s->delay_text));
}

static void check_order(const desk *d, kit_index step, date_moment now, desk_reasons *why) {
    for (kit_index i = 0; i < d->kit->n_step_after; i++) {
        const kit_after *f = &d->kit->step_after[i];
        if (f->step != step)
            continue;
        if (step_of(d, f->after)->state != STOCK_DONE)
            reasons_add(d, why, "it follows %.*s, which is %s", NUMBER(f->after),
                        stock_state_word(step_of(d, f->after)->state));
        else
            check_delay(d, f->after, now, why);
    }
}

void may_follow(const desk *d, kit_index step, desk_reasons *why) {
    for (kit_index i = 0; i < d->kit->n_step_tests; i++) {
        const kit_step_test *t = &d->kit->step_tests[i];
        const stock_test *s = &d->stock->work->tests[i];
        if (t->step != step)
            continue;
        long long number = (long long)stock_test_number(d->kit, i);
        if (s->there && !s->in_limits)
            reasons_add(d, why, "test %lld of %.*s failed: %.*s", number, NUMBER(step), TEXT_ARG(t->what));
        else if (t->hold_point && s->disturbed)
            reasons_add(d, why, "hold point %lld of %.*s was disturbed and must be tested again: %.*s",
                        number, NUMBER(step), TEXT_ARG(t->what));
        else if (t->hold_point && !s->there)
            reasons_add(d, why, "hold point %lld of %.*s is not tested: %.*s", number, NUMBER(step),
                        TEXT_ARG(t->what));
        else if (t->hold_point && !s->is_signed)
            reasons_add(d, why, "hold point %lld of %.*s is not signed: %.*s", number, NUMBER(step),
                        TEXT_ARG(t->what));
    }
}

/* Nothing after a hold point starts before it is signed: at once after it, or further on. */
static void check_hold_points(const desk *d, kit_index step, desk_reasons *why) {
    bool *before = arena_array(d->memory, bool, d->kit->n_steps);
    before[step] = true;
    for (bool grew = true; grew;) {
        grew = false;
        for (kit_index i = 0; i < d->kit->n_step_after; i++) {
            const kit_after *f = &d->kit->step_after[i];
            if (!before[f->step] || before[f->after])
                continue;
            before[f->after] = true;
            grew = true;
        }
    }
    for (kit_index i = 0; i < d->kit->n_steps; i++)
        if (i != step && before[i] && step_of(d, i)->state == STOCK_DONE)
            may_follow(d, i, why);
}

static void check_parts(const desk *d, kit_index step, desk_reasons *why) {
    if (step_of(d, step)->state != STOCK_TO_DO)
        return;
    int64_t *needed = arena_array(d->memory, int64_t, d->kit->n_parts);
    for (kit_index i = 0; i < d->kit->n_step_parts; i++)
        if (d->kit->step_parts[i].step == step)
            needed[d->kit->step_parts[i].part] += d->kit->step_parts[i].quantity;
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        if (needed[p] > stock_available(d->stock, p))
            reasons_add(d, why, "it takes %lld of %.*s %.*s; %lld can be drawn", (long long)needed[p],
                        TEXT_ARG(d->kit->parts[p].number), TEXT_ARG(d->kit->parts[p].name),
                        (long long)stock_available(d->stock, p));
}

static bool excludes(const kit_step *one, const kit_step *other) {
    for (uint32_t i = 0; i < one->not_beside.n; i++)
        if (one->not_beside.list[i] == other->work)
            return true;
    return false;
}

static void check_beside(const desk *d, kit_index step, desk_reasons *why) {
    const kit_step *mine = &d->kit->steps[step];
    for (kit_index i = 0; i < d->kit->n_steps; i++) {
        const kit_step *other = &d->kit->steps[i];
        if (i == step || step_of(d, i)->state != STOCK_RUNNING)
            continue;
        if (excludes(mine, other) || excludes(other, mine))
            reasons_add(d, why, "%.*s is running, and the two may not run next to each other", NUMBER(i));
    }
}

static void check_free(const desk *d, kit_index step, text person, desk_reasons *why) {
    for (kit_index i = 0; i < d->kit->n_steps; i++) {
        const stock_step *s = step_of(d, i);
        if (i == step || s->state != STOCK_RUNNING)
            continue;
        bool beside = d->kit->steps[i].supervision == KIT_BESIDE && text_equal(s->supervisor, person);
        if (beside || reasons_is_among(&s->people, person))
            reasons_add(d, why, "%.*s is %s %.*s", TEXT_ARG(desk_person_name(d, person)),
                        beside ? "beside" : "at", NUMBER(i));
    }
}

static void check_people(const desk *d, kit_index step, const kit_texts *people, desk_reasons *why) {
    const kit_step *s = &d->kit->steps[step];
    if (d->workshop && !people->n)
        reasons_add(d, why, "say who works on it: --by NAME,...");
    else if (people->n && people->n < (uint64_t)s->people)
        reasons_add(d, why, "it takes %lld people, %u named", (long long)s->people, people->n);
    for (uint32_t i = 0; i < people->n; i++)
        check_free(d, step, people->list[i], why);
}

static void check_supervision(const desk *d, kit_index step, const kit_texts *people, text confirm,
                              desk_reasons *why) {
    const kit_step *s = &d->kit->steps[step];
    if (s->supervision == KIT_IN_ROOM)
        return;
    if (!d->workshop) {
        reasons_add(d, why,
                    "the build has no crew table, so nobody is known as an adult who may supervise it");
        return;
    }
    for (uint32_t i = 0; i < people->n && s->supervision == KIT_ADULT_DOES; i++) {
        const kit_person *p = reasons_person(d, people->list[i]);
        if (!p || !p->adult)
            reasons_add(d, why, "only adults do it, and %.*s is none",
                        TEXT_ARG(desk_person_name(d, people->list[i])));
    }
    const char *work = s->work == KIT_NONE ? "" : d->kit->works[s->work].name.at;
    int length = s->work == KIT_NONE ? 0 : (int)d->kit->works[s->work].name.len;
    if (!confirm.len)
        reasons_add(d, why, "an adult who may supervise it%s%.*s must confirm: --confirm NAME",
                    length ? " - " : "", length, work);
    else if (!reasons_may_supervise(d, confirm, step))
        reasons_add(d, why, "%.*s may not supervise it%s%.*s", TEXT_ARG(desk_person_name(d, confirm)),
                    length ? " - " : "", length, work);
    else if (s->supervision == KIT_BESIDE && reasons_is_among(people, confirm))
        reasons_add(d, why, "the supervisor stands beside and does nothing else: name others for the work");
    else if (s->supervision == KIT_ADULT_DOES && people->n && !reasons_is_among(people, confirm))
        reasons_add(d, why, "the adult who may supervise it must be one of those who do it");
    if (confirm.len && !reasons_is_among(people, confirm))
        check_free(d, step, confirm, why);
}

void may_begin(const desk *d, kit_index step, date_moment now, desk_reasons *why) {
    check_order(d, step, now, why);
    check_hold_points(d, step, why);
    check_parts(d, step, why);
    check_beside(d, step, why);
    may_have_places(d, step, why);
    may_be_in_room(d, now, why);
}

void may_start(const desk *d, kit_index step, const kit_texts *people, text confirm, date_moment now,
               desk_reasons *why) {
    check_state(d, step, why);
    if (why->n)
        return;
    may_begin(d, step, now, why);
    check_people(d, step, people, why);
    may_be_here(d, step, people, confirm, now, why);
    check_supervision(d, step, people, confirm, why);
}

void may_take_over(const desk *d, kit_index step, const kit_texts *people, date_moment now,
                   desk_reasons *why) {
    check_people(d, step, people, why);
    may_be_here(d, step, people, TEXT(""), now, why);
    check_supervision(d, step, people, step_of(d, step)->supervisor, why);
}
