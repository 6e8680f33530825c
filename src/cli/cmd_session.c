/* cmd_session.c: `kitbench session`: the run sheet of one session, as text. */
#include "base/number.h"
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/plan_call.h"
#include "cli/plan_text.h"

typedef struct {
    arena *memory;
    const plan *p;
    const plan_session *s;
    const plan_evening *e;
    buf *out;
} teller;

static text name_of(const teller *t, kit_index person) {
    const kit_person *who = &t->p->workshop->crew[person];
    return who->name.len ? who->name : who->number;
}

static text clock_of(const teller *t, int32_t minute) {
    char shown[17];
    int32_t passed = minute - t->s->from_min;
    if (!t->s->dated)
        return arena_format(t->memory, "%d:%02d", (int)passed / 60, (int)passed % 60);
    date_print_moment(t->s->begins + passed, shown);
    return arena_format(t->memory, "%s", shown + 11);
}

static void add_line(const teller *t, text line, size_t indent) {
    wrap_add(t->out, line, CLI_WIDTH, indent);
}

/* ---- who is there ----------------------------------------------------------------------------------------------------- */

static void add_list(buf *b, text item) {
    buf_add_z(b, b->len ? ", " : "");
    buf_add(b, item);
}

static void add_head(const teller *t) {
    if (t->s->dated)
        add_line(t,
                 arena_format(t->memory, "Session %lld: %.*s, work %.*s to %.*s", (long long)t->s->number,
                              TEXT_ARG(plan_text_day(t->memory, t->s->begins)),
                              TEXT_ARG(clock_of(t, t->s->from_min)), TEXT_ARG(clock_of(t, t->s->to_min))),
                 2);
    else
        add_line(t,
                 arena_format(t->memory, "Session %lld has no date; times count from the start of work",
                              (long long)t->s->number),
                 2);
    buf here = {0}, away = {0};
    for (uint32_t k = 0; k < t->e->n_people; k++) {
        const plan_presence *it = &t->e->people[k];
        text name = name_of(t, it->person);
        if (!it->comes) {
            add_list(&away, name);
            continue;
        }
        if (it->from_min > t->s->from_min)
            name = arena_format(t->memory, "%.*s from %.*s", TEXT_ARG(name),
                                TEXT_ARG(clock_of(t, it->from_min)));
        if (it->until_min < t->s->to_min)
            name = arena_format(t->memory, "%.*s until %.*s", TEXT_ARG(name),
                                TEXT_ARG(clock_of(t, it->until_min)));
        add_list(&here, name);
    }
    add_line(t, arena_format(t->memory, "There: %.*s", TEXT_ARG(buf_text(&here))), 2);
    if (away.len)
        add_line(t, arena_format(t->memory, "Away: %.*s", TEXT_ARG(buf_text(&away))), 2);
    buf_free(&here);
    buf_free(&away);
}

/* ---- what happens when ------------------------------------------------------------------------------------------------- */

static text people_of(const teller *t, const plan_stretch *s) {
    buf b = {0};
    for (uint32_t k = 0; k < s->n_people; k++)
        add_list(&b, name_of(t, s->people[k]));
    if (s->supervisor != KIT_NONE)
        buf_addf(&b, "; beside the work: %.*s", TEXT_ARG(name_of(t, s->supervisor)));
    text all = arena_text(t->memory, buf_text(&b));
    buf_free(&b);
    return all;
}

static void add_where(const teller *t, kit_index step) {
    const kit *k = t->p->kit;
    const kit_step *s = &k->steps[step];
    buf tools = {0};
    for (uint32_t x = 0; x < k->n_step_tools; x++) {
        const kit_step_tool *it = &k->step_tools[x];
        if (it->step != step)
            continue;
        text name = k->tools[it->tool].name;
        add_list(&tools, it->quantity == 1 ? name
                                           : arena_format(t->memory, "%lld x %.*s", (long long)it->quantity,
                                                          TEXT_ARG(name)));
    }
    if (s->zone != KIT_NONE)
        add_line(t, arena_format(t->memory, "         at: %.*s", TEXT_ARG(k->zones[s->zone].name)), 13);
    if (tools.len)
        add_line(t, arena_format(t->memory, "         tools: %.*s", TEXT_ARG(buf_text(&tools))), 16);
    buf_free(&tools);
}

static void add_wear(const teller *t, const char *head, kit_texts list) {
    buf b = {0};
    for (uint32_t k = 0; k < list.n; k++)
        add_list(&b, list.list[k]);
    if (b.len)
        add_line(t, arena_format(t->memory, "         %s %.*s", head, TEXT_ARG(buf_text(&b))), 16);
    buf_free(&b);
}

