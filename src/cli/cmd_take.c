/* cmd_take.c: `kitbench take` and `back`: who has which box or bag, and where. */
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static text people_of(const desk *d, const kit_texts *people) {
    text all = TEXT("");
    for (uint32_t i = 0; i < people->n; i++)
        all = arena_format(d->memory, "%.*s%s%.*s", TEXT_ARG(all), i ? ", " : "",
                           TEXT_ARG(desk_person_name(d, people->list[i])));
    return all.len ? all : TEXT("somebody");
}

static void hold_json(json_out *j, const desk *d, const stock_hold *h) {
    char since[17];
    date_print_moment(h->at, since);
    json_put_object(j, NULL);
    json_put_text(j, "container", d->kit->containers[h->container].number);
    json_put_array(j, "people");
    for (uint32_t i = 0; i < h->people.n; i++)
        json_put_text(j, NULL, desk_person_name(d, h->people.list[i]));
    json_end_array(j);
    json_put_text(j, "table", h->place);
    json_put_text(j, "since", text_of(since));
    json_end_object(j);
}

static text hold_text(const desk *d, const stock_hold *h) {
    char since[17];
    date_print_moment(h->at, since);
    return arena_format(d->memory, "%.*s %.*s: %.*s%s%.*s, since %s",
                        TEXT_ARG(d->kit->containers[h->container].number),
                        TEXT_ARG(d->kit->containers[h->container].name), TEXT_ARG(people_of(d, &h->people)),
                        h->place.len ? " at " : "", TEXT_ARG(h->place), since);
}

static int show_taken(cli_call *call, const desk *d) {
    buf out = {0};
    json_out j = json_to(&out);
    if (call->json) {
        json_put_object(&j, NULL);
        json_put_array(&j, "taken");
    } else if (!d->record.n_holds) {
        buf_add_z(&out, "Everything is where it came from.\n");
    }
    for (uint32_t i = 0; i < d->record.n_holds; i++)
        if (call->json)
            hold_json(&j, d, &d->record.holds[i]);
        else
            wrap_add(&out, hold_text(d, &d->record.holds[i]), CLI_WIDTH, 2);
    if (call->json) {
        json_end_array(&j);
        json_end_object(&j);
    }
    return cli_print(&out, EXIT_DONE);
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
