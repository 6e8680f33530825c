/* curve_json.c: the crew curve as JSON; docs/json.md explains each member. */
#include "base/json_out.h"
#include "plan/curve.h"

static const char *word(plan_curve_status s) {
    static const char *const words[] = {"proven", "range", "open", "cannot"};
    return words[s];
}

static void add_minutes(json_out *j, const char *key, int32_t minutes) {
    if (minutes < 0)
        json_put_null(j, key);
    else
        json_put_integer(j, key, minutes);
}

static void add_point(json_out *j, const plan_curve_point *p) {
    json_put_object(j, NULL);
    json_put_integer(j, "crew", p->crew);
    json_put_integer(j, "adults", p->adults);
    json_put_text(j, "status", text_of(word(p->status)));
    add_minutes(j, "finish_min", p->finish_min);
    add_minutes(j, "bound_min", p->bound_min);
    add_minutes(j, "sessions", p->finish_min >= 0 ? (int32_t)p->sessions : -1);
    add_minutes(j, "one_after_another_min", p->alone_min);
    add_minutes(j, "one_after_another_sessions", p->alone_min >= 0 ? (int32_t)p->alone_sessions : -1);
    json_put_text(j, "reason", p->reason);
    json_end_object(j);
}

static void add_names(json_out *j, const char *key, const text *list, uint32_t n) {
    json_put_array(j, key);
    for (uint32_t k = 0; k < n && list[k].len > 0; k++)
        json_put_text(j, NULL, list[k]);
    json_end_array(j);
}

void plan_write_curve_json(const plan_curve *c, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    add_names(&j, "adults", c->adults, PLAN_CURVE_ADULTS);
    add_names(&j, "learners", c->learners, PLAN_CURVE_CREW);
    json_put_array(&j, "points");
    for (uint32_t a = 0; a < PLAN_CURVE_ADULTS; a++)
        for (uint32_t n = a; n < PLAN_CURVE_CREW; n++)
            add_point(&j, &c->at[a][n]);
    json_end_array(&j);
    json_put_integer(&j, "plans", c->n_plans);
    json_end_object(&j);
}
