/* cmd_plan.c: `kitbench plan`: the first plan of a build. */
#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#include "base/number.h"
#include "base/sys.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_text.h"

/* Ctrl-C asks for the best plan so far. Only a signal handler's reach makes this file-wide. */
static sched_cancel interrupted;

static void on_interrupt(int signal_number) {
    (void)signal_number;
    atomic_store(&interrupted.asked, true);
}

/* On a terminal, once the search has taken a second. */
static void tell_progress(void *user, int32_t best_min, int32_t bound_min, double seconds) {
    bool *told = user;
    if (seconds < 1 || !isatty(STDERR_FILENO))
        return;
    *told = true;
    fprintf(stderr, "\rplanning: %d min of work, at least %d; Ctrl-C takes the best so far ", (int)best_min,
            (int)bound_min);
}

static bool read_options(const cli_call *call, plan_input *how, err *e) {
    const char *from = cli_value(call, "from"), *seconds = cli_value(call, "seconds");
    how->from = INT64_MIN;
    if (from && !date_read_moment(text_of(from), &how->from)) {
        date_day day;
        if (!date_read(text_of(from), &day))
            return err_input(e, "--from", "write it like \"2027-03-14\" or \"2027-03-14 18:30\"",
                             "\"%s\" is no day or moment", from);
        how->from = (date_moment)day * MINUTES_PER_DAY;
    }
    if (!seconds)
        return true;
    int64_t milliseconds;
    number_fault why;
    if (!number_decimal(text_of(seconds), 3, 1, 86400000, &milliseconds, &why))
        return err_input(e, "--seconds", why.remedy, "%s", why.cause);
    how->seconds = (double)milliseconds / 1000;
    return true;
}

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
    desk *d;
    plan *p;
    bool told = false;
    plan_input how = {.cancel = &interrupted, .progress = tell_progress, .user = &told};
    if (!read_options(call, &how, &e) ||
        !desk_open(call->memory, call->arguments[0], DESK_READ, "plan", &d, &e))
        return cli_fail(&e);
    (void)signal(SIGINT, on_interrupt);
    bool made = desk_plan(d, &how, &p, &e);
    (void)signal(SIGINT, SIG_DFL);
    if (told)
        fputs("\r\033[K", stderr);
    const stock *stock_there = d->stock;
    desk_close(d);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        plan_write_json(p, &out);
    else
        plan_text(call->memory, p, stock_there, &out);
    return cli_print(&out, answer_is_yes(p) ? EXIT_DONE : EXIT_NO);
}
