/* battery_care.c: storing, charging, testing. */
#include <math.h>
#include <stdio.h>

#include "trade/battery.h"

static const double month_days = 30.4375;

/* Twice as fast for each 10 C more (a maker's table: AGM 3 % at 20 C, 1.5 % at 10 C). */
static double loss_per_day(double month_share, double celsius) {
    return month_share / month_days * pow(2, (celsius - 20) / 10);
}

band battery_loss(const battery_sort *sort, double days, double celsius) {
    if (!(days >= 0 && days <= 3660) || !(celsius >= -15 && celsius <= 40))
        return (band){(double)NAN, (double)NAN, (double)NAN};
    const band m = sort->self_discharge_month;
    band loss = {days * loss_per_day(m.low, celsius), days * loss_per_day(m.likely, celsius),
                 days * loss_per_day(m.high, celsius)};
    return (band){fmin(1, loss.low), fmin(1, loss.likely), fmin(1, loss.high)};
}

static bool check_season(double charge, const double celsius_by_month[12], date_day from, date_day to,
                         err *e) {
    if (!(charge > 0 && charge <= 1))
        return err_input(e, "battery", "give the state of charge as 0 to 1",
                         "the state of charge is out of range");
    for (int i = 0; i < 12; i++)
        if (!(celsius_by_month[i] >= -15 && celsius_by_month[i] <= 40))
            return err_input(e, "battery", "store it where it is from -15 to 40 C",
                             "month %d has %g C, out of the range that is covered", i + 1,
                             celsius_by_month[i]);
    if (to < from || to - from > 3660)
        return err_input(e, "battery", "give a season of up to ten years",
                         "the season ends before it begins or is too long");
    return true;
}

bool battery_top_ups(const battery_sort *sort, double charge, const double celsius_by_month[12],
                     date_day from, date_day to, date_day *dates, size_t cap, size_t *n, err *e) {
    if (!check_season(charge, celsius_by_month, from, to, e))
        return false;
    *n = 0;
    for (date_day day = from; day <= to; day++) {
        if (charge <= sort->top_up_below) { /* due today: charge it full */
            if (*n < cap)
                dates[*n] = day;
            (*n)++;
            charge = 1;
        }
        int month = date_to_civil(day).month;
        charge -= loss_per_day(sort->self_discharge_month.high, celsius_by_month[month - 1]);
    }
    return true;
}

/* Ampere-hours up to four fifths go in at the charger's current, the rest takes 3 h or more however strong it is. */
static band charge_hours(double ah, double amperes, double charge) {
    double bulk = charge < 0.8 ? (0.8 - charge) * ah / amperes : 0;
    double rest = (1 - (charge > 0.8 ? charge : 0.8)) * 1.1 * ah / amperes;
    double all = 1.1 * (1 - charge) * ah / amperes;
    double least = bulk + fmax(rest, charge < 1 ? 1 : 0), likely = bulk + fmax(rest, charge < 1 ? 3 : 0);
    return (band){fmax(all, least), fmax(all, likely), fmax(all, bulk * 1.15 + fmax(2 * rest, 6))};
}

/* Voltages of a set that suit its cells, within a tenth of a volt for 12 V. */
static bool outside(double volts, band per_cell, double cells) {
    return volts < per_cell.low * cells - 0.05 * cells / 6 ||
           volts > per_cell.high * cells + 0.05 * cells / 6;
}

bool battery_charger(const battery_set *s, double amperes, double charge_volts, double float_volts,
                     double charge, charge_answer *out, err *e) {
    double set_volts = battery_set_volts(s), ah = battery_set_ah(s), cells = set_volts / 2;
    if (!s->sort || !(set_volts >= 6 && set_volts <= 48) || !(ah >= 1 && ah <= 1200))
        return err_input(e, "battery", "give volts, ampere-hours and how many",
                         "the battery's figures are out of range");
    if (!(amperes > 0 && amperes <= 200) || !(charge >= 0 && charge <= 1) ||
        !(charge_volts > 0 && charge_volts < 100) || !(float_volts >= 0 && float_volts < 100))
        return err_input(e, "battery", "read the charger's label: amperes, charging and float volts",
                         "a charger's figure is out of range");
    const battery_sort *sort = s->sort;
    charge_answer a = {.suits = false};
    if (outside(charge_volts, sort->charge_v_cell, cells))
        snprintf(a.why_not, sizeof a.why_not, "it charges at %.1f V; %s wants %.1f to %.1f V here",
                 charge_volts, sort->name, sort->charge_v_cell.low * cells, sort->charge_v_cell.high * cells);
    else if (float_volts > 0 && outside(float_volts, sort->float_v_cell, cells))
        snprintf(a.why_not, sizeof a.why_not, "it holds at %.1f V; %s wants %.1f to %.1f V here", float_volts,
                 sort->name, sort->float_v_cell.low * cells, sort->float_v_cell.high * cells);
    else if (amperes > sort->charge_most_c * ah)
        snprintf(a.why_not, sizeof a.why_not, "%.1f A is more than %.1f A, the most for %.0f Ah", amperes,
                 sort->charge_most_c * ah, ah);
    else if (amperes < sort->charge_least_c * ah)
        snprintf(a.why_not, sizeof a.why_not, "%.1f A is less than %.1f A: it would take days", amperes,
                 sort->charge_least_c * ah);
    else
        a.suits = true;
    a.hours = charge_hours(ah, amperes, charge);
    *out = a;
    return true;
}

/* IEEE 450 style factor K_T, from a published chart: share = reached / (promised K_T). */
static double time_factor(double celsius) {
    static const double points[][2] = {{4.4, 0.670},  {10, 0.790},  {15.6, 0.882}, {20, 0.942},
                                       {21.1, 0.955}, {25, 1.000},  {30, 1.045},   {32.2, 1.065},
                                       {37.8, 1.112}, {48.9, 1.210}};
    enum { N = sizeof points / sizeof *points };
    for (size_t i = 1; i < N; i++)
        if (celsius <= points[i][0])
            return points[i - 1][1] + (points[i][1] - points[i - 1][1]) * (celsius - points[i - 1][0]) /
                                          (points[i][0] - points[i - 1][0]);
    return points[N - 1][1];
}

bool battery_capacity_test(double reached_min, double promised_min, double celsius, capacity_test *out,
                           err *e) {
    if (!(celsius >= 4.4 && celsius <= 48.9))
        return err_input(e, "battery", "test between 15 and 30 C", "a test is covered from 4.4 to 48.9 C");
    if (!(promised_min > 0 && promised_min <= 1e5) || !(reached_min >= 0 && reached_min <= 2 * promised_min))
        return err_input(e, "battery", "give minutes reached and minutes promised at the same current",
                         "the minutes are out of range");
    double share = reached_min / (promised_min * time_factor(celsius));
    *out = (capacity_test){share, share < 0.8};
    return true;
}
