/* cmd_why.c: `kitbench why`: what holds the build up, found by planning again with one more of each. */
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"

static void add_finish(arena *a, const plan_why *w, buf *out) {
    char moment[17];
    date_print_moment(w->now.finish, moment);
    if (!w->now.found)
        wrap_add(out, TEXT("There is no plan now; see kitbench plan."), CLI_WIDTH, 0);
    else if (w->now.dated)
        wrap_add(out,
                 arena_format(a, "The plan of now ends on %s %s, in %u sessions.",
                              date_weekday_name(date_of_moment(w->now.finish)), moment,
                              (unsigned)w->now.sessions),
                 CLI_WIDTH, 0);
    else
        wrap_add(out,
                 arena_format(a, "The plan of now ends after the last dated session, as session %u.",
                              (unsigned)w->now.sessions),
                 CLI_WIDTH, 0);
    buf_add_char(out, '\n');
}

/* What helps, a line each; what does not, in one paragraph. */
static void add_effects(arena *a, const plan_input *in, const plan_why *w, buf *out) {
    uint32_t helps = 0;
    for (uint32_t k = 0; k < w->n_effects; k++)
        if (w->effects[k].more_steps > 0 || w->effects[k].min_earlier > 0) {
            wrap_add(out, arena_format(a, "%2u. %.*s", (unsigned)++helps, TEXT_ARG(w->effects[k].sentence)),
                     CLI_WIDTH, 4);
        }
    if (helps == 0)
        buf_add_z(out, "Nothing that was tried, one more of it, ends the build earlier.\n");
    buf rest = {0};
    for (uint32_t k = 0; k < w->n_effects; k++)
        if (w->effects[k].more_steps == 0 && w->effects[k].min_earlier == 0) {
            buf_add_z(&rest, rest.len ? "; " : "\nNo earlier finish with: ");
            buf_add(&rest, plan_change_words(a, in, w->effects[k].change));
        }
    if (rest.len) {
        buf_add_char(&rest, '.');
        wrap_add(out, buf_text(&rest), CLI_WIDTH, 0);
    }
    buf_free(&rest);
}

static void add_wanted_day(arena *a, const plan_input *in, const plan_why *w, buf *out) {
    char day[11];
    if (!w->wanted)
        return;
    date_print(in->workshop->wanted_day, day);
    buf_add_char(out, '\n');
    if (w->met) {
        wrap_add(out, arena_format(a, "The wanted day, %s, is met.", day), CLI_WIDTH, 0);
        return;
    }
    if (w->never) {
        wrap_add(out, arena_format(a, "Not even all of these at once meet the wanted day, %s: proven.", day),
                 CLI_WIDTH, 0);
        return;
    }
    if (w->n_enough == 0) {
        wrap_add(out,
                 arena_format(a, "No set of up to %u of these was found that meets the wanted day, %s.",
                              (unsigned)w->tried, day),
                 CLI_WIDTH, 0);
        return;
    }
    buf all = {0};
    for (uint32_t k = 0; k < w->n_enough; k++) {
        buf_add_z(&all, k ? ", and " : "");
        buf_add(&all, plan_change_words(a, in, w->enough[k]));
    }
    wrap_add(out,
             arena_format(a, "To meet the wanted day, %s: %.*s%s.", day, TEXT_ARG(buf_text(&all)),
                          w->least ? " (no fewer of these do)" : " (fewer may do: not all was proven)"),
             CLI_WIDTH, 0);
    buf_free(&all);
}

int cmd_why(cli_call *call) {
    err e;
    plan_call it;
    plan *p;
    plan_why *w;
    if (!plan_call_open(call, "why", &it, &e))
        return cli_fail(&e);
    it.in.finish_only = true;
    bool made = plan_make(call->memory, &it.in, &p, &e) && plan_ask_why(call->memory, &it.in, p, &w, &e);
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    buf out = {0};
    if (call->json) {
        plan_write_why_json(&it.in, w, &out);
    } else {
        add_finish(call->memory, w, &out);
        add_effects(call->memory, &it.in, w, &out);
        add_wanted_day(call->memory, &it.in, w, &out);
    }
    return cli_print(&out, EXIT_DONE);
}
