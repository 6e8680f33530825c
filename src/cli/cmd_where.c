/* cmd_where.c: `kitbench where` and `kitbench steps`: where the build stands, and each of its steps. */
#include "base/sys.h"
#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/work.h"

static int64_t percent(int64_t part, int64_t whole) {
    return whole > 0 ? part * 100 / whole : 0;
}

static void where_json(const desk *d, const desk_standing *w, buf *out) {
    json_out j = json_to(out);
    char starts[17];
    json_put_object(&j, NULL);
    json_put_integer(&j, "rows", d->stock->whole.rows);
    json_put_integer(&j, "rows_counted", d->stock->whole.counted);
    json_put_integer(&j, "boxes", d->stock->boxes);
    json_put_integer(&j, "boxes_received", d->stock->boxes_received);
    json_put_integer(&j, "steps", w->steps);
    json_put_integer(&j, "steps_done", w->done);
    json_put_integer(&j, "steps_running", w->running);
    json_put_integer(&j, "steps_ready", w->ready);
    json_put_integer(&j, "person_min", w->minutes);
    json_put_integer(&j, "person_min_done", w->minutes_done);
    if (w->session == KIT_NONE) {
        json_put_null(&j, "next_session");
        json_put_null(&j, "next_session_starts");
    } else {
        date_print_moment(w->session_starts, starts);
        json_put_integer(&j, "next_session", d->workshop->sessions[w->session].number);
        json_put_text(&j, "next_session_starts", text_of(starts));
    }
    work_put_reasons(&j, "stops", &w->stops);
    work_put_reasons(&j, "decide", &w->decide);
    json_end_object(&j);
}

static void add_list(const cli_call *call, const char *head, const desk_reasons *list, buf *out) {
    if (list->n)
        buf_addf(out, "%s\n", head);
    for (uint32_t i = 0; i < list->n; i++)
        wrap_add(out, arena_format(call->memory, "  %.*s", TEXT_ARG(list->list[i])), CLI_WIDTH, 4);
}

static void where_text(const cli_call *call, const desk *d, const desk_standing *w, buf *out) {
    char starts[17];
    buf_addf(out, "Boxes received  %u of %u\n", d->stock->boxes_received, d->stock->boxes);
    buf_addf(out, "Rows counted    %u of %u\n", d->stock->whole.counted, d->stock->whole.rows);
    buf_addf(out, "Steps done      %u of %u, %lld %% of the work\n", w->done, w->steps,
             (long long)percent(w->minutes_done, w->minutes));
    buf_addf(out, "Now             %u running, %u ready\n", w->running, w->ready);
    if (w->session != KIT_NONE) {
        date_print_moment(w->session_starts, starts);
        buf_addf(out, "Next session    %lld, %s %s\n", (long long)d->workshop->sessions[w->session].number,
                 date_weekday_name(date_of_moment(w->session_starts)), starts);
    }
    add_list(call, "What stops us", &w->stops, out);
    add_list(call, "To decide today", &w->decide, out);
}

int cmd_where(cli_call *call) {
    err e;
    desk *d;
    desk_standing w;
    buf out = {0};
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "where", &d, &e))
        return cli_fail(&e);
    desk_stand(d, sys_now(), &w);
    if (call->json)
        where_json(d, &w, &out);
    else
        where_text(call, d, &w, &out);
    desk_close(d);
    return cli_print(&out, EXIT_DONE);
}

static const char *word_of(const desk *d, const desk_step_standing *s) {
    stock_step_state state = d->stock->work->steps[s->step].state;
    return state == STOCK_TO_DO ? s->ready ? "ready" : "waits" : stock_state_word(state);
}

static void step_json(json_out *j, const desk *d, const desk_step_standing *s) {
    const stock_step *now = &d->stock->work->steps[s->step];
    char since[17];
    json_put_object(j, NULL);
    json_put_text(j, "step", d->kit->steps[s->step].number);
    json_put_text(j, "name", d->kit->steps[s->step].name);
    json_put_text(j, "state", text_of(stock_state_word(now->state)));
    json_put_bool(j, "ready", s->ready);
    work_put_people(j, "people", d, now->state == STOCK_RUNNING ? &now->people : &(kit_texts){0});
    if (now->entry) {
        date_print_moment(now->since, since);
        json_put_text(j, "since", text_of(since));
    } else {
        json_put_null(j, "since");
    }
    json_put_integer(j, "worked_min", now->worked_min);
    work_put_reasons(j, "reasons", &s->why);
    json_end_object(j);
}

static void step_text(const cli_call *call, const desk *d, const desk_step_standing *s, buf *out) {
    const stock_step *now = &d->stock->work->steps[s->step];
    const kit_step *k = &d->kit->steps[s->step];
    text line = arena_format(call->memory, "%-6.*s %-15s %.*s", TEXT_ARG(k->number), word_of(d, s),
                             TEXT_ARG(k->name));
    if (now->state == STOCK_RUNNING)
        line =
            arena_format(call->memory, "%.*s (%.*s)", TEXT_ARG(line), TEXT_ARG(work_people(d, &now->people)));
    wrap_add(out, line, CLI_WIDTH, 23);
    for (uint32_t i = 0; i < s->why.n; i++)
        wrap_add(out, arena_format(call->memory, "%23s%.*s", "", TEXT_ARG(s->why.list[i])), CLI_WIDTH, 25);
}

static void add_steps(const cli_call *call, const desk *d, json_out *j, buf *out) {
    desk_step_standing *list;
    uint32_t n = desk_steps(d, sys_now(), &list);
    for (uint32_t i = 0; i < n; i++) {
        bool done = d->stock->work->steps[list[i].step].state == STOCK_DONE && !list[i].why.n;
        if (done && cli_given(call, "open"))
            continue;
        if (call->json)
            step_json(j, d, &list[i]);
        else
            step_text(call, d, &list[i], out);
    }
}

int cmd_steps(cli_call *call) {
    err e;
    desk *d;
    if (!desk_open(call->memory, call->arguments[0], DESK_READ, "steps", &d, &e))
        return cli_fail(&e);
    int code = work_list(call, d, "steps", "No step is left.\n", add_steps, EXIT_DONE);
    desk_close(d);
    return code;
}
