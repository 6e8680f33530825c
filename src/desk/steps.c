/* steps.c: starting, leaving, ending and taking apart a step. */
#include "desk/reasons.h"

bool desk_find_step(const desk *d, text number, kit_index *out, err *e) {
    *out = kit_find_step(d->kit, text_trim(number));
    return *out != KIT_NONE ||
           err_input(e, arena_format(d->memory, "\"%.*s\"", TEXT_ARG(number)).at,
                     "write a number as kitbench steps shows it", "the kit has no step of that number");
}

static stock_step_state state_of(const desk *d, kit_index step) {
    return d->stock->work->steps[step].state;
}

static store_entry step_entry(const desk *d, const store_entry *stamp, store_verb verb, kit_index step) {
    store_entry n = act_entry(stamp, verb);
    n.step = d->kit->steps[step].number;
    return n;
}

static bool append(desk *d, const store_entry *n, err *e) {
    int64_t number;
    return store_append(d->file, n, &number, e);
}

static bool write_start(desk *d, store_entry *stamp, kit_index step, const char *people, const char *confirm,
                        desk_reasons *why, err *e) {
    kit_texts list;
    text supervisor;
    if (!reasons_people(d, people, &list, e) || !act_person(d, text_of(confirm), &supervisor, e))
        return false;
    may_start(d, step, &list, supervisor, stamp->at_s / 60, why);
    if (d->kit->steps[step].supervision != KIT_IN_ROOM)
        roles_check(d, supervisor, why);
    if (why->n)
        return true;
    if (list.n)
        stamp->person = list.list[0];
    store_entry n = step_entry(d, stamp, STORE_START, step);
    n.people = reasons_join(d->memory, &list);
    n.about = supervisor;
    return append(d, &n, e) && (state_of(d, step) != STOCK_TO_DO || append_draw(d, stamp, step, e));
}

bool desk_start(desk *d, kit_index step, const char *people, const char *confirm, desk_who who,
                desk_reasons *why, err *e) {
    store_entry stamp;
    who.by = NULL;
    if (!act_begin(d, who, &stamp, e))
        return false;
    return reasons_end(d, write_start(d, &stamp, step, people, confirm, why, e), why, e);
}

/* False with a reason when it is not at work now. */
static bool check_running(const desk *d, kit_index step, desk_reasons *why) {
    if (state_of(d, step) != STOCK_RUNNING)
        reasons_add(d, why, "%.*s is %s, not running", TEXT_ARG(d->kit->steps[step].number),
                    stock_state_word(state_of(d, step)));
    return !why->n;
}

static bool write_change(desk *d, store_entry *stamp, kit_index step, const char *people, desk_reasons *why,
                         err *e) {
    kit_texts list;
    if (!reasons_people(d, people, &list, e))
        return false;
    if (!check_running(d, step, why))
        return true;
    may_take_over(d, step, &list, stamp->at_s / 60, why);
    if (why->n)
        return true;
    if (list.n)
        stamp->person = list.list[0];
    store_entry n = step_entry(d, stamp, STORE_CHANGE, step);
    n.people = reasons_join(d->memory, &list);
    return append(d, &n, e);
}

bool desk_change_over(desk *d, kit_index step, const char *people, desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    who.by = NULL;
    if (!act_begin(d, who, &stamp, e))
        return false;
    return reasons_end(d, write_change(d, &stamp, step, people, why, e), why, e);
}

bool desk_leave(desk *d, kit_index step, const char *reason, desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    if (!act_check_text(text_of(reason), "REASON", e) || !act_begin(d, who, &stamp, e))
        return false;
    store_entry n = step_entry(d, &stamp, reason ? STORE_BLOCK : STORE_LEAVE, step);
    n.note = text_trim(text_of(reason));
    bool may = state_of(d, step) == STOCK_DONE || !reason ? check_running(d, step, why) : true;
    return reasons_end(d, !may || append(d, &n, e), why, e);
}

static void check_left(const desk *d, kit_index step, const desk_left *left, uint32_t n, desk_reasons *why) {
    for (uint32_t i = 0; i < n; i++) {
        int64_t drawn = stock_at_step(&d->record, step, left[i].part, STOCK_IN_TUB);
        if (left[i].quantity > drawn)
            reasons_add(d, why, "%lld of %.*s cannot be left: %lld were in the tub",
                        (long long)left[i].quantity, TEXT_ARG(d->kit->parts[left[i].part].number),
                        (long long)drawn);
    }
}

