/* cmd_solve.c: `kitbench solve`: one scheduling problem from a file, for benchmarks. */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/json_out.h"
#include "base/number.h"
#include "base/sys.h"
#include "cli/commands.h"
#include "cli/solve_read.h"

/* The handler of Ctrl-C can reach nothing else. */
static sched_cancel interrupted;

static void on_interrupt(int signal_number) {
    (void)signal_number;
    sched_ask_cancel(&interrupted);
}

static bool option_number(const cli_call *call, const char *name, int64_t low, int64_t high, int scale,
                          int64_t *out, err *e) {
    const char *z = cli_value(call, name);
    number_fault why;
    if (!z || number_decimal(text_of(z), scale, low, high, out, &why))
        return true;
    char place[64];
    snprintf(place, sizeof place, "--%s", name);
    return err_input(e, place, why.remedy, "%s", why.cause);
}

static bool options_of(const cli_call *call, sched_options *o, err *e) {
    int64_t milliseconds = 0, processor = 0, threads = 1, seed = 1, schedules = 0;
    if (!option_number(call, "seconds", 0, 1000000000, 3, &milliseconds, e) ||
        !option_number(call, "processor-seconds", 0, 1000000000, 3, &processor, e) ||
        !option_number(call, "threads", 1, 256, 0, &threads, e) ||
        !option_number(call, "seed", 0, 1000000000, 0, &seed, e) ||
        !option_number(call, "schedules", 0, 1000000000000, 0, &schedules, e))
        return false;
    if (milliseconds > 0 && processor > 0)
        return err_input(e, "--processor-seconds", "give one of the two",
                         "--seconds limits the time by another clock");
    *o = sched_default_options();
    o->clock = processor > 0 ? SCHED_CLOCK_PROCESSOR : SCHED_CLOCK_WALL;
    o->seconds = (double)(processor > 0 ? processor : milliseconds) / 1000;
    o->threads = (int32_t)threads;
    o->seed = (uint64_t)seed;
    o->schedules = (uint64_t)schedules;
    o->cancel = &interrupted;
    return true;
}

static bool read_problem(cli_call *call, sched_problem *p, faults *found, err *e) {
    const char *file = call->arguments[0];
    text content;
    if (!sys_read_file(call->memory, file, (size_t)256 << 20, &content, e))
        return false;
    text start = text_trim(content);
    bool json = start.len > 0 && (start.at[0] == '{' || start.at[0] == '[');
    return json ? solve_read_json(p, file, content, found) : solve_read_psplib(p, file, content, found);
}

static void put_numbers(json_out *j, const char *name, const int32_t *number, int32_t n) {
    json_put_array(j, name);
    for (int32_t k = 0; k < n; k++)
        json_put_integer(j, NULL, number[k]);
    json_end_array(j);
}

static void print_answer(buf *out, const sched_result *r) {
    static const char *const word[] = {"unknown", "feasible", "optimal", "infeasible"};
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_text(&j, "status", text_of(word[r->status]));
    if (r->starts)
        json_put_integer(&j, "makespan", r->makespan);
    else
        json_put_null(&j, "makespan");
    json_put_integer(&j, "lower_bound", r->lower_bound);
    json_put_bool(&j, "proven", r->status == SCHED_OPTIMAL || r->status == SCHED_INFEASIBLE);
    json_put_number(&j, "seconds", r->seconds);
    json_put_integer(&j, "schedules", (int64_t)r->schedules);
    json_put_integer(&j, "conflicts", (int64_t)r->conflicts);
    json_put_integer(&j, "memory_bytes", (int64_t)r->memory_peak);
    json_put_array(&j, "objectives");
    for (int32_t k = 0; r->starts && k < r->objective_count; k++)
        json_put_integer(&j, NULL, r->objective[k]);
    json_end_array(&j);
    json_put_text(&j, "reason", text_of(r->reason));
    put_numbers(&j, "reason_tasks", r->reason_tasks, r->reason_task_count);
    put_numbers(&j, "reason_resources", r->reason_resources, r->reason_resource_count);
    put_numbers(&j, "starts", r->starts, r->starts ? r->task_count : 0);
    json_end_object(&j);
    buf_add_char(out, '\n');
}

int cmd_solve(cli_call *call) {
    err e;
    sched_options o;
    if (!options_of(call, &o, &e))
        return cli_fail(&e);
    sched_problem *p = sched_open();
    if (!p) {
        err_run(&e, "solve", "", "there is no memory for a problem");
        return cli_fail(&e);
    }
    faults wrong = faults_in(call->memory);
    if (!read_problem(call, p, &wrong, &e)) {
        sched_close(p);
        return wrong.n > 0 ? cli_fail_faults(call, &wrong) : cli_fail(&e);
    }
    struct sigaction now = {.sa_handler = on_interrupt}, before;
    sigaction(SIGINT, &now, &before);
    sched_result *r;
    sched_fault found;
    bool ok = sched_solve(p, &o, &r, &found);
    sigaction(SIGINT, &before, NULL);
    int code = EXIT_DONE;
    if (ok) {
        buf out = {0};
        print_answer(&out, r);
        code = cli_print(&out, r->starts ? EXIT_DONE : EXIT_NO);
    } else {
        err_run(&e, call->arguments[0], "report this as a bug of kitbench", "%s", found.text);
        code = cli_fail(&e);
    }
    sched_result_close(r);
    sched_close(p);
    return code;
}
