/* tests.c: measured values and who signs them. */
#include "base/number.h"
#include "desk/reasons.h"

static bool read_value(const desk *d, const kit_step_test *t, text value, int64_t *milli, err *e) {
    value = text_trim(value);
    if (!t->unit.len) {
        if (text_equal_nocase(value, TEXT("yes")) || text_equal_nocase(value, TEXT("no"))) {
            *milli = text_equal_nocase(value, TEXT("yes")) ? 1000 : 0;
            return true;
        }
        return err_input(e, "VALUE", "write yes or no", "\"%.*s\" does not answer: %.*s", TEXT_ARG(value),
                         TEXT_ARG(t->what));
    }
    number_fault why;
    if (number_decimal(value, 3, -INT64_C(1000000000000), INT64_C(1000000000000), milli, &why))
        return true;
    return err_input(e, arena_format(d->memory, "VALUE, %.*s", TEXT_ARG(t->unit)).at, why.remedy, "%s",
                     why.cause);
}

static const char *who_signs(kit_signer s) {
    return s == KIT_LEADER_SIGNS ? "a leader" : s == KIT_SUPERVISOR_SIGNS ? "a supervisor of this work" : "";
}

static bool may_sign(const desk *d, const kit_step_test *t, text signer) {
    const kit_person *p = reasons_person(d, signer);
    if (t->signed_by == KIT_LEARNER_SIGNS)
        return !d->workshop || p;
    if (t->signed_by == KIT_LEADER_SIGNS)
        return p && p->adult && p->leader;
    return reasons_may_supervise(d, signer, t->step);
}

static void check_signer(const desk *d, const kit_step_test *t, text by, text signer, desk_reasons *why) {
    const stock_step *s = &d->stock->work->steps[t->step];
    text name = desk_person_name(d, signer);
    if (!may_sign(d, t, signer))
        reasons_add(d, why, "%.*s may not sign it; %s must", TEXT_ARG(name), who_signs(t->signed_by));
    if (reasons_is_among(&s->builders, signer))
        reasons_add(d, why, "%.*s built it; somebody else must sign", TEXT_ARG(name));
    else if (text_equal(by, signer))
        reasons_add(d, why, "%.*s measured it; somebody else must sign", TEXT_ARG(name));
}

/* A sign-off is corrected by an adult's entry with a reason. */
static void check_replaced(const desk *d, kit_index test, text signer, text reason, desk_reasons *why) {
    const stock_test *old = &d->stock->work->tests[test];
    const kit_person *p = reasons_person(d, signer);
    if (!old->there || !old->is_signed)
        return;
    if (!reason.len || (d->workshop && (!p || !p->adult)))
        reasons_add(d, why, "it is signed already; an adult may sign another value with --reason");
}

static bool write_test(desk *d, const store_entry *stamp, kit_index test, int64_t milli,
                       const char *signed_by, text reason, desk_reasons *why, err *e) {
    const kit_step_test *t = &d->kit->step_tests[test];
    text signer;
    if (!act_person(d, text_of(signed_by), &signer, e))
        return false;
    if (d->stock->work->steps[t->step].state == STOCK_TO_DO)
        reasons_add(d, why, "%.*s was not begun", TEXT_ARG(d->kit->steps[t->step].number));
    if (d->workshop && !stamp->person.len)
        reasons_add(d, why, "say who measured: --by NAME");
    if (signer.len)
        check_signer(d, t, stamp->person, signer, why);
    roles_check(d, signer, why);
    check_replaced(d, test, signer, reason, why);
    if (why->n)
        return true;
    store_entry n = act_entry(stamp, STORE_TEST);
    n.step = d->kit->steps[t->step].number;
    n.test = stock_test_number(d->kit, test);
    n.milli = milli;
    n.about = signer;
    n.note = reason;
    int64_t number;
    return store_append(d->file, &n, &number, e);
}

bool desk_test(desk *d, kit_index test, text value, const char *signed_by, const char *reason, desk_who who,
               desk_reasons *why, err *e) {
    int64_t milli = 0;
    store_entry stamp;
    text because = text_trim(text_of(reason));
    if (!read_value(d, &d->kit->step_tests[test], value, &milli, e) ||
        !act_check_text(because, "--reason", e) || !act_begin(d, who, &stamp, e))
        return false;
    return reasons_end(d, write_test(d, &stamp, test, milli, signed_by, because, why, e), why, e);
}
