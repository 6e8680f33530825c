/* naming.h: the search for names within one session.
 *
 * Private to people.c. Items are stretches of one session; each needs its team, nobody sits on two seats at once.
 */
#ifndef PLAN_NAMING_H
#define PLAN_NAMING_H

#include "plan/people.h"

typedef struct {
    uint32_t job;
    int32_t from, to;
    people_set there; /* all the time */
    const kit_index
        *before; /* who had its seats at the end of the session before, when it goes on; who was told to, when
                         it begins; else NULL */
    kit_index *seats; /* out */
} naming_item;

/* The items that run between two minutes. */
typedef struct {
    int32_t from, before;
} naming_part;

/* Fills the seats of all items. `minutes` (by person, of work so far) is used to choose and brought up to date. Otherwise `why`
 * tells the items that cannot be named, whatever the others do. No try takes more nodes than `effort`. */
people_answer naming_search(arena *a, const people_work *w, naming_item *items, uint32_t n, uint32_t effort,
                            int32_t *minutes, naming_part *why);

/* An instant at which the items running cannot all be staffed, among their starts; -1 when there is none. With `everybody`
 * as if the whole crew were there all the time. */
int32_t naming_blocked_instant(arena *a, const people_work *w, const naming_item *items, uint32_t n,
                               bool everybody);

#endif
