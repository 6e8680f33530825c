#include "trade/wiring.h"

#include <math.h>
#include <stddef.h>

static const double nan_value = (double)NAN;

/* IEC 60228 class 5, largest resistance at 20 C in ohm/km, plain and tinned (two published copies from 1 mm2 up); current
 * in free air, the low end (M, no single source). */
typedef struct {
    double area, plain, tinned, carries;
} cable_row;

static const cable_row cables[] = {
    {0.5, 39.0, 40.1, 3},  {0.75, 26.0, 26.7, 6},   {1, 19.5, 20.0, 9},  {1.5, 13.3, 13.7, 14},
    {2.5, 7.98, 8.21, 20}, {4, 4.95, 5.09, 30},     {6, 3.30, 3.39, 40}, {10, 1.91, 1.95, 60},
    {16, 1.21, 1.24, 85},  {25, 0.780, 0.795, 115},
};

enum { N_CABLES = sizeof cables / sizeof *cables };

static const double fuses[] = {1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100};

enum { N_FUSES = sizeof fuses / sizeof *fuses };

double cable_area_at(unsigned i) {
    return i < N_CABLES ? cables[i].area : 0;
}

double fuse_rating_at(unsigned i) {
    return i < N_FUSES ? fuses[i] : 0;
}

static const cable_row *find_cable(double area_mm2) {
    for (size_t i = 0; i < N_CABLES; i++)
        if (fabs(cables[i].area - area_mm2) < 1e-9)
            return &cables[i];
    return NULL;
}

double cable_ohm_per_km(double area_mm2, bool tinned, double celsius) {
    const cable_row *c = find_cable(area_mm2);
    if (!c || !(celsius >= -20 && celsius <= 90))
        return nan_value;
    return (tinned ? c->tinned : c->plain) * (1 + 0.00393 * (celsius - 20));
}

double cable_carries_a(double area_mm2) {
    const cable_row *c = find_cable(area_mm2);
    return c ? c->carries : nan_value;
}

double cable_drop_v(double area_mm2, double one_way_m, double amperes, double celsius) {
    if (!(one_way_m > 0 && one_way_m <= 100) || !(amperes >= 0 && amperes <= 1000))
        return nan_value;
    return 2 * one_way_m / 1000 * cable_ohm_per_km(area_mm2, false, celsius) * amperes;
}

/* Warmer air takes less heat away: with 70 C at the copper (PVC) and tables made for 30 C in the air, the current falls
 * as the square root of what is left (heat balance, as IEC 60287 has it; M). */
static double carries_at(const cable_row *c, double celsius) {
    return celsius <= 30 ? c->carries : celsius >= 70 ? 0 : c->carries * sqrt((70 - celsius) / 40);
}

static bool check_task(const wiring_task *t, err *e) {
    static const char place[] = "wiring";
    if (t->volts != 12 && t->volts != 24)
        return err_input(e, place, "give 12 or 24; ask a licensed person for other voltages",
                         "only 12 and 24 V from a battery are covered");
    if (!(t->load_a >= 0.1 && t->load_a <= 80))
        return err_input(e, place, "give the steady current in A", "the load must be from 0.1 to 80 A");
    if (!(t->one_way_m >= 0.05 && t->one_way_m <= 20))
        return err_input(e, place, "give the length of the cable one way in m",
                         "the length must be from 0.05 to 20 m");
    if (!(t->drop_allowed >= 0.005 && t->drop_allowed <= 0.1))
        return err_input(e, place, "take 0.03", "the drop allowed must be from 0.005 to 0.1 of the voltage");
    if (!(t->celsius >= -20 && t->celsius <= 60))
        return err_input(e, place, "take 20", "the air around the cable must be from -20 to 60 C");
    if (!(t->battery_ohm >= 0 && t->battery_ohm <= 1))
        return err_input(e, place, "leave it out", "the battery's resistance must be from 0 to 1 ohm");
    return true;
}

/* The smallest usual fuse that the load does not tire. */
static double fuse_for(double load_a) {
    for (size_t i = 0; i < N_FUSES; i++)
        if (fuses[i] >= 1.25 * load_a - 1e-9)
            return fuses[i];
    return 0;
}

static bool is_enough(const cable_row *c, const wiring_task *t, double fuse_a) {
    return carries_at(c, t->celsius) >= fuse_a &&
           cable_drop_v(c->area, t->one_way_m, t->load_a, t->celsius) <= t->drop_allowed * t->volts;
}

static wiring_answer judge_cable(const cable_row *c, const wiring_task *t) {
    wiring_answer a = {
        .area_mm2 = c->area, .fuse_a = fuse_for(t->load_a), .carries_a = carries_at(c, t->celsius)};
    a.drop_v = cable_drop_v(a.area_mm2, t->one_way_m, t->load_a, t->celsius);
    a.drop_share = a.drop_v / t->volts;
    double inside =
        t->battery_ohm > 0 ? t->battery_ohm : 0.008 * t->volts / 12; /* two 12 V in series: twice */
    double cable = 2 * t->one_way_m / 1000 * cable_ohm_per_km(a.area_mm2, false, t->celsius);
    a.short_at_battery_a = t->volts / inside;
    a.short_at_load_a = t->volts / (inside + cable);
    a.fuse_blows = a.short_at_load_a >= 3 * a.fuse_a;
    a.enough = is_enough(c, t, a.fuse_a);
    return a;
}

bool wiring_choose(const wiring_task *t, wiring_answer *out, err *e) {
    if (!check_task(t, e))
        return false;
    for (size_t i = 0; i < N_CABLES; i++) {
        if (!is_enough(&cables[i], t, fuse_for(t->load_a)))
            continue;
        *out = judge_cable(&cables[i], t);
        return true;
    }
    return err_input(e, "wiring", "shorten the run, allow more drop, or ask a licensed person",
                     "no cable up to 25 mm2 carries %g A over %g m within %g %% drop", t->load_a,
                     t->one_way_m, 100 * t->drop_allowed);
}

bool wiring_judge(const wiring_task *t, double area_mm2, wiring_answer *out, err *e) {
    if (!check_task(t, e))
        return false;
    for (size_t i = 0; i < N_CABLES; i++) {
        if (fabs(cables[i].area - area_mm2) > 1e-6)
            continue;
        *out = judge_cable(&cables[i], t);
        return true;
    }
    return err_input(e, "wiring", "give 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16 or 25 mm2",
                     "%g mm2 is no cable known here", area_mm2);
}

/* Common practice with a machine whose negative lies on the frame, and the order the safety brief of this project gives. */
static const char *const connect_steps[] = {
    "An adult does it. Eye protection on, rings, watch and chain off, insulated tools; covers on the free terminals.",
    "Isolator off, fuse out.",
    "Check each battery's voltage and polarity before anything is joined.",
    "Join the cables to the machine first, then positive, then negative at the battery.",
    "Links between batteries last.",
    "Covers on. Look over every connection with a second person.",
    "The fuse very last, with the isolator still off; then the isolator.",
};

static const char *const disconnect_steps[] = {
    "Switch off, isolator off, fuse out.",
    "Links between batteries first.",
    "Negative at the battery, then positive; cover each terminal as it comes free.",
};

const char *wiring_connect_step(unsigned i) {
    return i < sizeof connect_steps / sizeof *connect_steps ? connect_steps[i] : NULL;
}

const char *wiring_disconnect_step(unsigned i) {
    return i < sizeof disconnect_steps / sizeof *disconnect_steps ? disconnect_steps[i] : NULL;
}
