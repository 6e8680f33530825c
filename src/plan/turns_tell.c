/* turns_tell.c: the table of who gets to do what. */
#include "plan/turns.h"

static bool has_skill(const kit_person *who, kit_index skill) {
    for (uint32_t k = 0; k < who->skills.n; k++)
        if (who->skills.list[k] == skill)
            return true;
    return false;
}

static bool asks_for(const kit *k, kit_index step, kit_index skill) {
    for (uint32_t x = 0; x < k->n_step_skills; x++)
        if (k->step_skills[x].step == step && k->step_skills[x].skill == skill)
            return true;
    return false;
}

/* The first stretch at which the person practises the skill; NULL when there is none. */
static const people_stretch *first_practice(const planner *p, const people_stretch *named, uint32_t n,
                                            kit_index person, kit_index skill) {
    const people_stretch *first = NULL;
    for (uint32_t x = 0; x < n; x++)
        if ((!first || named[x].when.from < first->when.from) &&
            (turns_hands(p, &named[x]) & one_person(person)) &&
            asks_for(p->kit, p->jobs[named[x].job].step, skill))
            first = &named[x];
    return first;
}

static void tell_skills(const planner *p, const people_stretch *named, uint32_t n, kit_index person,
                        plan_turn *out) {
    const kit *k = p->kit;
    out->skills = arena_array(p->memory, plan_practice, k->n_skills);
    for (kit_index skill = 0; skill < k->n_skills; skill++) {
        const people_stretch *first = first_practice(p, named, n, person, skill);
        bool before = has_skill(&p->workshop->crew[person], skill);
        if (!first && !before)
            continue;
        plan_practice *x = &out->skills[out->n_skills++];
        *x = (plan_practice){.skill = skill, .before = before, .step = KIT_NONE};
        if (first) {
            x->step = p->jobs[first->job].step;
            x->session = first->when.session;
        }
    }
}

/* Longest wait of the person over all sessions before the finish; the minutes beyond the limit are added to `beyond`. */
static int32_t tell_waits(const planner *p, const people_stretch *named, uint32_t n, kit_index person,
                          int32_t finish, int32_t *beyond) {
    const people_stretch **list = arena_array(p->memory, const people_stretch *, n);
    int32_t longest = 0;
    for (uint32_t s = 0; s < p->calendar.n_sessions && p->calendar.sessions[s].from_min < finish; s++) {
        uint32_t count = 0;
        for (uint32_t x = 0; x < n; x++)
            if (named[x].when.session == s)
                list[count++] = &named[x];
        turns_wait w =
            turns_waiting(p, list, count, s, person, finish, (int32_t)p->workshop->longest_wait_min);
        longest = w.longest > longest ? w.longest : longest;
        *beyond += w.beyond;
    }
    return longest;
}

void turns_tell(const planner *p, const people_stretch *named, uint32_t n, int32_t finish, plan *out) {
    const turns_person *who = turns_shares(p, named, n, finish);
    out->turns = arena_array(p->memory, plan_turn, p->workshop->n_crew);
    out->turns_least = p->turns_exact;
    for (kit_index q = 0; q < p->workshop->n_crew; q++) {
        plan_turn *t = &out->turns[q];
        int32_t beyond = 0;
        t->present_min = who[q].present;
        t->own_min = who[q].own_before;
        for (uint32_t x = 0; x < n; x++)
            if (turns_hands(p, &named[x]) & one_person(q))
                t->own_min += named[x].when.to - named[x].when.from;
        t->share_min = who[q].share;
        t->lack_min = who[q].learner ? t->share_min - t->own_min : 0;
        t->longest_wait_min = tell_waits(p, named, n, q, finish, &beyond);
        out->wait_beyond_min += who[q].learner ? beyond : 0;
        tell_skills(p, named, n, q, t);
    }
}
