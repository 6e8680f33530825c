/* change.c: a build with something more, less, earlier or absent; and two plans compared. */
#include <string.h>

#include "plan/plan.h"
#include "plan/supply.h"

/* ---- the workshop ------------------------------------------------------------------------------------------------ */

static void add_person(arena *a, kit_workshop *w, kit_index like) {
    kit_person *crew = arena_array(a, kit_person, (size_t)w->n_crew + 1);
    memcpy(crew, w->crew, w->n_crew * sizeof *crew);
    crew[w->n_crew] = crew[like];
    crew[w->n_crew].leader = false;
    crew[w->n_crew].name = arena_format(a, "somebody like %.*s", TEXT_ARG(crew[like].name));
    w->crew = crew;
    w->n_crew++;
}

/* Keeps the rows of attendance but those of the person (and session, unless KIT_NONE). Room for one more is left. */
static void drop_attendance(arena *a, kit_workshop *w, kit_index person, kit_index session) {
    kit_attendance *rows = arena_array(a, kit_attendance, (size_t)w->n_attendance + 1);
    uint32_t n = 0;
    for (uint32_t k = 0; k < w->n_attendance; k++) {
        const kit_attendance *x = &w->attendance[k];
        if (x->person != person || (session != KIT_NONE && x->session != session))
            rows[n++] = *x;
    }
    w->attendance = rows;
    w->n_attendance = n;
}

static void stay_away(arena *a, kit_workshop *w, kit_index person, kit_index session) {
    drop_attendance(a, w, person, session);
    w->attendance[w->n_attendance++] =
        (kit_attendance){.session = session, .person = person, .comes = false, .from = -1, .until = -1};
}

static kit_owned *one_more(arena *a, const kit_owned *list, uint32_t *n, kit_index what) {
    kit_owned *copy = arena_array(a, kit_owned, (size_t)*n + 1);
    memcpy(copy, list, *n * sizeof *copy);
    for (uint32_t k = 0; k < *n; k++)
        if (copy[k].what == what) {
            copy[k].quantity++;
            return copy;
        }
    if (*n > 0) /* no table at all means enough of everything */
        copy[(*n)++] = (kit_owned){.what = what, .quantity = 1};
    return copy;
}

/* At least none. Without a table there is enough of everything, and one less is enough too. */
static kit_owned *one_less(arena *a, const kit_owned *list, uint32_t n, kit_index what) {
    kit_owned *copy = arena_array(a, kit_owned, n);
    memcpy(copy, list, n * sizeof *copy);
    for (uint32_t k = 0; k < n; k++)
        if (copy[k].what == what && copy[k].quantity > 0) {
            copy[k].quantity--;
            break;
        }
    return copy;
}

static void be_gone(arena *a, kit_workshop *w, kit_index person) {
    for (kit_index s = 0; s < w->n_sessions; s++)
        stay_away(a, w, person, s);
}

static void add_session(arena *a, kit_workshop *w, kit_index like) {
    kit_session *list = arena_array(a, kit_session, (size_t)w->n_sessions + 1);
    memcpy(list, w->sessions, w->n_sessions * sizeof *list);
    kit_session *it = &list[w->n_sessions];
    *it = list[like];
    it->day++;
    for (kit_index s = 0; s < w->n_sessions; s++)
        if (list[s].number >= it->number)
            it->number = list[s].number + 1;
    w->sessions = list;
    w->n_sessions++;
}

/* A session without working time is none; its number and its index stay. */
static void cancel_session(arena *a, kit_workshop *w, kit_index session) {
    kit_session *list = arena_array(a, kit_session, w->n_sessions);
    memcpy(list, w->sessions, w->n_sessions * sizeof *list);
    list[session].cancelled = true;
    w->sessions = list;
}

/* ---- the stock ---------------------------------------------------------------------------------------------------- */

static void have_part(arena *a, plan_input *in, kit_index part) {
    int64_t *usable = arena_array(a, int64_t, in->kit->n_parts), needed = supply_needed(in->kit, part);
    for (kit_index p = 0; p < in->kit->n_parts; p++)
        usable[p] = in->usable ? in->usable[p] : kit_packed(in->kit, p);
    usable[part] = needed > usable[part] ? needed : usable[part];
    plan_arrival *arrivals = arena_array(a, plan_arrival, in->n_arrivals);
    uint32_t n = 0;
    for (uint32_t k = 0; k < in->n_arrivals; k++)
        if (in->arrivals[k].part != part)
            arrivals[n++] = in->arrivals[k];
    in->usable = usable;
    in->arrivals = arrivals;
    in->n_arrivals = n;
}

static void come_later(arena *a, plan_input *in, kit_index part, uint32_t days) {
    plan_arrival *arrivals = arena_array(a, plan_arrival, in->n_arrivals);
    for (uint32_t k = 0; k < in->n_arrivals; k++) {
        arrivals[k] = in->arrivals[k];
        arrivals[k].at += in->arrivals[k].part == part ? (date_moment)days * MINUTES_PER_DAY : 0;
    }
    in->arrivals = arrivals;
}

