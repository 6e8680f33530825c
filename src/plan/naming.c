/* naming.c: depth-first over seats, the one with the fewest candidates first.
 *
 * After each choice the person leaves the candidates of every seat at the same time. A branch ends when a seat is left
 * without candidates, or when at some instant the open seats cannot all get a person of their own (matching). Two
 * symmetries are broken: seats of one stretch that ask for the same are interchangeable, so a person who failed on one is
 * not tried on the others; people who are candidates of the same open seats are interchangeable, so only the first of them
 * is tried. A limit of steps ends a search that would not come back.
 */
#include "plan/naming.h"

#include <string.h>

enum { STEP_LIMIT = 20000, LEARNERS_FIRST = 1 << 20, SAME_PEOPLE_FIRST = 1 << 19, VERSATILE_LAST = 1 << 12 };

typedef struct {
    uint32_t item, seat; /* which seat of the item */
    people_set can;
    kit_index person; /* KIT_NONE while open */
} place;

typedef struct {
    const people_work *w;
    naming_item *items;
    uint32_t n_items;
    uint32_t *first; /* by item: its first place; n_items + 1 */
    place *places;
    uint32_t n_places;
    people_set *saved; /* n_places for each depth */
    people_set *seats; /* room for instants_hold */
    int32_t *minutes;
    uint32_t steps;
} search;

static bool overlap(const naming_item *a, const naming_item *b) {
    return a->from < b->to && b->from < a->to;
}

/* What it costs to put a person on a place: less is tried first. */
static int64_t cost_of(const search *s, const place *p, kit_index person) {
    const naming_item *item = &s->items[p->item];
    const plan_job *j = &s->w->jobs[item->job];
    const kit_person *who = &s->w->calendar->workshop->crew[person];
    int64_t cost = s->minutes[person];
    bool supervising = j->beside && p->seat == 0;
    if (supervising)
        return cost + (int64_t)who->supervises.n * VERSATILE_LAST;
    if (who->adult)
        cost += LEARNERS_FIRST;
    for (uint32_t k = j->beside; item->before && k < j->n_seats; k++)
        if (item->before[k] == person)
            cost -= SAME_PEOPLE_FIRST;
    return cost;
}

/* The candidates in the order of trying; their number. */
static uint32_t order_candidates(const search *s, const place *p, kit_index out[PLAN_MAX_CREW]) {
    int64_t cost[PLAN_MAX_CREW];
    uint32_t n = 0;
    for (people_set can = p->can; can; can &= can - 1) {
        kit_index person = (kit_index)__builtin_ctzll(can);
        int64_t c = cost_of(s, p, person);
        uint32_t k = n++;
        for (; k > 0 && cost[k - 1] > c; k--) {
            cost[k] = cost[k - 1];
            out[k] = out[k - 1];
        }
        cost[k] = c;
        out[k] = person;
    }
    return n;
}

/* Takes the person off all open places at the same time; false when one of them is left without candidates. */
static bool take_off(search *s, const place *p, kit_index person) {
    for (uint32_t k = 0; k < s->n_places; k++) {
        place *q = &s->places[k];
        if (q->person != KIT_NONE || !overlap(&s->items[p->item], &s->items[q->item]))
            continue;
        q->can &= ~one_person(person);
        if (!q->can)
            return false;
    }
    return true;
}

/* Can the open seats at each instant within the item still get people of their own? Instants at which something starts
 * are enough. */
static bool instants_hold(search *s, const naming_item *around) {
    for (uint32_t x = 0; x < s->n_items; x++) {
        int32_t instant = s->items[x].from > around->from ? s->items[x].from : around->from;
        if (!overlap(&s->items[x], around))
            continue;
        uint32_t n = 0;
        people_set any = 0;
        for (uint32_t k = 0; k < s->n_places; k++) {
            const place *p = &s->places[k];
            const naming_item *item = &s->items[p->item];
            if (p->person != KIT_NONE || item->from > instant || item->to <= instant)
                continue;
            s->seats[n++] = p->can;
            any |= p->can;
        }
        if (n > 1 && !seats_can_fill(s->seats, n, any))
            return false;
    }
    return true;
}

/* Are both candidates of the same open places, so that one may stand for the other? */
static bool interchangeable(const search *s, const people_set *can, kit_index a, kit_index b) {
    for (uint32_t k = 0; k < s->n_places; k++)
        if (s->places[k].person == KIT_NONE && ((can[k] >> a ^ can[k] >> b) & 1))
            return false;
    return true;
}

static bool stands_for_failed(const search *s, const people_set *can, people_set failed, kit_index person) {
    for (; failed; failed &= failed - 1)
        if (interchangeable(s, can, (kit_index)__builtin_ctzll(failed), person))
            return true;
    return false;
}

