/* cmd_battery.c: `kitbench battery`: running, resting, storing, charging, testing, carrying. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/trade_call.h"

typedef struct {
    const cli_call *call;
    battery_set set;
    buf out;
    json_out json;
    err e;
} answer;

static bool read_set(answer *a) {
    unsigned sort;
    int32_t series, parallel;
    bool ok = trade_word(a->call, "sort", "agm|gel", 0, &sort, &a->e) &&
              trade_option(a->call, "volts", 1, 1000, 12, &a->set.volts, &a->e) &&
              trade_option(a->call, "ah", 0.1, 10000, 36, &a->set.ah, &a->e) &&
              trade_whole(a->call, "series", 1, 4, 1, &series, &a->e) &&
              trade_whole(a->call, "parallel", 1, 4, 1, &parallel, &a->e);
    if (!ok)
        return false;
    a->set.sort = sort ? &battery_gel : &battery_agm;
    a->set.series = series;
    a->set.parallel = parallel;
    return true;
}

/* "5" or "10x5; 2x20": amperes x minutes, parts divided by ';'. One number alone is a steady current. */
static bool read_profile(answer *a, load_part parts[64], size_t *n) {
    const char *value = cli_value(a->call, "load");
    static const char remedy[] =
        "write --load 5 for a steady 5 A, or --load \"10x5; 2x20\" for 10 A 5 min, 2 A 20 min";
    if (!value)
        return err_input(&a->e, "--load", remedy, "it is needed here");
    text rest = text_of(value), piece;
    *n = 0;
    while (text_next_piece(&rest, ';', &piece)) {
        char z[64], *end;
        snprintf(z, sizeof z, "%.*s", TEXT_ARG(text_trim(piece)));
        if (*n == 64 || !z[0] || strspn(z, "0123456789.x ") != strlen(z))
            return err_input(&a->e, "--load", remedy, "\"%s\" is not understood", value);
        parts[*n].amperes = strtod(z, &end);
        parts[*n].minutes = *end == 'x' ? strtod(end + 1, &end) : 60;
        if (*end)
            return err_input(&a->e, "--load", remedy, "\"%s\" is not understood", z);
        (*n)++;
    }
    return true;
}

static void tell_band(buf *out, band b, const char *unit) {
    buf_addf(out, "%.3g %s (%.3g to %.3g)", b.likely, unit, b.low, b.high);
}

static bool run_battery(answer *a) {
    load_part parts[64];
    size_t n = 0;
    double celsius, use;
    run_time t;
    bool ok = read_set(a) && read_profile(a, parts, &n) &&
              trade_option(a->call, "temperature", -50, 80, 20, &celsius, &a->e) &&
              trade_option(a->call, "use", 1, 100, 50, &use, &a->e) &&
              battery_run_time(&a->set, parts, n, celsius, use / 100, &t, &a->e);
    if (!ok)
        return false;
    band hours = {t.minutes.low / 60, t.minutes.likely / 60, t.minutes.high / 60};
    if (a->call->json) {
        trade_json_band(&a->json, "hours", hours);
        trade_json_real(&a->json, "temperature_factor", t.capacity_factor_temperature);
        return true;
    }
    buf_addf(&a->out, "%g V, %g Ah (20 h): ", battery_set_volts(&a->set), battery_set_ah(&a->set));
    tell_band(&a->out, hours, "h");
    buf_addf(&a->out, " until %g %% is used\n", use);
    trade_line(&a->out,
               "Peukert k %.2f to %.2f, the rating at 20 h; at %g C the capacity is %.2f of that at 25 C.",
               a->set.sort->peukert.low, a->set.sort->peukert.high, celsius, t.capacity_factor_temperature);
    return true;
}

