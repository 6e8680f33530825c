/* shifts.c: what a new plan changes of what was announced, and why.
 *
 * The reason is looked for where it can be seen: a session that is not held, a step that cannot go ahead, pieces that come later, people who
 * are away, a step before it that is done later. What is left moved for the sake of others.
 */
#include <stdlib.h>
#include <string.h>

#include "plan/announced.h"

const char *plan_shift_word(plan_shift_kind k) {
    static const char *const words[] = {"dropped", "session", "time", "people", "added"};
    return words[k];
}

typedef struct {
    arena *memory;
    const plan_input *in;
    const plan *p;
    plan_shift *list;
    size_t n, cap;
} comparing;

static const kit_step *step_of(const comparing *c, kit_index step) {
    return &c->p->kit->steps[step];
}

static bool is_done(const plan_input *in, kit_index step) {
    for (uint32_t k = 0; k < in->n_done; k++)
        if (in->done[k].step == step)
            return true;
    return false;
}

/* The first announced stretch of the step; NULL. */
static const plan_told *first_told(const plan_input *in, kit_index step) {
    const plan_told *first = NULL;
    for (uint32_t k = 0; k < in->n_told; k++)
        if (in->told[k].step == step && (!first || in->told[k].from < first->from))
            first = &in->told[k];
    return first;
}

/* The dated session of the plan's line that holds the moment; NULL. Of one that is running the part that has passed counts too. */
static const plan_session *session_at(const plan *p, date_moment m) {
    for (uint32_t s = 0; s < p->n_sessions && p->sessions[s].dated; s++) {
        const kit_session *w = &p->workshop->sessions[p->sessions[s].session];
        date_moment begins = (date_moment)w->day * MINUTES_PER_DAY + w->start;
        if (begins <= m && m < p->sessions[s].ends)
            return &p->sessions[s];
    }
    return NULL;
}

/* ---- why ---------------------------------------------------------------------------------------------------------------- */

static text why_dropped(const comparing *c, kit_index step) {
    const plan *p = c->p;
    for (uint32_t k = 0; k < p->n_stopped; k++)
        if (p->stopped[k].step == step)
            return arena_format(c->memory, "%lld of %.*s are missing", (long long)p->stopped[k].missing,
                                TEXT_ARG(p->kit->parts[p->stopped[k].part].number));
    for (uint32_t k = 0; k < p->n_waiting; k++)
        if (p->waiting[k].step == step)
            return arena_format(c->memory, "%.*s, which it follows, is held up",
                                TEXT_ARG(step_of(c, p->waiting[k].after)->number));
    for (uint32_t k = 0; k < p->n_impossible; k++)
        if (p->impossible[k].step == step)
            return p->impossible[k].reason;
    return TEXT("");
}

/* Was the announced session called off? */
static text why_session(const comparing *c, const plan_told *told) {
    if (session_at(c->p, told->from))
        return TEXT("");
    const kit_workshop *w = c->p->workshop;
    for (kit_index s = 0; s < w->n_sessions; s++)
        if (w->sessions[s].day == date_of_moment(told->from))
            return arena_format(
                c->memory, w->sessions[s].cancelled ? "session %lld was called off" : "session %lld is over",
                (long long)w->sessions[s].number);
    return TEXT("there is no session on that day any more");
}

/* Does one of its parts come after the announced start? */
static text why_parts(const comparing *c, const plan_told *told) {
    const kit *k = c->p->kit;
    for (uint32_t x = 0; x < k->n_step_parts; x++) {
        kit_index part = k->step_parts[x].part;
        if (k->step_parts[x].step != told->step)
            continue;
        int64_t there = c->in->usable ? c->in->usable[part] : kit_packed(k, part);
        date_moment next = INT64_MAX;
        for (uint32_t n = 0; n < c->in->n_arrivals; n++) {
            const plan_arrival *a = &c->in->arrivals[n];
            there += a->part == part && a->at <= told->from ? a->quantity : 0;
            next = a->part == part && a->at > told->from && a->at < next ? a->at : next;
        }
        if (there >= k->step_parts[x].quantity || next == INT64_MAX)
            continue;
        char day[11];
        date_print(date_of_moment(next), day);
        return arena_format(c->memory, "%.*s comes on %s", TEXT_ARG(k->parts[part].number), day);
    }
    return TEXT("");
}

/* Is the person there all the announced time? */
static bool comes(const comparing *c, kit_index person, const plan_told *told) {
    const kit_workshop *w = c->p->workshop;
    const plan_session *s = session_at(c->p, told->from);
    for (uint32_t k = 0; s && k < w->n_attendance; k++) {
        const kit_attendance *x = &w->attendance[k];
        if (x->person != person || x->session != s->session)
            continue;
        date_moment midnight = (date_moment)w->sessions[x->session].day * MINUTES_PER_DAY;
        date_moment ends = told->from + told->minutes;
        if (!x->comes || (x->from >= 0 && midnight + x->from > told->from) ||
            (x->until >= 0 && midnight + x->until < ends))
            return false;
    }
    return true;
}

