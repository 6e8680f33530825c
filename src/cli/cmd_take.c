/* cmd_take.c: `kitbench take` and `back`: who has which box or bag, and where. */
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static void hold_json(json_out *j, const desk *d, const stock_hold *h) {
    char since[17];
    date_print_moment(h->at, since);
    json_put_object(j, NULL);
    json_put_text(j, "container", d->kit->containers[h->container].number);
    work_put_people(j, "people", d, &h->people);
    json_put_text(j, "table", h->place);
    json_put_text(j, "since", text_of(since));
    json_end_object(j);
}

static text hold_text(const desk *d, const stock_hold *h) {
    char since[17];
    date_print_moment(h->at, since);
    return arena_format(d->memory, "%.*s %.*s: %.*s%s%.*s, since %s",
                        TEXT_ARG(d->kit->containers[h->container].number),
                        TEXT_ARG(d->kit->containers[h->container].name), TEXT_ARG(work_people(d, &h->people)),
                        h->place.len ? " at " : "", TEXT_ARG(h->place), since);
}

static void add_taken(const cli_call *call, const desk *d, json_out *j, buf *out) {
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        if (call->json)
            hold_json(j, d, &d->record.holds[i]);
        else
            wrap_add(out, hold_text(d, &d->record.holds[i]), CLI_WIDTH, 2);
}

static int show_taken(const cli_call *call, const desk *d) {
    return work_list(call, d, "taken", "Everything is where it came from.\n", add_taken, EXIT_DONE);
}

int cmd_take(cli_call *call) {
    err e;
    desk *d;
    kit_index box;
    desk_reasons why = {0};
    bool write = call->n_arguments == 2;
    if (!desk_open(call->memory, call->arguments[0], write ? DESK_WRITE : DESK_READ, "take", &d, &e))
        return cli_fail(&e);
    bool ok = !write || (desk_find_container(d, text_of(call->arguments[1]), &box, &e) &&
                         desk_take(d, box, cli_value(call, "by"), text_of(cli_value(call, "table")),
                                   cli_given(call, "anyway"), build_who(call), &why, &e));
    int code =
        !ok      ? cli_fail(&e)
        : !write ? show_taken(call, d)
                 : work_answer(call, d, KIT_NONE, &why, why.n ? TEXT("") : hold_text(d, desk_holder(d, box)));
    desk_close(d);
    return code;
}

int cmd_back(cli_call *call) {
    err e;
    desk *d;
    kit_index box;
    desk_reasons why = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_WRITE, "back", &d, &e))
        return cli_fail(&e);
    int code;
    if (desk_find_container(d, text_of(call->arguments[1]), &box, &e) &&
        desk_bring_back(d, box, build_who(call), &why, &e))
        code = work_answer(call, d, KIT_NONE, &why,
                           arena_format(call->memory, "%.*s is back where it came from.",
                                        TEXT_ARG(d->kit->containers[box].number)));
    else
        code = cli_fail(&e);
    desk_close(d);
    return code;
}
