/* plan_call.c: opening a build to plan it. */
#include "cli/plan_call.h"

#include <signal.h>
#include <stdio.h>
#include <unistd.h>

#include "base/number.h"
#include "base/sys.h"
#include "cli/build.h"

/* Ctrl-C asks for the best plan so far. Only a signal handler's reach makes this file-wide. */
static sched_cancel interrupted;

static void on_interrupt(int signal_number) {
    (void)signal_number;
    atomic_store(&interrupted.asked, true);
}

/* On a terminal, once the search has taken a second. */
static void tell_progress(void *user, int32_t best_min, int32_t bound_min, double seconds) {
    plan_call *it = user;
    if (seconds < 1 || !isatty(STDERR_FILENO))
        return;
    it->told = true;
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

static bool open_as(cli_call *call, desk_mode mode, const char *command, plan_call *out, err *e) {
    *out = (plan_call){0};
    plan_input how = {.cancel = &interrupted, .progress = tell_progress, .user = out};
    if (!read_options(call, &how, e) ||
        !desk_open(call->memory, call->arguments[0], mode, command, &out->desk, e))
        return false;
    desk_plan_input(out->desk, &how, &out->in);
    (void)signal(SIGINT, on_interrupt);
    return true;
}

bool plan_call_open(cli_call *call, const char *command, plan_call *out, err *e) {
    return open_as(call, DESK_READ, command, out, e);
}

bool plan_call_open_writing(cli_call *call, const char *command, plan_call *out, err *e) {
    return open_as(call, DESK_WRITE, command, out, e);
}

void plan_call_close(plan_call *it) {
    (void)signal(SIGINT, SIG_DFL);
    if (it->told)
        fputs("\r\033[K", stderr);
    desk_close(it->desk);
}
