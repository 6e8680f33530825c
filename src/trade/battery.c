/* battery.c: kinds of battery, running, resting, mass. */
#include "trade/battery.h"

#include <math.h>

const char battery_caution[] =
    "The battery's label and maker first. Charging: in the open or well ventilated, an adult stays near, no sparks or "
    "flames, never a frozen battery. Terminals covered, insulated tools, no rings; a short circuit draws over 1000 A.";

/* Peukert: 40 Ah sheet of one maker (1.13 from 20 h and 5 h, 1.21 from 20 h and 1 h), a dealer's page (1.05 to 1.15), a
 * meter's manual (1.11). Self-discharge at 20 C: 1 % (from 9 % in
 * half a year at 25 C, one maker), 3 % (two), 5 % (one). Energy: 30 Wh/kg by one
 * sheet's mass, 40 as the usual upper figure. Charging 2.37 to 2.50 V/cell, float 2.20 to 2.32 by maker; 0.3 C at most. */
const battery_sort battery_agm = {
    .name = "AGM",
    .peukert = {1.05, 1.13, 1.21},
    .self_discharge_month = {0.01, 0.03, 0.05},
    .wh_per_kg = {30, 35, 40},
    .charge_v_cell = {2.367, 2.42, 2.50},
    .float_v_cell = {2.20, 2.27, 2.32},
    .charge_most_c = 0.3,
    .charge_least_c = 0.05,
    .top_up_below = 0.80,
    .source = "makers' sheets, which disagree; the band spans them",
};

/* Gel: a dealer's page for k (1.1 to 1.25); one maker's table for self-discharge (2 % at 20 C); the rest as AGM, lower
 * charging voltage (common practice, no source). */
const battery_sort battery_gel = {
    .name = "gel",
    .peukert = {1.10, 1.15, 1.25},
    .self_discharge_month = {0.015, 0.02, 0.04},
    .wh_per_kg = {28, 33, 38},
    .charge_v_cell = {2.33, 2.36, 2.40},
    .float_v_cell = {2.23, 2.27, 2.30},
    .charge_most_c = 0.2,
    .charge_least_c = 0.05,
    .top_up_below = 0.80,
    .source = "makers' sheets and common practice",
};

double battery_set_volts(const battery_set *s) {
    return s->volts * s->series;
}

double battery_set_ah(const battery_set *s) {
    return s->ah * s->parallel;
}

static bool check_set(const battery_set *s, err *e) {
    bool ok = s->sort && (s->volts == 6 || s->volts == 12) && s->ah >= 1 && s->ah <= 300 && s->series >= 1 &&
              s->series <= 4 && s->parallel >= 1 && s->parallel <= 4;
    return ok ||
           err_input(e, "battery", "give volts 6 or 12, 1 to 300 Ah (20 h), 1 to 4 in series and in parallel",
                     "the battery's figures are out of range");
}

static bool check_celsius(double celsius, err *e) {
    return (celsius >= -15 && celsius <= 40) ||
           err_input(e, "battery", "warm it up first", "temperatures from -15 to 40 C are covered");
}

/* Share of the 25 C capacity; between the 10 h and the 3 h rate the factor is taken along a straight line. */
static double temperature_factor(double celsius, double rate_h) {
    double a = rate_h >= 10 ? 0.006 : rate_h <= 3 ? 0.01 : 0.01 - 0.004 * (rate_h - 3) / 7;
    return 1 + a * (celsius - 25);
}

/* Share of the full capacity that one round of the profile uses, by Peukert with exponent k. A current below the 20 h one
 * gets the rating and no more: no maker promises what the formula would add. */
static double used_by_round(const load_part *profile, size_t n, double i20, double k) {
    double used = 0;
    for (size_t i = 0; i < n; i++) {
        double relative = profile[i].amperes / i20;
        used += profile[i].minutes / (20 * 60) * (relative > 1 ? pow(relative, k) : relative);
    }
    return used;
}

static bool check_profile(const load_part *profile, size_t n, double i20, double *minutes, double *mean,
                          err *e) {
    double charge = 0;
    *minutes = 0;
    if (n == 0 || n > 1000)
        return err_input(e, "battery", "give current and minutes",
                         "the load has no parts, or more than 1000");
    for (size_t i = 0; i < n; i++) {
        if (!(profile[i].amperes >= 0 && profile[i].amperes <= 12 * i20))
            return err_input(e, "battery", "spread the load or take a larger battery",
                             "part %zu draws %g A; up to %g A (the 1 h rate) is covered", i + 1,
                             profile[i].amperes, 12 * i20);
        if (!(profile[i].minutes > 0 && profile[i].minutes <= 100000))
            return err_input(e, "battery", "give minutes above 0", "part %zu has no duration", i + 1);
        *minutes += profile[i].minutes;
        charge += profile[i].minutes * profile[i].amperes;
    }
    *mean = charge / *minutes;
    return true;
}