static bool rest_battery(answer *a) {
    double volts, rested;
    rest_reading r;
    bool ok = read_set(a) && trade_option(a->call, "voltage", 0, 100, (double)NAN, &volts, &a->e) &&
              trade_option(a->call, "rested", 0, 10000, (double)NAN, &rested, &a->e) &&
              battery_charge_at_rest(a->set.sort, volts, rested, &r, &a->e);
    if (!ok)
        return false;
    double freezes = battery_freezes_below(r.charge.low);
    if (a->call->json) {
        trade_json_band(&a->json, "charge", r.charge);
        json_put_bool(&a->json, "charge_now", r.charge_now);
        json_put_bool(&a->json, "flat", r.flat);
        trade_json_real(&a->json, "freezes_below_c", freezes);
        return true;
    }
    buf_addf(&a->out, "%g V after %g h of rest: about %.0f %% charged (%.0f to %.0f)\n", volts, rested,
             100 * r.charge.likely, 100 * r.charge.low, 100 * r.charge.high);
    trade_line(&a->out,
               "The band spans five published tables, which disagree. Each battery is measured alone.");
    trade_line(&a->out, "%s It may freeze below %.0f C.",
               r.flat         ? "It is flat: an adult looks at it before it is charged."
               : r.charge_now ? "Charge it now."
                              : "No charge needed yet.",
               freezes);
    return true;
}

enum { TOP_UPS_MOST = 200 };

typedef struct {
    double charge, celsius;
    int32_t label_days; /* 0: the label does not say */
    date_day from, to;
} season;

static bool read_season(answer *a, season *s) {
    const char *from = cli_value(a->call, "from"), *to = cli_value(a->call, "to");
    if (!trade_option(a->call, "charge", 0, 100, 100, &s->charge, &a->e) ||
        !trade_option(a->call, "temperature", -50, 80, 20, &s->celsius, &a->e) ||
        !trade_whole(a->call, "label-days", 1, 1000, 0, &s->label_days, &a->e))
        return false;
    if (!from || !to || !date_read(text_of(from), &s->from) || !date_read(text_of(to), &s->to))
        return err_input(&a->e, "--from, --to", "write --from 2026-10-01 --to 2027-04-01",
                         "the season is not given");
    return true;
}

/* One top-up after the other: when the worst maker's would need it, or when the label asks for it, whichever is first. */
static bool find_top_ups(answer *a, const season *s, date_day dates[TOP_UPS_MOST], size_t *n) {
    double months[12], charge = s->charge / 100;
    for (int i = 0; i < 12; i++)
        months[i] = s->celsius;
    *n = 0;
    for (date_day day = s->from; *n < TOP_UPS_MOST;) {
        date_day next;
        size_t found;
        if (!battery_top_ups(a->set.sort, charge, months, day, s->to, &next, 1, &found, &a->e))
            return false;
        bool by_label = s->label_days && (!found || next > day + s->label_days);
        if (by_label)
            next = day + s->label_days;
        if ((!found && !by_label) || next > s->to)
            return true;
        dates[(*n)++] = next;
        charge = 1;
        day = next;
    }
    return true;
}

static bool store_battery(answer *a) {
    season s;
    date_day dates[TOP_UPS_MOST];
    size_t n;
    if (!read_set(a) || !read_season(a, &s) || !find_top_ups(a, &s, dates, &n))
        return false;
    band loss = battery_loss(a->set.sort, 30.4375, s.celsius);
    if (a->call->json) {
        json_put_array(&a->json, "top_ups");
        for (size_t i = 0; i < n; i++) {
            char day[11];
            date_print(dates[i], day);
            trade_json_z(&a->json, NULL, day);
        }
        json_end_array(&a->json);
        trade_json_band(&a->json, "loss_in_a_month", loss);
        return true;
    }
    buf_addf(&a->out, "%zu top-up%s\n", n, n == 1 ? "" : "s");
    for (size_t i = 0; i < n; i++) {
        char day[11];
        date_print(dates[i], day);
        buf_addf(&a->out, "  %s  %s\n", day, date_weekday_name(dates[i]));
    }
    trade_line(
        &a->out,
        "At %g C it loses %.1f %% a month (%.1f to %.1f by maker); the dates are for the worst maker, down to %.0f %%%s.",
        s.celsius, 100 * loss.likely, 100 * loss.low, 100 * loss.high, 100 * a->set.sort->top_up_below,
        s.label_days ? ", or the label's, whichever comes first" : "");
    if (!s.label_days)
        trade_line(
            &a->out,
            "The label may ask for more: --label-days. Common practice (no source) is every two to three months "
            "at room temperature.");
    return true;
}

