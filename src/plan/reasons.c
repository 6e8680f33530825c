/* reasons.c: how far jobs may be shifted and still be in each other's way as they are.
 *
 * Items that cannot be named together cannot be named either when more of them overlap and fewer people are there. So each pair
 * that overlaps gets a minute at which both run, few such minutes for all pairs; a job may start wherever it runs at all
 * its minutes and sees nobody it does not see now.
 */
#include "plan/reasons.h"

#include <stdlib.h>

typedef struct {
    uint32_t a, b; /* items */
    int32_t from, to;
} overlap;

static int compare_overlaps(const void *a, const void *b) {
    const overlap *x = a, *y = b;
    if (x->to != y->to)
        return x->to < y->to ? -1 : 1;
    return (x->from > y->from) - (x->from < y->from);
}

static overlap *list_overlaps(arena *a, const naming_item *items, uint32_t n, size_t *count) {
    overlap *list = NULL;
    size_t cap = 0;
    *count = 0;
    for (uint32_t x = 0; x < n; x++)
        for (uint32_t y = 0; y < x; y++) {
            int32_t from = items[x].from > items[y].from ? items[x].from : items[y].from;
            int32_t to = items[x].to < items[y].to ? items[x].to : items[y].to;
            if (from >= to || items[x].job == items[y].job)
                continue;
            arena_room(a, list, *count, cap, overlap);
            list[(*count)++] = (overlap){x, y, from, to};
        }
    if (*count > 0)
        qsort(list, *count, sizeof *list, compare_overlaps);
    return list;
}

/* First and last minute at which each item must run: a minute that serves a pair is kept for the next as long as it lies in
 * its overlap, which gives the fewest. */
static void choose_minutes(arena *a, const naming_item *items, uint32_t n, int32_t *first, int32_t *last) {
    size_t count;
    overlap *list = list_overlaps(a, items, n, &count);
    for (uint32_t k = 0; k < n; k++) {
        first[k] = INT32_MAX;
        last[k] = -1;
    }
    int32_t minute = -1;
    for (size_t x = 0; x < count; x++) {
        if (minute < list[x].from)
            minute = list[x].to - 1;
        const uint32_t both[] = {list[x].a, list[x].b};
        for (int k = 0; k < 2; k++) {
            first[both[k]] = minute < first[both[k]] ? minute : first[both[k]];
            last[both[k]] = minute;
        }
    }
}

/* Nobody is there who is not there now. */
static bool same_people(const people_work *w, const naming_item *item, int32_t start) {
    people_set there = calendar_there(w->calendar, start, start + item->to - item->from);
    return (there & ~item->there) == 0;
}

static job_starts range_of(const people_work *w, const naming_item *item, int32_t first, int32_t last) {
    int32_t length = item->to - item->from;
    const plan_session *s = &w->calendar->sessions[calendar_session(w->calendar, item->from, false)];
    job_starts range = {item->from, item->from};
    int32_t low = last - length + 1 > s->from_min ? last - length + 1 : s->from_min;
    int32_t high = first < s->to_min - length ? first : s->to_min - length;
    while (range.first > low && same_people(w, item, range.first - 1))
        range.first--;
    while (range.last < high && same_people(w, item, range.last + 1))
        range.last++;
    return range;
}

/* The item is all of its job: shifted within the session it stays in one piece. */
static bool is_whole_job(const people_work *w, const int32_t *starts, const naming_item *item) {
    const plan_job *j = &w->jobs[item->job];
    return j->n_change_over == 0 && item->from == starts[item->job] && item->to == item->from + j->duration;
}

void reasons_widen(arena *a, const people_work *w, const int32_t *starts, const naming_item *items,
                   uint32_t n, bool proven, people_conflict *why) {
    int32_t *first = arena_array(a, int32_t, n), *last = arena_array(a, int32_t, n);
    choose_minutes(a, items, n, first, last);
    why->n = 0;
    for (uint32_t k = 0; k < n; k++) {
        uint32_t job = items[k].job;
        if (why->n > 0 && why->jobs[why->n - 1] == job)
            continue;
        why->jobs[why->n] = job;
        why->ranges[why->n] = (job_starts){starts[job], starts[job]};
        if (proven && last[k] >= 0 && is_whole_job(w, starts, &items[k]))
            why->ranges[why->n] = range_of(w, &items[k], first[k], last[k]);
        why->n++;
    }
}
