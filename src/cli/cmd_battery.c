/* cmd_battery.c: `kitbench battery`: running, resting, storing, charging, testing, carrying. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/battery_call.h"
#include "cli/commands.h"

static bool run_battery(battery_answer *a) {
    load_part parts[64];
    size_t n = 0;
    double celsius, use;
    run_time t;
    bool ok = battery_profile(a, parts, &n) &&
              trade_figure(a->call, "temperature", -15, 40, 20, &celsius, &a->e) &&
              trade_option(a->call, "use", 10, 80, 50, &use, &a->e) &&
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
    battery_add_band(&a->out, hours, "h");
    buf_addf(&a->out, " until %g %% is used\n", use);
    trade_line(&a->out,
               "Peukert k %.2f to %.2f, the rating at 20 h; at %g C the capacity is %.2f of that at 25 C.",
               a->set.sort->peukert.low, a->set.sort->peukert.high, celsius, t.capacity_factor_temperature);
    return true;
}

static bool rest_battery(battery_answer *a) {
    double volts, rested;
    rest_reading r;
    if (a->set.volts != 12)
        return err_input(&a->e, "battery", "follow its label",
                         "rested voltages are known for 12 V batteries only");
    bool ok = trade_figure(a->call, "voltage", 8, 13.2, (double)NAN, &volts, &a->e) &&
              trade_figure(a->call, "rested", 12, 10000, (double)NAN, &rested, &a->e) &&
              battery_charge_at_rest(a->set.sort, volts, rested, &r, &a->e);
    if (!ok)
        return false;
    double freezes = battery_freezes_below(r.charge.low),
           wanted = a->label ? (double)a->label->arrival_low_mv / 1e3 : 0;
    if (a->call->json) {
        trade_json_band(&a->json, "charge", r.charge);
        json_put_bool(&a->json, "charge_now", r.charge_now);
        json_put_bool(&a->json, "flat", r.flat);
        trade_json_real(&a->json, "freezes_below_c", freezes);
        trade_json_real(&a->json, "wanted_on_arrival_v", a->label ? wanted : (double)NAN);
        return true;
    }
    buf_addf(&a->out, "%g V after %g h of rest: about %.0f %% charged (%.0f to %.0f)\n", volts, rested,
             100 * r.charge.likely, 100 * r.charge.low, 100 * r.charge.high);
    trade_line(&a->out,
               "The band spans five published tables, which disagree. Each battery is measured alone.");
    if (wanted > 0)
        trade_line(&a->out,
                   volts < wanted ? "On arrival the kit's maker wants at least %g V: report it."
                                  : "On arrival the kit's maker wants at least %g V.",
                   wanted);
    trade_line(&a->out, "%s It may freeze below %.0f C.",
               r.flat         ? "It is flat: an adult looks at it before it is charged."
               : r.charge_now ? "Charge it now."
                              : "No charge needed yet.",
               freezes);
    return true;
}

/* The kit's label stands above what is usual for the sort. */
static void judge_by_label(const battery_answer *a, double amperes, charge_answer *c) {
    double most = a->label ? (double)a->label->charge_high_ma / 1e3 * a->set.parallel : 0;
    if (most <= 0 || amperes <= most)
        return;
    c->suits = false;
    snprintf(c->why_not, sizeof c->why_not, "%.1f A is more than the %.1f A that its label allows", amperes,
             most);
}

static bool charge_battery(battery_answer *a) {
    double amperes, charge_v, float_v, charge;
    charge_answer c;
    bool ok = trade_option(a->call, "amperes", 0.1, 200, (double)NAN, &amperes, &a->e) &&
              trade_option(a->call, "charge-volts", 5, 99, (double)NAN, &charge_v, &a->e) &&
              trade_option(a->call, "float-volts", 0, 99, 0, &float_v, &a->e) &&
              trade_option(a->call, "charge", 0, 100, 50, &charge, &a->e) &&
              battery_charger(&a->set, amperes, charge_v, float_v, charge / 100, &c, &a->e);
    if (!ok)
        return false;
    judge_by_label(a, amperes, &c);
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
    battery_add_band(&a->out, c.hours, "h");
    buf_add_z(&a->out, "\n");
    trade_line(
        &a->out,
        "110 %% of what is missing goes in; the last fifth takes 3 h or more. The battery's label decides.");
    return true;
}

