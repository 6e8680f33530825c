/* battery.h: lead-acid batteries (AGM first), so that they live.
 *
 * The label on the battery comes first, always. Makers disagree, so most answers are bands: low, likely, high.
 *
 * Run time, Peukert with the 20 h rating: at a current I a battery of C ampere-hours runs t = 20 h (C / (20 I))^k; the
 * capacity it gives is C (I/I20)^(1-k). Valid from I20 to 12 I20 (20 h to about 1 h); below I20, down to I20/10, the
 * rating itself is taken. AGM: k 1.05 to 1.20 (1.13 and 1.21
 * from one maker's 5 h and 1 h rows; others say 1.05 to 1.15). Temperature: C(t) = C25 (1 + a (t - 25)), a = 0.006 per C
 * at 10 h and longer, 0.01 at 3 h and shorter (a maker's support page), -15 to 40 C.
 * Self-discharge of an AGM: 1 to 5 % a month at 20 C (makers disagree), twice as fast for each 10 C more.
 */
#ifndef TRADE_BATTERY_H
#define TRADE_BATTERY_H

#include <stddef.h>
#include <stdint.h>

#include "base/date.h"
#include "base/err.h"

typedef struct {
    double low, likely, high;
} band;

/* What a kind of battery is like; one constant row each, so that another kind is a row and not a rewrite. */
typedef struct {
    const char *name;
    band peukert;
    band self_discharge_month; /* share of the capacity in a month at 20 C */
    band wh_per_kg;
    band charge_v_cell; /* while charging, at 25 C */
    band float_v_cell;
    double charge_most_c; /* largest charging current as a share of C */
    double charge_least_c;
    double top_up_below; /* state of charge at which a stored battery wants charge */
    const char *source;
} battery_sort;

extern const battery_sort battery_agm, battery_gel;

typedef struct {
    const battery_sort *sort;
    double volts;         /* of one battery: 6 or 12 */
    double ah;            /* 20 h rating, 1 to 300 */
    int series, parallel; /* 1 to 4 each */
} battery_set;

double battery_set_volts(const battery_set *s);
double battery_set_ah(const battery_set *s);

/* One part of a load profile. */
typedef struct {
    double amperes, minutes;
} load_part;

typedef struct {
    band minutes;    /* until the share `use` of what it can give is used */
    double c_rate_h; /* hours at which the rating would be used up by this current */
    double capacity_factor_temperature;
} run_time;

/* `use`: share of the capacity that may be used, 0.1 to 0.8: deeper ones age fast. A profile repeats until it is used up.
 * Refuses currents above 12 I20, a mean below I20/10, temperatures outside -15 to 40 C. */
MUST_USE bool battery_run_time(const battery_set *s, const load_part *profile, size_t n, double celsius,
                               double use, run_time *out, err *e);

/* State of charge from the voltage of ONE 12 V battery, taken alone, after `rested_h` hours without load or charge.
 * Refuses less than 12 h. As shares 0..1: the band is what five published tables say. Above 13.2 V it is not rested. */
typedef struct {
    band charge;
    bool charge_now; /* the low end is below top_up_below */
    bool flat;       /* 11.8 V or less: may be spoilt, may freeze below about -7 C; an adult looks at it */
} rest_reading;

MUST_USE bool battery_charge_at_rest(const battery_sort *sort, double volts, double rested_h,
                                     rest_reading *out, err *e);

/* Self-discharge: share of the capacity lost in `days` at a temperature of -15 to 40 C. */
band battery_loss(const battery_sort *sort, double days, double celsius);

/* Dates to charge a stored battery. `celsius_by_month` has twelve mean temperatures, January first. From `from` (charged to
 * `charge`) to `to`: each time the worst maker's self-discharge has brought it to top_up_below, it is topped up to full.
 * Writes at most `cap` dates, returns how many there are. */
MUST_USE bool battery_top_ups(const battery_sort *sort, double charge, const double celsius_by_month[12],
                              date_day from, date_day to, date_day *dates, size_t cap, size_t *n, err *e);

typedef struct {
    bool suits;
    char why_not[160];
    band hours; /* from `charge` to full: 110 % of what is missing, the last fifth takes 3 h and more */
} charge_answer;

/* A charger of `amperes` that charges at `charge_volts` and holds at `float_volts` for the whole set, read off its label. */
MUST_USE bool battery_charger(const battery_set *s, double amperes, double charge_volts, double float_volts,
                              double charge, charge_answer *out, err *e);

/* Coldest safe temperature for a state of charge: below it the acid freezes and bursts the case (handbook curve for
 * sulphuric acid, M; cautious side). */
double battery_freezes_below(double charge);

/* Capacity test: minutes reached against minutes promised at the test current, at a temperature (IEEE 450 time-adjusted
 * factor, 4.4 to 48.9 C). End of life at 80 % (IEEE 1188, M). */
typedef struct {
    double share;
    bool end_of_life;
} capacity_test;

MUST_USE bool battery_capacity_test(double reached_min, double promised_min, double celsius,
                                    capacity_test *out, err *e);

/* Mass of one battery from its energy, kg. */
band battery_mass_kg(const battery_sort *sort, double volts, double ah);

/* What must stand beside every figure. */
extern const char battery_caution[];

#endif
