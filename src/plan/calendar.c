/* calendar.c: dated sessions, undated ones after them, and who is there. */
#include "plan/calendar.h"

#include <stdlib.h>

typedef struct {
    kit_index session;
    date_moment begins, ends; /* of its working time */
} span;

/* A session that was called off has no working time. */
static span span_of(const kit_workshop *w, kit_index s) {
    const kit_session *k = &w->sessions[s];
    date_moment midnight = (date_moment)k->day * MINUTES_PER_DAY,
                begins = midnight + k->start + k->opening_min;
    return (span){s, begins, k->cancelled ? begins : midnight + k->end - k->closing_min};
}

static int compare_spans(const void *a, const void *b) {
    const span *x = a, *y = b;
    if (x->begins != y->begins)
        return x->begins < y->begins ? -1 : 1;
    return x->session < y->session ? -1 : x->session > y->session;
}

/* All sessions with working time, by time. */
static span *sorted_spans(arena *a, const kit_workshop *w, uint32_t *n) {
    span *list = arena_array(a, span, w->n_sessions);
    *n = 0;
    for (kit_index s = 0; s < w->n_sessions; s++) {
        list[*n] = span_of(w, s);
        *n += list[*n].ends > list[*n].begins;
    }
    qsort(list, *n, sizeof *list, compare_spans);
    return list;
}

/* The last session that has working time, KIT_NONE when none has. */
static kit_index last_session(const kit_workshop *w) {
    kit_index last = KIT_NONE;
    for (kit_index s = 0; s < w->n_sessions; s++) {
        span it = span_of(w, s);
        if (it.ends > it.begins && (last == KIT_NONE || it.begins > span_of(w, last).begins))
            last = s;
    }
    return last;
}

int32_t calendar_undated_minutes(const kit_workshop *w) {
    kit_index last = last_session(w);
    if (last == KIT_NONE)
        return 0;
    span it = span_of(w, last);
    return (int32_t)(it.ends - it.begins);
}

int32_t calendar_undated_days(const kit_workshop *w) {
    kit_index last = last_session(w);
    date_day before = INT32_MIN;
    for (kit_index s = 0; last != KIT_NONE && s < w->n_sessions; s++)
        if (w->sessions[s].day < w->sessions[last].day && w->sessions[s].day > before)
            before = w->sessions[s].day;
    return before == INT32_MIN ? 7 : w->sessions[last].day - before;
}

bool calendar_room_allows(const calendar *c, people_set there) {
    uint32_t adults = people_count(there & c->adults);
    uint32_t learners = people_count(there & ~c->adults);
    return adults >= (uint32_t)c->workshop->minimum_adults && adults + learners > 0 &&
           !(adults == 1 && learners == 1);
}

static void add_presence(arena *a, calendar *c, size_t *cap, int32_t from, int32_t to, people_set there) {
    if (from >= to)
        return;
    if (!calendar_room_allows(c, there))
        there = 0;
    size_t n = c->n_presence;
    arena_room(a, c->presence, n, *cap, calendar_presence);
    c->presence[c->n_presence++] = (calendar_presence){from, to, there};
}

/* Who is there at a moment of a dated session. */
static people_set there_at(const calendar *c, kit_index session, date_moment m) {
    const kit_workshop *w = c->workshop;
    date_moment midnight = (date_moment)w->sessions[session].day * MINUTES_PER_DAY;
    people_set there = c->everybody;
    for (uint32_t k = 0; k < w->n_attendance; k++) {
        const kit_attendance *x = &w->attendance[k];
        if (x->session != session)
            continue;
        bool comes =
            x->comes && (x->from < 0 || midnight + x->from <= m) && (x->until < 0 || midnight + x->until > m);
        if (!comes)
            there &= ~one_person(x->person);
    }
    return there;
}

/* The next moment after m at which somebody of the session comes or goes, at most `ends`. */
static date_moment next_change(const kit_workshop *w, kit_index session, date_moment m, date_moment ends) {
    date_moment midnight = (date_moment)w->sessions[session].day * MINUTES_PER_DAY;
    for (uint32_t k = 0; k < w->n_attendance; k++) {
        const kit_attendance *x = &w->attendance[k];
        if (x->session != session || !x->comes)
            continue;
        if (x->from >= 0 && midnight + x->from > m && midnight + x->from < ends)
            ends = midnight + x->from;
        if (x->until >= 0 && midnight + x->until > m && midnight + x->until < ends)
            ends = midnight + x->until;
    }
    return ends;
}

static void add_dated(arena *a, calendar *c, size_t *cap, span it) {
    plan_session *s = &c->sessions[c->n_sessions++];
    int32_t length = (int32_t)(it.ends - it.begins);
    *s = (plan_session){c->workshop->sessions[it.session].number,
                        it.session,
                        true,
                        c->end,
                        c->end + length,
                        it.begins,
                        it.ends};
    for (date_moment m = it.begins; m < it.ends;) {
        date_moment next = next_change(c->workshop, it.session, m, it.ends);
        add_presence(a, c, cap, c->end + (int32_t)(m - it.begins), c->end + (int32_t)(next - it.begins),
                     there_at(c, it.session, m));
        m = next;
    }
    c->end += length;
    c->n_dated++;
}

