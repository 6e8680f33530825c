#include "trade/tightening.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* A wrench within 6 % (ISO 6789-1 allows 6 % below 10 N m and 4 % above, M). */
static const double wrench_error = 0.06;

/* Friction of thread and head alike. Oiled: class B of VDI 2230 (0.08 to 0.16, M). Dry and clean, plain or zinc: 0.12 to
 * 0.24 (a table maker's example takes 0.14 to 0.24 for zinc; the lower end is common practice, no source). Thread-locking
 * liquid lubricates while wet: 0.10 to 0.20 (common practice, no source). Stainless with paste: 0.10 to 0.20 (the middle
 * of a maker's table, 0.10 to 0.30). */
typedef struct {
    double least, most;
} friction;

static friction friction_of(thread_condition condition, bool stainless) {
    if (condition == THREAD_LOCKED)
        return (friction){0.10, 0.20};
    if (stainless)
        return (friction){0.10, 0.20};
    return condition == THREAD_OILED ? (friction){0.08, 0.16} : (friction){0.12, 0.24};
}

static const char *const joint_names[JOINT_COUNT] = {
    "steel",  "battery terminal", "plastic",     "light-alloy thread",
    "insert", "castle nut",       "cable clamp", "bearing preload",
};

static const char *const refusals[JOINT_COUNT] = {
    NULL,
    "battery terminals are soft lead or thin brass: only the battery maker's figure",
    "plastic creeps and cracks: only the kit maker's figure",
    "threads in light alloy strip before the screw is stretched: only the kit maker's figure",
    "an insert holds by the material around it: only the maker's figure",
    "a castle nut is set for its split pin, often with play: only the kit maker's instruction",
    "a clamp must hold a cable without crushing it: only the kit maker's figure",
    "bearing preload is set by feel of the bearing, not by torque: only the kit maker's instruction",
};

const char *joint_refusal(joint_kind joint) {
    return (unsigned)joint < JOINT_COUNT ? refusals[joint] : "this joint is not known";
}

const char *joint_name(joint_kind joint) {
    return (unsigned)joint < JOINT_COUNT ? joint_names[joint] : "unknown";
}

double preload_n(double yield_mpa, double use, int32_t thread_um, int32_t pitch_um, double mu_thread) {
    double d2 = thread_pitch_diameter_mm(thread_um, pitch_um),
           d3 = thread_core_diameter_mm(thread_um, pitch_um);
    double area = thread_stress_area_mm2(thread_um, pitch_um);
    double lead = pitch_um / 1e3 / (pi * d2);
    double torsion = 1.5 * d2 / (0.5 * (d2 + d3)) * (lead + 1.155 * mu_thread);
    return use * yield_mpa * area / sqrt(1 + 3 * torsion * torsion);
}

double torque_long_nm(double force_n, double d2_mm, double pitch_mm, double mu_thread, double mu_head,
                      double friction_diameter_mm) {
    double arm_mm = 0.16 * pitch_mm + 0.58 * d2_mm * mu_thread + mu_head * friction_diameter_mm / 2;
    return force_n * arm_mm / 1000;
}

/* Bearing diameter under head or nut, dw in hundredths of a mm (ISO 4014 and ISO 4762, M). */
static double bearing_diameter_mm(const designation *screw, const fastener_size *size) {
    static const int16_t rows[][3] = {/* thread, hexagon, cap */
                                      {300, 457, 507},    {400, 588, 653},    {500, 688, 803},
                                      {600, 888, 938},    {800, 1163, 1233},  {1000, 1463, 1533},
                                      {1200, 1663, 1723}, {1400, 1964, 2017}, {1600, 2249, 2317}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (rows[i][0] * 10 != screw->thread_um)
            continue;
        return screw->form == FORM_HEX_HEAD ? rows[i][1] / 100.0 : rows[i][2] / 100.0;
    }
    return size->width_um / 1e3;
}

double head_friction_diameter_mm(const designation *screw) {
    fastener_size size;
    if (!fastener_size_of(screw, &size, NULL))
        return 0;
    double hole = thread_clearance_hole_um(screw->thread_um, HOLE_MEDIUM) / 1e3;
    double bearing = bearing_diameter_mm(screw, &size);
    return bearing > hole && hole > 0 ? 0.5 * (bearing + hole) : 0;
}

