/* naming.c: the stretches of a session, cut where nothing goes on, each piece named by itself. */
#include "plan/naming.h"

#include "plan/sweep.h"

/* By start; of those that start together the longer first, since it matters for longer. */
static bool goes_before(const naming_item *x, const naming_item *y) {
    return x->from != y->from ? x->from < y->from : x->to > y->to;
}

people_answer naming_search(arena *a, const people_work *w, naming_item *items, uint32_t n, uint32_t effort,
                            int32_t *minutes, naming_part *why) {
    naming_item **by_start = arena_array(a, naming_item *, n);
    for (uint32_t k = 0; k < n; k++) {
        uint32_t x = k;
        for (; x > 0 && goes_before(&items[k], by_start[x - 1]); x--)
            by_start[x] = by_start[x - 1];
        by_start[x] = &items[k];
    }
    for (uint32_t first = 0, last; first < n; first = last) {
        int32_t to = by_start[first]->to;
        for (last = first + 1; last < n && by_start[last]->from < to; last++)
            to = by_start[last]->to > to ? by_start[last]->to : to;
        uint32_t reached;
        people_answer answer = sweep_name(a, w, by_start + first, last - first, effort, minutes, &reached);
        if (answer == PEOPLE_NAMED)
            continue;
        int32_t until = 0;
        for (uint32_t k = first; k < first + reached; k++)
            until = by_start[k]->to > until ? by_start[k]->to : until;
        *why = (naming_part){by_start[first]->from, answer == PEOPLE_CANNOT ? until : to};
        return answer;
    }
    return PEOPLE_NAMED;
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
