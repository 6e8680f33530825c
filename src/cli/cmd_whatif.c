/* cmd_whatif.c: `kitbench whatif`: the plan with something changed, beside the plan of now. */
#include "base/json_out.h"
#include "base/number.h"
#include "base/wrap.h"
#include "cli/build.h"
#include "cli/commands.h"
#include "cli/crew_text.h"
#include "cli/plan_call.h"
#include "cli/whatif_tonight.h"

enum { MOST_CHANGES = 12 };

typedef struct {
    plan_change list[MOST_CHANGES];
    uint32_t n;
    plan_forbidden *forbidden; /* at the first session, when somebody stays away from it */
    uint32_t n_forbidden;
} changes;

/* ---- what is asked ------------------------------------------------------------------------------------------------ */

static bool find_session(const plan_input *in, const char *option, const char *value, kit_index *out,
                         err *e) {
    int64_t number;
    number_fault why;
    if (!number_decimal(text_of(value), 0, 1, INT32_MAX, &number, &why))
        return err_input(e, option, why.remedy, "%s", why.cause);
    for (kit_index s = 0; s < in->workshop->n_sessions; s++)
        if (in->workshop->sessions[s].number == number) {
            *out = s;
            return true;
        }
    return err_input(e, option, "take a number of the workshop's sessions", "there is no session %s", value);
}

/* Of the sessions that are not over, the one of the lowest day; the plan begins with it. */
static kit_index first_session(const plan *now) {
    return now->n_sessions ? now->sessions[0].session : KIT_NONE;
}

static bool find_what(const plan_input *in, plan_change_kind kind, const char *option, const char *value,
                      kit_index *out, err *e) {
    text number = text_of(value);
    *out = KIT_NONE;
    if (kind == PLAN_ONE_MORE_SESSION || kind == PLAN_SESSION_CANCELLED)
        return find_session(in, option, value, out, e);
    if (kind == PLAN_ONE_MORE_TOOL || kind == PLAN_ONE_LESS_TOOL)
        *out = kit_find_tool(in->kit, number);
    else if (kind == PLAN_PART_HERE || kind == PLAN_PART_LATER)
        *out = kit_find_part(in->kit, number);
    else if (kind == PLAN_ONE_MORE_WORKPLACE || kind == PLAN_ONE_LESS_WORKPLACE)
        for (kit_index z = 0; z < in->kit->n_zones; z++)
            *out = text_equal_nocase(in->kit->zones[z].number, number) ? z : *out;
    else
        *out = kit_find_person(in->workshop, number);
    if (*out != KIT_NONE)
        return true;
    return err_input(e, option, "write its number or name as in the kit's or the workshop's tables",
                     "\"%s\" is none that this build knows", value);
}

/* "F-012:7": the part and the days. */
static bool find_later(const plan_input *in, const char *value, plan_change *c, err *e) {
    text rest = text_of(value), part;
    int64_t days;
    number_fault why;
    if (!text_next_piece(&rest, ':', &part) || !number_decimal(rest, 0, 1, 1000, &days, &why))
        return err_input(e, "part-later", "write the part and the days, as in F-012:7", "\"%s\" has no days",
                         value);
    c->what = kit_find_part(in->kit, part);
    c->session = (kit_index)days;
    return c->what != KIT_NONE ||
           err_input(e, "part-later", "write a part's number as the packing list has it",
                     "the kit has no part \"%.*s\"", TEXT_ARG(part));
}

static const struct {
    const char *option;
    plan_change_kind kind;
} asked[] = {{"one-more-like", PLAN_ONE_MORE_PERSON},
             {"always", PLAN_ALWAYS_THERE},
             {"tonight-without", PLAN_STAYS_AWAY},
             {"tool", PLAN_ONE_MORE_TOOL},
             {"workplace", PLAN_ONE_MORE_WORKPLACE},
             {"session-after", PLAN_ONE_MORE_SESSION},
             {"cancel", PLAN_SESSION_CANCELLED},
             {"part", PLAN_PART_HERE},
             {"gone", PLAN_PERSON_GONE},
             {"tool-less", PLAN_ONE_LESS_TOOL},
             {"workplace-less", PLAN_ONE_LESS_WORKPLACE},
             {"part-later", PLAN_PART_LATER}};

