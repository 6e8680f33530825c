/* cmd_tighten.c: `kitbench tighten`: how hard, when the kit's maker does not say. */
#include <math.h>

#include "cli/commands.h"
#include "cli/kit_source.h"
#include "cli/trade_call.h"

static const char condition_words[] = "dry|oiled|locked";
static const char joint_words[] =
    "steel|battery terminal|plastic|light-alloy thread|insert|castle nut|cable clamp|bearing preload";

typedef struct {
    designation screw, nut;
    bool has_nut;
    unsigned condition, joint;
    double tool_mm; /* 0: an ordinary one */
    tightening t;
} task;

/* Length of the tool in hand, or of an ordinary one. */
static double tool_length(const task *k) {
    tool_need need = tool_for(&k->screw);
    if (k->tool_mm > 0)
        return k->tool_mm;
    return need.sort == TOOL_SPANNER ? spanner_length_mm(need.size_um) : hex_key_arm_mm(need.size_um);
}

static void print_hand(buf *out, const task *k) {
    double length = tool_length(k);
    if (length <= 0)
        return;
    double reach = tool_reach_nm(length, EASY_PULL_N);
    if (reach > 1.5 * k->t.torque_nm)
        trade_line(
            out,
            "By hand: an easy pull of 200 N on a tool of %.0f mm is already %.0f N m, %.1f times too much. "
            "Use a torque wrench, or hold the tool short and stop when it bites.",
            length, reach, reach / k->t.torque_nm);
    else
        trade_line(out, "By hand: a tool of %.0f mm with an easy pull of 200 N gives %.0f N m.", length,
                   reach);
}

static void print_text(buf *out, const task *k, const buf *said) {
    static const char *const conditions[] = {"dry", "oiled", "wet with thread-locker"};
    const tightening *t = &k->t;
    char name[DESIGNATION_TEXT];
    designation_print(&k->screw, name, sizeof name);
    buf_addf(out, "%s, %s: %.3g N m\n", name, conditions[k->condition], t->torque_nm);
    trade_line(out, "The kit maker's figure comes first; this one is for screws without one.");
    trade_line(
        out,
        "Clamp force %.3g to %.3g kN with a torque wrench: friction %.2f to %.2f, wrench 6 %% off. The figure is "
        "for the lowest friction (K = %.3f), so no screw of this condition is stretched.",
        t->clamp_least_n / 1e3, t->clamp_most_n / 1e3, t->mu_least, t->mu_most, t->k_factor);
    if (t->reduced_head)
        trade_line(out, "Its head is weak: four fifths of what a cap screw may take.");
    if (t->prevailing_most_nm > 0)
        trade_line(
            out,
            "Locking nut: measure the torque while it runs on (up to %.2g N m when new) and add it to the figure.",
            t->prevailing_most_nm);
    if (k->has_nut && !k->nut.grade && k->screw.grade)
        trade_line(out, "The nut's class is not stated: it must be at least the first number of %s.",
                   k->screw.grade->code);
    if (t->do_not_use_power)
        trade_line(out, "Stainless: paste on the thread, turn slowly, no power driver, or it seizes.");
    print_hand(out, k);
    trade_line(out, "Stress area %.3g mm2, yield %.0f MPa%s.", t->stress_area_mm2, t->yield_mpa,
               k->has_nut ? "" : "; steel nut or steel thread at least as strong as the screw");
    trade_line(out, "Checked for: %s. Source: %s.", t->range, t->source);
    buf_add(out, buf_text(said));
}

static void print_json(buf *out, const task *k) {
    const tightening *t = &k->t;
    char name[DESIGNATION_TEXT];
    designation_print(&k->screw, name, sizeof name);
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    trade_json_z(&j, "designation", name);
    trade_json_real(&j, "torque_nm", t->torque_nm);
    trade_json_real(&j, "clamp_least_n", t->clamp_least_n);
    trade_json_real(&j, "clamp_most_n", t->clamp_most_n);
    trade_json_real(&j, "friction_least", t->mu_least);
    trade_json_real(&j, "friction_most", t->mu_most);
    trade_json_real(&j, "k", t->k_factor);
    trade_json_real(&j, "stress_area_mm2", t->stress_area_mm2);
    trade_json_real(&j, "proof_load_n", t->proof_load_n);
    trade_json_real(&j, "prevailing_most_nm", t->prevailing_most_nm);
    json_put_bool(&j, "no_power_driver", t->do_not_use_power);
    trade_json_z(&j, "range", t->range);
    trade_json_z(&j, "source", t->source);
    json_end_object(&j);
}

/* The part of the kit that is meant: by its number, or by its designation. */
static kit_index find_part(const kit *k, text wanted) {
    kit_index part = kit_find_part(k, wanted);
    designation given, own;
    if (part != KIT_NONE || !designation_read(wanted, &given, NULL))
        return part;
    for (uint32_t i = 0; i < k->n_parts; i++)
        if (designation_read(k->parts[i].designation, &own, NULL) && designation_equal(&given, &own))
            return i;
    return KIT_NONE;
}

static bool draws(const kit *k, kit_index step, kit_index part) {
    for (uint32_t i = 0; i < k->n_step_parts; i++)
        if (k->step_parts[i].step == step && k->step_parts[i].part == part)
            return true;
    return false;
}

