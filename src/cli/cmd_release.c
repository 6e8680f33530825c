/* cmd_release.c: `kitbench release` and `kitbench loose`: is the list complete? */
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static const char not_safe[] =
    "The list says what was entered. Whether the machine may be used is for the maker's manual, the local rules and "
    "the people who answer for it.";

static void release_text(const cli_call *call, const desk_reasons *why, buf *out) {
    buf_add_z(out, why->n ? "List not complete:\n" : "List complete.\n");
    for (uint32_t i = 0; i < why->n; i++)
        wrap_add(out, arena_format(call->memory, "  %.*s", TEXT_ARG(why->list[i])), CLI_WIDTH, 4);
    wrap_add(out, text_of(not_safe), CLI_WIDTH, 0);
}

int cmd_release(cli_call *call) {
    err e;
    desk *d;
    desk_reasons why = {0};
    buf out = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "release", &d, &e))
        return cli_fail(&e);
    desk_release(d, &why);
    if (call->json) {
        json_out j = json_to(&out);
        json_put_object(&j, NULL);
        json_put_bool(&j, "list_complete", why.n == 0);
        work_put_reasons(&j, "reasons", &why);
        json_put_text(&j, "caution", text_of(not_safe));
        json_end_object(&j);
    } else {
        release_text(call, &why, &out);
    }
    desk_close(d);
    return cli_print(&out, why.n ? EXIT_NO : EXIT_DONE);
}

static void loose_json(const desk *d, const stock_loose *list, uint32_t n, buf *out) {
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "loose");
    for (uint32_t i = 0; i < n; i++) {
        const kit_step_part *p = &d->kit->step_parts[list[i].need];
        json_put_object(&j, NULL);
        json_put_text(&j, "step", d->kit->steps[p->step].number);
        json_put_text(&j, "part", d->kit->parts[p->part].number);
        json_put_text(&j, "name", d->kit->parts[p->part].name);
        json_put_integer(&j, "quantity", p->quantity);
        if (list[i].closed_by == KIT_NONE)
            json_put_null(&j, "closed_by");
        else
            json_put_text(&j, "closed_by", d->kit->steps[list[i].closed_by].number);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

int cmd_loose(cli_call *call) {
    err e;
    desk *d;
    buf out = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "loose", &d, &e))
        return cli_fail(&e);
    stock_loose *list;
    uint32_t n = stock_loose_list(call->memory, d->kit, d->stock->work, &list);
    if (call->json)
        loose_json(d, list, n, &out);
    else if (!n)
        buf_add_z(&out, "Nothing is loose.\n");
    for (uint32_t i = 0; i < n && !call->json; i++) {
        const kit_step_part *p = &d->kit->step_parts[list[i].need];
        const kit_step *closing = list[i].closed_by == KIT_NONE ? NULL : &d->kit->steps[list[i].closed_by];
        wrap_add(&out,
                 arena_format(call->memory, "%lld x %.*s %.*s of %.*s; closed by %.*s",
                              (long long)p->quantity, TEXT_ARG(d->kit->parts[p->part].number),
                              TEXT_ARG(d->kit->parts[p->part].name), TEXT_ARG(d->kit->steps[p->step].number),
                              TEXT_ARG(closing ? closing->number : TEXT("no step"))),
                 CLI_WIDTH, 2);
    }
    desk_close(d);
    return cli_print(&out, EXIT_DONE);
}
