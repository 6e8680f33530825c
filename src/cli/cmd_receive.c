/* cmd_receive.c: `kitbench receive`: a box at the door. */
#include "cli/build.h"
#include "cli/commands.h"

typedef struct {
    const desk *d;
    kit_index box;
} received;

static void fill(json_out *j, const void *what) {
    const received *r = what;
    const stock_container *c = &r->d->stock->containers[r->box];
    const kit_container *box = &r->d->kit->containers[r->box];
    json_put_text(j, "box", box->number);
    if (c->mass_g >= 0)
        json_put_integer(j, "mass_g", c->mass_g);
    else
        json_put_null(j, "mass_g");
    if (box->gross_mass_g >= 0)
        json_put_integer(j, "stated_mass_g", box->gross_mass_g);
    else
        json_put_null(j, "stated_mass_g");
    json_put_bool(j, "mass_doubtful", c->mass_doubtful);
    json_put_text(j, "damage", c->damage);
    json_put_integer(j, "boxes_received", r->d->stock->boxes_received);
    json_put_integer(j, "boxes", r->d->stock->boxes);
}

static text tell(cli_call *call, const desk *d, kit_index i) {
    const stock_container *c = &d->stock->containers[i];
    const kit_container *box = &d->kit->containers[i];
    arena *a = call->memory;
    text line = arena_format(a, "%.*s received", TEXT_ARG(box->number));
    if (c->mass_g >= 0)
        line = arena_format(a, "%.*s, %lld g", TEXT_ARG(line), (long long)c->mass_g);
    if (c->mass_g >= 0 && box->gross_mass_g >= 0)
        line = arena_format(a, "%.*s (stated %lld g%s)", TEXT_ARG(line), (long long)box->gross_mass_g,
                            c->mass_doubtful ? ": too far apart, weigh it again or count it first" : "");
    if (c->damage.len)
        line = arena_format(a, "%.*s, damaged: %.*s; photograph it before it is unpacked", TEXT_ARG(line),
                            TEXT_ARG(c->damage));
    return arena_format(a, "%.*s. Boxes here: %u of %u.", TEXT_ARG(line), d->stock->boxes_received,
                        d->stock->boxes);
}

int cmd_receive(cli_call *call) {
    err e;
    int64_t mass_g;
    if (!build_option(call, "mass", 1, CLI_MOST, -1, &mass_g, &e))
        return cli_fail(&e);
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "receive", &d, &e))
        return cli_fail(&e);
    received r = {d, 0};
    int code;
    if (desk_receive(d, text_of(call->arguments[1]), mass_g, cli_value(call, "damaged"), build_who(call),
                     &r.box, &e))
        code = build_answer(call, tell(call, d, r.box), fill, &r, EXIT_DONE);
    else
        code = cli_fail(&e);
    desk_close(d);
    return code;
}