/* What is left goes back, the rest is fitted. */
static bool empty_tub(desk *d, const store_entry *stamp, kit_index step, const desk_left *left, uint32_t n,
                      err *e) {
    for (kit_index p = 0; p < d->kit->n_parts; p++) {
        int64_t drawn = stock_at_step(&d->record, step, p, STOCK_IN_TUB), back = 0;
        for (uint32_t i = 0; i < n; i++)
            back = left[i].part == p ? left[i].quantity : back;
        stock_move m = {.part = p, .from = STOCK_IN_TUB, .row = KIT_NONE, .step = step};
        m.to = STOCK_IN_COMPARTMENT;
        m.quantity = back;
        if (back > 0 && !append_move(d, stamp, &m, e))
            return false;
        m.to = STOCK_FITTED_IN;
        m.quantity = drawn - back;
        if (m.quantity > 0 && !append_move(d, stamp, &m, e))
            return false;
    }
    return true;
}

bool desk_finish(desk *d, kit_index step, int64_t minutes, const desk_left *left, uint32_t n_left,
                 desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    if (check_running(d, step, why))
        check_left(d, step, left, n_left, why);
    if (why->n)
        return reasons_end(d, true, why, e);
    store_entry n = step_entry(d, &stamp, STORE_FINISH, step);
    n.minutes = minutes;
    return act_end(d, append(d, &n, e) && empty_tub(d, &stamp, step, left, n_left, e), e);
}

void desk_plan_undoing(const desk *d, kit_index step, stock_undoing *out) {
    int64_t *available = arena_array(d->memory, int64_t, d->kit->n_parts);
    for (kit_index p = 0; p < d->kit->n_parts; p++)
        available[p] = stock_available(d->stock, p);
    stock_undo_step(d->memory, d->kit, &d->record, d->stock->work, step, available, out);
}

/* Sign-offs become void by it, so an adult does it. */
static void check_undoing(const desk *d, kit_index step, const stock_undoing *u, text person,
                          desk_reasons *why) {
    if (state_of(d, step) == STOCK_TO_DO)
        reasons_add(d, why, "%.*s was not begun", TEXT_ARG(d->kit->steps[step].number));
    for (uint32_t i = 0; i < u->n_running; i++)
        reasons_add(d, why, "%.*s is running: leave it or finish it first",
                    TEXT_ARG(d->kit->steps[u->running[i]].number));
    const kit_person *p = reasons_person(d, person);
    if (d->workshop && (!p || !p->adult))
        reasons_add(d, why, "an adult must do it: --by NAME");
    roles_check(d, person, why);
}

static bool write_undoing(desk *d, const store_entry *stamp, const stock_undoing *u, const char *reason,
                          err *e) {
    for (uint32_t i = 0; i < u->n_off; i++) {
        store_entry n = step_entry(d, stamp, STORE_STRIP, u->off[i]);
        n.note = text_trim(text_of(reason));
        if (!append(d, &n, e) ||
            !append_empty(d, stamp, u->off[i], STOCK_FITTED_IN, STOCK_IN_COMPARTMENT, STOCK_SCRAPPED, e) ||
            !append_empty(d, stamp, u->off[i], STOCK_IN_TUB, STOCK_IN_COMPARTMENT, STOCK_IN_COMPARTMENT, e))
            return false;
    }
    return true;
}

bool desk_undo_step(desk *d, kit_index step, const char *reason, desk_who who, desk_reasons *why, err *e) {
    store_entry stamp;
    stock_undoing u;
    if (!text_trim(text_of(reason)).len)
        return err_input(e, "--reason", "say why in a few words", "it is missing");
    if (!act_check_text(text_of(reason), "--reason", e) || !act_begin(d, who, &stamp, e))
        return false;
    desk_plan_undoing(d, step, &u);
    check_undoing(d, step, &u, stamp.person, why);
    return reasons_end(d, why->n || write_undoing(d, &stamp, &u, reason, e), why, e);
}
