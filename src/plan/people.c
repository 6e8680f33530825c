/* people.c: session by session; and when one cannot be staffed, which few jobs are to blame. */
#include "plan/people.h"

#include <string.h>

#include "plan/naming.h"

/* All stretches by job, then time. */
static people_stretch *lay_out_all(arena *a, const people_work *w, const int32_t *starts, uint32_t *n) {
    people_stretch *list = NULL;
    size_t count = 0, cap = 0;
    job_stretches run = {0};
    for (uint32_t j = 0; j < w->n_jobs; j++) {
        (void)job_stretch_out(a, w->calendar, &w->jobs[j], starts[j], &run);
        for (size_t k = 0; k < run.n; k++) {
            arena_room(a, list, count, cap, people_stretch);
            list[count++] = (people_stretch){j, run.list[k], arena_array(a, kit_index, w->jobs[j].n_seats)};
        }
    }
    *n = (uint32_t)count;
    return list;
}

static naming_item item_of(const people_work *w, const people_stretch *all, uint32_t k) {
    const people_stretch *s = &all[k];
    bool goes_on = k > 0 && all[k - 1].job == s->job && all[k - 1].when.session != s->when.session;
    return (naming_item){s->job,
                         s->when.from,
                         s->when.to,
                         calendar_there(w->calendar, s->when.from, s->when.to),
                         goes_on ? all[k - 1].seats : NULL,
                         s->seats};
}

/* ---- conflicts -------------------------------------------------------------------------------------------------- */

/* Can the items without those of the job `without` be named? */
static people_answer try_without(arena *a, const people_work *w, const naming_item *items, uint32_t n,
                                 uint32_t without, naming_item *kept, uint32_t *n_kept) {
    *n_kept = 0;
    for (uint32_t k = 0; k < n; k++)
        if (items[k].job != without)
            kept[(*n_kept)++] = items[k];
    int32_t *minutes = arena_array(a, int32_t, PLAN_MAX_CREW);
    if (naming_blocked_instant(a, w, kept, *n_kept, false) >= 0)
        return PEOPLE_CANNOT;
    return naming_search(a, w, kept, *n_kept, minutes);
}

/* The starts from which a job that lies in one stretch still has those people only, and still runs at the instant. */
static job_starts range_around(const people_work *w, const naming_item *item, int32_t instant,
                               int32_t session_from) {
    int32_t low = item->from, high = item->to; /* the part of the stretch that decides who can do it */
    while (high > instant + 1 && calendar_there(w->calendar, low, high - 1) == item->there)
        high--;
    while (low < instant && calendar_there(w->calendar, low + 1, high) == item->there)
        low++;
    int32_t first = high - (item->to - item->from);
    return (job_starts){first > session_from ? first : session_from, low};
}

static void add_to_conflict(const people_work *w, const int32_t *starts, const naming_item *items, uint32_t n,
                            uint32_t k, int32_t instant, people_conflict *why) {
    uint32_t job = items[k].job;
    for (uint32_t x = 0; x < why->n; x++)
        if (why->jobs[x] == job)
            return;
    job_starts range = {starts[job], starts[job]};
    uint32_t stretches = 0;
    for (uint32_t x = 0; x < n; x++)
        stretches += items[x].job == job;
    bool whole = stretches == 1 && w->jobs[job].n_change_over == 0 && items[k].from == starts[job] &&
                 items[k].to == starts[job] + w->jobs[job].duration;
    if (instant >= 0 && whole && items[k].from <= instant && items[k].to > instant) {
        uint32_t session = calendar_session(w->calendar, starts[job], false);
        range = range_around(w, &items[k], instant, w->calendar->sessions[session].from_min);
    }
    why->jobs[why->n] = job;
    why->ranges[why->n++] = range;
}

/* Takes away every job without which the session still cannot be named, and tells what is left. */
static void find_conflict(arena *a, const people_work *w, const int32_t *starts, const naming_item *all,
                          uint32_t n_all, people_conflict *why) {
    naming_item *items = arena_array(a, naming_item, n_all), *kept = arena_array(a, naming_item, n_all);
    memcpy(items, all, n_all * sizeof *items);
    uint32_t n = n_all;
    for (uint32_t x = 0; x < n_all; x++) {
        uint32_t n_kept;
        if (try_without(a, w, items, n, all[x].job, kept, &n_kept) != PEOPLE_CANNOT || n_kept == n)
            continue;
        memcpy(items, kept, n_kept * sizeof *items);
        n = n_kept;
    }
    int32_t instant = naming_blocked_instant(a, w, items, n, false);
    *why = (people_conflict){.jobs = arena_array(a, uint32_t, n), .ranges = arena_array(a, job_starts, n)};
    int32_t always = naming_blocked_instant(a, w, items, n, true);
    why->together = always >= 0;
    for (uint32_t k = 0; k < n; k++) {
        why->together = why->together && items[k].from <= always && items[k].to > always;
        add_to_conflict(w, starts, items, n, k, instant, why);
    }
}

/* ---- naming ------------------------------------------------------------------------------------------------------ */

people_answer people_name(arena *a, const people_work *w, const int32_t *starts, people_stretch **out,
                          uint32_t *n, people_conflict *why) {
    people_stretch *all = lay_out_all(a, w, starts, n);
    naming_item *items = arena_array(a, naming_item, *n);
    int32_t *minutes = arena_array(a, int32_t, PLAN_MAX_CREW);
    *out = all;
    for (uint32_t s = 0; s < w->calendar->n_sessions; s++) {
        uint32_t count = 0;
        for (uint32_t k = 0; k < *n; k++)
            if (all[k].when.session == s)
                items[count++] = item_of(w, all, k);
        people_answer answer = PEOPLE_CANNOT;
        if (naming_blocked_instant(a, w, items, count, false) < 0)
            answer = naming_search(a, w, items, count, minutes);
        if (answer == PEOPLE_NAMED)
            continue;
        find_conflict(a, w, starts, items, count, why);
        return answer;
    }
    return PEOPLE_NAMED;
}