static bool test_battery(battery_answer *a) {
    double reached, promised, celsius;
    capacity_test t;
    bool ok = trade_option(a->call, "reached", 0, 1e5, (double)NAN, &reached, &a->e) &&
              trade_option(a->call, "promised", 0.1, 1e5, (double)NAN, &promised, &a->e) &&
              trade_figure(a->call, "temperature", 4.4, 48.9, 20, &celsius, &a->e) &&
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

static bool carry_battery(battery_answer *a) {
    band m = battery_mass_kg(a->set.sort, a->set.volts, a->set.ah);
    int64_t mg = a->label ? a->kit->parts[a->label->part].mass_mg : -1;
    if (isnan(m.likely))
        return err_input(&a->e, "battery", "give --volts 6 or 12 and --ah up to 300",
                         "its figures are out of range");
    if (a->call->json) {
        trade_json_band(&a->json, "mass_kg", m);
        trade_json_real(&a->json, "kit_says_kg", mg > 0 ? (double)mg / 1e6 : (double)NAN);
        return true;
    }
    if (mg > 0)
        buf_addf(&a->out, "One weighs %g kg by the kit's list; computed ", (double)mg / 1e6);
    else
        buf_addf(&a->out, "One weighs about ");
    battery_add_band(&a->out, m, "kg");
    buf_add_z(&a->out, "\n");
    trade_line(
        &a->out,
        "%.0f to %.0f Wh/kg. Its carry is an adult's; no figure is given for minors. Look at the label, or weigh it.",
        a->set.sort->wh_per_kg.low, a->set.sort->wh_per_kg.high);
    return true;
}

/* Which battery the answer is about, when the kit said it. */
static void tell_label(battery_answer *a) {
    if (!a->label)
        return;
    const kit_part *p = &a->kit->parts[a->label->part];
    if (a->call->json) {
        json_put_text(&a->json, "part", p->number);
        json_put_integer(&a->json, "pieces", a->pieces);
        return;
    }
    trade_line(&a->out, "%.*s, %.*s: %lld in the kit, each %g V, %g Ah", TEXT_ARG(p->number),
               TEXT_ARG(p->name), (long long)a->pieces, a->set.volts, a->set.ah);
}

static int tell_answer(battery_answer *a, bool (*question)(battery_answer *a)) {
    if (a->call->json)
        json_put_object(&a->json, NULL);
    tell_label(a);
    if (!question(a)) {
        buf_free(&a->out);
        return cli_fail(&a->e);
    }
    if (a->call->json) {
        trade_json_z(&a->json, "caution", battery_caution);
        json_end_object(&a->json);
    } else {
        trade_line(&a->out, "%s", battery_caution);
    }
    return cli_print(&a->out, EXIT_DONE);
}

int cmd_battery(cli_call *call) {
    static const struct {
        const char *name;
        bool (*run)(battery_answer *a);
    } questions[] = {{"run", run_battery},        {"rest", rest_battery}, {"store", battery_store},
                     {"charger", charge_battery}, {"test", test_battery}, {"mass", carry_battery}};
    battery_answer a = {.call = call};
    kit_source from = {0};
    int code;
    a.json = json_to(&a.out);
    for (size_t i = 0; i < sizeof questions / sizeof *questions; i++) {
        if (strcmp(call->arguments[0], questions[i].name) != 0)
            continue;
        if (battery_meant(&a, call->n_arguments > 1 ? call->arguments[1] : NULL, &from, &code))
            code = tell_answer(&a, questions[i].run);
        else if (!code)
            code = cli_fail(&a.e);
        kit_source_close(&from);
        return code;
    }
    err_input(&a.e, "battery", "ask for run, rest, store, charger, test or mass", "\"%s\" is not known",
              call->arguments[0]);
    return cli_fail(&a.e);
}
