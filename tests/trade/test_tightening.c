/* Tightening against the published tables of VDI 2230 and ISO 898-1, and everything that must be refused. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "reference.h"
#include "trade/tightening.h"

static designation must_read(const char *z) {
    designation d;
    err e;
    if (!designation_read(text_of(z), &d, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return d;
}

/* "M8x1" and "8.8" -> a hexagon screw of that thread and class */
static designation screw_of(text thread, text class) {
    char line[96];
    snprintf(line, sizeof line, "ISO 4017 %.*sx40-%.*s", TEXT_ARG(thread), TEXT_ARG(class));
    return must_read(line);
}

static void compare_table(const char *file, double force_share, double torque_share, unsigned least) {
    reference r;
    if (!reference_open(&r, file))
        return;
    agreement a = {.what = file};
    for (size_t i = 1; i < r.table.n; i++) {
        text class = reference_text(&r, i, "class");
        if (text_starts(class, TEXT("A2/A4-")))
            class = text_of(text_ends(class, TEXT("50"))   ? "A2-50"
                            : text_ends(class, TEXT("70")) ? "A2-70"
                                                           : "A2-80");
        double mu = reference_number(&r, i, "mu_G=mu_K");
        double force = reference_number(&r, i, "FM_kN") * 1e3, torque = reference_number(&r, i, "MA_Nm");
        text thread = reference_text(&r, i, "thread");
        char z[16];
        snprintf(z, sizeof z, "%.*s", TEXT_ARG(thread));
        double d_mm = 0;
        if (sscanf(z, "M%lf", &d_mm) != 1 || d_mm > 16 || d_mm < 3) {
            a.skipped++;
            continue;
        }
        designation s = screw_of(thread, class);
        screw_strength strength;
        assert_true(screw_strength_of(s.grade, s.thread_um, &strength));
        double f = preload_n(strength.yield_mpa, 0.9, s.thread_um, s.pitch_um, mu);
        double t = torque_long_nm(f, thread_pitch_diameter_mm(s.thread_um, s.pitch_um), s.pitch_um / 1e3, mu,
                                  mu, head_friction_diameter_mm(&s));
        if (!isnan(force))
            reference_compare(&a, &r, i, f, force, force_share * force + 50);
        if (!isnan(torque))
            reference_compare(&a, &r, i, t, torque, torque_share * torque + 0.05);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= least);
    reference_close(&r);
}

static void test_vdi_coarse(void **state) {
    (void)state;
    /* M4 at 0.12, 10.9 stands as 4.6 from memory against 4.34 by the formula; all others within 1.6 % */
    compare_table("03c_vdi2230_coarse.csv", 0.012, 0.062, 100);
}

static void test_vdi_fine(void **state) {
    (void)state;
    compare_table("03d_vdi2230_fine.csv", 0.005, 0.012, 60);
}

static void test_stainless(void **state) {
    (void)state;
    compare_table("03e_stainless_torque.csv", 0.05, 0.08, 50);
}

static void test_strengths(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "03a_property_classes.csv"))
        skip();
    agreement a = {.what = "strengths"};
    for (size_t i = 1; i < r.table.n; i++) {
        text class = reference_text(&r, i, "property_class"), what = reference_text(&r, i, "quantity");
        text range = reference_text(&r, i, "diameter_range");
        if (text_starts(class, TEXT("A1/A2/A4-")))
            class = text_of(text_ends(class, TEXT("50"))   ? "A2-50"
                            : text_ends(class, TEXT("70")) ? "A2-70"
                                                           : "A2-80");
        const fastener_grade *g = fastener_grade_find(FASTENER_SCREW, class);
        screw_strength s;
        if (!g || text_is(range, "d>16") || !screw_strength_of(g, 8000, &s)) {
            a.skipped++;
            continue;
        }
        double ours = text_starts(what, TEXT("Rm"))                                    ? s.tensile_mpa
                      : text_starts(what, TEXT("Sp"))                                  ? s.proof_mpa
                      : text_starts(what, TEXT("Re")) || text_starts(what, TEXT("Rp")) ? s.yield_mpa
                                                                                       : (double)NAN;
        if (isnan(ours))
            a.skipped++;
        else
            reference_compare(&a, &r, i, ours, reference_number(&r, i, "value_MPa"), 0.01);
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 30);
    reference_close(&r);
}

