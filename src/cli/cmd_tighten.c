/* cmd_tighten.c: `kitbench tighten`: how hard, when the kit's maker does not say. */
#include <math.h>

#include "cli/commands.h"
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
            "By hand: an easy pull of 200 N on a tool of %.0f mm is already %.0f Nm, %.1f times too much. "
            "Use a torque wrench, or hold the tool short and stop when it bites.",
            length, reach, reach / k->t.torque_nm);
    else
        trade_line(out, "By hand: a tool of %.0f mm with an easy pull of 200 N gives %.0f Nm.", length,
                   reach);
}

static void print_text(buf *out, const task *k, const buf *said) {
    static const char *const conditions[] = {"dry", "oiled", "wet with thread-locker"};
    const tightening *t = &k->t;
    char name[DESIGNATION_TEXT];
    designation_print(&k->screw, name, sizeof name);
    buf_addf(out, "%s, %s: %.3g Nm\n", name, conditions[k->condition], t->torque_nm);
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
            "Locking nut: measure the torque while it runs on (up to %.2g Nm when new) and add it to the figure.",
            t->prevailing_most_nm);
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
    json_object(&j, NULL);
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
    json_bool(&j, "no_power_driver", t->do_not_use_power);
    trade_json_z(&j, "range", t->range);
    trade_json_z(&j, "source", t->source);
    json_end_object(&j);
}

int cmd_tighten(cli_call *call) {
    task k = {0};
    err e = {0};
    buf said = {0}, out = {0};
    const char *nut = cli_value(call, "nut");
    k.has_nut = nut != NULL;
    bool ok = trade_designation(call, trade_joined(call, 0), &k.screw, &said, &e) &&
              (!nut || trade_designation(call, text_of(nut), &k.nut, &said, &e)) &&
              trade_word(call, "condition", condition_words, THREAD_DRY, &k.condition, &e) &&
              trade_word(call, "joint", joint_words, JOINT_STEEL, &k.joint, &e) &&
              trade_option(call, "tool-length", 20, 1500, 0, &k.tool_mm, &e) &&
              tightening_for(&k.screw, nut ? &k.nut : NULL, (thread_condition)k.condition,
                             (joint_kind)k.joint, &k.t, &e);
    if (ok && call->json)
        print_json(&out, &k);
    else if (ok)
        print_text(&out, &k, &said);
    buf_free(&said);
    return ok ? cli_print(&out, EXIT_DONE) : cli_fail(&e);
}
