/* calendar.c: the dates of a build as iCalendar: sessions, promised arrivals, top-ups of batteries, care afterwards. */
#include <inttypes.h>

#include "base/ical_out.h"
#include "desk/desk.h"

typedef struct {
    const desk *d;
    const plan *p; /* NULL: not planned */
    text of;       /* ends every UID: which build this is */
    arena *a;      /* of the texts */
    buf *out;
    uint32_t n; /* events written */
} calendar;

/* Letters and digits of a number stay; what stands between them becomes a dash. */
static text plain(arena *a, text number) {
    char *at = arena_array(a, char, number.len + 1);
    for (size_t i = 0; i < number.len; i++) {
        char x = number.at[i];
        bool kept = (x >= '0' && x <= '9') || (x >= 'A' && x <= 'Z') || (x >= 'a' && x <= 'z');
        at[i] = kept ? x : '-';
    }
    return (text){at, number.len};
}

/* The same in every calendar of this build, and in no other build's: kit, serial and the second it was begun at. */
static bool name_build(calendar *c, err *e) {
    store_entry *entries;
    size_t n;
    if (!store_read_journal(c->a, c->d->file, 1, &entries, &n, e))
        return false;
    const kit *k = c->d->kit;
    c->of = arena_format(c->a, "%.*s-%.*s-%" PRId64 ".kitbench", TEXT_ARG(plain(c->a, k->number)),
                         TEXT_ARG(plain(c->a, k->serial)), n ? entries[0].at_s : 0);
    return true;
}

/* `id` is the same in every later calendar: made of numbers of the kit and the workshop, not of places in their tables. */
static ical_event event_of(calendar *c, text id) {
    c->n++;
    return (ical_event){.uid = arena_format(c->a, "%.*s@%.*s", TEXT_ARG(id), TEXT_ARG(c->of)),
                        .sequence = c->d->last_entry,
                        .stamp = c->d->changed};
}

/* The steps that run at this session, a line each. Names of people are nobody's business in a calendar that is shared. */
static text tell_steps(calendar *c, kit_index session) {
    buf told = {0};
    for (uint32_t i = 0; c->p && i < c->p->n_steps; i++) {
        const plan_step *s = &c->p->steps[i];
        bool here = false;
        for (uint32_t j = s->session; j <= s->last_session; j++)
            here = here || (c->p->sessions[j].dated && c->p->sessions[j].session == session);
        if (!here)
            continue;
        const kit_step *of = &c->d->kit->steps[s->step];
        buf_addf(&told, "%s%.*s %.*s", told.len ? "\n" : "", TEXT_ARG(of->number), TEXT_ARG(of->name));
    }
    text kept = arena_text(c->a, buf_text(&told));
    buf_free(&told);
    return kept;
}

static void add_sessions(calendar *c) {
    const kit_workshop *w = c->d->workshop;
    for (kit_index i = 0; w && i < w->n_sessions; i++) {
        const kit_session *s = &w->sessions[i];
        ical_event event = event_of(c, arena_format(c->a, "session-%" PRId64, s->number));
        event.from = (date_moment)s->day * MINUTES_PER_DAY + s->start;
        event.to = (date_moment)s->day * MINUTES_PER_DAY + s->end;
        event.summary = arena_format(c->a, "Session %" PRId64 ": %.*s", s->number, TEXT_ARG(c->d->kit->name));
        event.description = tell_steps(c, i);
        ical_put_event(c->out, &event);
    }
}

static void add_promises(calendar *c) {
    const kit *k = c->d->kit;
    for (kit_index p = 0; p < k->n_parts; p++) {
        const stock_part *of = &c->d->stock->parts[p];
        for (uint32_t i = 0; i < of->n_supplies; i++) {
            ical_event event = event_of(
                c, arena_format(c->a, "promise-%.*s-%u", TEXT_ARG(plain(c->a, k->parts[p].number)), i + 1));
            event.whole_day = true;
            event.from = (date_moment)of->supplies[i].day * MINUTES_PER_DAY;
            event.status = ICAL_TENTATIVE;
            event.summary = arena_format(c->a, "Promised: %" PRId64 " x %.*s %.*s", of->supplies[i].quantity,
                                         TEXT_ARG(k->parts[p].number), TEXT_ARG(k->parts[p].name));
            ical_put_event(c->out, &event);
        }
    }
}

static void add_top_ups(calendar *c) {
    const kit *k = c->d->kit;
    desk_battery *batteries;
    uint32_t n = desk_batteries(c->d, &batteries);
    for (uint32_t i = 0; i < n; i++) {
        const desk_battery *b = &batteries[i];
        if (b->top_up == INT32_MAX)
            continue;
        const kit_row *row = &k->rows[b->row];
        text in = plain(c->a, k->containers[row->container].number);
        ical_event event = event_of(
            c, arena_format(c->a, "top-up-%.*s-%" PRId64 "-%" PRId64, TEXT_ARG(in), row->line, b->piece));
        event.whole_day = true;
        event.from = (date_moment)b->top_up * MINUTES_PER_DAY;
        event.summary =
            arena_format(c->a, "Charge %.*s, battery %" PRId64, TEXT_ARG(k->parts[row->part].name), b->piece);
        event.description =
            TEXT("Measure each battery alone after a rest of 12 to 24 hours, then charge it as its "
                 "label says. An adult does it.");
        ical_put_event(c->out, &event);
    }
}

/* The day from which care afterwards counts: the last step's end, as it was or, then tentative, as it is planned. */
static bool release_day(const calendar *c, date_day *out, bool *tentative) {
    date_moment last = INT64_MIN;
    bool all = c->d->kit->n_steps > 0;
    for (kit_index s = 0; s < c->d->kit->n_steps; s++) {
        const stock_step *step = &c->d->stock->work->steps[s];
        all = all && step->state == STOCK_DONE;
        if (step->state == STOCK_DONE && step->since > last)
            last = step->since;
    }
    *tentative = !all;
    if (!all && !(c->p && c->p->n_steps && c->p->finish_dated))
        return false;
    *out = date_of_moment(all ? last : c->p->finish);
    return true;
}

static void add_reminders(calendar *c) {
    const kit *k = c->d->kit;
    date_day from;
    bool tentative;
    if (!release_day(c, &from, &tentative))
        return;
    for (kit_index i = 0; i < k->n_reminders; i++) {
        const kit_reminder *r = &k->reminders[i];
        ical_event event = event_of(c, arena_format(c->a, "care-%.*s", TEXT_ARG(plain(c->a, r->number))));
        event.whole_day = true;
        event.from = ((date_moment)from + r->first_days) * MINUTES_PER_DAY;
        event.every_days = r->every_days;
        event.status = tentative ? ICAL_TENTATIVE : ICAL_CONFIRMED;
        event.summary = r->what;
        ical_put_event(c->out, &event);
    }
}

bool desk_calendar(const desk *d, const plan *p, buf *out, uint32_t *n, err *e) {
    calendar c = {.d = d, .p = p, .a = d->memory, .out = out};
    if (!name_build(&c, e))
        return false;
    ical_begin(out, d->kit->name);
    add_sessions(&c);
    add_promises(&c);
    add_top_ups(&c);
    add_reminders(&c);
    ical_end(out);
    *n = c.n;
    return true;
}
