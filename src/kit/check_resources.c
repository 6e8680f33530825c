/* check_resources.c: has the workshop the time, the people, the tools and the places that each step asks for?
 *
 * Each step is held against the whole crew first, which gives the plainest message, and then against each session with
 * those who come to it. These are needs that no plan can go round; whether all steps fit together is the planner's.
 */
#include "kit/inside.h"

/* Who is there at once: in a session, or the whole crew. */
typedef struct {
    int64_t working_min;
    int64_t people, adults;
    int64_t *supervisors; /* by work */
    int64_t *skilled;     /* by skill */
} presence;

typedef struct {
    kit_checker *c;
    presence whole_crew; /* with the longest session's minutes */
    presence *sessions;
    kit_index *first_skill; /* by step: its first row of step_skills, the next in next_skill */
    kit_index *next_skill;
} resource_check;

static presence new_presence(const kit_checker *c) {
    return (presence){.supervisors = arena_array(c->memory, int64_t, c->kit->n_works),
                      .skilled = arena_array(c->memory, int64_t, c->kit->n_skills)};
}

static void add_person(presence *p, const kit_person *person) {
    p->people++;
    p->adults += person->adult;
    for (uint32_t i = 0; person->adult && i < person->supervises.n; i++)
        p->supervisors[person->supervises.list[i]]++;
    for (uint32_t i = 0; i < person->skills.n; i++)
        p->skilled[person->skills.list[i]]++;
}

static int64_t working_minutes(const kit_session *s) {
    return s->cancelled ? 0 : s->end - s->start - s->opening_min - s->closing_min;
}

static void count_crew(resource_check *r) {
    const kit_workshop *w = r->c->workshop;
    r->whole_crew = new_presence(r->c);
    for (uint32_t i = 0; i < w->n_crew; i++)
        if (!kit_workshop_state(w, "crew")->faulty[i])
            add_person(&r->whole_crew, &w->crew[i]);
    for (kit_index i = 0; i < w->n_sessions; i++)
        if (working_minutes(&w->sessions[i]) > r->whole_crew.working_min)
            r->whole_crew.working_min = working_minutes(&w->sessions[i]);
}

static presence presence_of(kit_checker *c, kit_index session) {
    const kit_workshop *w = c->workshop;
    presence p = new_presence(c);
    p.working_min = working_minutes(&w->sessions[session]);
    bool *away = arena_array(c->memory, bool, w->n_crew);
    for (uint32_t i = 0; i < w->n_attendance; i++)
        if (w->attendance[i].session == session && !w->attendance[i].comes)
            away[w->attendance[i].person] = true;
    for (uint32_t i = 0; i < w->n_crew; i++)
        if (!away[i])
            add_person(&p, &w->crew[i]);
    return p;
}

static void count_sessions(resource_check *r) {
    const kit_workshop *w = r->c->workshop;
    r->sessions = arena_array(r->c->memory, presence, w->n_sessions);
    for (kit_index i = 0; i < w->n_sessions; i++)
        r->sessions[i] = presence_of(r->c, i);
}

static void link_skills(resource_check *r) {
    const kit *k = r->c->kit;
    r->first_skill = arena_array(r->c->memory, kit_index, k->n_steps);
    r->next_skill = arena_array(r->c->memory, kit_index, k->n_step_skills);
    for (uint32_t i = 0; i < k->n_steps; i++)
        r->first_skill[i] = KIT_NONE;
    for (kit_index i = k->n_step_skills; i-- > 0;) {
        if (kit_state(k, "step_skills")->faulty[i])
            continue;
        r->next_skill[i] = r->first_skill[k->step_skills[i].step];
        r->first_skill[k->step_skills[i].step] = i;
    }
}

/* Likely minutes of this crew in one piece; 0 for a step that may pause. */
static int64_t minutes_in_one(const resource_check *r, const kit_step *s) {
    return s->may_pause ? 0 : (s->likely_min * r->c->workshop->beginners_percent + 99) / 100;
}

static int64_t supervisors_for(const presence *p, const kit_step *s) {
    return s->work == KIT_NONE ? p->adults : p->supervisors[s->work];
}

static bool has_people(const presence *p, const kit_step *s) {
    return p->people >= s->people + (s->supervision == KIT_BESIDE);
}

static bool has_supervision(const presence *p, const kit_step *s) {
    if (s->supervision == KIT_BESIDE)
        return supervisors_for(p, s) > 0;
    return s->supervision != KIT_ADULT_DOES || p->adults >= s->people;
}

