/* cmd_promise.c: `kitbench promise`: what the maker will send, and when. */
#include "cli/build.h"
#include "cli/commands.h"

typedef struct {
    const desk *d;
    kit_index part;
} promised;

static void fill(json_out *j, const void *what) {
    const promised *t = what;
    const stock_part *p = &t->d->stock->parts[t->part];
    json_put_text(j, "part", t->d->kit->parts[t->part].number);
    json_put_integer(j, "lacking", p->lacking);
    json_put_array(j, "promised");
    for (uint32_t i = 0; i < p->n_supplies; i++) {
        char day[11];
        date_print(p->supplies[i].day, day);
        json_put_object(j, NULL);
        json_put_text(j, "day", text_of(day));
        json_put_integer(j, "quantity", p->supplies[i].quantity);
        json_end_object(j);
    }
    json_end_array(j);
}

static text tell(cli_call *call, const promised *t) {
    const stock_part *p = &t->d->stock->parts[t->part];
    arena *a = call->memory;
    text line = arena_format(a, "%.*s %.*s: %lld lacking", TEXT_ARG(t->d->kit->parts[t->part].number),
                             TEXT_ARG(t->d->kit->parts[t->part].name), (long long)p->lacking);
    for (uint32_t i = 0; i < p->n_supplies; i++) {
        char day[11];
        date_print(p->supplies[i].day, day);
        line = arena_format(a, "%.*s, %lld promised for %s", TEXT_ARG(line),
                            (long long)p->supplies[i].quantity, day);
    }
    return p->n_supplies ? line : arena_format(a, "%.*s, nothing promised", TEXT_ARG(line));
}

int cmd_promise(cli_call *call) {
    err e;
    int64_t quantity;
    date_day day;
    if (!build_number("QUANTITY", call->arguments[2], 0, CLI_MOST, &quantity, &e))
        return cli_fail(&e);
    if (!date_read(text_of(call->arguments[3]), &day)) {
        err_input(&e, "DAY", "write it as 2027-03-14", "\"%s\" is no day", call->arguments[3]);
        return cli_fail(&e);
    }
    promised t = {0};
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "promise", &d, &e))
        return cli_fail(&e);
    t.d = d;
    int code = desk_promise(d, text_of(call->arguments[1]), quantity, day, cli_given(call, "instead"),
                            build_who(call), &t.part, &e)
                   ? build_answer(call, tell(call, &t), fill, &t, EXIT_DONE)
                   : cli_fail(&e);
    desk_close(d);
    return code;
}