static void add_turn(const teller *t, const plan_duty *it) {
    const kit_step *s = &t->p->kit->steps[it->step->step];
    const char *how = it->begins ? "begin" : it->goes_on ? "go on with" : "change over at";
    const char *then = it->ends ? "done" : it->left ? "leave it" : "change over";
    add_line(t,
             arena_format(t->memory, "\n  %.*s  %s %.*s %.*s; %s at %.*s%s",
                          TEXT_ARG(clock_of(t, it->stretch->start_min)), how, TEXT_ARG(s->number),
                          TEXT_ARG(s->name), then, TEXT_ARG(clock_of(t, it->stretch->end_min)),
                          it->step->decides_finish ? " (decides the finish)" : ""),
             9);
    add_line(t, arena_format(t->memory, "         %.*s", TEXT_ARG(people_of(t, it->stretch))), 9);
    if (it->change_over)
        return;
    add_where(t, it->step->step);
    add_wear(t, "wear:", s->wear);
    add_wear(t, "not:", s->not_wear);
    if (it->left && s->safe_state.len)
        add_line(t, arena_format(t->memory, "         leave it like this: %.*s", TEXT_ARG(s->safe_state)),
                 11);
}

/* ---- each person's evening ---------------------------------------------------------------------------------------------- */

static bool works_on(const plan_stretch *s, kit_index person) {
    for (uint32_t k = 0; k < s->n_people; k++)
        if (s->people[k] == person)
            return true;
    return s->supervisor == person;
}

static void add_person(const teller *t, const plan_presence *it) {
    buf b = {0};
    int32_t free_from = it->from_min;
    for (uint32_t k = 0; k <= t->e->n_turns; k++) {
        const plan_duty *turn = k < t->e->n_turns ? &t->e->turns[k] : NULL;
        if (turn && !works_on(turn->stretch, it->person))
            continue;
        int32_t until = turn ? turn->stretch->start_min : it->until_min;
        if (until > free_from)
            add_list(&b, arena_format(t->memory, "%.*s free", TEXT_ARG(clock_of(t, free_from))));
        if (!turn)
            break;
        add_list(&b, arena_format(t->memory, "%.*s %.*s%s", TEXT_ARG(clock_of(t, turn->stretch->start_min)),
                                  TEXT_ARG(t->p->kit->steps[turn->step->step].number),
                                  turn->stretch->supervisor == it->person ? " beside" : ""));
        free_from = turn->stretch->end_min;
    }
    add_line(
        t, arena_format(t->memory, "  %.*s: %.*s", TEXT_ARG(name_of(t, it->person)), TEXT_ARG(buf_text(&b))),
        4);
    buf_free(&b);
}

static void tell_text(const teller *t) {
    add_head(t);
    if (t->e->n_turns == 0)
        buf_add_z(t->out, "\nNothing is planned for it.\n");
    for (uint32_t k = 0; k < t->e->n_turns; k++)
        add_turn(t, &t->e->turns[k]);
    if (t->e->n_turns == 0)
        return;
    buf_add_z(t->out, "\nPerson by person\n");
    for (uint32_t k = 0; k < t->e->n_people; k++)
        if (t->e->people[k].comes)
            add_person(t, &t->e->people[k]);
    buf_add_z(t->out, "\n");
    add_line(
        t,
        TEXT("Cautions and tests stand on the job cards; the maker's manual and the local rules come first."),
        0);
}

static bool find(const cli_call *call, const plan *p, uint32_t *session, err *e) {
    int64_t number;
    number_fault why;
    if (!number_decimal(text_of(call->arguments[1]), 0, 1, INT32_MAX, &number, &why))
        return err_input(e, "session", why.remedy, "%s", why.cause);
    *session = plan_find_session(p, number);
    return *session != UINT32_MAX ||
           err_input(e, "session",
                     "take one that kitbench plan lists; --from goes back to those that are over",
                     "no session %lld lies ahead", (long long)number);
}

int cmd_session(cli_call *call) {
    err e;
    plan_call it;
    plan *p;
    uint32_t session = 0;
    if (!plan_call_open(call, "session", &it, &e))
        return cli_fail(&e);
    bool made = plan_make(call->memory, &it.in, &p, &e) && find(call, p, &session, &e);
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    plan_evening evening;
    plan_evening_of(call->memory, p, session, &evening);
    buf out = {0};
    if (call->json)
        plan_write_evening_json(p, &evening, &out);
    else
        tell_text(&(teller){call->memory, p, &p->sessions[session], &evening, &out});
    return cli_print(&out, EXIT_DONE);
}