/* The first row of step_skills that the people do not fulfil, or KIT_NONE. */
static kit_index skill_wanted(const resource_check *r, const presence *p, kit_index step) {
    kit_index i = r->first_skill[step];
    while (i != KIT_NONE && p->skilled[r->c->kit->step_skills[i].skill] >= r->c->kit->step_skills[i].people)
        i = r->next_skill[i];
    return i;
}

static bool can_hold(const resource_check *r, const presence *p, kit_index step) {
    const kit_step *s = &r->c->kit->steps[step];
    return p->working_min > 0 && p->working_min >= minutes_in_one(r, s) &&
           p->adults >= r->c->workshop->minimum_adults && has_people(p, s) && has_supervision(p, s) &&
           skill_wanted(r, p, step) == KIT_NONE;
}

static bool check_minutes(resource_check *r, const kit_step *s) {
    int64_t minutes = minutes_in_one(r, s);
    if (minutes <= r->whole_crew.working_min)
        return true;
    fault_add(
        r->c->faults, kit_place(r->c, "steps", s->row, "likely_min"),
        "let it pause, split it, or plan a longer session",
        "step %.*s takes this crew %lld min and may not pause; the longest session has %lld working minutes",
        TEXT_ARG(s->number), (long long)minutes, (long long)r->whole_crew.working_min);
    return false;
}

static bool check_people(resource_check *r, const kit_step *s) {
    if (has_people(&r->whole_crew, s))
        return true;
    fault_add(r->c->faults, kit_place(r->c, "steps", s->row, "people"), "find more people",
              "step %.*s needs %lld people%s, the crew has %lld", TEXT_ARG(s->number), (long long)s->people,
              s->supervision == KIT_BESIDE ? " and a supervisor" : "", (long long)r->whole_crew.people);
    return false;
}

static bool check_supervision(resource_check *r, const kit_step *s) {
    const kit *k = r->c->kit;
    if (has_supervision(&r->whole_crew, s))
        return true;
    fault_place place = kit_place(r->c, "steps", s->row, "supervision");
    if (s->supervision == KIT_ADULT_DOES)
        fault_add(r->c->faults, place, "find more adults",
                  "step %.*s is done by %lld adult%s, the crew has %lld", TEXT_ARG(s->number),
                  (long long)s->people, s->people == 1 ? "" : "s", (long long)r->whole_crew.adults);
    else if (s->work == KIT_NONE)
        fault_add(r->c->faults, place, "find an adult",
                  "step %.*s needs a supervisor, and the crew has no adult", TEXT_ARG(s->number));
    else
        fault_add(r->c->faults, place, "name the work in the supervises cell of an adult who may",
                  "step %.*s needs a supervisor for \"%.*s\", and nobody supervises that",
                  TEXT_ARG(s->number), TEXT_ARG(k->works[s->work].number));
    return false;
}

static bool check_skill(resource_check *r, kit_index step) {
    const kit *k = r->c->kit;
    kit_index i = skill_wanted(r, &r->whole_crew, step);
    if (i == KIT_NONE)
        return true;
    const kit_step_skill *wanted = &k->step_skills[i];
    fault_add(r->c->faults, kit_place(r->c, "step_skills", wanted->row, "skill"),
              "teach it and name it in the skills cell of the crew",
              "step %.*s needs %lld with the skill \"%.*s\", the crew has %lld",
              TEXT_ARG(k->steps[step].number), (long long)wanted->people,
              TEXT_ARG(k->skills[wanted->skill].number), (long long)r->whole_crew.skilled[wanted->skill]);
    return false;
}

static bool check_with_crew(resource_check *r, kit_index step) {
    bool possible = check_people(r, &r->c->kit->steps[step]);
    possible = check_supervision(r, &r->c->kit->steps[step]) && possible;
    return check_skill(r, step) && possible;
}

static void check_with_sessions(resource_check *r, kit_index step) {
    const kit_step *s = &r->c->kit->steps[step];
    for (uint32_t i = 0; i < r->c->workshop->n_sessions; i++)
        if (can_hold(r, &r->sessions[i], step))
            return;
    fault_add(r->c->faults, kit_place(r->c, "steps", s->row, ""),
              "ask more people to come to one of the sessions",
              "step %.*s fits into no session with those who come to it", TEXT_ARG(s->number));
}