static text why_people(const comparing *c, const plan_told *told) {
    for (uint32_t k = 0; k <= told->n_people; k++) {
        kit_index person = k < told->n_people ? told->people[k] : told->supervisor;
        if (person == KIT_NONE || comes(c, person, told))
            continue;
        const kit_person *who = &c->p->workshop->crew[person];
        return arena_format(c->memory, "%.*s is away", TEXT_ARG(who->name.len ? who->name : who->number));
    }
    return TEXT("");
}

/* Is a step that it follows done later than it was to begin? */
static text why_before(const comparing *c, const plan_told *told) {
    const kit *k = c->p->kit;
    for (uint32_t x = 0; x < k->n_step_after; x++) {
        kit_index before = k->step_after[x].after;
        if (k->step_after[x].step != told->step)
            continue;
        const plan_step *now = plan_find_step(c->p, before);
        if (now && (!now->end_dated || now->end > told->from))
            return arena_format(c->memory, "%.*s, which it follows, is done later",
                                TEXT_ARG(k->steps[before].number));
        for (uint32_t d = 0; d < c->in->n_done; d++)
            if (c->in->done[d].step == before && c->in->done[d].at > told->from)
                return arena_format(c->memory, "%.*s, which it follows, was done later",
                                    TEXT_ARG(k->steps[before].number));
    }
    return TEXT("");
}

static text why_moved(const comparing *c, const plan_told *told) {
    text (*const looks[])(const comparing *, const plan_told *) = {why_session, why_parts, why_people,
                                                                   why_before};
    for (size_t k = 0; k < sizeof looks / sizeof *looks; k++) {
        text why = looks[k](c, told);
        if (why.len)
            return why;
    }
    return TEXT("");
}

/* ---- comparing ---------------------------------------------------------------------------------------------------------- */

static plan_shift *add(comparing *c, plan_shift_kind kind, kit_index step) {
    arena_room(c->memory, c->list, c->n, c->cap, plan_shift);
    c->list[c->n] = (plan_shift){.kind = kind, .step = step, .told = INT64_MIN, .now = INT64_MIN};
    return &c->list[c->n++];
}

static bool same_people(const plan_told *told, const plan_stretch *now) {
    return told->supervisor == now->supervisor && told->n_people == now->n_people &&
           memcmp(told->people, now->people, now->n_people * sizeof *now->people) == 0;
}

static void compare_step(comparing *c, const plan_told *told) {
    const plan_step *now = plan_find_step(c->p, told->step);
    if (!now) {
        plan_shift *s = add(c, PLAN_SHIFT_DROPPED, told->step);
        s->told = told->from;
        s->why = why_dropped(c, told->step);
        return;
    }
    bool moved = !now->start_dated || now->start != told->from;
    const plan_session *session = session_at(c->p, told->from);
    bool same_session = session && now->start_dated && session == &c->p->sessions[now->session];
    if (!moved && same_people(told, &now->stretches[0]))
        return;
    plan_shift *s = add(c,
                        !moved         ? PLAN_SHIFT_PEOPLE
                        : same_session ? PLAN_SHIFT_TIME
                                       : PLAN_SHIFT_SESSION,
                        told->step);
    s->told = told->from;
    s->now = now->start;
    s->now_dated = now->start_dated;
    s->why = moved ? why_moved(c, told) : why_people(c, told);
}

static int compare_shifts(const void *a, const void *b) {
    const plan_shift *x = a, *y = b;
    date_moment m = x->told != INT64_MIN ? x->told : x->now, n = y->told != INT64_MIN ? y->told : y->now;
    if (m != n)
        return m < n ? -1 : 1;
    return x->step < y->step ? -1 : x->step > y->step;
}

void plan_find_shifts(arena *a, const plan_input *in, const plan *p, plan_shift **out, uint32_t *n) {
    comparing c = {.memory = a, .in = in, .p = p};
    date_moment last = INT64_MIN;
    for (kit_index s = 0; s < p->kit->n_steps; s++) {
        const plan_told *told = first_told(in, s);
        if (told && told->from > last)
            last = told->from;
        if (told && !told->begun && !is_done(in, s))
            compare_step(&c, told);
    }
    for (uint32_t k = 0; k < p->n_steps; k++) {
        const plan_step *now = &p->steps[k];
        if (first_told(in, now->step) || !now->start_dated || now->start > last)
            continue;
        plan_shift *s = add(&c, PLAN_SHIFT_ADDED, now->step);
        s->now = now->start;
        s->now_dated = true;
    }
    if (c.n > 1)
        qsort(c.list, c.n, sizeof *c.list, compare_shifts);
    *out = c.list;
    *n = (uint32_t)c.n;
}
