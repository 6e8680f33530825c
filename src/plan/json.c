/* json.c: a plan as JSON; docs/json.md explains each member. */
#include "base/json_out.h"
#include "plan/plan.h"

static void add_moment(json_out *j, const char *key, date_moment m, bool dated) {
    char shown[17];
    if (!dated) {
        json_put_null(j, key);
        return;
    }
    date_print_moment(m, shown);
    json_put_text(j, key, text_of(shown));
}

static void add_minutes(json_out *j, const char *key, int32_t minutes) {
    if (minutes < 0)
        json_put_null(j, key);
    else
        json_put_integer(j, key, minutes);
}

static void add_number(json_out *j, const char *key, const text *number) {
    if (number)
        json_put_text(j, key, *number);
    else
        json_put_null(j, key);
}

/* The name; the number when the name was blanked. */
static void add_person(json_out *j, const char *key, const plan *p, kit_index person) {
    const kit_person *who = &p->workshop->crew[person];
    json_put_text(j, key, who->name.len ? who->name : who->number);
}

/* Those at work and the supervisor beside them, in the order of the crew. */
static void add_people(json_out *j, const plan *p, const plan_stretch *stretches, uint32_t n) {
    json_put_array(j, "people");
    for (kit_index person = 0; person < p->workshop->n_crew; person++) {
        bool works = false;
        for (uint32_t k = 0; k < n; k++) {
            works = works || stretches[k].supervisor == person;
            for (uint32_t x = 0; x < stretches[k].n_people; x++)
                works = works || stretches[k].people[x] == person;
        }
        if (works)
            add_person(j, NULL, p, person);
    }
    json_end_array(j);
}

