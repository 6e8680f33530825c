/* plan_text_sessions.c: who does what at each session, in short. */
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/plan_text.h"

static text name_of(const plan *p, kit_index person) {
    const kit_person *who = &p->workshop->crew[person];
    return who->name.len ? who->name : who->number;
}

static text clock_of(arena *a, const plan_session *s, int32_t minute) {
    char shown[17];
    if (!s->dated)
        return arena_format(a, "%d:%02d", (int)(minute - s->from_min) / 60, (int)(minute - s->from_min) % 60);
    date_print_moment(s->begins + (minute - s->from_min), shown);
    return arena_format(a, "%s", shown + 11);
}

static text people_of(arena *a, const plan *p, const plan_stretch *t) {
    buf b = {0};
    for (uint32_t k = 0; k < t->n_people; k++) {
        buf_add_z(&b, k ? ", " : "");
        buf_add(&b, name_of(p, t->people[k]));
    }
    if (t->supervisor != KIT_NONE)
        buf_addf(&b, "; %.*s beside", TEXT_ARG(name_of(p, t->supervisor)));
    text all = arena_text(a, buf_text(&b));
    buf_free(&b);
    return all;
}

typedef struct {
    const plan_step *step;
    uint32_t stretch;
} entry;

static void add_entry(arena *a, const plan *p, const plan_session *s, entry it, buf *out) {
    const plan_stretch *t = &it.step->stretches[it.stretch];
    const kit_step *what = &p->kit->steps[it.step->step];
    bool goes_on = it.stretch > 0,
         changes = goes_on && it.step->stretches[it.stretch - 1].session == t->session;
    bool pauses =
        it.stretch + 1 < it.step->n_stretches && it.step->stretches[it.stretch + 1].session != t->session;
    wrap_add(out,
             arena_format(a, "  %.*s-%.*s  %.*s %.*s%s%s", TEXT_ARG(clock_of(a, s, t->start_min)),
                          TEXT_ARG(clock_of(a, s, t->end_min)), TEXT_ARG(what->number), TEXT_ARG(what->name),
                          changes   ? ", change-over"
                          : goes_on ? ", goes on"
                                    : "",
                          pauses ? ", is left here" : ""),
             CLI_WIDTH, 15);
    wrap_add(out, arena_format(a, "               %.*s", TEXT_ARG(people_of(a, p, t))), CLI_WIDTH, 15);
}

static void add_session(arena *a, const plan *p, uint32_t session, buf *out) {
    const plan_session *s = &p->sessions[session];
    entry *list = NULL;
    size_t n = 0, cap = 0;
    for (uint32_t k = 0; k < p->n_steps; k++)
        for (uint32_t x = 0; x < p->steps[k].n_stretches; x++) {
            if (p->steps[k].stretches[x].session != session)
                continue;
            arena_room(a, list, n, cap, entry);
            size_t at = n++;
            for (; at > 0 && list[at - 1].step->stretches[list[at - 1].stretch].start_min >
                                 p->steps[k].stretches[x].start_min;
                 at--)
                list[at] = list[at - 1];
            list[at] = (entry){&p->steps[k], x};
        }
    text when = TEXT("no date; times count from the start of work");
    if (s->dated)
        when = arena_format(a, "%.*s, work %.*s to %.*s", TEXT_ARG(plan_text_day(a, s->begins)),
                            TEXT_ARG(clock_of(a, s, s->from_min)), TEXT_ARG(clock_of(a, s, s->to_min)));
    buf_addf(out, "\nSession %lld: %.*s\n", (long long)s->number, TEXT_ARG(when));
    if (n == 0)
        buf_add_z(out, "  nothing to do\n");
    for (size_t k = 0; k < n; k++)
        add_entry(a, p, s, list[k], out);
}

void plan_text_sessions(arena *a, const plan *p, buf *out) {
    uint32_t last = plan_session_at(p, p->makespan_min, true);
    for (uint32_t session = 0; session <= last; session++)
        add_session(a, p, session, out);
}