/* What a rule concludes from a table of the workshop holds only when all of it could be read. */
static bool is_whole(const kit_workshop *w, const char *table) {
    const kit_table_state *s = kit_workshop_state(w, table);
    bool whole = !s->damaged;
    for (uint32_t i = 0; whole && i < s->n; i++)
        whole = !s->faulty[i];
    return whole;
}

static void check_steps_held(kit_checker *c) {
    const kit_workshop *w = c->workshop;
    bool crew = is_whole(w, "crew"), hours = is_whole(w, "workshop") && is_whole(w, "sessions"),
         all = crew && hours && is_whole(w, "attendance");
    resource_check r = {.c = c};
    count_crew(&r);
    if (all)
        count_sessions(&r);
    link_skills(&r);
    for (kit_index i = 0; i < c->kit->n_steps; i++) {
        if (kit_state(c->kit, "steps")->faulty[i])
            continue;
        bool possible = !hours || check_minutes(&r, &c->kit->steps[i]);
        possible = (!crew || check_with_crew(&r, i)) && possible;
        if (possible && all && r.whole_crew.adults >= w->minimum_adults)
            check_with_sessions(&r, i);
    }
}

/* --- what is owned --- */

static const kit_owned *find_owned(const kit_owned *list, uint32_t n, kit_index what) {
    for (uint32_t i = 0; i < n; i++)
        if (list[i].what == what)
            return &list[i];
    return NULL;
}

static void check_tool(kit_checker *c, kit_index tool, const kit_step_tool *most) {
    const kit *k = c->kit;
    const kit_owned *owned = find_owned(c->workshop->tools, c->workshop->n_tools, tool);
    int64_t has = owned ? owned->quantity : 0;
    if (!most || most->quantity <= has)
        return;
    fault_place place = kit_workshop_place(c, "tools", owned ? owned->row : 0, owned ? "quantity" : "tool");
    const kit_tool *t = &k->tools[tool];
    if (has == 0)
        fault_add(c->faults, place, "find one and add it",
                  "nobody has \"%.*s\" (%.*s), which step %.*s needs", TEXT_ARG(t->number), TEXT_ARG(t->name),
                  TEXT_ARG(k->steps[most->step].number));
    else
        fault_add(c->faults, place, "find more of it",
                  "step %.*s needs %lld of \"%.*s\" (%.*s) at once, the workshop has %lld",
                  TEXT_ARG(k->steps[most->step].number), (long long)most->quantity, TEXT_ARG(t->number),
                  TEXT_ARG(t->name), (long long)has);
}

static void check_tools(kit_checker *c) {
    const kit *k = c->kit;
    if (!is_whole(c->workshop, "tools"))
        return;
    const kit_step_tool **most = arena_array(c->memory, const kit_step_tool *, k->n_tools);
    for (uint32_t i = 0; i < k->n_step_tools; i++) {
        const kit_step_tool *one = &k->step_tools[i];
        if (!kit_state(k, "step_tools")->faulty[i] &&
            (!most[one->tool] || most[one->tool]->quantity < one->quantity))
            most[one->tool] = one;
    }
    for (kit_index i = 0; i < k->n_tools; i++)
        check_tool(c, i, most[i]);
}

static void check_workplaces(kit_checker *c) {
    const kit *k = c->kit;
    if (!is_whole(c->workshop, "workplaces"))
        return;
    bool *told = arena_array(c->memory, bool, k->n_zones);
    for (uint32_t i = 0; i < k->n_steps; i++) {
        kit_index zone = k->steps[i].zone;
        if (kit_state(k, "steps")->faulty[i] || zone == KIT_NONE || k->zones[zone].kind != KIT_WORKPLACE ||
            told[zone])
            continue;
        const kit_owned *owned = find_owned(c->workshop->workplaces, c->workshop->n_workplaces, zone);
        if (owned && owned->quantity > 0)
            continue;
        told[zone] = true;
        fault_add(c->faults,
                  kit_workshop_place(c, "workplaces", owned ? owned->row : 0, owned ? "quantity" : "zone"),
                  "find a place for it and add it", "there is no \"%.*s\" (%.*s), where step %.*s is done",
                  TEXT_ARG(k->zones[zone].number), TEXT_ARG(k->zones[zone].name),
                  TEXT_ARG(k->steps[i].number));
    }
}

void kit_check_resources(kit_checker *c) {
    check_steps_held(c);
    check_tools(c);
    check_workplaces(c);
}
