/* cmd_arrive.c: `kitbench arrive`: pieces that came later. */
#include "cli/build.h"
#include "cli/commands.h"

typedef struct {
    const desk *d;
    kit_index part, container; /* one of them is KIT_NONE */
    stock_share *placed;
    uint32_t n_placed;
} arrived;

static void fill(json_out *j, const void *what) {
    const arrived *t = what;
    if (t->container != KIT_NONE) {
        json_put_text(j, "container", t->d->kit->containers[t->container].number);
    } else {
        const stock_part *p = &t->d->stock->parts[t->part];
        json_put_text(j, "part", t->d->kit->parts[t->part].number);
        json_put_integer(j, "lacking", p->lacking);
        json_put_integer(j, "promised", p->promised);
    }
    json_put_array(j, "put_into");
    for (uint32_t i = 0; i < t->n_placed; i++) {
        json_put_object(j, NULL);
        build_json_row(j, t->d->kit, t->placed[i].row);
        json_put_integer(j, "quantity", t->placed[i].quantity);
        json_end_object(j);
    }
    json_end_array(j);
}

/* "E2 guard: 9 x D-919, 9 x D-952 noted as come; count them when you unpack" */
static text tell_whole(cli_call *call, const arrived *t) {
    const kit *k = t->d->kit;
    const kit_container *c = &k->containers[t->container];
    text line = arena_format(call->memory, "%.*s %.*s:", TEXT_ARG(c->number), TEXT_ARG(c->name));
    for (uint32_t i = 0; i < t->n_placed; i++)
        line = arena_format(call->memory, "%.*s%s %lld x %.*s", TEXT_ARG(line), i ? "," : "",
                            (long long)t->placed[i].quantity,
                            TEXT_ARG(k->parts[k->rows[t->placed[i].row].part].number));
    return arena_format(call->memory, "%.*s noted as come; count them when you unpack", TEXT_ARG(line));
}

static text tell(cli_call *call, const arrived *t) {
    arena *a = call->memory;
    const stock_part *p = &t->d->stock->parts[t->part];
    text line = arena_format(a, "%.*s %.*s:", TEXT_ARG(t->d->kit->parts[t->part].number),
                             TEXT_ARG(t->d->kit->parts[t->part].name));
    for (uint32_t i = 0; i < t->n_placed; i++)
        line = arena_format(a, "%.*s%s put %lld into %.*s", TEXT_ARG(line), i ? "," : "",
                            (long long)t->placed[i].quantity,
                            TEXT_ARG(build_place(call, t->d->kit, t->placed[i].row)));
    return p->lacking ? arena_format(a, "%.*s; %lld still lacking", TEXT_ARG(line), (long long)p->lacking)
                      : arena_format(a, "%.*s; none lacking now", TEXT_ARG(line));
}

static bool note_part(cli_call *call, arrived *t, desk *d, int64_t usable, int64_t damaged, err *e) {
    return desk_arrive(d, text_of(call->arguments[1]), usable, damaged, build_who(call), &t->part, &t->placed,
                       &t->n_placed, e);
}

static bool read_numbers(cli_call *call, int64_t *usable, int64_t *damaged, err *e) {
    if (call->n_arguments == 2)
        return !cli_given(call, "damaged") ||
               err_input(e, "--damaged", "count the damaged ones when you unpack, with kitbench count",
                         "a whole box or bag is noted without it");
    if (!build_number("USABLE", call->arguments[2], 0, CLI_MOST, usable, e) ||
        !build_option(call, "damaged", 0, CLI_MOST, 0, damaged, e))
        return false;
    return *usable || *damaged || err_input(e, "USABLE", "write how many came", "nothing came");
}

int cmd_arrive(cli_call *call) {
    err e;
    int64_t usable = 0, damaged = 0;
    if (!read_numbers(call, &usable, &damaged, &e))
        return cli_fail(&e);
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "arrive", &d, &e))
        return cli_fail(&e);
    bool whole = call->n_arguments == 2;
    arrived t = {.d = d, .part = KIT_NONE, .container = KIT_NONE};
    bool ok = whole ? desk_arrive_whole(d, text_of(call->arguments[1]), build_who(call), &t.container,
                                        &t.placed, &t.n_placed, &e)
                    : note_part(call, &t, d, usable, damaged, &e);
    int code = ok ? build_answer(call, whole ? tell_whole(call, &t) : tell(call, &t), fill, &t, EXIT_DONE)
                  : cli_fail(&e);
    desk_close(d);
    return code;
}
