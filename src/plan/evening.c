/* evening.c: who does what at one session, and who is there. */
#include "plan/evening.h"

uint32_t plan_find_session(const plan *p, int64_t number) {
    for (uint32_t s = 0; s < p->n_sessions; s++)
        if (p->sessions[s].number == number)
            return s;
    return UINT32_MAX;
}

static plan_duty turn_of(const plan_step *s, uint32_t n) {
    const plan_stretch *it = &s->stretches[n];
    bool same_before = n > 0 && s->stretches[n - 1].session == it->session;
    bool last = n + 1 == s->n_stretches;
    return (plan_duty){.step = s,
                       .stretch = it,
                       .begins = n == 0,
                       .goes_on = n > 0 && !same_before,
                       .change_over = same_before,
                       .ends = last,
                       .left = !last && s->stretches[n + 1].session != it->session};
}

static void add_turns(arena *a, const plan *p, plan_evening *out) {
    size_t cap = 0;
    for (uint32_t k = 0; k < p->n_steps; k++)
        for (uint32_t n = 0; n < p->steps[k].n_stretches; n++) {
            if (p->steps[k].stretches[n].session != out->session)
                continue;
            size_t count = out->n_turns;
            arena_room(a, out->turns, count, cap, plan_duty);
            uint32_t at = out->n_turns++;
            for (; at > 0 && out->turns[at - 1].stretch->start_min > p->steps[k].stretches[n].start_min; at--)
                out->turns[at] = out->turns[at - 1];
            out->turns[at] = turn_of(&p->steps[k], n);
        }
}

/* What the attendance table says, cut to the working time. */
static plan_presence presence_of(const plan *p, const plan_session *s, kit_index person) {
    const kit_workshop *w = p->workshop;
    plan_presence out = {.person = person, .comes = true, .from_min = s->from_min, .until_min = s->to_min};
    for (uint32_t k = 0; s->dated && k < w->n_attendance; k++) {
        const kit_attendance *x = &w->attendance[k];
        if (x->session != s->session || x->person != person)
            continue;
        date_moment midnight = (date_moment)w->sessions[x->session].day * MINUTES_PER_DAY;
        out.comes = x->comes;
        if (x->from >= 0 && midnight + x->from > s->begins)
            out.from_min = s->from_min + (int32_t)(midnight + x->from - s->begins);
        if (x->until >= 0 && midnight + x->until < s->ends)
            out.until_min = s->from_min + (int32_t)(midnight + x->until - s->begins);
    }
    return out;
}

static void add_people(arena *a, const plan *p, plan_evening *out) {
    out->n_people = p->workshop->n_crew;
    out->people = arena_array(a, plan_presence, out->n_people);
    for (kit_index person = 0; person < out->n_people; person++) {
        plan_presence *it = &out->people[person];
        *it = presence_of(p, &p->sessions[out->session], person);
        for (uint32_t k = 0; k < out->n_turns; k++) {
            const plan_stretch *t = out->turns[k].stretch;
            int32_t minutes = t->end_min - t->start_min;
            it->beside_min += t->supervisor == person ? minutes : 0;
            for (uint32_t x = 0; x < t->n_people; x++)
                it->hands_on_min += t->people[x] == person ? minutes : 0;
        }
    }
}

void plan_evening_of(arena *a, const plan *p, uint32_t session, plan_evening *out) {
    *out = (plan_evening){.session = session};
    add_turns(a, p, out);
    add_people(a, p, out);
}
