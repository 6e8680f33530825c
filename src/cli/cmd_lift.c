/* cmd_lift.c: `kitbench lift`: how many adults for a mass, and for the boxes and growing units of a kit. */
#include <math.h>
#include <stdio.h>

#include "cli/commands.h"
#include "cli/trade_call.h"
#include "kit/kit.h"

static const char who_words[] = "adult|man|woman|minor";
static const char height_words[] = "shoulder|elbow|knuckle|knee|floor";
static const char grip_words[] = "good|fair|poor";

typedef struct {
    unsigned who, height;
    bool arms_out;
} posture;

static void people_text(const lift_team *t, char out[64]) {
    if (t->people)
        snprintf(out, 64, "%d %s", t->people, t->people == 1 ? "adult" : "adults");
    else
        snprintf(out, 64, "hoist or smaller loads");
}

static int one_mass(const cli_call *call, const posture *p, err *e) {
    double kg;
    lift_team t;
    if (!trade_option(call, "mass", 0.01, 2000, (double)NAN, &kg, e) ||
        !lifting_team(kg, (lifting_person)p->who, (lifting_height)p->height, p->arms_out, &t, e))
        return cli_fail(e);
    buf out = {0};
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        trade_json_real(&j, "mass_kg", kg);
        json_put_integer(&j, "people", t.people);
        trade_json_real(&j, "together_kg", t.team_kg);
        trade_json_real(&j, "alone_kg", t.alone_kg);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
        return cli_print(&out, t.people ? EXIT_DONE : EXIT_NO);
    }
    char people[64];
    people_text(&t, people);
    buf_addf(&out, "%g kg, %s, %s: %s\n", kg, lifting_height_name((lifting_height)p->height),
             p->arms_out ? "arms out" : "close to the body", people);
    trade_line(&out, "One may lift %.3g kg so; two together two thirds of the sum, three half of it.",
               t.alone_kg);
    trade_line(
        &out,
        "Source: guideline filter of HSE INDG143 and L23; lower figure of men and women unless told who lifts.");
    trade_line(&out, "%s", lifting_caution);
    return cli_print(&out, t.people ? EXIT_DONE : EXIT_NO);
}

static int by_equation(const cli_call *call, const posture *p, err *e) {
    lift l = {.person = (lifting_person)p->who};
    unsigned grip;
    lift_answer a;
    bool ok = trade_option(call, "mass", 0.01, 2000, (double)NAN, &l.load_kg, e) &&
              trade_option(call, "reach", 0, 200, (double)NAN, &l.reach_cm, e) &&
              trade_option(call, "hands", 0, 250, 75, &l.height_cm, e) &&
              trade_option(call, "travel", 0, 250, 25, &l.travel_cm, e) &&
              trade_option(call, "twist", 0, 180, 0, &l.twist_degrees, e) &&
              trade_option(call, "per-minute", 0, 60, 0.2, &l.lifts_per_min, e) &&
              trade_option(call, "hours", 0.01, 24, 1, &l.hours, e) &&
              trade_word(call, "grip", grip_words, GRIP_FAIR, &grip, e);
    if (ok)
        l.grip = (lifting_grip)grip;
    if (!ok || !lifting_limit(&l, &a, e))
        return cli_fail(e);
    buf out = {0};
    int code = a.index <= 1 ? EXIT_DONE : EXIT_NO;
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        trade_json_real(&j, "limit_kg", a.limit_kg);
        trade_json_real(&j, "index", a.index);
        trade_json_real(&j, "hm", a.hm);
        trade_json_real(&j, "vm", a.vm);
        trade_json_real(&j, "dm", a.dm);
        trade_json_real(&j, "am", a.am);
        trade_json_real(&j, "fm", a.fm);
        trade_json_real(&j, "cm", a.cm);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
        return cli_print(&out, code);
    }
    buf_addf(&out, "Recommended limit %.3g kg; %.3g kg is %.2g times that\n", a.limit_kg, l.load_kg, a.index);
    trade_line(
        &out,
        "23 kg x HM %.2f x VM %.2f x DM %.2f x AM %.2f x FM %.2f x CM %.2f (revised NIOSH equation, 94-110).",
        a.hm, a.vm, a.dm, a.am, a.fm, a.cm);
    trade_line(&out, "%s", lifting_caution);
    return cli_print(&out, code);
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
    wrap_pad(out, name, 24);
    buf_addf(out, "  %7.1f kg  %s\n", kg, people);
}

/* Boxes as shipped, heaviest lifts of the delivery day. */
static bool add_boxes(const kit *k, const posture *p, buf *out, json_out *j, bool json, err *e) {
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
            people_text(&t, people);
        }
        if (c->lift_people) /* the maker's word stands first */
            snprintf(line, sizeof line, "maker: %lld; %s", (long long)c->lift_people, people);
        else
            snprintf(line, sizeof line, "%s", people);
        add_row(out, j, json, c->number, c->name, kg, line);
    }
    return true;
}