static bool charge_battery(answer *a) {
    double amperes, charge_v, float_v, charge;
    charge_answer c;
    bool ok = read_set(a) && trade_option(a->call, "amperes", 0.01, 1000, (double)NAN, &amperes, &a->e) &&
              trade_option(a->call, "charge-volts", 1, 200, (double)NAN, &charge_v, &a->e) &&
              trade_option(a->call, "float-volts", 0, 200, 0, &float_v, &a->e) &&
              trade_option(a->call, "charge", 0, 100, 50, &charge, &a->e) &&
              battery_charger(&a->set, amperes, charge_v, float_v, charge / 100, &c, &a->e);
    if (!ok)
        return false;
    if (a->call->json) {
        json_put_bool(&a->json, "suits", c.suits);
        trade_json_z(&a->json, "why_not", c.why_not);
        trade_json_band(&a->json, "hours", c.hours);
        return true;
    }
    if (!c.suits) {
        trade_line(&a->out, "This charger does not suit: %s. The battery's label decides.", c.why_not);
        return true;
    }
    buf_addf(&a->out, "It suits by its figures. From %g %% to full: ", charge);
    tell_band(&a->out, c.hours, "h");
    buf_add_z(&a->out, "\n");
    trade_line(
        &a->out,
        "110 %% of what is missing goes in; the last fifth takes 3 h or more. The battery's label decides.");
    return true;
}

static bool test_battery(answer *a) {
    double reached, promised, celsius;
    capacity_test t;
    bool ok = trade_option(a->call, "reached", 0, 1e5, (double)NAN, &reached, &a->e) &&
              trade_option(a->call, "promised", 0.1, 1e5, (double)NAN, &promised, &a->e) &&
              trade_option(a->call, "temperature", -50, 80, 20, &celsius, &a->e) &&
              battery_capacity_test(reached, promised, celsius, &t, &a->e);
    if (!ok)
        return false;
    if (a->call->json) {
        trade_json_real(&a->json, "share", t.share);
        json_put_bool(&a->json, "end_of_life", t.end_of_life);
        return true;
    }
    buf_addf(&a->out, "%.0f %% of its rating%s\n", 100 * t.share,
             t.end_of_life ? ": due for replacement" : "");
    trade_line(
        &a->out,
        "Minutes reached / (minutes promised x factor at %g C), IEEE 450 style; below 80 %% it is due.",
        celsius);
    return true;
}

static bool carry_battery(answer *a) {
    if (!read_set(a))
        return false;
    band m = battery_mass_kg(a->set.sort, a->set.volts, a->set.ah);
    if (isnan(m.likely))
        return err_input(&a->e, "battery", "give --volts up to 48 and --ah up to 300",
                         "its figures are out of range");
    if (a->call->json) {
        trade_json_band(&a->json, "mass_kg", m);
        return true;
    }
    buf_addf(&a->out, "One weighs about ");
    tell_band(&a->out, m, "kg");
    buf_add_z(&a->out, "\n");
    trade_line(
        &a->out,
        "%.0f to %.0f Wh/kg. Its carry is an adult's; no figure is given for minors. Look at the label, or weigh it.",
        a->set.sort->wh_per_kg.low, a->set.sort->wh_per_kg.high);
    return true;
}

int cmd_battery(cli_call *call) {
    static const struct {
        const char *name;
        bool (*run)(answer *a);
    } questions[] = {{"run", run_battery},        {"rest", rest_battery}, {"store", store_battery},
                     {"charger", charge_battery}, {"test", test_battery}, {"mass", carry_battery}};
    answer a = {.call = call};
    a.json = json_to(&a.out);
    for (size_t i = 0; i < sizeof questions / sizeof *questions; i++) {
        if (strcmp(call->arguments[0], questions[i].name) != 0)
            continue;
        if (call->json)
            json_put_object(&a.json, NULL);
        if (!questions[i].run(&a)) {
            buf_free(&a.out);
            return cli_fail(&a.e);
        }
        if (call->json) {
            trade_json_z(&a.json, "caution", battery_caution);
            json_end_object(&a.json);
        } else {
            trade_line(&a.out, "%s", battery_caution);
        }
        return cli_print(&a.out, EXIT_DONE);
    }
    err_input(&a.e, "battery", "ask for run, rest, store, charger, test or mass", "\"%s\" is not known",
              call->arguments[0]);
    return cli_fail(&a.e);
}