static bool read_changes(const cli_call *call, const plan_input *in, const plan *now, changes *out, err *e) {
    *out = (changes){0};
    for (size_t k = 0; k < sizeof asked / sizeof *asked; k++) {
        const char *value = cli_value(call, asked[k].option);
        plan_change *c = &out->list[out->n];
        if (!value)
            continue;
        *c = (plan_change){asked[k].kind, KIT_NONE, KIT_NONE};
        if (c->kind == PLAN_PART_LATER ? !find_later(in, value, c, e)
                                       : !find_what(in, c->kind, asked[k].option, value, &c->what, e))
            return false;
        if (c->kind == PLAN_STAYS_AWAY)
            c->session = first_session(now);
        if (c->kind == PLAN_STAYS_AWAY && c->session == KIT_NONE)
            return err_input(e, asked[k].option, "write the next session into the workshop's sessions.csv",
                             "no session with a date lies ahead");
        out->n++;
    }
    if (out->n == 0)
        return err_input(e, "whatif", "say what changes, as kitbench help whatif lists it",
                         "nothing is changed");
    return true;
}

/* ---- the answer ----------------------------------------------------------------------------------------------------- */

static text finish_words(arena *a, const plan_outcome *o) {
    if (!o->found)
        return TEXT("no plan");
    if (!o->dated)
        return TEXT("after the last dated session");
    char moment[17];
    date_print_moment(o->finish, moment);
    return arena_format(a, "%s %s%s", date_weekday_name(date_of_moment(o->finish)), moment,
                        o->proven ? "" : " (not proven)");
}

/* Steps of the first session of now that are not worked on then (lost), or the other way round. */
static text list_difference(arena *a, const plan *from, const plan *to, kit_index session) {
    buf b = {0};
    for (uint32_t k = 0; k < from->n_steps; k++) {
        const plan_step *s = &from->steps[k];
        if (!whatif_works_at(from, s, session) || whatif_works_at(to, plan_find_step(to, s->step), session))
            continue;
        buf_add_z(&b, b.len ? ", " : "");
        buf_add(&b, from->kit->steps[s->step].number);
    }
    text all = arena_text(a, buf_text(&b));
    buf_free(&b);
    return all;
}

static void tell_text(arena *a, const plan_input *in, const changes *c, const plan *now, const plan *then,
                      buf *out) {
    plan_outcome x = plan_outcome_of(now), y = plan_outcome_of(then);
    kit_index first = first_session(now);
    for (uint32_t k = 0; k < c->n; k++)
        wrap_add(out, arena_format(a, "With %.*s:", TEXT_ARG(plan_change_words(a, in, c->list[k]))),
                 CLI_WIDTH, 4);
    buf_addf(out, "  finish now    %.*s\n  finish then   %.*s\n", TEXT_ARG(finish_words(a, &x)),
             TEXT_ARG(finish_words(a, &y)));
    buf_addf(out, "  sessions      %u now, %u then\n  steps planned %u now, %u then\n", (unsigned)x.sessions,
             (unsigned)y.sessions, (unsigned)x.steps_planned, (unsigned)y.steps_planned);
    for (uint32_t k = 0; k < then->n_impossible; k++)
        wrap_add(out,
                 arena_format(a, "  %.*s cannot be done: %.*s",
                              TEXT_ARG(in->kit->steps[then->impossible[k].step].number),
                              TEXT_ARG(then->impossible[k].reason)),
                 CLI_WIDTH, 4);
    if (first == KIT_NONE || !x.found || !y.found)
        return;
    text lost = list_difference(a, now, then, first), won = list_difference(a, then, now, first);
    long long number = (long long)in->workshop->sessions[first].number;
    if (lost.len)
        wrap_add(out, arena_format(a, "  Not at session %lld any more: %.*s", number, TEXT_ARG(lost)),
                 CLI_WIDTH, 4);
    if (won.len)
        wrap_add(out, arena_format(a, "  At session %lld instead: %.*s", number, TEXT_ARG(won)), CLI_WIDTH,
                 4);
    if (!lost.len && !won.len)
        buf_addf(out, "  Session %lld keeps its steps.\n", number);
}