static void add_stretches(json_out *j, const plan *p, const plan_step *s) {
    json_put_array(j, "stretches");
    for (uint32_t k = 0; k < s->n_stretches; k++) {
        const plan_stretch *t = &s->stretches[k];
        json_put_object(j, NULL);
        json_put_integer(j, "session", p->sessions[t->session].number);
        json_put_integer(j, "start_min", t->start_min);
        json_put_integer(j, "end_min", t->end_min);
        add_people(j, p, t, 1);
        if (t->supervisor == KIT_NONE)
            json_put_null(j, "supervisor");
        else
            add_person(j, "supervisor", p, t->supervisor);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_tools(json_out *j, const kit *k, kit_index step) {
    json_put_array(j, "tools");
    for (uint32_t x = 0; x < k->n_step_tools; x++) {
        if (k->step_tools[x].step != step)
            continue;
        json_put_object(j, NULL);
        json_put_text(j, "tool", k->tools[k->step_tools[x].tool].number);
        json_put_integer(j, "quantity", k->step_tools[x].quantity);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_step(json_out *j, const plan *p, const plan_step *s) {
    const kit_step *what = &p->kit->steps[s->step];
    json_put_object(j, NULL);
    json_put_text(j, "step", what->number);
    json_put_text(j, "name", what->name);
    if (what->sub_assembly == KIT_NONE)
        json_put_null(j, "sub_assembly");
    else
        json_put_text(j, "sub_assembly", p->kit->sub_assemblies[what->sub_assembly].number);
    json_put_integer(j, "start_min", s->start_min);
    json_put_integer(j, "end_min", s->end_min);
    add_moment(j, "start", s->start, s->start_dated);
    add_moment(j, "end", s->end, s->end_dated);
    json_put_integer(j, "session", p->sessions[s->session].number);
    add_people(j, p, s->stretches, s->n_stretches);
    add_stretches(j, p, s);
    if (what->zone == KIT_NONE)
        json_put_null(j, "workplace");
    else
        json_put_text(j, "workplace", p->kit->zones[what->zone].number);
    add_tools(j, p->kit, s->step);
    json_put_integer(j, "slack_min", s->slack_min);
    json_put_bool(j, "decides_finish", s->decides_finish);
    json_put_integer(j, "put_off_min", s->put_off_min);
    add_number(j, "waits_delay_of",
               s->waits_delay_of == KIT_NONE ? NULL : &p->kit->steps[s->waits_delay_of].number);
    add_number(j, "waits_part", s->waits_part == KIT_NONE ? NULL : &p->kit->parts[s->waits_part].number);
    json_put_integer(j, "early_start_min", s->early_start_min);
    json_put_integer(j, "early_end_min", s->early_end_min);
    json_put_integer(j, "late_start_min", s->late_start_min);
    json_put_integer(j, "late_end_min", s->late_end_min);
    add_minutes(j, "alone_start_min", s->alone_start_min);
    add_minutes(j, "alone_end_min", s->alone_end_min);
    json_end_object(j);
}

static void add_held_up(json_out *j, const plan *p) {
    const kit *k = p->kit;
    json_put_array(j, "stopped");
    for (uint32_t n = 0; n < p->n_stopped; n++) {
        json_put_object(j, NULL);
        json_put_text(j, "step", k->steps[p->stopped[n].step].number);
        json_put_text(j, "part", k->parts[p->stopped[n].part].number);
        json_put_integer(j, "missing", p->stopped[n].missing);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_array(j, "waiting");
    for (uint32_t n = 0; n < p->n_waiting; n++) {
        json_put_object(j, NULL);
        json_put_text(j, "step", k->steps[p->waiting[n].step].number);
        json_put_text(j, "after", k->steps[p->waiting[n].after].number);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_array(j, "impossible");
    for (uint32_t n = 0; n < p->n_impossible; n++) {
        json_put_object(j, NULL);
        json_put_text(j, "step", k->steps[p->impossible[n].step].number);
        json_put_text(j, "reason", p->impossible[n].reason);
        json_put_text(j, "remedy", p->impossible[n].remedy);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_shifts(json_out *j, const plan *p) {
    json_put_bool(j, "announced", p->announced);
    json_put_array(j, "changes");
    for (uint32_t n = 0; n < p->n_shifts; n++) {
        const plan_shift *s = &p->shifts[n];
        json_put_object(j, NULL);
        json_put_text(j, "step", p->kit->steps[s->step].number);
        json_put_text(j, "kind", text_of(plan_shift_word(s->kind)));
        add_moment(j, "announced", s->told, s->kind != PLAN_SHIFT_ADDED);
        add_moment(j, "now", s->now, s->now_dated);
        json_put_text(j, "why", s->why);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_pace(json_out *j, const plan_pace *it) {
    json_put_integer(j, "steps", it->steps);
    json_put_decimal(j, "factor", it->percent, 2);
    if (it->steps > 0)
        json_put_decimal(j, "seen", it->seen_percent, 2);
    else
        json_put_null(j, "seen");
}

static void add_paces(json_out *j, const plan *p) {
    if (!p->paces) {
        json_put_null(j, "pace");
        return;
    }
    json_put_object(j, "pace");
    add_pace(j, &p->paces->crew);
    json_put_array(j, "works");
    for (uint32_t n = 0; n < p->paces->n_works; n++) {
        const plan_pace *it = &p->paces->works[n];
        json_put_object(j, NULL);
        if (it->work == KIT_NONE)
            json_put_null(j, "work");
        else
            json_put_text(j, "work", p->kit->works[it->work].number);
        add_pace(j, it);
        json_end_object(j);
    }
    json_end_array(j);
    json_end_object(j);
}

static void add_sessions(json_out *j, const plan *p) {
    json_put_array(j, "sessions");
    for (uint32_t n = 0; n < p->n_sessions; n++) {
        const plan_session *s = &p->sessions[n];
        json_put_object(j, NULL);
        json_put_integer(j, "session", s->number);
        json_put_integer(j, "from_min", s->from_min);
        json_put_integer(j, "to_min", s->to_min);
        add_moment(j, "start", s->begins, s->dated);
        add_moment(j, "end", s->ends, s->dated);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_shelf(json_out *j, const char *key, const plan_shelf *s) {
    json_put_object(j, key);
    json_put_integer(j, "most", s->most);
    json_put_integer(j, "unit_min", s->unit_min);
    json_end_object(j);
}

static void add_units(json_out *j, const plan *p) {
    json_put_array(j, "sub_assemblies");
    for (uint32_t n = 0; n < p->n_units; n++) {
        const plan_unit *u = &p->units[n];
        json_put_object(j, NULL);
        json_put_text(j, "sub_assembly", p->kit->sub_assemblies[u->sub_assembly].number);
        json_put_integer(j, "begun_min", u->begun_min);
        json_put_integer(j, "ready_min", u->ready_min);
        add_minutes(j, "joined_min", u->joins ? u->joined_min : -1);
        json_put_integer(j, "early_begun_min", u->early_begun_min);
        json_put_integer(j, "early_ready_min", u->early_ready_min);
        add_minutes(j, "early_joined_min", u->joins ? u->early_joined_min : -1);
        json_put_integer(j, "wanted_buffer_min", u->wanted_buffer_min);
        json_put_integer(j, "buffer_min", u->buffer_min);
        json_end_object(j);
    }
    json_end_array(j);
    add_shelf(j, "shelf", &p->shelf);
    add_shelf(j, "early_shelf", &p->early_shelf);
    json_put_bool(j, "shelf_least", p->shelf_least);
}

static void add_skills(json_out *j, const plan *p, const plan_turn *t) {
    json_put_array(j, "skills");
    for (uint32_t n = 0; n < t->n_skills; n++) {
        const plan_practice *x = &t->skills[n];
        json_put_object(j, NULL);
        json_put_text(j, "skill", p->kit->skills[x->skill].number);
        json_put_bool(j, "before", x->before);
        if (x->step == KIT_NONE) {
            json_put_null(j, "step");
            json_put_null(j, "session");
        } else {
            json_put_text(j, "step", p->kit->steps[x->step].number);
            json_put_integer(j, "session", p->sessions[x->session].number);
        }
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_turns(json_out *j, const plan *p) {
    json_put_array(j, "turns");
    for (kit_index q = 0; p->turns && q < p->workshop->n_crew; q++) {
        const plan_turn *t = &p->turns[q];
        json_put_object(j, NULL);
        add_person(j, "person", p, q);
        json_put_bool(j, "adult", p->workshop->crew[q].adult);
        json_put_integer(j, "present_min", t->present_min);
        json_put_integer(j, "own_min", t->own_min);
        json_put_integer(j, "share_min", t->share_min);
        json_put_integer(j, "lack_min", t->lack_min);
        json_put_integer(j, "longest_wait_min", t->longest_wait_min);
        add_skills(j, p, t);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_integer(j, "wait_beyond_min", p->wait_beyond_min);
    json_put_bool(j, "turns_least", p->turns_least);
}

void plan_write_json(const plan *p, buf *out) {
    json_out j = json_to(out);
    bool found = p->status == PLAN_OPTIMAL || p->status == PLAN_FEASIBLE;
    json_put_object(&j, NULL);
    json_put_text(&j, "status", text_of(plan_status_word(p->status)));
    add_minutes(&j, "makespan_min", found ? p->makespan_min : -1);
    add_minutes(&j, "lower_bound_min", p->status == PLAN_INFEASIBLE ? -1 : p->lower_bound_min);
    json_put_bool(&j, "proven", p->proven);
    add_moment(&j, "finish", p->finish, p->finish_dated && p->n_steps > 0);
    json_put_integer(&j, "undated_sessions", p->n_undated_used);
    add_minutes(&j, "one_after_another_min", p->one_after_another_min);
    add_moment(&j, "one_after_another_finish", p->one_after_another_finish, p->one_after_another_dated);
    add_sessions(&j, p);
    json_put_array(&j, "steps");
    for (uint32_t n = 0; n < p->n_steps; n++)
        add_step(&j, p, &p->steps[n]);
    json_end_array(&j);
    add_units(&j, p);
    add_turns(&j, p);
    add_held_up(&j, p);
    add_shifts(&j, p);
    add_paces(&j, p);
    json_end_object(&j);
}
