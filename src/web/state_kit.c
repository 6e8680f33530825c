/* state_kit.c: the kit as JSON: what the pages need of it, once. */
#include "web/state.h"

static text number_of_container(const kit *k, kit_index c) {
    return c == KIT_NONE ? TEXT("") : k->containers[c].number;
}

static void put_texts(json_out *j, const char *key, kit_texts t) {
    json_put_array(j, key);
    for (uint32_t i = 0; i < t.n; i++)
        json_put_text(j, NULL, t.list[i]);
    json_end_array(j);
}

static const char *unit_word(kit_unit u) {
    static const char *const words[] = {[KIT_PIECE] = "", [KIT_MM] = "mm", [KIT_G] = "g",
                                        [KIT_MG] = "mg",  [KIT_ML] = "ml", [KIT_PACK] = "pack"};
    return words[u];
}

static void put_containers(json_out *j, const kit *k) {
    json_put_array(j, "containers");
    for (kit_index i = 0; i < k->n_containers; i++) {
        const kit_container *c = &k->containers[i];
        json_put_object(j, NULL);
        json_put_text(j, "no", c->number);
        json_put_text(j, "name", c->name);
        json_put_bool(j, "box", c->kind == KIT_BOX);
        json_put_text(j, "inside", number_of_container(k, c->inside));
        json_put_integer(j, "mass_g", c->gross_mass_g);
        json_put_text(j, "label", c->label);
        json_put_integer(j, "lift", c->lift_people);
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_rows(json_out *j, const kit *k) {
    json_put_array(j, "rows");
    for (kit_index i = 0; i < k->n_rows; i++) {
        const kit_row *r = &k->rows[i];
        json_put_object(j, NULL);
        json_put_text(j, "in", k->containers[r->container].number);
        json_put_integer(j, "line", r->line);
        json_put_text(j, "part", k->parts[r->part].number);
        json_put_integer(j, "quantity", r->quantity);
        json_put_text(j, "unit", text_of(unit_word(r->unit)));
        json_put_integer(j, "spare", r->spare);
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_parts(json_out *j, const kit *k) {
    json_put_array(j, "parts");
    for (kit_index i = 0; i < k->n_parts; i++) {
        const kit_part *p = &k->parts[i];
        json_put_object(j, NULL);
        json_put_text(j, "no", p->number);
        json_put_text(j, "name", p->name);
        put_texts(j, "makers", p->makers_numbers);
        json_put_text(j, "designation", p->designation);
        json_put_integer(j, "mass_mg", p->mass_mg);
        json_put_bool(j, "single_use", p->single_use);
        json_put_text(j, "note", p->note);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_array(j, "stand_ins");
    for (kit_index i = 0; i < k->n_stand_ins; i++) {
        json_put_object(j, NULL);
        json_put_text(j, "part", k->parts[k->stand_ins[i].part].number);
        json_put_text(j, "stand_in", k->parts[k->stand_ins[i].stand_in].number);
        json_put_text(j, "condition", k->stand_ins[i].condition);
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_step_parts(json_out *j, const kit *k, kit_index step) {
    static const char *const how[] = {"none", "loose", "hand", "torque"};
    static const char *const condition[] = {"dry", "oiled", "thread-locked"};
    json_put_array(j, "parts");
    for (kit_index i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->step != step)
            continue;
        json_put_object(j, NULL);
        json_put_text(j, "part", k->parts[p->part].number);
        json_put_integer(j, "quantity", p->quantity);
        json_put_text(j, "tightening", text_of(how[p->tightening]));
        if (p->torque_cnm >= 0)
            json_put_decimal(j, "torque_nm", p->torque_cnm, 2);
        json_put_text(j, "condition", text_of(condition[p->condition]));
        json_put_text(j, "order", p->order);
        json_put_text(j, "closed_by", p->closed_by == KIT_NONE ? TEXT("") : k->steps[p->closed_by].number);
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_step_lists(json_out *j, const kit *k, kit_index step) {
    json_put_array(j, "after");
    for (kit_index i = 0; i < k->n_step_after; i++)
        if (k->step_after[i].step == step)
            json_put_text(j, NULL, k->steps[k->step_after[i].after].number);
    json_end_array(j);
    json_put_array(j, "tools");
    for (kit_index i = 0; i < k->n_step_tools; i++) {
        if (k->step_tools[i].step != step)
            continue;
        const kit_tool *t = &k->tools[k->step_tools[i].tool];
        json_put_object(j, NULL);
        json_put_text(j, "no", t->number);
        json_put_text(j, "name", t->name);
        json_put_text(j, "size", t->size);
        json_put_integer(j, "quantity", k->step_tools[i].quantity);
        json_end_object(j);
    }
    json_end_array(j);
    json_put_array(j, "cautions");
    for (kit_index i = 0; i < k->n_step_cautions; i++) {
        const kit_step_caution *c = &k->step_cautions[i];
        if (c->step != step)
            continue;
        json_put_object(j, NULL);
        json_put_text(j, "hazard", c->hazard);
        json_put_text(j, "who", c->who);
        json_put_text(j, "control", c->control);
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_limit(json_out *j, const char *key, int64_t milli) {
    if (milli != INT64_MIN && milli != INT64_MAX)
        json_put_decimal(j, key, milli, 3);
}

static void put_tests(json_out *j, const kit *k, kit_index step) {
    static const char *const signer[] = {"learner", "supervisor", "leader"};
    json_put_array(j, "tests");
    for (kit_index i = 0; i < k->n_step_tests; i++) {
        const kit_step_test *t = &k->step_tests[i];
        if (t->step != step)
            continue;
        json_put_object(j, NULL);
        json_put_integer(j, "n", stock_test_number(k, i));
        json_put_text(j, "what", t->what);
        json_put_text(j, "unit", t->unit);
        put_limit(j, "low", t->low_milli);
        put_limit(j, "high", t->high_milli);
        json_put_bool(j, "hold_point", t->hold_point);
        json_put_text(j, "signed_by", text_of(signer[t->signed_by]));
        json_end_object(j);
    }
    json_end_array(j);
}

static void put_step(json_out *j, const kit *k, kit_index i) {
    static const char *const supervision[] = {"room", "beside", "adult"};
    const kit_step *s = &k->steps[i];
    json_put_object(j, NULL);
    json_put_text(j, "no", s->number);
    json_put_text(j, "name", s->name);
    json_put_text(j, "unit",
                  s->sub_assembly == KIT_NONE ? TEXT("") : k->sub_assemblies[s->sub_assembly].name);
    json_put_text(j, "work", s->work == KIT_NONE ? TEXT("") : k->works[s->work].name);
    json_put_integer(j, "likely_min", s->likely_min);
    json_put_integer(j, "people", s->people);
    json_put_text(j, "supervision", text_of(supervision[s->supervision]));
    json_put_text(j, "zone", s->zone == KIT_NONE ? TEXT("") : k->zones[s->zone].name);
    json_put_bool(j, "may_pause", s->may_pause);
    json_put_text(j, "safe_state", s->safe_state);
    json_put_integer(j, "delay_min", s->delay_min);
    json_put_text(j, "delay_text", s->delay_text);
    put_texts(j, "wear", s->wear);
    put_texts(j, "not_wear", s->not_wear);
    json_put_text(j, "page", s->page);
    json_put_text(j, "picture", s->picture);
    json_put_text(j, "instruction", s->instruction);
    put_step_lists(j, k, i);
    put_step_parts(j, k, i);
    put_tests(j, k, i);
    json_end_object(j);
}

void state_write_kit(const desk *d, buf *out) {
    const kit *k = d->kit;
    buf scratch = {0};
    json_out w = json_to(&scratch), *j = &w;
    json_put_object(j, NULL);
    json_put_text(j, "number", k->number);
    json_put_text(j, "name", k->name);
    json_put_text(j, "serial", k->serial);
    json_put_text(j, "revision", k->revision);
    json_put_text(j, "maker", k->maker);
    json_put_text(j, "contact", k->contact);
    put_containers(j, k);
    put_rows(j, k);
    put_parts(j, k);
    json_put_array(j, "steps");
    const kit_index *order = kit_build_order(d->memory, k);
    for (kit_index i = 0; i < k->n_steps; i++)
        put_step(j, k, order[i]);
    json_end_array(j);
    json_end_object(j);
    state_add_compact(out, buf_text(&scratch));
    buf_free(&scratch);
}
