/* risk_state.h: where a carrying-out of a plan stands; shared by risk_run.c, which moves through the sessions, and risk_try.c, which
 * says what can begin.
 *
 * Private to plan/.
 */
#ifndef PLAN_RISK_STATE_H
#define PLAN_RISK_STATE_H

#include "plan/risk_run.h"

#define NO_TASK UINT32_MAX

enum { TASK_WAITS, TASK_RUNS, TASK_RESTS, TASK_DONE };

/* What a task waited for last, apart from what it follows and from the clock. */
typedef enum { WAIT_NOTHING, WAIT_FRONT, WAIT_THING, WAIT_PEOPLE } task_wait;

typedef struct {
    uint8_t state;
    task_wait wait;
    uint32_t
        wait_for; /* FRONT: a task; THING: a resource, or n_resources + a task that may not run beside it */
    uint32_t driver;  /* the task whose end let it begin; NO_TASK */
    uint32_t missing; /* of what it follows, not done yet */
    int32_t ready, start, end;
    int32_t all, work, getting_in; /* minutes: drawn; of them left; of getting back into it */
    int32_t until;                 /* RUNS: the end of this stretch */
    people_set there;              /* RUNS: who may sit there all the stretch */
    const people_set *seats;       /* RUNS: the team */
} risk_progress;

struct risk_run {
    const risk_model *m;
    risk_progress *tasks;
    uint32_t *running, n_running, n_done;
    int32_t *used;
    uint32_t *last_holder; /* by resource */
    int32_t *stock, *arrives;
    people_set *gathered; /* seats of all running tasks and one more */
    uint32_t n_gathered_most;

    /* The session that is on. */
    uint32_t session;
    int32_t to;
    const calendar_presence *pieces;
    uint32_t n_pieces;
    people_set *came, *there; /* by piece: who came; the same, or nobody when nobody may work then */
    bool reserve, held_up;

    int32_t wake; /* the next minute at which something may change */
    bool *marks;
    risk_sums sums;
};

/* Begins or takes up the task at minute t when everything allows it; otherwise lowers r->wake to the minute at which it may be worth
 * another look, as far as that is known. `front`: the first task of the order that has not begun, NO_TASK when all before it have. */
bool risk_try_begin(risk_run *r, uint32_t task, int32_t t, uint32_t front);
bool risk_try_again(risk_run *r, uint32_t task, int32_t t);

/* The end of the session's people, a new one comes: who is there. */
void risk_enter_session(risk_run *r, uint32_t session, uint64_t key, uint32_t reserve);

#endif
