/* cmd_risk.c: `kitbench risk`: the plan carried out many times, with people who stay away and steps that overrun. */
#include "base/number.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"
#include "cli/risk_text.h"

static bool read_whole(const cli_call *call, const char *option, const char *place, int64_t most,
                       int64_t *out, err *e) {
    const char *value = cli_value(call, option);
    number_fault why;
    if (!value || number_decimal(text_of(value), 0, 1, most, out, &why))
        return true;
    return err_input(e, place, why.remedy, "%s", why.cause);
}

static bool read_how(const cli_call *call, plan_risk_options *how, err *e) {
    int64_t samples = 0, seed = 0, threads = 0;
    if (!read_whole(call, "samples", "--samples", PLAN_RISK_MOST_SAMPLES, &samples, e) ||
        !read_whole(call, "seed", "--seed", INT32_MAX, &seed, e) ||
        !read_whole(call, "threads", "--threads", 64, &threads, e))
        return false;
    how->samples = (uint32_t)samples;
    how->seed = (uint64_t)seed;
    how->threads = (uint32_t)threads;
    return true;
}

int cmd_risk(cli_call *call) {
    err e;
    plan_call it;
    plan *p;
    plan_risk *r;
    plan_risk_options how = {0};
    if (!read_how(call, &how, &e) || !plan_call_open(call, "risk", &it, &e))
        return cli_fail(&e);
    how.cancel = it.in.cancel;
    bool made =
        plan_make(call->memory, &it.in, &p, &e) && plan_assess_risk(call->memory, &it.in, p, &how, &r, &e);
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        plan_write_risk_json(p, r, &out);
    else
        risk_text(call->memory, p, r, &out);
    return cli_print(&out, EXIT_DONE);
}
