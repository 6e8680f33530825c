/* turns.h: who of those who can takes which seat, so that everybody has had a turn.
 *
 * Private to plan/. Begins from any right naming of a schedule and changes nothing but names. What is better, in this
 * order:
 *   1. fewer minutes for which learners who are there wait longer than the workshop's limit at a stretch;
 *   2. the largest lack of a learner, then the next largest, and so on. Lack: the fair share of hands-on minutes by minutes
 *      present, less the own ones;
 *   3. more skills practised by learners for the first time;
 *   4. learners in changing pairs: the sum over pairs of the squares of the minutes at one step together;
 *   5. fewer people who take over a step that others began at the session before.
 * Small plans are searched through for 1 and 2; others improved move by move until no change of one seat and no exchange
 * between two makes them better.
 */
#ifndef PLAN_TURNS_H
#define PLAN_TURNS_H

#include "plan/planner.h"

/* Renames the stretches `named` of a right naming. Fills p->turns_exact. */
void turns_spread(planner *p, people_stretch *named, uint32_t n, int32_t finish);

/* Fills out->turns from the names given. */
void turns_tell(const planner *p, const people_stretch *named, uint32_t n, int32_t finish, plan *out);

/* ---- turns_shares.c: what everybody's share is ---------------------------------------------------------------------------- */

typedef struct {
    bool learner;
    int32_t present, own_before, share; /* minutes; share of learners only */
} turns_person;

/* By person, for a plan with the stretches `named` that ends at `finish`. */
turns_person *turns_shares(const planner *p, const people_stretch *named, uint32_t n, int32_t finish);

/* Those at work on a stretch with their hands; the supervisor beside is not. */
people_set turns_hands(const planner *p, const people_stretch *s);

/* The longest time for which the person is there in the session before `finish` without being in a stretch of `n`, and
 * the minutes of all such times beyond `limit`. */
typedef struct {
    int32_t longest, beyond;
} turns_wait;
turns_wait turns_waiting(const planner *p, const people_stretch *const *list, uint32_t n, uint32_t session,
                         kit_index person, int32_t finish, int32_t limit);

#endif
