/* lift_kit.c: `kitbench lift KIT`: its boxes, its units, and one of them as it grows. */
#include "cli/lift_kit.h"

#include <math.h>
#include <stdio.h>

#include "cli/kit_source.h"
#include "cli/lift_unit.h"
#include "cli/trade_call.h"

void lift_people_text(const lift_team *t, char out[64]) {
    if (t->people)
        snprintf(out, 64, "%d %s", t->people, t->people == 1 ? "adult" : "adults");
    else
        snprintf(out, 64, "over 3: hoist or split it");
}

static void add_row(buf *out, json_out *j, bool json, text number, text name, double kg, const char *people) {
    if (json) {
        json_put_object(j, NULL);
        json_put_text(j, "number", number);
        json_put_text(j, "name", name);
        trade_json_real(j, "mass_kg", kg);
        trade_json_z(j, "people", people);
        json_end_object(j);
        return;
    }
    wrap_pad(out, number, 8);
    buf_add_z(out, "  ");
    wrap_pad(out, name, 20);
    buf_addf(out, "  %7.1f kg  %s\n", kg, people);
}

/* Boxes as shipped, heaviest lifts of the delivery day. */
static bool add_boxes(const kit *k, const lift_posture *p, buf *out, json_out *j, bool json, err *e) {
    for (uint32_t i = 0; i < k->n_containers; i++) {
        const kit_container *c = &k->containers[i];
        double kg = (double)c->gross_mass_g / 1e3;
        if (c->inside != KIT_NONE || c->gross_mass_g <= 0)
            continue;
        lift_team t;
        char people[64] = "over 500 kg", line[96];
        if (kg <= 500) {
            if (!lifting_team(kg, (lifting_person)p->who, (lifting_height)p->height, p->arms_out, &t, e))
                return false;
            lift_people_text(&t, people);
        }
        if (c->lift_people) /* the maker's word stands first */
            snprintf(line, sizeof line, "maker: %lld; %s", (long long)c->lift_people, people);
        else
            snprintf(line, sizeof line, "%s", people);
        add_row(out, j, json, c->number, c->name, kg, line);
    }
    return true;
}

static void adults_text(int people, char out[16]) {
    if (people)
        snprintf(out, 16, "%d", people);
    else
        snprintf(out, 16, "over 3");
}

static void text_growth(const kit_source *from, const lift_growth *g, buf *out) {
    const kit_step *s = &from->kit->steps[g->step];
    char turn[16], carry[16], fit[16];
    adults_text(g->turn, turn);
    adults_text(g->carry, carry);
    adults_text(g->fit, fit);
    wrap_pad(out, s->number, 5);
    buf_add_char(out, ' ');
    wrap_pad(out, s->name, 32);
    buf_addf(out, " %8.2f %8.2f  %5s %5s %5s", g->added_kg, g->mass_kg, turn, carry, fit);
    if (from->build && from->build->stock->work->steps[g->step].state == STOCK_DONE)
        buf_add_z(out, "  done");
    buf_add_char(out, '\n');
}

static void json_growth(const kit *k, const lift_growth *g, json_out *j) {
    json_put_object(j, NULL);
    json_put_text(j, "step", k->steps[g->step].number);
    json_put_text(j, "name", k->steps[g->step].name);
    trade_json_real(j, "added_kg", g->added_kg);
    trade_json_real(j, "mass_kg", g->mass_kg);
    json_put_integer(j, "parts_of_unknown_mass", g->unknown);
    json_put_array(j, "joins");
    for (uint32_t i = 0; i < g->joins.n; i++)
        json_put_text(j, NULL, k->sub_assemblies[g->joins.list[i]].number);
    json_end_array(j);
    json_put_integer(j, "turn", g->turn);
    json_put_integer(j, "carry", g->carry);
    json_put_integer(j, "fit", g->fit);
    json_end_object(j);
}

static bool find_unit(const kit *k, const char *wanted, kit_index *out, err *e) {
    *out = KIT_NONE;
    if (text_equal_nocase(text_of(wanted), TEXT("machine")))
        return true;
    for (kit_index i = 0; i < k->n_sub_assemblies; i++)
        if (text_equal_nocase(k->sub_assemblies[i].number, text_of(wanted)))
            *out = i;
    return *out != KIT_NONE ||
           err_input(e, "--unit", "name a sub-assembly of the kit, or machine for the main one",
                     "there is no \"%s\"", wanted);
}