/* Parts drawn by the steps of one unit, in the order of the kit: the mass that has to be turned, carried and fitted. */
static bool add_unit(const kit *k, kit_index unit, const posture *p, buf *out, json_out *j, bool json,
                     err *e) {
    double kg = 0;
    uint32_t unknown = 0;
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *s = &k->step_parts[i];
        if (k->steps[s->step].sub_assembly != unit)
            continue;
        int64_t mass = k->parts[s->part].mass_mg;
        unknown += mass < 0;
        kg += mass > 0 ? (double)mass * (double)s->quantity / 1e6 : 0;
    }
    const kit_sub_assembly *u = &k->sub_assemblies[unit];
    if (kg <= 0)
        return true;
    lift_team t;
    char people[64] = "over 500 kg", line[128];
    if (kg <= 500) {
        if (!lifting_team(kg < 0.1 ? 0.1 : kg, (lifting_person)p->who, (lifting_height)p->height, p->arms_out,
                          &t, e))
            return false;
        people_text(&t, people);
    }
    snprintf(line, sizeof line, unknown ? "%s, without %u parts of unknown mass" : "%s", people, unknown);
    add_row(out, j, json, u->number, u->name, kg, line);
    return true;
}

/* A sub-assembly step by step, in the order of the kit: what has to be turned and carried after each. */
static int growing_unit(const cli_call *call, const kit *k, const posture *p, err *e) {
    kit_index unit = KIT_NONE;
    for (uint32_t i = 0; i < k->n_sub_assemblies; i++)
        if (text_is(k->sub_assemblies[i].number, cli_value(call, "unit")))
            unit = i;
    if (unit == KIT_NONE) {
        err_input(e, "--unit", "name a sub-assembly of the kit", "there is no \"%s\"",
                  cli_value(call, "unit"));
        return cli_fail(e);
    }
    buf out = {0};
    json_out j = json_to(&out);
    if (call->json)
        json_put_array(&j, NULL);
    double kg = 0;
    for (uint32_t s = 0; s < k->n_steps; s++) {
        if (k->steps[s].sub_assembly != unit)
            continue;
        for (uint32_t i = 0; i < k->n_step_parts; i++)
            if (k->step_parts[i].step == s && k->parts[k->step_parts[i].part].mass_mg > 0)
                kg +=
                    (double)k->parts[k->step_parts[i].part].mass_mg * (double)k->step_parts[i].quantity / 1e6;
        lift_team t;
        char people[64];
        if (!lifting_team(fmin(500, fmax(0.1, kg)), (lifting_person)p->who, (lifting_height)p->height,
                          p->arms_out, &t, e)) {
            buf_free(&out);
            return cli_fail(e);
        }
        people_text(&t, people);
        add_row(&out, &j, call->json, k->steps[s].number, k->steps[s].name, kg, people);
    }
    if (call->json)
        json_end_array(&j);
    else
        trade_line(&out, "\nParts of unknown mass are not in it. %s", lifting_caution);
    return cli_print(&out, EXIT_DONE);
}

static int whole_kit(const cli_call *call, const posture *p, err *e) {
    faults f = faults_in(call->memory);
    const kit *k;
    const kit_workshop *w;
    if (!kit_read(call->memory, call->arguments[0], NULL, &f, &k, &w, e))
        return e->kind == ERR_NONE ? cli_fail_faults(call, &f) : cli_fail(e);
    if (cli_given(call, "unit"))
        return growing_unit(call, k, p, e);
    buf out = {0};
    json_out j = json_to(&out);
    bool json = call->json;
    if (json) {
        json_put_object(&j, NULL);
        json_put_array(&j, "boxes");
    } else {
        buf_addf(&out, "Boxes as shipped, %s\n", lifting_height_name((lifting_height)p->height));
    }
    bool ok = add_boxes(k, p, &out, &j, json, e);
    if (json) {
        json_end_array(&j);
        json_put_array(&j, "units");
    } else {
        buf_add_z(&out, "\nSub-assemblies when complete\n");
    }
    for (uint32_t i = 0; ok && i < k->n_sub_assemblies; i++)
        ok = add_unit(k, i, p, &out, &j, json, e);
    if (json) {
        json_end_array(&j);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
    } else {
        buf_add_char(&out, '\n');
        trade_line(&out, "%s", lifting_caution);
    }
    if (!ok) {
        buf_free(&out);
        return cli_fail(e);
    }
    return cli_print(&out, EXIT_DONE);
}

int cmd_lift(cli_call *call) {
    err e = {0};
    posture p = {.arms_out = cli_given(call, "arms-out")};
    if (!trade_word(call, "who", who_words, PERSON_ANY_ADULT, &p.who, &e) ||
        !trade_word(call, "height", height_words, HEIGHT_KNUCKLE, &p.height, &e))
        return cli_fail(&e);
    if (call->n_arguments)
        return whole_kit(call, &p, &e);
    return cli_given(call, "reach") ? by_equation(call, &p, &e) : one_mass(call, &p, &e);
}
