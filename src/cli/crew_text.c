/* crew_text.c: the crew curve as tables. */
#include "cli/crew_text.h"

#include <stdio.h>
#include <unistd.h>

#include "base/sys.h"
#include "base/wrap.h"
#include "cli/build.h"

enum { FIRST_COLUMNS = 6, COLUMNS = 18 };

/* On a terminal, once it has taken a second. */
typedef struct {
    plan_call *call;
    double began;
} teller;

static void tell(void *user, uint32_t done, uint32_t all) {
    teller *t = user;
    if (sys_seconds() - t->began < 1 || !isatty(STDERR_FILENO))
        return;
    t->call->told = true;
    fprintf(stderr, "\rcrews: %u of %u; Ctrl-C takes what there is ", (unsigned)done, (unsigned)all);
}

static text hours(arena *a, int32_t minutes) {
    return arena_format(a, "%d:%02d", (int)minutes / 60, (int)minutes % 60);
}

static text cell(arena *a, const plan_curve_point *p, bool alone) {
    if (p->crew < p->adults)
        return TEXT("");
    if (p->status == PLAN_CURVE_CANNOT || (alone && p->alone_min < 0))
        return TEXT("-");
    if (alone)
        return arena_format(a, "%.*s (%u)", TEXT_ARG(hours(a, p->alone_min)), (unsigned)p->alone_sessions);
    if (p->finish_min < 0)
        return p->bound_min > 0 ? arena_format(a, "from %.*s", TEXT_ARG(hours(a, p->bound_min))) : TEXT("?");
    if (p->status == PLAN_CURVE_PROVEN)
        return arena_format(a, "%.*s (%u)", TEXT_ARG(hours(a, p->finish_min)), (unsigned)p->sessions);
    return arena_format(a, "%.*s-%.*s (%u)", TEXT_ARG(hours(a, p->bound_min)),
                        TEXT_ARG(hours(a, p->finish_min)), (unsigned)p->sessions);
}

static void add_table(arena *a, const plan_curve *c, bool alone, buf *out) {
    wrap_pad(out, TEXT("crew"), FIRST_COLUMNS);
    for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++) {
        text head = arena_format(a, "%u adult%s", (unsigned)k + 1, k ? "s" : "");
        if (k + 1 < PLAN_CURVE_ADULTS)
            wrap_pad(out, head, COLUMNS);
        else
            buf_add(out, head);
    }
    buf_add_char(out, '\n');
    for (uint32_t n = 0; n < PLAN_CURVE_CREW; n++) {
        wrap_pad(out, arena_format(a, "%4u", (unsigned)n + 1), FIRST_COLUMNS);
        size_t filled = out->len;
        for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++) {
            text said = cell(a, &c->at[k][n], alone);
            filled = said.len ? out->len + said.len : filled;
            wrap_pad(out, said, COLUMNS);
        }
        out->len = filled; /* no blanks at the end of a line */
        buf_add_char(out, '\n');
    }
}

/* For each number of adults why the largest crew that cannot do it cannot; smaller ones lack that and more. */
static void add_reasons(arena *a, const plan_curve *c, buf *out) {
    bool first = true;
    for (uint32_t k = 0; k < PLAN_CURVE_ADULTS; k++)
        for (uint32_t n = PLAN_CURVE_CREW; n-- > k;) {
            const plan_curve_point *p = &c->at[k][n];
            if (p->status != PLAN_CURVE_CANNOT)
                continue;
            buf_add_z(out, first ? "\nWhat stands in the way of the largest crew that has a dash:\n" : "");
            first = false;
            wrap_add(out,
                     arena_format(a, "  %u adult%s in a crew of %u: %.*s", (unsigned)p->adults,
                                  p->adults > 1 ? "s" : "", (unsigned)p->crew, TEXT_ARG(p->reason)),
                     CLI_WIDTH, 4);
            break;
        }
}

static void add_names(arena *a, const char *head, const text *list, uint32_t n, buf *out) {
    buf b = {0};
    buf_add_z(&b, head);
    for (uint32_t k = 0; k < n && list[k].len > 0; k++) {
        buf_add_z(&b, k ? ", " : " ");
        buf_add(&b, list[k]);
    }
    wrap_add(out, arena_text(a, buf_text(&b)), CLI_WIDTH, 2);
    buf_free(&b);
}

static void tell_text(arena *a, const plan_curve *c, buf *out) {
    buf_add_z(out, "Finish against the size of the crew, everybody at all of every session\n\n"
                   "Sub-assemblies in parallel: hours of working time (sessions)\n");
    add_table(a, c, false, out);
    buf_add_z(out, "\nOne step after another\n");
    add_table(a, c, true, out);
    wrap_add(
        out,
        TEXT(
            "\nOne figure in the first table: no plan of that crew ends earlier. Two: the best plan found ends at the "
            "second, and none can end before the first."),
        CLI_WIDTH, 0);
    add_reasons(a, c, out);
    buf_add_char(out, '\n');
    add_names(a, "Adults, in the order taken:", c->adults, PLAN_CURVE_ADULTS, out);
    add_names(a, "Learners:", c->learners, PLAN_CURVE_CREW, out);
}

int crew_curve(cli_call *call, plan_call *it) {
    err e;
    plan_curve *c;
    teller t = {it, sys_seconds()};
    plan_input in = it->in;
    in.user = &t;
    in.progress = NULL;
    bool made = plan_make_curve(call->memory, &in, tell, &c, &e);
    plan_call_close(it);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json)
        plan_write_curve_json(c, &out);
    else
        tell_text(call->memory, c, &out);
    return cli_print(&out, EXIT_DONE);
}