static void test_proof_loads(void **state) {
    (void)state;
    reference r;
    if (!reference_open(&r, "03b_proof_loads.csv"))
        skip();
    agreement a = {.what = "proof and breaking loads"};
    for (size_t i = 1; i < r.table.n; i++) {
        char z[16];
        double d_mm = 0, published = reference_number(&r, i, "published");
        snprintf(z, sizeof z, "%.*s", TEXT_ARG(reference_text(&r, i, "thread")));
        const fastener_grade *g = fastener_grade_find(FASTENER_SCREW, reference_text(&r, i, "class"));
        screw_strength s;
        int32_t d_um = sscanf(z, "M%lf", &d_mm) == 1 ? (int32_t)lround(d_mm * 1000) : 0;
        if (!g || isnan(published) || strchr(z, 'x') || !screw_strength_of(g, d_um, &s)) {
            a.skipped++;
            continue;
        }
        /* usefastener prints 91130 for M4 10.9, a slip for 9130 */
        if (published > 90000 && d_um == 4000)
            published /= 10;
        bool proof = text_starts(reference_text(&r, i, "quantity"), TEXT("proof"));
        double ours = thread_stress_area_mm2(d_um, thread_coarse_pitch_um(d_um)) *
                      (proof ? s.proof_mpa : s.tensile_mpa);
        reference_compare(&a, &r, i, ours, published,
                          0.0065 * published); /* the standard rounds to three digits */
    }
    agreement_print(&a);
    assert_int_equal(a.differ, 0);
    assert_true(a.agree >= 70);
    reference_close(&r);
}

/* Shigley, Mechanical Engineering Design, ch. 8 (M): 3/4-16 UNF, 25 kip, f = fc = 0.15: 3551 lbf in by the long form with
 * K = 0.1894. Our long form (VDI) writes the same with 0.58 for 1/(2 cos 30) and the true head diameter. */
static void test_textbook_example(void **state) {
    (void)state;
    double inch = 25.4, pitch = inch / 16, d = 0.75 * inch, d2 = d - 0.649519 * pitch;
    double head = 1.25 * d; /* Shigley's mean collar diameter */
    double force = 25000 * 4.4482216;
    double torque_lbf_in = torque_long_nm(force, d2, pitch, 0.15, 0.15, head) / 0.112984829;
    assert_true(fabs(torque_lbf_in / 3551 - 1) < 0.01);
}

static void test_one_figure(void **state) {
    (void)state;
    designation s = must_read("ISO 4762 M8x25-8.8");
    tightening dry, oiled, locked;
    assert_true(tightening_for(&s, NULL, THREAD_DRY, JOINT_STEEL, &dry, NULL));
    assert_true(tightening_for(&s, NULL, THREAD_OILED, JOINT_STEEL, &oiled, NULL));
    assert_true(tightening_for(&s, NULL, THREAD_LOCKED, JOINT_STEEL, &locked, NULL));
    /* VDI 2230 table, M8 8.8: 24.6 N m at friction 0.12 */
    assert_true(fabs(dry.torque_nm - 24.6) < 0.6);
    assert_true(oiled.torque_nm < locked.torque_nm && locked.torque_nm < dry.torque_nm);
    assert_true(dry.clamp_least_n < dry.clamp_most_n && dry.clamp_most_n < 1.06 * 0.9 * 640 * 36.61);
    assert_true(fabs(dry.proof_load_n - 21200) < 200); /* ISO 898-1: 21,200 N */
    assert_true(dry.k_factor > 0.14 && dry.k_factor < 0.20);
    designation button = must_read("ISO 7380-1 M8x25-8.8"), hex = must_read("ISO 4017 M8x25-8.8");
    tightening b, h;
    assert_true(tightening_for(&button, NULL, THREAD_DRY, JOINT_STEEL, &b, NULL) && b.reduced_head);
    assert_true(tightening_for(&hex, NULL, THREAD_DRY, JOINT_STEEL, &h, NULL) && !h.reduced_head);
    designation nut = must_read("DIN 985 M8-8");
    assert_true(tightening_for(&hex, &nut, THREAD_DRY, JOINT_STEEL, &h, NULL) && h.prevailing_most_nm == 6);
}