static void put_outcome(json_out *j, const char *key, const plan_outcome *o) {
    char moment[17];
    json_put_object(j, key);
    date_print_moment(o->finish, moment);
    if (o->found && o->dated)
        json_put_text(j, "finish", text_of(moment));
    else
        json_put_null(j, "finish");
    json_put_integer(j, "sessions", o->sessions);
    json_put_integer(j, "steps", o->steps_planned);
    json_put_bool(j, "proven", o->proven);
    json_end_object(j);
}

static void tell_json(arena *a, const plan_input *in, const changes *c, const plan *now, const plan *then,
                      buf *out) {
    plan_outcome x = plan_outcome_of(now), y = plan_outcome_of(then);
    json_out j = json_to(out);
    json_put_object(&j, NULL);
    json_put_array(&j, "changes");
    for (uint32_t k = 0; k < c->n; k++)
        json_put_text(&j, NULL, plan_change_words(a, in, c->list[k]));
    json_end_array(&j);
    put_outcome(&j, "now", &x);
    put_outcome(&j, "then", &y);
    json_put_array(&j, "forbidden");
    for (uint32_t k = 0; k < c->n_forbidden; k++) {
        json_put_object(&j, NULL);
        json_put_text(&j, "step", in->kit->steps[c->forbidden[k].step].number);
        json_put_text(&j, "reason", c->forbidden[k].reason);
        json_put_bool(&j, "was_planned",
                      whatif_works_at(now, plan_find_step(now, c->forbidden[k].step), first_session(now)));
        json_end_object(&j);
    }
    json_end_array(&j);
    json_put_array(&j, "impossible");
    for (uint32_t k = 0; k < then->n_impossible; k++) {
        json_put_object(&j, NULL);
        json_put_text(&j, "step", in->kit->steps[then->impossible[k].step].number);
        json_put_text(&j, "reason", then->impossible[k].reason);
        json_put_text(&j, "remedy", then->impossible[k].remedy);
        json_end_object(&j);
    }
    json_end_array(&j);
    json_end_object(&j);
}

/* Who stays away leaves steps that nobody can do or supervise. */
static bool look_at_tonight(arena *a, const plan_input *changed, const plan *now, changes *c, err *e) {
    bool tonight = false;
    for (uint32_t k = 0; k < c->n; k++)
        tonight = tonight || c->list[k].kind == PLAN_STAYS_AWAY;
    return !tonight || plan_find_forbidden(a, changed, first_session(now), &c->forbidden, &c->n_forbidden, e);
}

int cmd_whatif(cli_call *call) {
    err e;
    plan_call it;
    plan *now, *then;
    changes c;
    plan_input changed;
    if (!plan_call_open(call, "whatif", &it, &e))
        return cli_fail(&e);
    if (cli_given(call, "crew"))
        return crew_curve(call, &it);
    bool made = plan_make(call->memory, &it.in, &now, &e) && read_changes(call, &it.in, now, &c, &e);
    if (made) {
        plan_change_input(call->memory, &it.in, c.list, c.n, &changed);
        made = plan_make(call->memory, &changed, &then, &e) &&
               look_at_tonight(call->memory, &changed, now, &c, &e);
    }
    plan_call_close(&it);
    if (!made)
        return cli_fail(&e);
    plan_outcome x = plan_outcome_of(now), y = plan_outcome_of(then);
    buf out = {0};
    if (call->json)
        tell_json(call->memory, &it.in, &c, now, then, &out);
    else
        tell_text(call->memory, &it.in, &c, now, then, &out);
    if (!call->json && cli_given(call, "tonight-without"))
        whatif_tonight(call->memory, c.forbidden, c.n_forbidden, now, then, first_session(now), &out);
    return cli_print(&out, plan_compare_outcomes(&y, &x) > 0 ? EXIT_NO : EXIT_DONE);
}
