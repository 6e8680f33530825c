/* cmd_wire.c: `kitbench wire`: cable and fuse for a load on 12 or 24 V. */
#include <math.h>

#include "cli/commands.h"
#include "cli/trade_call.h"

static void print_steps(buf *out, const char *title, const char *(*step)(unsigned)) {
    buf_addf(out, "%s\n", title);
    for (unsigned i = 0; step(i); i++)
        trade_line(out, "%u. %s", i + 1, step(i));
}

static const char sources[] =
    "Sources: IEC 60228 class 5 for the resistance; fuse at least 1.25 x the load and at most what the cable "
    "carries (common practice, no source). The maker's manual and local rules come first.";

static void print_drop(buf *out, const wiring_task *t, const wiring_answer *a) {
    trade_line(out, "Drop there and back: %.3g V, %.2g %% of %g V, at %g A over %g m one way.", a->drop_v,
               100 * a->drop_share, t->volts, t->load_a, t->one_way_m);
}

/* A cable that will not do: why, and which would. */
static void print_too_thin(buf *out, const wiring_task *t, const wiring_answer *a) {
    wiring_answer better;
    if (a->carries_a < a->fuse_a)
        trade_line(out, "%g mm2 is too thin: the load wants a fuse of %g A, and the cable carries %g A.",
                   a->area_mm2, a->fuse_a, a->carries_a);
    else
        trade_line(out, "%g mm2 is too thin for the length: at most %g %% may be lost.", a->area_mm2,
                   100 * t->drop_allowed);
    print_drop(out, t, a);
    if (wiring_choose(t, &better, NULL))
        trade_line(out, "Take %g mm2.", better.area_mm2);
    else
        trade_line(out, "No cable up to 25 mm2 will do: shorten the run, or ask a licensed person.");
    trade_line(out, "%s", sources);
}

static void print_text(buf *out, const wiring_task *t, const wiring_answer *a) {
    if (!a->enough) {
        print_too_thin(out, t, a);
        return;
    }
    buf_addf(out, "%g mm2 copper, fuse %g A at the battery\n", a->area_mm2, a->fuse_a);
    trade_line(
        out,
        "The cable carries %g A alone in free air; bundled or warm ones carry less. The fuse protects the cable.",
        a->carries_a);
    print_drop(out, t, a);
    trade_line(out, "A short circuit draws about %.0f A at the battery and %.0f A at the load%s.",
               a->short_at_battery_a, a->short_at_load_a,
               a->fuse_blows ? "; the fuse will blow" : "; the fuse may be slow: shorten the cable");
    print_steps(out, "\nConnecting", wiring_connect_step);
    print_steps(out, "\nDisconnecting", wiring_disconnect_step);
    buf_add_char(out, '\n');
    trade_line(out, "%s", sources);
}

static void print_json(buf *out, const wiring_answer *a) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    trade_json_real(&j, "area_mm2", a->area_mm2);
    json_put_bool(&j, "enough", a->enough);
    trade_json_real(&j, "fuse_a", a->fuse_a);
    trade_json_real(&j, "carries_a", a->carries_a);
    trade_json_real(&j, "drop_v", a->drop_v);
    trade_json_real(&j, "drop_share", a->drop_share);
    trade_json_real(&j, "short_at_battery_a", a->short_at_battery_a);
    trade_json_real(&j, "short_at_load_a", a->short_at_load_a);
    json_put_bool(&j, "fuse_blows", a->fuse_blows);
    json_put_array(&j, "connecting");
    for (unsigned i = 0; wiring_connect_step(i); i++)
        trade_json_z(&j, NULL, wiring_connect_step(i));
    json_end_array(&j);
    json_put_array(&j, "disconnecting");
    for (unsigned i = 0; wiring_disconnect_step(i); i++)
        trade_json_z(&j, NULL, wiring_disconnect_step(i));
    json_end_array(&j);
    json_end_object(&j);
}

int cmd_wire(cli_call *call) {
    wiring_task t = {0};
    wiring_answer a;
    err e = {0};
    double percent, area;
    bool ok = trade_figure(call, "volts", 12, 24, 12, &t.volts, &e) &&
              trade_figure(call, "load", 0.1, 80, (double)NAN, &t.load_a, &e) &&
              trade_figure(call, "length", 0.05, 20, (double)NAN, &t.one_way_m, &e) &&
              trade_option(call, "drop", 0.5, 10, 3, &percent, &e) &&
              trade_figure(call, "temperature", -20, 60, 20, &t.celsius, &e);
    ok = ok && trade_figure(call, "area", 0.5, 25, 0, &area, &e);
    t.drop_allowed = ok ? percent / 100 : 0;
    ok = ok && (cli_given(call, "area") ? wiring_judge(&t, area, &a, &e) : wiring_choose(&t, &a, &e));
    if (!ok)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        print_json(&out, &a);
    else
        print_text(&out, &t, &a);
    return cli_print(&out, a.enough ? EXIT_DONE : EXIT_NO);
}
