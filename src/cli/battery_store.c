/* battery_store.c: `kitbench battery store`: dates to top a battery up in storage. */
#include <math.h>

#include "base/number.h"
#include "base/sys.h"
#include "cli/battery_call.h"

enum { TOP_UPS_MOST = 200 };

typedef struct {
    double charge;
    double celsius[12]; /* by month, January first */
    int32_t label_days; /* 0: the label does not say */
    date_day from, to;
} season;

/* --temperatures "2;3;6;...": twelve means; otherwise --temperature all the year. */
static bool read_temperatures(const battery_answer *a, double celsius[12], err *e) {
    static const char remedy[] =
        "give twelve from -15 to 40, January first: \"2;3;6;9;13;17;19;18;15;10;6;3\"";
    double constant;
    text rest = text_of(cli_value(a->call, "temperatures")), piece;
    if (!trade_option(a->call, "temperature", -15, 40, 20, &constant, e))
        return false;
    for (int i = 0; i < 12; i++)
        celsius[i] = constant;
    if (!cli_given(a->call, "temperatures"))
        return true;
    int n = 0;
    while (text_next_piece(&rest, ';', &piece)) {
        int64_t milli;
        number_fault why;
        if (n == 12 || !number_decimal(text_trim(piece), 3, -15000, 40000, &milli, &why))
            return err_input(e, "--temperatures", remedy, n == 12 ? "there are more than twelve" : "%s",
                             why.cause);
        celsius[n++] = (double)milli / 1e3;
    }
    return n == 12 || err_input(e, "--temperatures", remedy, "there are only %d", n);
}

static bool read_season(battery_answer *a, season *s) {
    const char *from = cli_value(a->call, "from"), *to = cli_value(a->call, "to");
    if (!trade_option(a->call, "charge", 1, 100, 100, &s->charge, &a->e) ||
        !read_temperatures(a, s->celsius, &a->e) ||
        !trade_whole(a->call, "label-days", 1, 1000, a->label ? (int32_t)a->label->top_up_days : 0,
                     &s->label_days, &a->e))
        return false;
    s->from = date_of_moment(sys_now());
    if (from && !date_read(text_of(from), &s->from))
        return err_input(&a->e, "--from", "write a day like 2026-10-01", "\"%s\" is no day", from);
    if (!to || !date_read(text_of(to), &s->to))
        return err_input(&a->e, "--to", "write a day like 2027-04-01",
                         to ? "\"%s\" is no day" : "say when storage ends%s", to ? to : "");
    return true;
}

/* One top-up after the other: when the worst maker's would need it, or when the label asks for it, whichever is first. */
static bool find_top_ups(battery_answer *a, const season *s, date_day dates[TOP_UPS_MOST], size_t *n) {
    double charge = s->charge / 100;
    *n = 0;
    for (date_day day = s->from; *n < TOP_UPS_MOST;) {
        date_day next;
        size_t found;
        if (!battery_top_ups(a->set.sort, charge, s->celsius, day, s->to, &next, 1, &found, &a->e))
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

static double warmest(const season *s) {
    double t = s->celsius[0];
    for (int i = 1; i < 12; i++)
        t = fmax(t, s->celsius[i]);
    return t;
}

bool battery_store(battery_answer *a) {
    season s;
    date_day dates[TOP_UPS_MOST];
    size_t n;
    if (!read_season(a, &s) || !find_top_ups(a, &s, dates, &n))
        return false;
    band loss = battery_loss(a->set.sort, 30.4375, warmest(&s));
    if (a->call->json) {
        json_put_array(&a->json, "top_ups");
        for (size_t i = 0; i < n; i++) {
            char day[11];
            date_print(dates[i], day);
            trade_json_z(&a->json, NULL, day);
        }
        json_end_array(&a->json);
        trade_json_band(&a->json, "loss_in_a_month", loss);
        if (s.label_days)
            json_put_integer(&a->json, "label_days", s.label_days);
        else
            json_put_null(&a->json, "label_days");
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
        warmest(&s), 100 * loss.likely, 100 * loss.low, 100 * loss.high, 100 * a->set.sort->top_up_below,
        s.label_days ? arena_format(a->call->memory, ", or after the label's %d days, whichever comes first",
                                    s.label_days)
                           .at
                     : "");
    if (!s.label_days)
        trade_line(
            &a->out,
            "The label may ask for more: --label-days. Common practice (no source) is every two to three months "
            "at room temperature.");
    return true;
}
