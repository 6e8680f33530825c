/* evening_json.c: one session as JSON; docs/json.md explains each member. */
#include "base/json_out.h"
#include "plan/evening.h"

static text name_of(const plan *p, kit_index person) {
    const kit_person *who = &p->workshop->crew[person];
    return who->name.len ? who->name : who->number;
}

static void add_clock(json_out *j, const char *key, const plan_session *s, int32_t minute) {
    char shown[17];
    date_print_moment(s->begins + (minute - s->from_min), shown);
    if (s->dated)
        json_put_text(j, key, text_of(shown));
    else
        json_put_null(j, key);
}

static void add_texts(json_out *j, const char *key, kit_texts list) {
    json_put_array(j, key);
    for (uint32_t k = 0; k < list.n; k++)
        json_put_text(j, NULL, list.list[k]);
    json_end_array(j);
}

static void add_things(json_out *j, const plan *p, kit_index step) {
    const kit *k = p->kit;
    const kit_step *s = &k->steps[step];
    if (s->zone == KIT_NONE)
        json_put_null(j, "workplace");
    else
        json_put_text(j, "workplace", k->zones[s->zone].number);
    json_put_array(j, "tools");
    for (uint32_t x = 0; x < k->n_step_tools; x++) {
        if (k->step_tools[x].step != step)
            continue;
        json_put_object(j, NULL);
        json_put_text(j, "tool", k->tools[k->step_tools[x].tool].number);
        json_put_text(j, "name", k->tools[k->step_tools[x].tool].name);
        json_put_integer(j, "quantity", k->step_tools[x].quantity);
        json_end_object(j);
    }
    json_end_array(j);
    add_texts(j, "wear", s->wear);
    add_texts(j, "not_wear", s->not_wear);
}

static void add_turn(json_out *j, const plan *p, const plan_duty *t) {
    const plan_session *s = &p->sessions[t->stretch->session];
    const kit_step *what = &p->kit->steps[t->step->step];
    json_put_object(j, NULL);
    json_put_text(j, "step", what->number);
    json_put_text(j, "name", what->name);
    json_put_integer(j, "from_min", t->stretch->start_min - s->from_min);
    json_put_integer(j, "to_min", t->stretch->end_min - s->from_min);
    add_clock(j, "from", s, t->stretch->start_min);
    add_clock(j, "to", s, t->stretch->end_min);
    json_put_text(j, "begins_as",
                  t->begins    ? TEXT("begin")
                  : t->goes_on ? TEXT("go on")
                               : TEXT("change over"));
    json_put_text(j, "ends_as", t->ends ? TEXT("done") : t->left ? TEXT("left") : TEXT("change over"));
    json_put_array(j, "people");
    for (uint32_t k = 0; k < t->stretch->n_people; k++)
        json_put_text(j, NULL, name_of(p, t->stretch->people[k]));
    json_end_array(j);
    if (t->stretch->supervisor == KIT_NONE)
        json_put_null(j, "supervisor");
    else
        json_put_text(j, "supervisor", name_of(p, t->stretch->supervisor));
    add_things(j, p, t->step->step);
    json_put_text(j, "safe_state", t->left ? what->safe_state : TEXT(""));
    json_put_bool(j, "decides_finish", t->step->decides_finish);
    json_end_object(j);
}

static void add_person(json_out *j, const plan *p, const plan_session *s, const plan_presence *it) {
    json_put_object(j, NULL);
    json_put_text(j, "name", name_of(p, it->person));
    json_put_bool(j, "adult", p->workshop->crew[it->person].adult);
    json_put_bool(j, "comes", it->comes);
    json_put_integer(j, "from_min", it->from_min - s->from_min);
    json_put_integer(j, "until_min", it->until_min - s->from_min);
    json_put_integer(j, "hands_on_min", it->hands_on_min);
    json_put_integer(j, "beside_min", it->beside_min);
    json_end_object(j);
}

void plan_write_evening_json(const plan *p, const plan_evening *e, buf *out) {
    json_out j = json_to(out);
    const plan_session *s = &p->sessions[e->session];
    json_put_object(&j, NULL);
    json_put_integer(&j, "session", s->number);
    add_clock(&j, "start", s, s->from_min);
    add_clock(&j, "end", s, s->to_min);
    json_put_array(&j, "turns");
    for (uint32_t k = 0; k < e->n_turns; k++)
        add_turn(&j, p, &e->turns[k]);
    json_end_array(&j);
    json_put_array(&j, "people");
    for (uint32_t k = 0; k < e->n_people; k++)
        add_person(&j, p, s, &e->people[k]);
    json_end_array(&j);
    json_end_object(&j);
}
