/* cmd_sessions.c: `kitbench sessions` and `attendance`: the dates, and who comes. */
#include <string.h>

#include "base/wrap.h"
#include "cli/commands.h"
#include "cli/crew.h"

static void session_json(json_out *j, const kit_session *s) {
    char day[11], start[6], end[6];
    date_print(s->day, day);
    date_print_clock(s->start, start);
    date_print_clock(s->end, end);
    json_put_object(j, NULL);
    json_put_integer(j, "session", s->number);
    json_put_text(j, "date", text_of(day));
    json_put_text(j, "start", text_of(start));
    json_put_text(j, "end", text_of(end));
    json_put_integer(j, "opening_min", s->opening_min);
    json_put_integer(j, "closing_min", s->closing_min);
    json_put_bool(j, "cancelled", s->cancelled);
    json_end_object(j);
}

static void session_text(const kit_session *s, buf *out) {
    char day[11], start[6], end[6];
    date_print(s->day, day);
    date_print_clock(s->start, start);
    date_print_clock(s->end, end);
    buf_addf(out, "%4lld  %-9s %s  %s to %s%s\n", (long long)s->number, date_weekday_name(s->day), day, start,
             end, s->cancelled ? "  called off" : "");
}

static void list_sessions(const cli_call *call, const desk *d, json_out *j, buf *out) {
    if (call->json)
        json_put_array(j, "sessions");
    else if (!d->workshop || !d->workshop->n_sessions)
        buf_add_z(out, "No dates yet: kitbench sessions FILE add \"Tuesdays 18:30 to 20:30, ...\"\n");
    for (kit_index i = 0; d->workshop && i < d->workshop->n_sessions; i++)
        if (call->json)
            session_json(j, &d->workshop->sessions[i]);
        else
            session_text(&d->workshop->sessions[i], out);
    if (call->json)
        json_end_array(j);
}

static bool change_sessions(const cli_call *call, desk *d, desk_reasons *mind, err *e) {
    const char *verb = call->arguments[1];
    int64_t number, opening, closing;
    uint32_t n;
    if (!build_option(call, "opening", 0, 1440, -1, &opening, e) ||
        !build_option(call, "closing", 0, 1440, -1, &closing, e))
        return false;
    if (strcmp(verb, "add") == 0)
        return desk_add_sessions(d, text_of(call->arguments[2]), opening, closing, build_who(call), mind,
                                 &number, &n, e);
    if (strcmp(verb, "remove") == 0)
        return build_number("SESSION", call->arguments[2], 1, 9999, &number, e) &&
               desk_remove_session(d, number, build_who(call), mind, e);
    if (strcmp(verb, "cancel") == 0 || strcmp(verb, "restore") == 0)
        return build_number("SESSION", call->arguments[2], 1, 9999, &number, e) &&
               desk_cancel_session(d, number, verb[0] == 'c', build_who(call), mind, e);
    return err_input(e, "sessions", "write add, cancel, restore or remove",
                     "\"%s\" is nothing that can be done", verb);
}

int cmd_sessions(cli_call *call) {
    return crew_run(call, 3, change_sessions, list_sessions);
}

/* ---- attendance ---- */

static const kit_attendance *find_exception(const kit_workshop *w, kit_index session, kit_index person) {
    for (kit_index i = 0; i < w->n_attendance; i++)
        if (w->attendance[i].session == session && w->attendance[i].person == person)
            return &w->attendance[i];
    return NULL;
}

static const char *word_of(const cli_call *call, const kit_session *s, const kit_attendance *a) {
    char from[6], until[6];
    if (!a)
        return "all";
    if (!a->comes)
        return "-";
    date_print_clock(a->from >= 0 ? a->from : s->start, from);
    date_print_clock(a->until >= 0 ? a->until : s->end, until);
    return arena_format(call->memory, "%s-%s", from, until).at;
}

/* A row for each session, a member for each person. */
static void grid(const cli_call *call, const desk *d, json_out *j, buf *out) {
    const kit_workshop *w = d->workshop;
    if (call->json)
        json_put_array(j, "attendance");
    for (kit_index s = 0; w && s < w->n_sessions; s++) {
        char day[11];
        date_print(w->sessions[s].day, day);
        text line = arena_format(call->memory, "%4lld  %s ", (long long)w->sessions[s].number, day);
        if (call->json) {
            json_put_object(j, NULL);
            json_put_integer(j, "session", w->sessions[s].number);
            json_put_text(j, "date", text_of(day));
            json_put_object(j, "people");
        }
        for (kit_index p = 0; p < w->n_crew; p++) {
            const char *word = word_of(call, &w->sessions[s], find_exception(w, s, p));
            if (call->json)
                json_put_text(j, arena_z(call->memory, w->crew[p].number), text_of(word));
            else
                line = arena_format(call->memory, "%.*s %.*s: %s%s", TEXT_ARG(line),
                                    TEXT_ARG(w->crew[p].name), word, p + 1 < w->n_crew ? "," : "");
        }
        if (call->json) {
            json_end_object(j);
            json_end_object(j);
        } else {
            wrap_add(out, line, CLI_WIDTH, 6);
        }
    }
    if (call->json)
        json_end_array(j);
}

/* "yes", "no", "19:00-20:30", "19:00-" or "-20:00". */
static bool read_times(const char *word, bool *comes, int *from, int *until, err *e) {
    text t = text_of(word), first, second;
    *comes = strcmp(word, "no") != 0;
    *from = *until = -1;
    if (!*comes || strcmp(word, "yes") == 0)
        return true;
    ptrdiff_t dash = text_find(t, TEXT("-"));
    first = text_trim(text_slice(t, 0, dash < 0 ? t.len : (size_t)dash));
    second = text_trim(text_slice(t, dash < 0 ? t.len : (size_t)dash + 1, t.len));
    bool ok = dash >= 0 && (first.len || second.len) && (!first.len || date_read_clock(first, from)) &&
              (!second.len || date_read_clock(second, until));
    return ok || err_input(e, "WHEN", "write yes, no, 19:00-20:30, 19:00- or -20:00",
                           "\"%s\" is none of them", word);
}

static bool change_attendance(const cli_call *call, desk *d, desk_reasons *mind, err *e) {
    int64_t number;
    bool comes;
    int from, until;
    return build_number("SESSION", call->arguments[1], 1, 9999, &number, e) &&
           read_times(call->arguments[3], &comes, &from, &until, e) &&
           desk_attend(d, number, text_of(call->arguments[2]), comes, from, until, build_who(call), mind, e);
}

int cmd_attendance(cli_call *call) {
    return crew_run(call, 4, change_attendance, grid);
}