/* `last` is the workshop's last session; with `from` past it the undated ones follow `from`. */
static void add_undated(arena *a, calendar *c, size_t *cap, span last, date_moment from, uint32_t count) {
    int32_t length = (int32_t)(last.ends - last.begins), days = calendar_undated_days(c->workshop);
    int64_t number = 0;
    for (kit_index s = 0; s < c->workshop->n_sessions; s++)
        if (c->workshop->sessions[s].number > number)
            number = c->workshop->sessions[s].number;
    date_moment begins = last.begins;
    while (begins + (date_moment)days * MINUTES_PER_DAY < from)
        begins += (date_moment)days * MINUTES_PER_DAY;
    for (uint32_t k = 0; k < count; k++) {
        begins += (date_moment)days * MINUTES_PER_DAY;
        c->sessions[c->n_sessions++] =
            (plan_session){++number, KIT_NONE, false, c->end, c->end + length, begins, begins + length};
        add_presence(a, c, cap, c->end, c->end + length, c->everybody);
        c->end += length;
    }
}

static bool check_workshop(const kit_workshop *w, err *e) {
    if (w->n_crew == 0)
        return err_input(e, "crew", "name the people who build", "there is no crew to plan with");
    if (w->n_crew > PLAN_MAX_CREW)
        return err_input(e, "crew", "plan with the people who come to this build",
                         "a crew of %u is more than the %d that can be planned with", (unsigned)w->n_crew,
                         PLAN_MAX_CREW);
    if (last_session(w) == KIT_NONE)
        return err_input(e, "sessions", "give at least one session with its date and times",
                         "there is no session with working time to plan with");
    return true;
}

bool calendar_open(arena *a, const kit_workshop *w, date_moment from, uint32_t undated, calendar *out,
                   err *e) {
    *out = (calendar){.workshop = w};
    if (!check_workshop(w, e))
        return false;
    for (kit_index p = 0; p < w->n_crew; p++) {
        out->everybody |= one_person(p);
        out->adults |= w->crew[p].adult ? one_person(p) : 0;
    }
    uint32_t n;
    span *spans = sorted_spans(a, w, &n);
    out->sessions = arena_array(a, plan_session, (size_t)n + undated);
    size_t cap = 0;
    for (uint32_t k = 0; k < n; k++) {
        if (k > 0 && spans[k].begins < spans[k - 1].ends)
            return err_input(e, "sessions", "give each session its own time",
                             "sessions %lld and %lld overlap",
                             (long long)w->sessions[spans[k - 1].session].number,
                             (long long)w->sessions[spans[k].session].number);
        span it = spans[k];
        if (it.ends <= from)
            continue;
        if (it.begins < from)
            it.begins = from;
        add_dated(a, out, &cap, it);
    }
    add_undated(a, out, &cap, spans[n - 1], from, undated);
    return true;
}

/* ---- looking up ---------------------------------------------------------------------------------------------- */

people_set calendar_there(const calendar *c, int32_t a, int32_t b) {
    uint32_t low = 0, high = c->n_presence;
    while (low < high) { /* the first piece that ends after a */
        uint32_t mid = (low + high) / 2;
        if (c->presence[mid].to > a)
            high = mid;
        else
            low = mid + 1;
    }
    people_set there = low < c->n_presence && b <= c->end ? c->everybody : 0;
    for (; low < c->n_presence && c->presence[low].from < b; low++)
        there &= c->presence[low].there;
    return there;
}

uint32_t calendar_session(const calendar *c, int32_t minute, bool is_end) {
    uint32_t low = 0, high = c->n_sessions;
    while (low < high) { /* the first session that ends after the minute, or at it when it is an end */
        uint32_t mid = (low + high) / 2;
        if (is_end ? c->sessions[mid].to_min >= minute : c->sessions[mid].to_min > minute)
            high = mid;
        else
            low = mid + 1;
    }
    return low < c->n_sessions ? low : c->n_sessions - 1;
}

date_moment calendar_moment(const calendar *c, int32_t minute, bool is_end) {
    const plan_session *s = &c->sessions[calendar_session(c, minute, is_end)];
    return s->begins + (minute - s->from_min);
}

int32_t calendar_minute_from(const calendar *c, date_moment m) {
    uint32_t low = 0, high = c->n_sessions;
    while (low < high) {
        uint32_t mid = (low + high) / 2;
        if (c->sessions[mid].ends > m)
            high = mid;
        else
            low = mid + 1;
    }
    if (low == c->n_sessions)
        return INT32_MAX;
    const plan_session *s = &c->sessions[low];
    return s->from_min + (m > s->begins ? (int32_t)(m - s->begins) : 0);
}

int64_t calendar_working_between(const kit_workshop *w, date_moment a, date_moment b) {
    int64_t sum = 0;
    for (kit_index s = 0; s < w->n_sessions; s++) {
        span it = span_of(w, s);
        date_moment from = it.begins > a ? it.begins : a, to = it.ends < b ? it.ends : b;
        sum += to > from ? to - from : 0;
    }
    return sum;
}
