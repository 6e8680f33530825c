/* cmd_arrive.c: `kitbench arrive`: pieces that came later. */
#include "cli/build.h"
#include "cli/commands.h"

typedef struct {
    const desk *d;
    kit_index part;
    stock_share *placed;
    uint32_t n_placed;
} arrived;

static void fill(json_out *j, const void *what) {
    const arrived *t = what;
    const stock_part *p = &t->d->stock->parts[t->part];
    json_put_text(j, "part", t->d->kit->parts[t->part].number);
    json_put_integer(j, "lacking", p->lacking);
    json_put_integer(j, "promised", p->promised);
    json_put_array(j, "put_into");
    for (uint32_t i = 0; i < t->n_placed; i++) {
        json_put_object(j, NULL);
        build_json_row(j, t->d->kit, t->placed[i].row);
        json_put_integer(j, "quantity", t->placed[i].quantity);
        json_end_object(j);
    }
    json_end_array(j);
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

int cmd_arrive(cli_call *call) {
    err e;
    int64_t usable, damaged;
    if (!build_number("USABLE", call->arguments[2], 0, CLI_MOST, &usable, &e) ||
        !build_option(call, "damaged", 0, CLI_MOST, 0, &damaged, &e))
        return cli_fail(&e);
    if (!usable && !damaged) {
        err_input(&e, "USABLE", "write how many came", "nothing came");
        return cli_fail(&e);
    }
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "arrive", &d, &e))
        return cli_fail(&e);
    arrived t = {.d = d};
    int code = desk_arrive(d, text_of(call->arguments[1]), usable, damaged, build_who(call), &t.part,
                           &t.placed, &t.n_placed, &e)
                   ? build_answer(call, tell(call, &t), fill, &t, EXIT_DONE)
                   : cli_fail(&e);
    desk_close(d);
    return code;
}
