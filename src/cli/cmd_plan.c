/* cmd_plan.c: `kitbench plan`: the first plan of a build. */
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"
#include "cli/plan_text.h"

/* The whole machine, on dated sessions, by the wanted day. */
static bool answer_is_yes(const plan *p) {
    bool all = p->n_stopped + p->n_waiting + p->n_impossible == 0;
    bool found = p->status == PLAN_OPTIMAL || p->status == PLAN_FEASIBLE;
    if (!all || !found)
        return false;
    return p->n_steps == 0 || (p->finish_dated && date_of_moment(p->finish) <= p->workshop->wanted_day);
}

int cmd_plan(cli_call *call) {
    err e;
    plan_call it;
    plan *p;
    uint32_t announced = 0;
    bool announce = cli_given(call, "announce");
    if (!(announce ? plan_call_open_writing : plan_call_open)(call, "plan", &it, &e))
        return cli_fail(&e);
    desk_who who = {.by = cli_value(call, "by"), .device = desk_device(call->memory)};
    bool made = plan_make(call->memory, &it.in, &p, &e) &&
                (!announce || desk_announce(it.desk, p, who, &announced, &e));
    const stock *stock_there = it.desk->stock;
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        plan_write_json(p, &out);
    else
        plan_text(call->memory, p, stock_there, &out);
    if (announced > 0 && !call->json)
        buf_addf(&out, "\nAnnounced: %u steps. Plans from now on keep to it.\n", (unsigned)announced);
    return cli_print(&out, answer_is_yes(p) ? EXIT_DONE : EXIT_NO);
}
