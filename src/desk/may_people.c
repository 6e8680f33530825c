/* may_people.c: skills that a step asks for, and who is here now by what was said of attendance. */
#include "desk/reasons.h"

/* People come before a session begins and stay a while after it. */
enum { AROUND_MIN = 60 };

kit_index session_at(const kit_workshop *w, date_moment now) {
    for (kit_index i = 0; w && i < w->n_sessions; i++) {
        const kit_session *s = &w->sessions[i];
        date_moment midnight = (date_moment)s->day * MINUTES_PER_DAY;
        if (!s->cancelled && now >= midnight + s->start - AROUND_MIN && now < midnight + s->end + AROUND_MIN)
            return i;
    }
    return KIT_NONE;
}

static const kit_attendance *attendance_of(const kit_workshop *w, kit_index session, kit_index person) {
    for (kit_index i = 0; i < w->n_attendance; i++)
        if (w->attendance[i].session == session && w->attendance[i].person == person)
            return &w->attendance[i];
    return NULL;
}

/* Why somebody is not here; empty when nothing was said against it. */
static text why_away(const desk *d, kit_index session, kit_index person, date_moment now) {
    const kit_attendance *a = attendance_of(d->workshop, session, person);
    long long number = (long long)d->workshop->sessions[session].number;
    int minute = (int)(now - (date_moment)date_of_moment(now) * MINUTES_PER_DAY);
    char clock[6];
    if (!a)
        return TEXT("");
    if (!a->comes)
        return arena_format(d->memory, "does not come to session %lld", number);
    if (a->from >= 0 && minute < a->from) {
        date_print_clock(a->from, clock);
        return arena_format(d->memory, "comes at %s", clock);
    }
    if (a->until >= 0 && minute >= a->until) {
        date_print_clock(a->until, clock);
        return arena_format(d->memory, "left at %s", clock);
    }
    return TEXT("");
}

static void check_presence(const desk *d, const kit_texts *people, date_moment now, desk_reasons *why) {
    kit_index session = session_at(d->workshop, now);
    for (uint32_t i = 0; i < people->n && session != KIT_NONE; i++) {
        kit_index person = kit_find_person(d->workshop, people->list[i]);
        text away = person == KIT_NONE ? TEXT("") : why_away(d, session, person, now);
        if (away.len)
            reasons_add(d, why, "%.*s %.*s; say it with kitbench attendance if that is no longer so",
                        TEXT_ARG(desk_person_name(d, people->list[i])), TEXT_ARG(away));
    }
}

void may_be_in_room(const desk *d, date_moment now, desk_reasons *why) {
    kit_index session = session_at(d->workshop, now);
    int64_t adults = 0, learners = 0;
    for (kit_index i = 0; session != KIT_NONE && i < d->workshop->n_crew; i++)
        if (!why_away(d, session, i, now).len) {
            adults += d->workshop->crew[i].adult;
            learners += !d->workshop->crew[i].adult;
        }
    if (session == KIT_NONE)
        return;
    if (adults < d->workshop->minimum_adults)
        reasons_add(d, why, "%lld adult%s in the room now; any work takes %lld", (long long)adults,
                    adults == 1 ? " is" : "s are", (long long)d->workshop->minimum_adults);
    else if (adults == 1 && learners == 1)
        reasons_add(d, why, "one adult alone with one learner: wait for somebody else");
}

static bool has_skill(const kit_person *p, kit_index skill) {
    for (uint32_t i = 0; p && i < p->skills.n; i++)
        if (p->skills.list[i] == skill)
            return true;
    return false;
}

static void check_skills(const desk *d, kit_index step, const kit_texts *people, desk_reasons *why) {
    for (kit_index i = 0; i < d->kit->n_step_skills; i++) {
        const kit_step_skill *s = &d->kit->step_skills[i];
        int64_t have = 0;
        if (s->step != step)
            continue;
        for (uint32_t p = 0; p < people->n; p++)
            have += has_skill(reasons_person(d, people->list[p]), s->skill);
        if (have < s->people)
            reasons_add(d, why, "%lld of those at work must have practised %.*s; %lld of those named have",
                        (long long)s->people, TEXT_ARG(d->kit->skills[s->skill].name), (long long)have);
    }
}

void may_be_here(const desk *d, kit_index step, const kit_texts *people, text confirm, date_moment now,
                 desk_reasons *why) {
    if (!d->workshop)
        return;
    if (people->n)
        check_skills(d, step, people, why);
    check_presence(d, people, now, why);
    if (confirm.len && !reasons_is_among(people, confirm))
        check_presence(d, &(kit_texts){&confirm, 1}, now, why);
}
