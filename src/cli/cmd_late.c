/* cmd_late.c: `kitbench late`: which missing pieces to chase first, and what to order by when. */
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"
#include "cli/plan_text.h"

static text day_words(arena *a, date_day day) {
    return plan_text_day(a, (date_moment)day * MINUTES_PER_DAY);
}

/* "7 days", "20 min", "nothing" */
static text cost_words(arena *a, const plan_outcome *best, const plan_outcome *then) {
    int32_t days, minutes;
    if (!plan_cost_of(best, then, &days, &minutes))
        return TEXT("past the dated sessions");
    if (days > 0)
        return arena_format(a, "%d day%s", (int)days, days == 1 ? "" : "s");
    return minutes == 0 ? TEXT("nothing") : arena_format(a, "%d min", (int)minutes);
}

static void add_promise(arena *a, const plan_late_part *x, buf *out) {
    text cost = cost_words(a, &x->best, &x->as_promised), day = day_words(a, x->promised_for);
    if (!x->promised)
        buf_add_z(out, "    not promised, or not all of it\n");
    else if (plan_compare_outcomes(&x->as_promised, &x->best) <= 0)
        wrap_add(out, arena_format(a, "    promised for %.*s, which costs nothing", TEXT_ARG(day)), CLI_WIDTH,
                 4);
    else
        wrap_add(out,
                 arena_format(a, "    promised for %.*s, which moves the finish by %.*s", TEXT_ARG(day),
                              TEXT_ARG(cost)),
                 CLI_WIDTH, 4);
}

static void add_part(arena *a, const kit *k, const plan_late_part *x, uint32_t number, buf *out) {
    const kit_part *part = &k->parts[x->part];
    wrap_add(out,
             arena_format(a, "%2u. %.*s %.*s: %lld lacking", (unsigned)number, TEXT_ARG(part->number),
                          TEXT_ARG(part->name), (long long)x->lacking),
             CLI_WIDTH, 4);
    add_promise(a, x, out);
    wrap_add(out,
             arena_format(a, "    may come as late as %.*s without moving the finish%s",
                          TEXT_ARG(day_words(a, x->last_free)), x->sure ? "" : " (found, not proven)"),
             CLI_WIDTH, 4);
    wrap_add(
        out,
        arena_format(
            a, "    one week after that the finish is later by: %.*s; two: %.*s; three: %.*s; four: %.*s",
            TEXT_ARG(cost_words(a, &x->best, &x->week[0])), TEXT_ARG(cost_words(a, &x->best, &x->week[1])),
            TEXT_ARG(cost_words(a, &x->best, &x->week[2])), TEXT_ARG(cost_words(a, &x->best, &x->week[3]))),
        CLI_WIDTH, 4);
    buf steps = {0};
    for (uint32_t n = 0; n < x->n_held_up; n++) {
        buf_add_z(&steps, n ? ", " : "");
        buf_add(&steps, k->steps[x->held_up[n]].number);
    }
    wrap_add(out,
             arena_format(a, "    until it comes these wait: %.*s; all other steps go ahead",
                          TEXT_ARG(buf_text(&steps))),
             CLI_WIDTH, 4);
    buf_free(&steps);
}

static void add_orders(arena *a, const kit *k, const plan_chase *c, date_day today, buf *out) {
    if (c->n_orders == 0)
        return;
    buf_add_z(out, "\nTo order, by the day on which the first step needs it\n");
    for (uint32_t n = 0; n < c->n_orders; n++) {
        const plan_order *x = &c->orders[n];
        text number = x->is_tool ? k->tools[x->what].number : k->consumables[x->what].number;
        text name = x->is_tool ? k->tools[x->what].name : k->consumables[x->what].name;
        text unit = x->is_tool ? TEXT("") : text_of(kit_unit_word(k->consumables[x->what].unit));
        text by = TEXT("the kit does not say how long that takes");
        if (!x->dated)
            by = TEXT("that session has no date yet");
        else if (x->days_known)
            by = arena_format(a, "order by %.*s%s", TEXT_ARG(day_words(a, x->order_by)),
                              x->order_by < today ? ": TOO LATE" : "");
        wrap_add(out,
                 arena_format(a, "  %.*s %.*s: %lld %.*s%sfor %.*s%s%.*s; %.*s", TEXT_ARG(number),
                              TEXT_ARG(name), (long long)x->quantity, TEXT_ARG(unit), unit.len ? " " : "",
                              TEXT_ARG(k->steps[x->step].number), x->dated ? " on " : "",
                              TEXT_ARG(x->dated ? plan_text_day(a, x->needed) : TEXT("")), TEXT_ARG(by)),
                 CLI_WIDTH, 4);
    }
}

static void tell(arena *a, const plan_input *in, const plan_chase *c, buf *out) {
    if (c->n_parts == 0)
        buf_add_z(out, "No piece is lacking for the steps still to be done.\n");
    else
        buf_add_z(out, "To chase, what matters most first\n");
    for (uint32_t n = 0; n < c->n_parts; n++)
        add_part(a, in->kit, &c->parts[n], n + 1, out);
    date_day today = in->from == INT64_MIN ? INT32_MIN : date_of_moment(in->from);
    add_orders(a, in->kit, c, today, out);
}

int cmd_late(cli_call *call) {
    err e;
    plan_call it;
    plan_chase *c;
    if (!plan_call_open(call, "late", &it, &e))
        return cli_fail(&e);
    bool made = plan_ask_chase(call->memory, &it.in, &c, &e);
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        plan_write_chase_json(&it.in, c, &out);
    else
        tell(call->memory, &it.in, c, &out);
    return cli_print(&out, c->n_parts > 0 ? EXIT_NO : EXIT_DONE);
}
