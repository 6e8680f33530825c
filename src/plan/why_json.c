/* why_json.c: what holds a build up, as JSON; docs/json.md explains each member. */
#include "base/json_out.h"
#include "plan/plan.h"

static const char *kind_word(plan_change_kind kind) {
    static const char *const words[] = {"one more person",   "always there",        "stays away",
                                        "one more tool",     "one more workplace",  "one more session",
                                        "session cancelled", "part here",           "person gone",
                                        "one tool fewer",    "one workplace fewer", "part later"};
    return words[kind];
}

static void add_outcome(json_out *j, const plan_outcome *o) {
    char moment[17];
    date_print_moment(o->finish, moment);
    if (o->found && o->dated)
        json_put_text(j, "finish", text_of(moment));
    else
        json_put_null(j, "finish");
    json_put_integer(j, "sessions", o->sessions);
    json_put_integer(j, "steps", o->steps_planned);
    json_put_bool(j, "proven", o->proven);
}

static void add_change(json_out *j, arena *a, const plan_input *in, const char *key, plan_change c) {
    json_put_object(j, key);
    json_put_text(j, "kind", text_of(kind_word(c.kind)));
    json_put_text(j, "words", plan_change_words(a, in, c));
    json_end_object(j);
}

void plan_write_why_json(const plan_input *in, const plan_why *w, buf *out) {
    arena *a = arena_open();
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_object(&j, "now");
    add_outcome(&j, &w->now);
    json_end_object(&j);
    json_put_array(&j, "effects");
    for (uint32_t k = 0; k < w->n_effects; k++) {
        const plan_effect *x = &w->effects[k];
        json_put_object(&j, NULL);
        add_change(&j, a, in, "change", x->change);
        json_put_text(&j, "sentence", x->sentence);
        json_put_integer(&j, "days_earlier", x->days_earlier);
        json_put_integer(&j, "min_earlier", x->min_earlier);
        json_put_integer(&j, "more_steps", x->more_steps);
        json_put_bool(&j, "sure", x->sure);
        json_put_object(&j, "then");
        add_outcome(&j, &x->then);
        json_end_object(&j);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_bool(&j, "wanted_day", w->wanted);
    json_put_bool(&j, "in_time", w->met);
    json_put_array(&j, "enough");
    for (uint32_t k = 0; k < w->n_enough; k++)
        add_change(&j, a, in, NULL, w->enough[k]);
    json_end_array(&j);
    json_put_integer(&j, "tried_together", w->tried);
    json_put_bool(&j, "least", w->least);
    json_put_bool(&j, "never", w->never);
    json_put_integer(&j, "plans", w->n_plans);
    json_end_object(&j);
    arena_close(a);
}
