/* people.c: session by session; and when one cannot be staffed, which few jobs are to blame. */
#include "plan/people.h"

#include <string.h>

#include "plan/reasons.h"

/* Nodes of one try to name a session, and to see whether a job is to blame. */
enum { NAMING = 300000, REDUCING = 4000 };

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
    bool first = k == 0 || all[k - 1].job != s->job;
    const kit_index *told = first && w->told ? w->told[s->job] : NULL;
    return (naming_item){s->job,
                         s->when.from,
                         s->when.to,
                         calendar_there(w->calendar, s->when.from, s->when.to),
                         goes_on ? all[k - 1].seats : told,
                         s->seats};
}

/* ---- conflicts -------------------------------------------------------------------------------------------------- */

static bool is_among(const uint32_t *jobs, uint32_t n, uint32_t job) {
    for (uint32_t x = 0; x < n; x++)
        if (jobs[x] == job)
            return true;
    return false;
}

/* Are the items without those of the `left_out` jobs proven to have no names? `kept` gets them. */
static bool fail_without(arena *a, const people_work *w, const naming_item *items, uint32_t n,
                         const uint32_t *left_out, uint32_t n_left_out, naming_item *kept, uint32_t *n_kept) {
    *n_kept = 0;
    for (uint32_t k = 0; k < n; k++)
        if (!is_among(left_out, n_left_out, items[k].job))
            kept[(*n_kept)++] = items[k];
    int32_t *minutes = arena_array(a, int32_t, PLAN_MAX_CREW);
    naming_part part;
    return naming_blocked_instant(a, w, kept, *n_kept, false) >= 0 ||
           naming_search(a, w, kept, *n_kept, REDUCING, minutes, &part) == PEOPLE_CANNOT;
}

static uint32_t jobs_by_start(const int32_t *starts, const naming_item *items, uint32_t n, uint32_t *jobs) {
    uint32_t n_jobs = 0;
    for (uint32_t k = 0; k < n; k++) {
        if (is_among(jobs, n_jobs, items[k].job))
            continue;
        uint32_t x = n_jobs++;
        for (; x > 0 && starts[jobs[x - 1]] > starts[items[k].job]; x--)
            jobs[x] = jobs[x - 1];
        jobs[x] = items[k].job;
    }
    return n_jobs;
}

/* Takes away jobs without which the items still cannot be named, first many neighbours in time at once, at last one by one;
 * the number of items left. */
static uint32_t fewest_items(arena *a, const people_work *w, const int32_t *starts, naming_item *items,
                             uint32_t n) {
    naming_item *kept = arena_array(a, naming_item, n);
    uint32_t *jobs = arena_array(a, uint32_t, n), n_jobs = jobs_by_start(starts, items, n, jobs);
    for (uint32_t many = (n_jobs + 1) / 2; many > 0; many /= 2)
        for (uint32_t x = 0; x < n_jobs && n_jobs > 1;) {
            uint32_t n_kept, some = many < n_jobs - x ? many : n_jobs - x;
            if (!fail_without(a, w, items, n, jobs + x, some, kept, &n_kept)) {
                x += some;
                continue;
            }
            memcpy(items, kept, n_kept * sizeof *items);
            n = n_kept;
            n_jobs -= some;
            memmove(jobs + x, jobs + x + some, (n_jobs - x) * sizeof *jobs);
        }
    return n;
}

static void find_conflict(arena *a, const people_work *w, const int32_t *starts, const naming_item *all,
                          uint32_t n_all, naming_part part, bool proven, people_conflict *why) {
    naming_item *items = arena_array(a, naming_item, n_all);
    uint32_t n = 0;
    for (uint32_t k = 0; k < n_all; k++)
        if (all[k].to > part.from && all[k].from < part.before)
            items[n++] = all[k];
    if (proven)
        n = fewest_items(a, w, starts, items, n);
    int32_t always = naming_blocked_instant(a, w, items, n, true);
    *why = (people_conflict){.jobs = arena_array(a, uint32_t, n), .ranges = arena_array(a, job_starts, n)};
    why->together = always >= 0;
    for (uint32_t k = 0; k < n; k++)
        why->together = why->together && items[k].from <= always && items[k].to > always;
    reasons_widen(a, w, starts, items, n, proven, why);
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
        int32_t blocked = naming_blocked_instant(a, w, items, count, false);
        naming_part part = {blocked, blocked + 1};
        if (blocked < 0)
            answer = naming_search(a, w, items, count, NAMING, minutes, &part);
        if (answer == PEOPLE_NAMED)
            continue;
        find_conflict(a, w, starts, items, count, part, answer == PEOPLE_CANNOT, why);
        return answer;
    }
    return PEOPLE_NAMED;
}
