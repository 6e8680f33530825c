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
    if (!plan_call_open(call, "plan", &it, &e))
        return cli_fail(&e);
    bool made = plan_make(call->memory, &it.in, &p, &e);
    const stock *stock_there = it.desk->stock;
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        plan_write_json(p, &out);
    else
        plan_text(call->memory, p, stock_there, &out);
    return cli_print(&out, answer_is_yes(p) ? EXIT_DONE : EXIT_NO);
}