static void make_change(arena *a, plan_input *in, kit_workshop *w, plan_change c) {
    switch (c.kind) {
    case PLAN_ONE_MORE_PERSON:
        add_person(a, w, c.what);
        break;
    case PLAN_ALWAYS_THERE:
        drop_attendance(a, w, c.what, KIT_NONE);
        break;
    case PLAN_STAYS_AWAY:
        stay_away(a, w, c.what, c.session);
        break;
    case PLAN_ONE_MORE_TOOL:
        w->tools = one_more(a, w->tools, &w->n_tools, c.what);
        break;
    case PLAN_ONE_MORE_WORKPLACE:
        w->workplaces = one_more(a, w->workplaces, &w->n_workplaces, c.what);
        break;
    case PLAN_ONE_MORE_SESSION:
        add_session(a, w, c.what);
        break;
    case PLAN_SESSION_CANCELLED:
        cancel_session(a, w, c.what);
        break;
    case PLAN_PART_HERE:
        have_part(a, in, c.what);
        break;
    case PLAN_PERSON_GONE:
        be_gone(a, w, c.what);
        break;
    case PLAN_ONE_LESS_TOOL:
        w->tools = one_less(a, w->tools, w->n_tools, c.what);
        break;
    case PLAN_ONE_LESS_WORKPLACE:
        w->workplaces = one_less(a, w->workplaces, w->n_workplaces, c.what);
        break;
    case PLAN_PART_LATER:
        come_later(a, in, c.what, c.session);
        break;
    }
}

void plan_change_input(arena *a, const plan_input *in, const plan_change *changes, uint32_t n,
                       plan_input *out) {
    *out = *in;
    kit_workshop *w = arena_new(a, kit_workshop);
    *w = *in->workshop;
    out->workshop = w;
    for (uint32_t k = 0; k < n; k++)
        make_change(a, out, w, changes[k]);
}

/* ---- in words ------------------------------------------------------------------------------------------------------ */

static text name_of(const plan_input *in, kit_index person) {
    const kit_person *p = &in->workshop->crew[person];
    return p->name.len ? p->name : p->number;
}

static text day_of(arena *a, const kit_session *s, int32_t later) {
    char day[11];
    date_print(s->day + later, day);
    return arena_format(a, "%s %s", date_weekday_name(s->day + later), day);
}

text plan_change_words(arena *a, const plan_input *in, plan_change c) {
    const kit *k = in->kit;
    const kit_workshop *w = in->workshop;
    switch (c.kind) {
    case PLAN_ONE_MORE_PERSON:
        return arena_format(a, "one more person like %.*s", TEXT_ARG(name_of(in, c.what)));
    case PLAN_ALWAYS_THERE:
        return arena_format(a, "%.*s at all of every session", TEXT_ARG(name_of(in, c.what)));
    case PLAN_STAYS_AWAY:
        return arena_format(a, "%.*s away from session %lld", TEXT_ARG(name_of(in, c.what)),
                            (long long)w->sessions[c.session].number);
    case PLAN_ONE_MORE_TOOL:
        return arena_format(a, "one more %.*s (%.*s)", TEXT_ARG(k->tools[c.what].name),
                            TEXT_ARG(k->tools[c.what].number));
    case PLAN_ONE_MORE_WORKPLACE:
        return arena_format(a, "one more %.*s (%.*s)", TEXT_ARG(k->zones[c.what].name),
                            TEXT_ARG(k->zones[c.what].number));
    case PLAN_ONE_MORE_SESSION:
        return arena_format(a, "one more session on %.*s", TEXT_ARG(day_of(a, &w->sessions[c.what], 1)));
    case PLAN_SESSION_CANCELLED:
        return arena_format(a, "no session %lld on %.*s", (long long)w->sessions[c.what].number,
                            TEXT_ARG(day_of(a, &w->sessions[c.what], 0)));
    case PLAN_PART_HERE:
        return arena_format(a, "all of %.*s (%.*s) here at the start", TEXT_ARG(k->parts[c.what].name),
                            TEXT_ARG(k->parts[c.what].number));
    case PLAN_PERSON_GONE:
        return arena_format(a, "%.*s at no session any more", TEXT_ARG(name_of(in, c.what)));
    case PLAN_ONE_LESS_TOOL:
        return arena_format(a, "one %.*s (%.*s) fewer", TEXT_ARG(k->tools[c.what].name),
                            TEXT_ARG(k->tools[c.what].number));
    case PLAN_ONE_LESS_WORKPLACE:
        return arena_format(a, "one %.*s (%.*s) fewer", TEXT_ARG(k->zones[c.what].name),
                            TEXT_ARG(k->zones[c.what].number));
    case PLAN_PART_LATER:
        return arena_format(a, "what is promised of %.*s (%.*s) %u day%s later",
                            TEXT_ARG(k->parts[c.what].name), TEXT_ARG(k->parts[c.what].number),
                            (unsigned)c.session, c.session == 1 ? "" : "s");
    }
    return TEXT("");
}

/* ---- comparing ------------------------------------------------------------------------------------------------------ */

plan_outcome plan_outcome_of(const plan *p) {
    bool found = p->status == PLAN_OPTIMAL || p->status == PLAN_FEASIBLE;
    plan_outcome o = {.found = found, .proven = p->proven, .makespan_min = p->makespan_min};
    o.steps_planned = found ? p->n_steps : 0;
    o.finish = p->finish;
    o.dated = p->finish_dated;
    o.sessions = p->n_steps ? plan_session_at(p, p->makespan_min, true) + 1 : 0;
    return o;
}

int plan_compare_outcomes(const plan_outcome *a, const plan_outcome *b) {
    if (a->found != b->found)
        return a->found ? -1 : 1;
    if (a->steps_planned != b->steps_planned)
        return a->steps_planned > b->steps_planned ? -1 : 1;
    if (a->dated != b->dated)
        return a->dated ? -1 : 1;
    return a->finish < b->finish ? -1 : a->finish > b->finish;
}
