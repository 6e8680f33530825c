/* risk_json.c: the risk of a plan as JSON; docs/json.md explains each member. */
#include "base/json_out.h"
#include "plan/risk.h"

static void add_share(json_out *j, const char *key, const plan_share *s) {
    json_put_object(j, key);
    json_put_number(j, "share", s->share);
    json_put_number(j, "low", s->low);
    json_put_number(j, "high", s->high);
    json_end_object(j);
}

static void add_minutes(json_out *j, const char *key, int32_t minutes) {
    if (minutes < 0)
        json_put_null(j, key);
    else
        json_put_integer(j, key, minutes);
}

static void add_sessions(json_out *j, const plan_risk *r) {
    json_put_array(j, "sessions");
    for (uint32_t s = 0; s < r->n_sessions; s++) {
        const plan_risk_session *it = &r->by_session[s];
        if (it->last.count == 0 && it->held_up.count == 0 && !r->sessions[s].dated)
            continue;
        json_put_object(j, NULL);
        json_put_integer(j, "session", r->sessions[s].number);
        if (r->sessions[s].dated) {
            char day[11];
            date_print(date_of_moment(r->sessions[s].begins), day);
            json_put_text(j, "day", text_of(day));
        } else {
            json_put_null(j, "day");
        }
        add_share(j, "last", &it->last);
        add_share(j, "by_then", &it->by_then);
        add_share(j, "held_up", &it->held_up);
        if (it->tried) {
            json_put_object(j, "with_reserve");
            json_put_number(j, "earlier_min", it->earlier_min);
            json_put_number(j, "earlier_error_min", it->earlier_error);
            json_put_number(j, "in_time_more", it->sooner_share);
            json_put_number(j, "in_time_error", it->sooner_error);
            json_end_object(j);
        } else {
            json_put_null(j, "with_reserve");
        }
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_steps(json_out *j, const plan *p, const plan_risk *r) {
    json_put_array(j, "steps");
    for (uint32_t k = 0; k < r->n_steps; k++) {
        json_put_object(j, NULL);
        json_put_text(j, "step", p->kit->steps[r->steps[k].step].number);
        add_share(j, "decides", &r->steps[k].decides);
        json_put_number(j, "late_min", r->steps[k].late_min);
        json_end_object(j);
    }
    json_end_array(j);
}

static void add_joins(json_out *j, const plan *p, const plan_risk *r) {
    json_put_array(j, "joins");
    for (uint32_t k = 0; k < r->n_joins; k++) {
        const plan_risk_join *it = &r->joins[k];
        json_put_object(j, NULL);
        json_put_text(j, "sub_assembly", p->kit->sub_assemblies[it->sub_assembly].number);
        json_put_text(j, "step", p->kit->steps[it->step].number);
        json_put_integer(j, "planned_buffer_min", it->planned_buffer_min);
        add_share(j, "late", &it->late);
        json_put_number(j, "late_min", it->late_min);
        json_put_integer(j, "nine_of_ten_min", it->nine_of_ten_min);
        json_end_object(j);
    }
    json_end_array(j);
}

void plan_write_risk_json(const plan *p, const plan_risk *r, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_integer(&j, "samples", r->samples);
    json_put_integer(&j, "seed", (int64_t)r->seed);
    json_put_integer(&j, "unfinished", r->unfinished);
    json_put_integer(&j, "planned_min", r->planned_min);
    add_minutes(&j, "half_min", r->half_min);
    add_minutes(&j, "nine_of_ten_min", r->nine_of_ten_min);
    json_put_number(&j, "mean_min", r->mean_min);
    json_put_number(&j, "mean_error_min", r->mean_error);
    if (r->wanted)
        add_share(&j, "in_time", &r->met);
    else
        json_put_null(&j, "in_time");
    json_put_integer(&j, "steps_not_planned", p->n_stopped + p->n_waiting + p->n_impossible);
    add_sessions(&j, r);
    json_put_integer(&j, "reserve_samples", r->tried);
    add_steps(&j, p, r);
    add_joins(&j, p, r);
    json_end_object(&j);
}