/* The figure of a joint often stands at its nut: a part of the other kind and the same thread, drawn for the same step. */
static bool belongs_to(const kit *k, const kit_step_part *s, kit_index part) {
    designation one, other;
    if (s->part == part)
        return true;
    if (!draws(k, s->step, part) || !designation_read(k->parts[part].designation, &one, NULL) ||
        !designation_read(k->parts[s->part].designation, &other, NULL))
        return false;
    bool pair = (one.kind == FASTENER_SCREW && other.kind == FASTENER_NUT) ||
                (one.kind == FASTENER_NUT && other.kind == FASTENER_SCREW);
    return pair && one.thread_um == other.thread_um && one.pitch_um == other.pitch_um;
}

/* What the maker says of this part, step by step. True when there is at least one torque: then nothing is computed. */
static bool add_makers(const kit *k, kit_index part, bool json, buf *out) {
    static const char *const conditions[] = {"dry", "oiled", "with thread-locker"};
    json_out j = json_to(out);
    bool any = false;
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *s = &k->step_parts[i];
        if (s->tightening != KIT_TORQUE || s->torque_cnm < 0 || !belongs_to(k, s, part))
            continue;
        const kit_step *step = &k->steps[s->step];
        if (!any && json) {
            json_put_object(&j, NULL);
            json_put_text(&j, "part", k->parts[part].number);
            json_put_array(&j, "makers_figures");
        } else if (!any) {
            buf_addf(out, "%.*s, %.*s: the kit maker's figure\n", TEXT_ARG(k->parts[part].number),
                     TEXT_ARG(k->parts[part].name));
        }
        any = true;
        if (json) {
            json_put_object(&j, NULL);
            json_put_text(&j, "step", step->number);
            json_put_decimal(&j, "torque_nm", s->torque_cnm, 2);
            trade_json_z(&j, "condition", conditions[s->condition]);
            json_put_text(&j, "order", s->order);
            json_end_object(&j);
            continue;
        }
        trade_line(out, "  %.*s: %g N m, %s%s%.*s (%.*s)", TEXT_ARG(step->number),
                   (double)s->torque_cnm / 100, conditions[s->condition], s->order.len ? ", " : "",
                   TEXT_ARG(s->order), TEXT_ARG(step->name));
    }
    if (any && json) {
        json_end_array(&j);
        json_end_object(&j);
    }
    return any;
}

/* With --kit the maker is asked first. False on a failure; `*answered` when the maker said it. */
static bool ask_maker(const cli_call *call, const kit_source *from, text *wanted, buf *out, bool *answered,
                      err *e) {
    const kit *k = from->kit;
    kit_index part = find_part(k, *wanted);
    if (part == KIT_NONE)
        return err_input(e, "tighten", "give the part's number or its designation",
                         "the kit has no part \"%.*s\"", TEXT_ARG(*wanted));
    *answered = add_makers(k, part, call->json, out);
    *wanted = k->parts[part].designation.len ? k->parts[part].designation : k->parts[part].name;
    return true;
}

/* The computed figure. */
static bool compute(const cli_call *call, text wanted, buf *out, err *e) {
    task k = {0};
    buf said = {0};
    const char *nut = cli_value(call, "nut");
    k.has_nut = nut != NULL;
    bool ok = trade_designation(call, wanted, &k.screw, &said, e) &&
              (!nut || trade_designation(call, text_of(nut), &k.nut, &said, e)) &&
              trade_word(call, "condition", condition_words, THREAD_DRY, &k.condition, e) &&
              trade_word(call, "joint", joint_words, JOINT_STEEL, &k.joint, e) &&
              trade_option(call, "tool-length", 20, 1500, 0, &k.tool_mm, e) &&
              tightening_for(&k.screw, nut ? &k.nut : NULL, (thread_condition)k.condition,
                             (joint_kind)k.joint, &k.t, e);
    if (ok && call->json)
        print_json(out, &k);
    else if (ok)
        print_text(out, &k, &said);
    buf_free(&said);
    if (!ok && e->kind == ERR_INPUT && !cli_given(call, "kit") &&
        designation_sort(wanted) == NAME_NO_FASTENER &&
        text_find(text_of(e->cause), TEXT("names no standard")) >= 0)
        return err_input(e, arena_format(call->memory, "\"%.*s\"", TEXT_ARG(wanted)).at,
                         "write it as \"ISO 4762 M8x25-8.8\"; a part's number needs --kit KIT",
                         "it is no fastener's name");
    return ok;
}

int cmd_tighten(cli_call *call) {
    err e = {0};
    buf out = {0};
    text wanted = trade_joined(call, 0);
    bool ok = true, answered = false;
    if (cli_given(call, "kit")) {
        kit_source from;
        int code;
        if (!kit_source_open(call, cli_value(call, "kit"), NULL, &from, &code))
            return code;
        ok = ask_maker(call, &from, &wanted, &out, &answered, &e);
        wanted = arena_text(call->memory, wanted);
        kit_source_close(&from);
    }
    if (ok && !answered)
        ok = compute(call, wanted, &out, &e);
    if (ok)
        return cli_print(&out, EXIT_DONE);
    buf_free(&out);
    return cli_fail(&e);
}
