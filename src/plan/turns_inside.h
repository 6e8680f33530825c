/* turns_inside.h: the state of the search for fair turns.
 *
 * Private to turns*.c. Stretches stand by job, then time; counts follow the seats.
 */
#ifndef PLAN_TURNS_INSIDE_H
#define PLAN_TURNS_INSIDE_H

#include "plan/turns.h"

typedef struct {
    planner *p;
    people_stretch *s;
    uint32_t n;
    int32_t finish, limit;              /* limit: of waiting at a stretch */
    people_set *there;                  /* by stretch: all the time */
    const people_stretch ***of_session; /* by session: its stretches by start */
    uint32_t *in_session;               /* how many */
    turns_person *who;                  /* by person */
    int32_t *own;                       /* by person: hands-on minutes */
    int32_t *together;                  /* by two people: minutes at one step, the second a learner */
    int64_t waits;                      /* of learners, beyond the limit */
    bool *skills;                       /* room */
    uint64_t moves;
} turns;

int32_t turns_length(const turns *t, uint32_t x);
int32_t turns_lack(const turns *t, kit_index person);
people_set turns_on(const turns *t, uint32_t x);
people_set turns_busy(const turns *t, uint32_t x, uint32_t y);
int64_t turns_beyond(const turns *t, uint32_t session, kit_index person);
void turns_count(turns *t, uint32_t x, int32_t sign);
bool turns_team_fits(const planner *p, const people_stretch *s);

/* turns_search.c: goes through all namings while they are few enough; true when it has, and the best for waits and lacks is in
 * t->s then. */
bool turns_search(turns *t);

#endif