/* A unit step by step, in build order. */
static bool growing_unit(const cli_call *call, const kit_source *from, const lift_posture *p, buf *out,
                         err *e) {
    kit_index unit;
    lift_growth *list;
    bool ok;
    const kit *k = from->kit;
    if (!find_unit(k, cli_value(call, "unit"), &unit, e))
        return false;
    uint32_t n = lift_grow(call->memory, k, unit, (lifting_person)p->who, &list, &ok, e);
    text name = unit == KIT_NONE ? TEXT("main machine") : k->sub_assemblies[unit].name;
    json_out j = json_to(out);
    if (!ok)
        return false;
    if (call->json) {
        json_put_object(&j, NULL);
        json_put_text(&j, "unit", unit == KIT_NONE ? TEXT("machine") : k->sub_assemblies[unit].number);
        json_put_text(&j, "name", name);
        json_put_array(&j, "steps");
        for (uint32_t i = 0; i < n; i++)
            json_growth(k, &list[i], &j);
        json_end_array(&j);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
        return true;
    }
    buf_addf(out, "%.*s\n", TEXT_ARG(name));
    buf_addf(out, "%-38s %8s %8s  %5s %5s %5s\n", "step", "adds kg", "then kg", "turn", "carry", "fit");
    for (uint32_t i = 0; i < n; i++)
        text_growth(from, &list[i], out);
    if (n && list[n - 1].unknown)
        trade_line(out, "%u parts have no mass in the kit's list: it is heavier than that.",
                   list[n - 1].unknown);
    trade_line(
        out,
        "\nAdults. turn: tipped over an edge on the bench, half the mass. carry: close, knuckle to elbow. fit: "
        "elbow to shoulder, arms out. over 3: the guidance has no figure for more than three: the maker's word, a hoist "
        "or trolley, or in parts. A "
        "sub-assembly is counted whole at the first step that it joins.");
    trade_line(out, "%s", lifting_caution);
    return true;
}

/* What each unit weighs when complete. */
static bool add_units(const cli_call *call, const kit *k, const lift_posture *p, buf *out, json_out *j,
                      err *e) {
    for (kit_index u = 0; u < k->n_sub_assemblies; u++) {
        lift_growth *list;
        bool ok;
        uint32_t n = lift_grow(call->memory, k, u, (lifting_person)p->who, &list, &ok, e);
        if (!ok)
            return false;
        if (n == 0 || list[n - 1].mass_kg <= 0)
            continue;
        const lift_growth *last = &list[n - 1];
        lift_team t = {.people = 0};
        char people[64] = "over 500 kg", line[128];
        if (last->mass_kg <= 500 && !lifting_team(fmax(0.1, last->mass_kg), (lifting_person)p->who,
                                                  (lifting_height)p->height, p->arms_out, &t, e))
            return false;
        if (last->mass_kg <= 500)
            lift_people_text(&t, people);
        snprintf(line, sizeof line, last->unknown ? "%s, without %u parts of unknown mass" : "%s", people,
                 last->unknown);
        add_row(out, j, call->json, k->sub_assemblies[u].number, k->sub_assemblies[u].name, last->mass_kg,
                line);
    }
    return true;
}

static bool whole_kit(const cli_call *call, const kit *k, const lift_posture *p, buf *out, err *e) {
    json_out j = json_to(out);
    bool json = call->json;
    if (json) {
        json_put_object(&j, NULL);
        json_put_array(&j, "boxes");
    } else {
        buf_addf(out, "Boxes as shipped, %s\n", lifting_height_name((lifting_height)p->height));
    }
    if (!add_boxes(k, p, out, &j, json, e))
        return false;
    if (json) {
        json_end_array(&j);
        json_put_array(&j, "units");
    } else {
        buf_add_z(out, "\nSub-assemblies when complete (--unit NUMBER: as it grows; --unit machine)\n");
    }
    if (!add_units(call, k, p, out, &j, e))
        return false;
    if (json) {
        json_end_array(&j);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
    } else {
        buf_add_char(out, '\n');
        trade_line(out, "%s", lifting_caution);
    }
    return true;
}

int lift_kit(const cli_call *call, const lift_posture *p, err *e) {
    int code;
    buf out = {0};
    kit_source from;
    if (!kit_source_open(call, call->arguments[0], NULL, &from, &code))
        return code;
    bool ok = cli_given(call, "unit") ? growing_unit(call, &from, p, &out, e)
                                      : whole_kit(call, from.kit, p, &out, e);
    kit_source_close(&from);
    if (ok)
        return cli_print(&out, EXIT_DONE);
    buf_free(&out);
    return cli_fail(e);
}
