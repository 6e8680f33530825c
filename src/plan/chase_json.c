/* chase_json.c: what to chase and to order, as JSON; docs/json.md explains each member. */
#include "base/json_out.h"
#include "plan/late_parts.h"

static void put_day(json_out *j, const char *key, date_day day, bool known) {
    char shown[11];
    if (!known) {
        json_put_null(j, key);
        return;
    }
    date_print(day, shown);
    json_put_text(j, key, text_of(shown));
}

static void put_finish(json_out *j, const char *key, const plan_outcome *o, bool known) {
    char moment[17];
    if (!known || !o->found || !o->dated) {
        json_put_null(j, key);
        return;
    }
    date_print_moment(o->finish, moment);
    json_put_text(j, key, text_of(moment));
}

static void put_cost(json_out *j, const char *key, const plan_outcome *best, const plan_outcome *then,
                     bool known) {
    int32_t days, minutes;
    if (known && plan_cost_of(best, then, &days, &minutes))
        json_put_integer(j, key, days);
    else
        json_put_null(j, key);
}

static void add_part(json_out *j, const kit *k, const plan_late_part *x) {
    json_put_object(j, NULL);
    json_put_text(j, "part", k->parts[x->part].number);
    json_put_integer(j, "lacking", x->lacking);
    put_day(j, "promised_for", x->promised_for, x->promised);
    put_finish(j, "finish_with_it", &x->best, true);
    put_finish(j, "finish_as_promised", &x->as_promised, x->promised);
    put_cost(j, "cost_days", &x->best, &x->as_promised, x->promised);
    put_day(j, "last_free_day", x->last_free, true);
    json_put_array(j, "weeks_later");
    for (uint32_t n = 0; n < PLAN_LATE_WEEKS; n++) {
        json_put_object(j, NULL);
        put_finish(j, "finish", &x->week[n], true);
        put_cost(j, "cost_days", &x->best, &x->week[n], true);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_array(j, "held_up");
    for (uint32_t n = 0; n < x->n_held_up; n++)
        json_put_text(j, NULL, k->steps[x->held_up[n]].number);
    json_end_array(j);
    json_put_bool(j, "sure", x->sure);
    json_end_object(j);
}

static void add_order(json_out *j, const kit *k, const plan_order *x) {
    json_put_object(j, NULL);
    json_put_text(j, x->is_tool ? "tool" : "consumable",
                  x->is_tool ? k->tools[x->what].number : k->consumables[x->what].number);
    json_put_integer(j, "quantity", x->quantity);
    json_put_text(j, "first_step", k->steps[x->step].number);
    put_day(j, "needed", date_of_moment(x->needed), x->dated);
    put_day(j, "order_by", x->order_by, x->dated && x->days_known);
    json_end_object(j);
}

void plan_write_chase_json(const plan_input *in, const plan_chase *c, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "parts");
    for (uint32_t n = 0; n < c->n_parts; n++)
        add_part(&j, in->kit, &c->parts[n]);
    json_end_array(&j);
    json_put_array(&j, "orders");
    for (uint32_t n = 0; n < c->n_orders; n++)
        add_order(&j, in->kit, &c->orders[n]);
    json_end_array(&j);
    json_put_integer(&j, "plans", c->n_plans);
    json_end_object(&j);
}