static place *fewest_candidates(search *s) {
    place *best = NULL;
    uint32_t fewest = UINT32_MAX;
    for (uint32_t k = 0; k < s->n_places; k++) {
        place *p = &s->places[k];
        if (p->person == KIT_NONE && people_count(p->can) < fewest) {
            best = p;
            fewest = people_count(p->can);
        }
    }
    return best;
}

static void forbid_twins(search *s, const place *p, people_set like, kit_index failed) {
    for (uint32_t k = s->first[p->item]; k < s->first[p->item + 1]; k++)
        if (s->places[k].person == KIT_NONE && s->places[k].can == like && &s->places[k] != p)
            s->places[k].can &= ~one_person(failed);
}

/* Fills the open places; on false all are as they were. */
static people_answer fill(search *s, uint32_t depth) {
    place *p = fewest_candidates(s);
    if (!p)
        return PEOPLE_NAMED;
    if (s->steps++ >= STEP_LIMIT)
        return PEOPLE_GAVE_UP;
    people_set *saved = s->saved + (size_t)depth * s->n_places;
    for (uint32_t k = 0; k < s->n_places; k++)
        saved[k] = s->places[k].can;
    people_set failed = 0, like = p->can;
    kit_index candidates[PLAN_MAX_CREW];
    uint32_t n = order_candidates(s, p, candidates);
    int32_t length = s->items[p->item].to - s->items[p->item].from;
    people_answer answer = PEOPLE_CANNOT;
    for (uint32_t c = 0; c < n && answer == PEOPLE_CANNOT; c++) {
        if (stands_for_failed(s, saved, failed, candidates[c]))
            continue;
        for (people_set f = failed; f; f &= f - 1)
            forbid_twins(s, p, like, (kit_index)__builtin_ctzll(f));
        p->person = candidates[c];
        s->minutes[p->person] += length;
        if (take_off(s, p, p->person) && instants_hold(s, &s->items[p->item]))
            answer = fill(s, depth + 1);
        if (answer == PEOPLE_NAMED)
            return answer;
        s->minutes[p->person] -= length;
        failed |= one_person(p->person);
        p->person = KIT_NONE;
        for (uint32_t k = 0; k < s->n_places; k++)
            s->places[k].can = saved[k];
    }
    return answer;
}

/* Opens the places of item k with each of its teams in turn, then those after it, then fills them all. */
static people_answer choose_teams(search *s, uint32_t k) {
    if (k == s->n_items)
        return fill(s, 0);
    const naming_item *item = &s->items[k];
    const plan_job *j = &s->w->jobs[item->job];
    people_answer answer = PEOPLE_CANNOT;
    for (uint32_t t = 0; t < j->n_teams && answer == PEOPLE_CANNOT; t++) {
        if (!seats_can_fill(j->teams[t].seats, j->n_seats, item->there))
            continue;
        for (uint32_t seat = 0; seat < j->n_seats; seat++)
            s->places[s->first[k] + seat] = (place){k, seat, j->teams[t].seats[seat] & item->there, KIT_NONE};
        answer = choose_teams(s, k + 1);
    }
    return answer;
}

people_answer naming_search(arena *a, const people_work *w, naming_item *items, uint32_t n,
                            int32_t *minutes) {
    search s = {.w = w, .items = items, .n_items = n, .minutes = minutes};
    s.first = arena_array(a, uint32_t, (size_t)n + 1);
    for (uint32_t k = 0; k < n; k++)
        s.first[k + 1] = s.first[k] + w->jobs[items[k].job].n_seats;
    s.n_places = s.first[n];
    s.places = arena_array(a, place, s.n_places);
    s.saved = arena_array(a, people_set, (size_t)s.n_places * (s.n_places + 1));
    s.seats = arena_array(a, people_set, s.n_places);
    people_answer answer = choose_teams(&s, 0);
    for (uint32_t k = 0; k < s.n_places && answer == PEOPLE_NAMED; k++)
        items[s.places[k].item].seats[s.places[k].seat] = s.places[k].person;
    return answer;
}

int32_t naming_blocked_instant(arena *a, const people_work *w, const naming_item *items, uint32_t n,
                               bool everybody) {
    size_t most = 1;
    for (uint32_t k = 0; k < n; k++)
        most += w->jobs[items[k].job].n_seats;
    people_set *seats = arena_array(a, people_set, most);
    for (uint32_t x = 0; x < n; x++) {
        uint32_t running = 0;
        for (uint32_t k = 0; k < n; k++) {
            const plan_job *j = &w->jobs[items[k].job];
            if (j->n_teams != 1 || items[k].from > items[x].from || items[k].to <= items[x].from)
                continue;
            for (uint32_t seat = 0; seat < j->n_seats; seat++)
                seats[running++] =
                    j->teams[0].seats[seat] & (everybody ? w->calendar->everybody : items[k].there);
        }
        if (!seats_can_fill(seats, running, w->calendar->everybody))
            return items[x].from;
    }
    return -1;
}
