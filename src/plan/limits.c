/* limits.c: steps that this crew cannot do, with the reason and what would help. */
#include "plan/planner.h"

static int64_t owned(const kit_owned *list, uint32_t n, kit_index what) {
    int64_t sum = n == 0 ? PLAN_ENOUGH : 0;
    for (uint32_t k = 0; k < n; k++)
        sum += list[k].what == what ? list[k].quantity : 0;
    return sum;
}

int64_t limits_tools(const kit_workshop *w, kit_index tool) {
    return owned(w->tools, w->n_tools, tool);
}

int64_t limits_workplaces(const kit_workshop *w, kit_index zone) {
    return owned(w->workplaces, w->n_workplaces, zone);
}

static long long number(int64_t n) {
    return (long long)n;
}

static bool things_allow(const planner *p, const plan_job *j, text *reason, text *remedy) {
    const kit *k = p->kit;
    const kit_step *s = &k->steps[j->step];
    for (uint32_t x = 0; x < k->n_step_tools; x++) {
        if (k->step_tools[x].step != j->step)
            continue;
        const kit_tool *t = &k->tools[k->step_tools[x].tool];
        int64_t there = limits_tools(p->workshop, k->step_tools[x].tool);
        if (k->step_tools[x].quantity <= there)
            continue;
        *reason = arena_format(p->memory, "it needs %lld of \"%.*s\" (%.*s) and the workshop has %lld",
                               number(k->step_tools[x].quantity), TEXT_ARG(t->name), TEXT_ARG(t->number),
                               number(there));
        *remedy = TEXT("get what is missing and write it into the workshop's tools.csv");
        return false;
    }
    if (s->zone == KIT_NONE)
        return true;
    const kit_zone *z = &k->zones[s->zone];
    int64_t there = z->kind == KIT_ZONE ? z->groups : limits_workplaces(p->workshop, s->zone);
    if (there < 1) {
        *reason = arena_format(p->memory, "it is done at \"%.*s\" (%.*s) and the workshop has none",
                               TEXT_ARG(z->name), TEXT_ARG(z->number));
        *remedy = TEXT("set one up and write it into the workshop's workplaces.csv");
    }
    return there >= 1;
}

static int64_t people_with_skill(const kit_workshop *w, kit_index skill, bool adults_only) {
    int64_t n = 0;
    for (kit_index p = 0; p < w->n_crew; p++)
        for (uint32_t x = 0; x < w->crew[p].skills.n; x++)
            n += w->crew[p].skills.list[x] == skill && (w->crew[p].adult || !adults_only);
    return n;
}

static bool skills_allow(const planner *p, const plan_job *j, text *reason, text *remedy) {
    const kit *k = p->kit;
    bool adults_only = k->steps[j->step].supervision == KIT_ADULT_DOES;
    for (uint32_t x = 0; x < k->n_step_skills; x++) {
        if (k->step_skills[x].step != j->step)
            continue;
        int64_t have = people_with_skill(p->workshop, k->step_skills[x].skill, adults_only);
        if (have >= k->step_skills[x].people)
            continue;
        const kit_named *skill = &k->skills[k->step_skills[x].skill];
        *reason =
            arena_format(p->memory, "%lld at work on it must have the skill \"%.*s\" and %lld of the %s have",
                         number(k->step_skills[x].people), TEXT_ARG(skill->name), number(have),
                         adults_only ? "adults" : "crew");
        *remedy = TEXT("let somebody practise it, then write it into the workshop's crew.csv");
        return false;
    }
    return true;
}

static bool supervisor_allows(const planner *p, const plan_job *j, text *reason, text *remedy) {
    const kit_step *s = &p->kit->steps[j->step];
    people_set supervisors = 0;
    for (kit_index q = 0; q < p->workshop->n_crew; q++)
        for (uint32_t x = 0; x < p->workshop->crew[q].supervises.n; x++)
            if (p->workshop->crew[q].adult && p->workshop->crew[q].supervises.list[x] == s->work)
                supervisors |= one_person(q);
    if (s->supervision == KIT_IN_ROOM || s->work == KIT_NONE || supervisors)
        return true;
    const kit_named *work = &p->kit->works[s->work];
    *reason = arena_format(p->memory, "no adult of the crew may supervise \"%.*s\"", TEXT_ARG(work->name));
    *remedy = arena_format(p->memory, "find an adult who may and write %.*s under supervises in crew.csv",
                           TEXT_ARG(work->number));
    return false;
}

static bool crew_allows(const planner *p, const plan_job *j, text *reason, text *remedy) {
    const calendar *c = &p->calendar;
    const kit_step *s = &p->kit->steps[j->step];
    int64_t adults = people_count(c->adults), all = people_count(c->everybody);
    if (adults < p->workshop->minimum_adults) {
        *reason =
            arena_format(p->memory, "%lld adults must be in the room for any work and the crew has %lld",
                         number(p->workshop->minimum_adults), number(adults));
        *remedy = TEXT("find more adults and write them into the workshop's crew.csv");
        return false;
    }
    if (!calendar_room_allows(c, c->everybody)) {
        *reason = TEXT("one adult would be alone with one learner");
        *remedy = TEXT("find one more person and write them into the workshop's crew.csv");
        return false;
    }
    int64_t can = s->supervision == KIT_ADULT_DOES ? adults : all;
    if (can < j->n_seats) {
        *reason = arena_format(p->memory, "it takes %u %s%s and the crew has %lld", (unsigned)j->n_seats,
                               s->supervision == KIT_ADULT_DOES ? "adults" : "people",
                               j->beside ? " with the supervisor beside" : "", number(can));
        *remedy = TEXT("find more people and write them into the workshop's crew.csv");
        return false;
    }
    if (!supervisor_allows(p, j, reason, remedy) || !skills_allow(p, j, reason, remedy))
        return false;
    if (!job_can_staff(j, c->everybody)) {
        *reason = TEXT(
            "the crew cannot give all the people with the skills and the supervisor it needs at one time");
        *remedy = TEXT("let one more person practise one of its skills, or find one more supervisor");
        return false;
    }
    return true;
}

bool limits_allow(const planner *p, const plan_job *j, text *reason, text *remedy) {
    return things_allow(p, j, reason, remedy) && crew_allows(p, j, reason, remedy);
}

void limits_tell_no_start(const planner *p, const plan_job *j, text *reason, text *remedy) {
    int32_t longest = calendar_undated_minutes(p->workshop);
    for (uint32_t k = 0; k < p->calendar.n_sessions; k++) {
        int32_t minutes = p->calendar.sessions[k].to_min - p->calendar.sessions[k].from_min;
        longest = minutes > longest ? minutes : longest;
    }
    if (!j->may_pause && j->duration > longest) {
        *reason = arena_format(p->memory,
                               "it takes %d min and may not be left; the longest session has %d min of work",
                               (int)j->duration, (int)longest);
        *remedy = arena_format(p->memory, "hold a session with at least %d min of work", (int)j->duration);
    } else if (j->may_pause && j->resume >= longest) {
        *reason = arena_format(p->memory,
                               "taking it up again takes %d min and the longest session has %d min of work",
                               (int)j->resume, (int)longest);
        *remedy = TEXT("hold longer sessions");
    } else {
        *reason = TEXT("at no session all that it needs are there for long enough");
        *remedy =
            TEXT("let those it needs come to one session for as long as it takes, or hold a longer session");
    }
}
