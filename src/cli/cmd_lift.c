/* cmd_lift.c: `kitbench lift`: how many adults for a mass, and for the boxes and growing units of a kit. */
#include <ctype.h>
#include <math.h>

#include "base/sys.h"
#include "cli/commands.h"
#include "cli/lift_kit.h"
#include "cli/trade_call.h"

static const char who_words[] = "adult|man|woman|minor";
static const char height_words[] = "shoulder|elbow|knuckle|knee|floor";
static const char grip_words[] = "good|fair|poor";

static int one_mass(const cli_call *call, const lift_posture *p, err *e) {
    double kg;
    lift_team t;
    if (!trade_figure(call, "mass", 0.1, 500, (double)NAN, &kg, e) ||
        !lifting_team(kg, (lifting_person)p->who, (lifting_height)p->height, p->arms_out, &t, e))
        return cli_fail(e);
    buf out = {0};
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        trade_json_real(&j, "mass_kg", kg);
        json_put_integer(&j, "people", t.people);
        trade_json_real(&j, "together_kg", t.team_kg);
        trade_json_real(&j, "alone_kg", t.alone_kg);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
        return cli_print(&out, t.people ? EXIT_DONE : EXIT_NO);
    }
    char people[64];
    lift_people_text(&t, people);
    buf_addf(&out, "%g kg, %s, %s: %s\n", kg, lifting_height_name((lifting_height)p->height),
             p->arms_out ? "arms out" : "close to the body", people);
    trade_line(&out, "One may lift %.3g kg so; two together two thirds of the sum, three half of it.",
               t.alone_kg);
    trade_line(
        &out,
        "Source: guideline filter of HSE INDG143 and L23; lower figure of men and women unless told who lifts.");
    trade_line(&out, "%s", lifting_caution);
    return cli_print(&out, t.people ? EXIT_DONE : EXIT_NO);
}

static int by_equation(const cli_call *call, const lift_posture *p, err *e) {
    lift l = {.person = (lifting_person)p->who};
    unsigned grip;
    lift_answer a;
    bool ok = trade_figure(call, "mass", 0.1, 500, (double)NAN, &l.load_kg, e) &&
              trade_figure(call, "reach", 0, 63, (double)NAN, &l.reach_cm, e) &&
              trade_figure(call, "hands", 0, 175, 75, &l.height_cm, e) &&
              trade_figure(call, "travel", 0, 175, 25, &l.travel_cm, e) &&
              trade_figure(call, "twist", 0, 135, 0, &l.twist_degrees, e) &&
              trade_figure(call, "per-minute", 0, 15, 0.2, &l.lifts_per_min, e) &&
              trade_figure(call, "hours", 0.01, 8, 1, &l.hours, e) &&
              trade_word(call, "grip", grip_words, GRIP_FAIR, &grip, e);
    if (ok)
        l.grip = (lifting_grip)grip;
    if (!ok || !lifting_limit(&l, &a, e))
        return cli_fail(e);
    buf out = {0};
    int code = a.index <= 1 ? EXIT_DONE : EXIT_NO;
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        trade_json_real(&j, "limit_kg", a.limit_kg);
        trade_json_real(&j, "index", a.index);
        trade_json_real(&j, "hm", a.hm);
        trade_json_real(&j, "vm", a.vm);
        trade_json_real(&j, "dm", a.dm);
        trade_json_real(&j, "am", a.am);
        trade_json_real(&j, "fm", a.fm);
        trade_json_real(&j, "cm", a.cm);
        trade_json_z(&j, "caution", lifting_caution);
        json_end_object(&j);
        return cli_print(&out, code);
    }
    buf_addf(&out, "Recommended limit %.3g kg; %.3g kg is %.2g times that\n", a.limit_kg, l.load_kg, a.index);
    trade_line(
        &out,
        "23 kg x HM %.2f x VM %.2f x DM %.2f x AM %.2f x FM %.2f x CM %.2f (revised NIOSH equation, 94-110).",
        a.hm, a.vm, a.dm, a.am, a.fm, a.cm);
    trade_line(&out, "%s", lifting_caution);
    return cli_print(&out, code);
}

int cmd_lift(cli_call *call) {
    err e = {0};
    lift_posture p = {.arms_out = cli_given(call, "arms-out")};
    if (!trade_word(call, "who", who_words, PERSON_ANY_ADULT, &p.who, &e) ||
        !trade_word(call, "height", height_words, HEIGHT_KNUCKLE, &p.height, &e))
        return cli_fail(&e);
    if (cli_given(call, "unit") && !call->n_arguments) {
        err_input(&e, "--unit", "write kitbench lift KIT --unit U", "a unit belongs to a kit");
        return cli_fail(&e);
    }
    if (call->n_arguments && !sys_is_folder(call->arguments[0]) &&
        isdigit((unsigned char)call->arguments[0][0])) {
        err_input(&e, call->arguments[0],
                  arena_format(call->memory, "write kitbench lift --mass %s", call->arguments[0]).at,
                  "this is no kit");
        return cli_fail(&e);
    }
    if (call->n_arguments)
        return lift_kit(call, &p, &e);
    return cli_given(call, "reach") ? by_equation(call, &p, &e) : one_mass(call, &p, &e);
}