/* Torque grows with size and class, and the recommended clamp force never passes the yield of the screw. */
static void test_laws(void **state) {
    (void)state;
    static const char *const classes[] = {"4.6", "5.6", "8.8", "10.9", "12.9"};
    static const int sizes[] = {3, 4, 5, 6, 8, 10, 12, 14, 16};
    for (int condition = THREAD_DRY; condition <= THREAD_LOCKED; condition++) {
        for (size_t c = 0; c < 5; c++) {
            double before = 0;
            for (size_t k = 0; k < 9; k++) {
                char line[64];
                snprintf(line, sizeof line, "ISO 4762 M%dx40-%s", sizes[k], classes[c]);
                designation d = must_read(line);
                tightening t;
                assert_true(tightening_for(&d, NULL, (thread_condition)condition, JOINT_STEEL, &t, NULL));
                assert_true(t.torque_nm > before);
                assert_true(t.clamp_most_n <= t.yield_mpa * t.stress_area_mm2);
                assert_true(t.clamp_least_n > 0.3 * t.clamp_most_n);
                before = t.torque_nm;
            }
        }
    }
}

static void test_refusals(void **state) {
    (void)state;
    tightening t;
    designation good = must_read("ISO 4762 M8x25-8.8");
    for (int j = 1; j < JOINT_COUNT; j++) {
        err e = {0};
        assert_false(tightening_for(&good, NULL, THREAD_DRY, (joint_kind)j, &t, &e));
        assert_string_equal(e.cause, joint_refusal((joint_kind)j));
    }
    static const char *const screws[] = {
        "ISO 4762 M8x25",       "ISO 4762 M2x10-8.8",   "ISO 4762 M20x50-8.8",
        "ISO 4029 M8x10-45H",   "ISO 4032 M8-8",        "ISO 7045 M5x10-4.8",
        "ISO 4762 M8x25-A2-70", "ISO 4762 M8x25-brass", "DIN 603 M8x50-8.8"};
    for (size_t i = 0; i < sizeof screws / sizeof *screws; i++) {
        designation d = must_read(screws[i]);
        err e = {0};
        if (tightening_for(&d, NULL, THREAD_DRY, JOINT_STEEL, &t, &e))
            fail_msg("%s was not refused", screws[i]);
        assert_true(e.cause[0] && e.remedy[0]);
    }
    static const char *const nuts[] = {"ISO 4035 M8-04",  "ISO 7035 M8-8",   "ISO 4032 M8-5",
                                       "ISO 4032 M10-8",  "ISO 8673 M8x1-8", "DIN 315 M8",
                                       "ISO 7089-8-200HV"};
    for (size_t i = 0; i < sizeof nuts / sizeof *nuts; i++) {
        designation n = must_read(nuts[i]);
        if (tightening_for(&good, &n, THREAD_DRY, JOINT_STEEL, &t, NULL))
            fail_msg("nut %s was not refused", nuts[i]);
    }
    designation stainless = must_read("ISO 4762 M8x25-A2-70");
    assert_true(tightening_for(&stainless, NULL, THREAD_OILED, JOINT_STEEL, &t, NULL) && t.do_not_use_power);
}

/* A beginner's pull on an ordinary spanner is too much for M5 and M6, which is why they shear. */
static void test_hand_tools(void **state) {
    (void)state;
    designation m5 = must_read("ISO 4017 M5x20-8.8"), m6 = must_read("ISO 4017 M6x20-8.8");
    tightening t5, t6;
    assert_true(tightening_for(&m5, NULL, THREAD_DRY, JOINT_STEEL, &t5, NULL));
    assert_true(tightening_for(&m6, NULL, THREAD_DRY, JOINT_STEEL, &t6, NULL));
    assert_true(tool_reach_nm(spanner_length_mm(8000), EASY_PULL_N) > 2 * t5.torque_nm);
    assert_true(tool_reach_nm(spanner_length_mm(10000), EASY_PULL_N) > 2 * t6.torque_nm);
    assert_true(isnan(tool_reach_nm(-1, 200)) && isnan(tool_reach_nm(200, 5000)));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_vdi_coarse),  cmocka_unit_test(test_vdi_fine),
        cmocka_unit_test(test_stainless),   cmocka_unit_test(test_strengths),
        cmocka_unit_test(test_proof_loads), cmocka_unit_test(test_textbook_example),
        cmocka_unit_test(test_one_figure),  cmocka_unit_test(test_laws),
        cmocka_unit_test(test_refusals),    cmocka_unit_test(test_hand_tools),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