double prevailing_torque_most_nm(int32_t thread_um) {
    static const double rows[][2] = {{3000, 0.43},  {4000, 0.9},   {5000, 1.6}, {6000, 3},  {8000, 6},
                                     {10000, 10.5}, {12000, 15.5}, {14000, 24}, {16000, 32}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if ((int32_t)rows[i][0] == thread_um)
            return rows[i][1];
    return 0;
}

double tool_reach_nm(double length_mm, double force_n) {
    bool sane = length_mm > 0 && length_mm <= 2000 && force_n > 0 && force_n <= 1000;
    return sane ? length_mm / 1000 * force_n : (double)NAN;
}

double spanner_length_mm(int32_t flats_um) {
    return flats_um >= 4000 && flats_um <= 32000 ? 12 * flats_um / 1e3 + 30 : 0;
}

double hex_key_arm_mm(int32_t key_um) {
    static const double rows[][2] = {{1.5, 45}, {2, 50},  {2.5, 56}, {3, 63},   {4, 70},  {5, 80},
                                     {6, 90},   {8, 100}, {10, 112}, {12, 125}, {14, 140}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if ((int32_t)(rows[i][0] * 1000) == key_um)
            return rows[i][1];
    return 0;
}

/* The class a steel nut is matched to by ISO 898-2: its number times 100 is the proof stress; 8 goes with 8.8. */
static bool nut_is_strong_enough(const designation *screw, const designation *nut) {
    if (!nut->grade || !screw->grade)
        return true; /* unmarked nuts are told apart by the caller; the standard pairs of a kit are matched */
    long nut_class = strtol(nut->grade->code, NULL, 10), screw_class = strtol(screw->grade->code, NULL, 10);
    if (nut->grade->code[0] == 'A' || screw->grade->code[0] == 'A')
        return true;
    return nut_class >= screw_class;
}

static bool check_nut(const designation *screw, const designation *nut, const char *place, err *e) {
    static const char ask[] = "use the kit maker's figure";
    if (nut->kind != FASTENER_NUT)
        return err_input(e, place, "name a nut such as \"ISO 4032 M8-8\"", "the second piece is no nut");
    if (nut->thread_um != screw->thread_um || nut->pitch_um != screw->pitch_um)
        return err_input(e, place, "take the nut that belongs to the screw",
                         "the nut has another thread: M%g pitch %g against M%g pitch %g",
                         nut->thread_um / 1e3, nut->pitch_um / 1e3, screw->thread_um / 1e3,
                         screw->pitch_um / 1e3);
    if (nut->form == FORM_THIN_NUT || nut->form == FORM_THIN_LOCK_NUT || nut->form == FORM_SQUARE_NUT ||
        (nut->grade && nut->grade->code[0] == '0'))
        return err_input(e, place, ask, "a thin nut strips before the screw is stretched");
    if (nut->form == FORM_CASTLE_NUT)
        return err_input(e, place, ask, "%s", joint_refusal(JOINT_CASTLE_NUT));
    bool usual = nut->form == FORM_HEX_NUT || nut->form == FORM_LOCK_NUT ||
                 nut->form == FORM_ALL_METAL_LOCK_NUT || nut->form == FORM_FLANGE_NUT ||
                 nut->form == FORM_FLANGE_LOCK_NUT;
    if (!usual)
        return err_input(e, place, ask, "this kind of nut was not checked");
    if (!nut_is_strong_enough(screw, nut))
        return err_input(e, place, "take a nut of at least the first number on the screw's head",
                         "nut %s is weaker than screw %s", nut->grade->code, screw->grade->code);
    return true;
}

static bool is_stainless(const designation *d) {
    return d->material == MATERIAL_A1 || d->material == MATERIAL_A2 || d->material == MATERIAL_A4 ||
           d->material == MATERIAL_STAINLESS;
}

static bool check_screw(const designation *s, thread_condition condition, joint_kind joint, const char *place,
                        err *e) {
    static const char ask[] = "use the kit maker's figure";
    if (joint_refusal(joint))
        return err_input(e, place, "see the maker's manual, or ask the maker", "%s", joint_refusal(joint));
    if ((unsigned)condition > THREAD_LOCKED)
        return err_input(e, place, "say dry, oiled or locked", "the condition of the thread is not known");
    if (s->kind != FASTENER_SCREW || s->profile != THREAD_METRIC)
        return err_input(e, place, ask, "torques are known here for metric screws with a head only");
    if (s->thread_um < 3000 || s->thread_um > 16000 || s->left_hand)
        return err_input(e, place, ask, "torques were checked from M3 to M16, right-hand threads");
    bool checked_head = s->form == FORM_HEX_HEAD || s->form == FORM_CYLINDER_HEAD ||
                        s->form == FORM_BUTTON_HEAD || s->form == FORM_COUNTERSUNK_HEAD;
    if (!checked_head || (s->drive != DRIVE_HEXAGON && s->drive != DRIVE_HEX_SOCKET))
        return err_input(e, place, ask, "this head and drive were not checked");
    if (!s->grade)
        return err_input(e, place, "read the mark on the head and write it, such as -8.8",
                         "its strength is not stated");
    if (is_stainless(s) && condition == THREAD_DRY)
        return err_input(e, place, "grease the thread with a paste for stainless, then say oiled",
                         "stainless on stainless seizes when dry");
    return true;
}

static void fill_clamp(const designation *s, double yield, double diameter, tightening *t) {
    double d2 = thread_pitch_diameter_mm(s->thread_um, s->pitch_um), pitch = s->pitch_um / 1e3;
    double share = t->reduced_head ? 0.8 : 1;
    double force = share * preload_n(yield, 0.9, s->thread_um, s->pitch_um, t->mu_least);
    t->torque_nm = torque_long_nm(force, d2, pitch, t->mu_least, t->mu_least, diameter);
    t->k_factor = t->torque_nm * 1000 / (force * s->thread_um / 1e3);
    double per_newton = torque_long_nm(1, d2, pitch, t->mu_most, t->mu_most, diameter);
    t->clamp_most_n = force * (1 + wrench_error);
    t->clamp_least_n = t->torque_nm * (1 - wrench_error) / per_newton;
}

bool tightening_for(const designation *screw, const designation *nut, thread_condition condition,
                    joint_kind joint, tightening *out, err *e) {
    char place[DESIGNATION_TEXT];
    designation_print(screw, place, sizeof place);
    if (!check_screw(screw, condition, joint, place, e) || (nut && !check_nut(screw, nut, place, e)))
        return false;
    screw_strength strength;
    double diameter = head_friction_diameter_mm(screw);
    if (!screw_strength_of(screw->grade, screw->thread_um, &strength) || diameter <= 0)
        return err_input(e, place, "use the kit maker's figure",
                         "there is no strength or head size for it here");
    bool stainless = is_stainless(screw);
    friction f = friction_of(condition, stainless);
    tightening t = {.mu_least = f.least,
                    .mu_most = f.most,
                    .yield_mpa = strength.yield_mpa,
                    .stress_area_mm2 = thread_stress_area_mm2(screw->thread_um, screw->pitch_um),
                    .do_not_use_power = stainless,
                    .reduced_head = screw->drive == DRIVE_HEX_SOCKET && screw->form != FORM_CYLINDER_HEAD,
                    .range = "M3 to M16, steel or stainless screw in steel, head on steel",
                    .source = "VDI 2230 part 1 (long form), ISO 898-1, ISO 3506-1, ISO 273"};
    t.proof_load_n = t.stress_area_mm2 * strength.proof_mpa;
    fill_clamp(screw, strength.yield_mpa, diameter, &t);
    bool locking = nut && (nut->form == FORM_LOCK_NUT || nut->form == FORM_ALL_METAL_LOCK_NUT ||
                           nut->form == FORM_FLANGE_LOCK_NUT);
    t.prevailing_most_nm = locking ? prevailing_torque_most_nm(screw->thread_um) : 0;
    *out = t;
    return true;
}