bool battery_run_time(const battery_set *s, const load_part *profile, size_t n, double celsius, double use,
                      run_time *out, err *e) {
    if (!check_set(s, e) || !check_celsius(celsius, e))
        return false;
    if (!(use >= 0.1 && use <= 0.8))
        return err_input(e, "battery", "take 0.5 for a long life, 0.8 at most",
                         "the share to be used must be from 0.1 to 0.8");
    double ah = battery_set_ah(s), i20 = ah / 20, minutes = 0, mean = 0;
    if (!check_profile(profile, n, i20, &minutes, &mean, e))
        return false;
    if (mean < i20 / 10)
        return err_input(e, "battery", "divide the ampere-hours by the current and allow for self-discharge",
                         "a mean of %g A is below %g A (the 200 h rate), the least that is covered", mean,
                         i20 / 10);
    double rate_h = ah / mean;
    run_time r = {.c_rate_h = rate_h, .capacity_factor_temperature = temperature_factor(celsius, rate_h)};
    double share = use * r.capacity_factor_temperature;
    const band k = s->sort->peukert;
    double lo = share * minutes / used_by_round(profile, n, i20, k.high);
    double hi = share * minutes / used_by_round(profile, n, i20, k.low);
    r.minutes =
        (band){fmin(lo, hi), share * minutes / used_by_round(profile, n, i20, k.likely), fmax(lo, hi)};
    *out = r;
    return true;
}

/* Rested voltage of a 12 V battery against state of charge, from five published tables: a vehicle maker's for AGM (edges of
 * its bands), a sealed set at 26.7 C, a battery maker's manual (M), a travellers' chart, and a dealer's straight line. */
enum { N_TABLES = 5, N_POINTS = 5 };
static const double table_charge[N_POINTS] = {0, 0.25, 0.50, 0.75, 1.00};
static const double table_volts[N_TABLES][N_POINTS] = {
    {11.8, 12.0, 12.3, 12.6, 12.8},  {11.8, 12.0, 12.4, 12.6, 12.8},      {11.8, 12.0, 12.3, 12.6, 12.8},
    {11.5, 11.75, 12.1, 12.4, 12.7}, {11.4, 11.775, 12.15, 12.525, 12.9},
};

static double charge_in_table(const double volts[N_POINTS], double v) {
    if (v <= volts[0])
        return 0;
    for (int i = 1; i < N_POINTS; i++)
        if (v <= volts[i])
            return table_charge[i - 1] +
                   (table_charge[i] - table_charge[i - 1]) * (v - volts[i - 1]) / (volts[i] - volts[i - 1]);
    return 1;
}

bool battery_charge_at_rest(const battery_sort *sort, double volts, double rested_h, rest_reading *out,
                            err *e) {
    if (!(rested_h >= 12 && rested_h <= 10000))
        return err_input(e, "battery", "take off load and charger and wait 12 to 24 h, then measure again",
                         "the voltage says something only after at least 12 h of rest");
    if (!(volts >= 8 && volts <= 13.2))
        return err_input(e, "battery",
                         volts > 13.2
                             ? "measure each battery alone, after 12 to 24 h of rest"
                             : "measure again; a battery this low needs an adult who knows batteries",
                         "%g V is no rested voltage of one 12 V battery", volts);
    double low = 1, high = 0, sum = 0;
    for (int i = 0; i < N_TABLES; i++) {
        double c = charge_in_table(table_volts[i], volts);
        low = fmin(low, c);
        high = fmax(high, c);
        sum += c;
    }
    *out = (rest_reading){
        .charge = {low, sum / N_TABLES, high}, .charge_now = low < sort->top_up_below, .flat = volts <= 11.8};
    return true;
}

/* Sulphuric acid by density: flat about 1.10 (-7 C), half about 1.19 (-22 C), full about 1.29 (below -60 C). */
double battery_freezes_below(double charge) {
    static const double points[][2] = {{0, -7}, {0.25, -12}, {0.5, -20}, {0.75, -33}, {1, -50}};
    if (!(charge >= 0 && charge <= 1))
        return (double)NAN;
    for (int i = 1; i < 5; i++)
        if (charge <= points[i][0])
            return points[i - 1][1] + (points[i][1] - points[i - 1][1]) * (charge - points[i - 1][0]) /
                                          (points[i][0] - points[i - 1][0]);
    return points[4][1];
}

band battery_mass_kg(const battery_sort *sort, double volts, double ah) {
    if (!(volts > 0 && volts <= 48) || !(ah >= 1 && ah <= 300))
        return (band){(double)NAN, (double)NAN, (double)NAN};
    double wh = volts * ah;
    return (band){wh / sort->wh_per_kg.high, wh / sort->wh_per_kg.likely, wh / sort->wh_per_kg.low};
}
