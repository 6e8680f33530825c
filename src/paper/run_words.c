/* run_words.c: times and people of one session in words. */
#include "paper/masthead.h"
#include "paper/run.h"
#include "paper/wording.h"

static const kit_session *dated(const run *r) {
    return r->session->session == KIT_NONE ? NULL : &r->plan->workshop->sessions[r->session->session];
}

static int work_begins(const run *r) {
    return (int)(r->session->begins % MINUTES_PER_DAY);
}

void run_span(const run *r, int *from, int *to) {
    const kit_session *s = dated(r);
    *from = s ? s->start : work_begins(r);
    *to = s ? s->end : *from + (r->session->to_min - r->session->from_min);
}

text run_clock(const run *r, int32_t minute) {
    int passed = minute - r->session->from_min;
    if (!r->session->dated)
        return arena_format(r->memory, "%d:%02d", passed / 60, passed % 60);
    int at = work_begins(r) + passed;
    return arena_format(r->memory, "%02d:%02d", at / 60 % 24, at % 60);
}

bool run_comes(const run *r, kit_index person, int *from, int *until) {
    const kit_workshop *w = r->plan->workshop;
    *from = *until = -1;
    for (uint32_t i = 0; i < w->n_attendance && r->session->session != KIT_NONE; i++) {
        const kit_attendance *a = &w->attendance[i];
        if (a->session != r->session->session || a->person != person)
            continue;
        *from = a->from;
        *until = a->until;
        return a->comes;
    }
    return true;
}

text run_person(const run *r, kit_index person) {
    const kit_person *p = &r->plan->workshop->crew[person];
    return p->name.len ? wording_name(r->memory, p->name) : p->number;
}

text run_people(const run *r, const plan_stretch *s) {
    buf b = {0};
    for (uint32_t i = 0; i < s->n_people; i++)
        buf_addf(&b, "%s%.*s", i ? ", " : "", TEXT_ARG(run_person(r, s->people[i])));
    if (s->supervisor != KIT_NONE)
        buf_addf(&b, "%sbeside: %.*s", b.len ? "\n" : "", TEXT_ARG(run_person(r, s->supervisor)));
    text t = arena_text(r->memory, buf_text(&b));
    buf_free(&b);
    return t;
}
