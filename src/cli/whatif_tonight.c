/* whatif_tonight.c: what is left of the next session when somebody stays away from it. */
#include "cli/whatif_tonight.h"

#include "base/wrap.h"
#include "cli/build.h"

bool whatif_works_at(const plan *p, const plan_step *s, kit_index session) {
    for (uint32_t k = 0; s && k < s->n_stretches; k++)
        if (p->sessions[s->stretches[k].session].session == session)
            return true;
    return false;
}

static text clock_of(arena *a, const plan_session *s, int32_t minute) {
    char shown[17];
    date_print_moment(s->begins + (minute - s->from_min), shown);
    return arena_format(a, "%s", shown + 11);
}

/* Steps that were to be worked on then, and cannot be. */
static bool was_planned(const plan_forbidden *f, const plan *now, kit_index session) {
    return whatif_works_at(now, plan_find_step(now, f->step), session);
}

static void add_turn(arena *a, const plan *p, const plan_session *s, const plan_duty *t, buf *out) {
    buf people = {0};
    for (uint32_t k = 0; k <= t->stretch->n_people; k++) {
        kit_index person = k < t->stretch->n_people ? t->stretch->people[k] : t->stretch->supervisor;
        if (person == KIT_NONE)
            continue;
        const kit_person *who = &p->workshop->crew[person];
        buf_addf(&people, "%s%.*s",
                 k == t->stretch->n_people ? "; beside "
                 : k                       ? ", "
                                           : "",
                 TEXT_ARG(who->name.len ? who->name : who->number));
    }
    wrap_add(out,
             arena_format(a, "  %.*s-%.*s %.*s %.*s: %.*s", TEXT_ARG(clock_of(a, s, t->stretch->start_min)),
                          TEXT_ARG(clock_of(a, s, t->stretch->end_min)),
                          TEXT_ARG(p->kit->steps[t->step->step].number),
                          TEXT_ARG(p->kit->steps[t->step->step].name), TEXT_ARG(buf_text(&people))),
             CLI_WIDTH, 14);
    buf_free(&people);
}

void whatif_tonight(arena *a, const plan_forbidden *forbidden, uint32_t n_forbidden, const plan *now,
                    const plan *then, kit_index first, buf *out) {
    bool told = false;
    for (uint32_t k = 0; k < n_forbidden; k++) {
        const kit_step *s = &now->kit->steps[forbidden[k].step];
        if (!was_planned(&forbidden[k], now, first))
            continue;
        buf_add_z(out, told ? "" : "\nWas planned for then and cannot be done then\n");
        told = true;
        wrap_add(out,
                 arena_format(a, "  %.*s %.*s: %.*s", TEXT_ARG(s->number), TEXT_ARG(s->name),
                              TEXT_ARG(forbidden[k].reason)),
                 CLI_WIDTH, 6);
    }
    for (uint32_t s = 0; s < then->n_sessions; s++) {
        if (then->sessions[s].session != first)
            continue;
        plan_evening evening;
        plan_evening_of(a, then, s, &evening);
        buf_addf(out, "\nThe best that is left of session %lld\n", (long long)then->sessions[s].number);
        for (uint32_t k = 0; k < evening.n_turns; k++)
            add_turn(a, then, &then->sessions[s], &evening.turns[k], out);
        if (evening.n_turns == 0)
            buf_add_z(out, "  nothing: no planned step can be worked on\n");
    }
}
