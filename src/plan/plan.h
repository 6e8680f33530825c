/* plan.h: kit, crew, sessions and stock -> who does what, when.
 *
 * A plan is made in one call from a kit, a workshop and what is known of the stock, and then only read: by the
 * command line, by paper (run sheets) and by the pages. Making it takes from milliseconds to the time it is given;
 * the scheduling itself is done by sched/, which knows neither kits nor people. This room turns sessions into a line
 * of working minutes, crew and tools into capacities, and the answer back into days and names.
 *
 * Time. All `_min` are working minutes from the first one that is planned (0): the sessions laid end to end without
 * their opening and closing minutes. The minute where one session ends and the next begins is one number: as an end it
 * belongs to the session before, as a start to the one after. Moments are the same on the wall clock (base/date.h).
 *
 * What every plan keeps (docs/planning.md says each rule in plain words):
 *   - a step starts when all it follows are done and their delay is over, on the wall clock or in working time;
 *   - a step that may not be left lies in one session; one that may goes on at the next session's first minute, with
 *     the same needs, and takes its resume minutes more;
 *   - nobody is at two steps at once; a person stays with a step until it ends, the session does, or a change-over
 *     point comes, and is there all that time;
 *   - supervision, skills, workplaces and zones, tools, works that may not be next to each other;
 *   - while anybody works, the minimum of adults is there, and never exactly one adult with exactly one learner;
 *   - a step draws its parts when it starts: from the pieces counted, then from what was promised for a day.
 *
 * Ownership: a plan and all in it live in the arena given; the kit and workshop must outlive it. Indices are those of
 * the kit's and the workshop's arrays.
 */
#ifndef PLAN_PLAN_H
#define PLAN_PLAN_H

#include "base/buf.h"
#include "kit/kit.h"
#include "sched/sched.h"

enum { PLAN_MAX_CREW = 64 };

/* ---- what a plan is made from -------------------------------------------------------------------------------- */

typedef struct {
    kit_index part;
    int64_t quantity; /* > 0 */
    date_moment at;   /* can be drawn from then on; a promised day counts from its midnight */
} plan_arrival;

typedef struct {
    kit_index step;
    date_moment at; /* when it was finished: delays after it count from here */
} plan_done;

/* Some people who were told to be at a step without a change. */
typedef struct {
    kit_index step;
    date_moment from;
    int32_t minutes;
    const kit_index *people; /* without the supervisor beside */
    uint32_t n_people;
    kit_index supervisor; /* KIT_NONE: none */
    bool begun;           /* the step was begun since: what is left of it is no change */
} plan_told;

typedef struct {
    const kit *kit;
    const kit_workshop *workshop;
    const int64_t *usable; /* by part: pieces that can be drawn now; NULL: everything as packed */
    const plan_arrival *arrivals;
    uint32_t n_arrivals;
    const plan_done *done;
    uint32_t n_done;
    const struct plan_paces
        *paces; /* what was learned of this crew's minutes (pace.h); NULL: the beginners' factor for
                                       all steps */
    const plan_told
        *told; /* what was announced; the plan keeps to it as far as its finish allows (announced.h) */
    uint32_t n_told;
    date_moment from; /* nothing starts before; INT64_MIN: from the first session on */
    bool
        finish_only; /* for questions about the finish: nothing is put off to be just in time, no turns are made fair */
    bool without_alone; /* with known_starts: the plan of one step after another may be left out */

    /* By person: minutes at work with their hands before, and then the sessions before count as present; NULL: none. */
    const int32_t *own_before_min;
    double seconds; /* limit of time, 0: none */
    uint64_t
        effort; /* limit of work as sched.h counts it, 0: plan.c's own. With seconds 0 the answer depends on
                         the input alone. */
    uint64_t seed;

    /* A plan of a like build on the same line of sessions to begin with, as starts by step (-1: not planned), or NULL; taken when it is
     * right, so that it can only help. And minutes that no plan can beat, vouched for by the caller; 0: none. */
    const int32_t *known_starts;
    int32_t known_bound_min;

    sched_cancel *cancel; /* asked from another thread or a signal: the best so far is taken; or NULL */

    /* Called now and then while the plan is looked for: its end so far (-1: none yet) and what no plan can beat, in
     * minutes. Or NULL. */
    void (*progress)(void *user, int32_t best_min, int32_t bound_min, double seconds);
    void *user;
} plan_input;

/* ---- the plan -------------------------------------------------------------------------------------------------- */

typedef enum {
    PLAN_OPTIMAL,    /* no plan of these steps finishes earlier */
    PLAN_FEASIBLE,   /* a right plan; an earlier finish is not excluded */
    PLAN_INFEASIBLE, /* nothing of what is left can go ahead */
    PLAN_UNKNOWN     /* the limits ended the search before a plan was found */
} plan_status;

/* A session on the line of working minutes. After the dated sessions undated ones follow while they are needed: as long
 * as the last dated one and, since nobody has said otherwise, with everybody there. */
typedef struct {
    int64_t number;    /* as the workshop numbers it; undated ones count on */
    kit_index session; /* in the workshop; KIT_NONE: undated */
    bool dated;
    int32_t from_min, to_min;
    date_moment begins,
        ends; /* of its working time. Undated: assumed, for delays and promises only; never shown */
} plan_session;

/* Some people at one step without a change. */
typedef struct {
    uint32_t session; /* in plan.sessions */
    int32_t start_min, end_min;
    const kit_index *people; /* at work on it, without the supervisor beside */
    uint32_t n_people;
    kit_index supervisor; /* beside the work; KIT_NONE when none is needed there */
} plan_stretch;

typedef struct {
    kit_index step;
    int32_t start_min, end_min;
    uint32_t session, last_session; /* of its start and its end, in plan.sessions */
    date_moment start, end;         /* on the wall clock; valid when the session of it is dated */
    bool start_dated, end_dated;
    const plan_stretch *stretches;
    uint32_t n_stretches;

    /* How much later it may start without moving the finish, while everybody keeps their steps and their order. None:
     * it decides the finish. */
    int32_t slack_min;
    bool decides_finish;

    int32_t
        put_off_min; /* to be just in time: its start less that of the plan as it was found; 0 or less: not put off */

    /* What it starts right after, beyond people, tools and the end of the steps before: the delay of a step it follows (a
     * cure) is over, pieces of a part have come. KIT_NONE: no such thing. */
    kit_index waits_delay_of, waits_part;

    /* Network planning's figures: after-relations, delays and sessions alone, each step by itself, as if people and
     * tools were plenty. The late ones count back from the network's own end. A step that may pause can have an early
     * end of another start than the early one. */
    int32_t early_start_min, early_end_min, late_start_min, late_end_min;

    /* In the plan that does one step after another; -1 when there is none. */
    int32_t alone_start_min, alone_end_min;
} plan_step;

/* A sub-assembly on its way to the machine. It lies half-built on the shelf from its first start to the start of the
 * last step that it joins at. */
typedef struct {
    kit_index sub_assembly;
    int32_t begun_min, ready_min; /* first start and last end of its steps that are planned */
    bool begun_before;            /* some of its steps are done: it lies there from the first minute */
    bool joins;                   /* what it joins at is planned; without that joined_min is the finish */
    int32_t joined_min;
    int32_t wanted_buffer_min,
        buffer_min; /* as the kit says; between its end (and delay) and its joining step, as planned for */
    int32_t early_begun_min, early_ready_min, early_joined_min; /* had it not been put off */
} plan_unit;

/* How much lies half-built. */
typedef struct {
    uint32_t most;    /* sub-assemblies at one time */
    int64_t unit_min; /* working minutes that each of them lies there, in all */
} plan_shelf;

/* A skill of the kit and when a person practises it: works on a step that asks for it. */
typedef struct {
    kit_index skill;
    bool before;      /* the crew table says so */
    kit_index step;   /* the first in this plan; KIT_NONE: none */
    uint32_t session; /* of it, in plan.sessions */
} plan_practice;

/* What a person gets to do in the plan. Lack: the fair share of the hands-on minutes, by minutes present, less the own ones. */
typedef struct {
    int32_t present_min, own_min; /* until the finish; at work with their hands, not supervising */
    int32_t share_min, lack_min;  /* of learners; 0 for adults */
    int32_t longest_wait_min;     /* there without work at a stretch, at a session before the finish */
    plan_practice *skills;        /* had before or practised, in the order of the kit */
    uint32_t n_skills;
} plan_turn;

/* A step that a missing part stops: pieces went to the steps before it in build order, and what is promised for a day
 * does not fill the gap. One record for each part. */
typedef struct {
    kit_index step, part;
    int64_t missing; /* of the part's unit */
} plan_stopped;

/* A step that could go ahead if the one it follows were not held up. */
typedef struct {
    kit_index step, after;
} plan_waiting;

/* A step this crew cannot do at any session. */
typedef struct {
    kit_index step;
    text reason; /* "nobody of the crew may supervise striking" */
    text remedy; /* "name an adult who supervises it in crew.csv" */
} plan_impossible;

typedef struct {
    const kit *kit;
    const kit_workshop *workshop;
    plan_status status;
    bool proven;
    int32_t makespan_min;    /* end of the last step; 0 without steps */
    int32_t lower_bound_min; /* no plan of these steps ends earlier */
    date_moment finish;      /* the end of the last step; valid when dated */
    bool finish_dated;

    plan_session *
        sessions; /* all dated ones that lie ahead, and the undated ones that either plan uses; with without_alone
                               perhaps no more than the known plan needs */
    uint32_t n_sessions;
    uint32_t n_undated_used; /* undated sessions that this plan needs */

    plan_step *steps; /* by start, then by build order */
    uint32_t n_steps;
    plan_turn *turns;        /* by person of the crew; NULL in a plan of the finish only */
    int32_t wait_beyond_min; /* minutes for which learners wait longer than the workshop's limit, in all */
    bool
        turns_least; /* no other choice of people for these steps at these times has less of those, then lesser lacks */

    plan_unit *units; /* sub-assemblies of which a step is planned, in the order of the kit's table */
    uint32_t n_units;
    plan_shelf shelf, early_shelf; /* as planned; had nothing been put off */
    bool shelf_least;              /* proven: with this finish and these buffers less cannot lie there */

    plan_stopped *stopped;
    uint32_t n_stopped;
    plan_waiting *waiting;
    uint32_t n_waiting;
    plan_impossible *impossible;
    uint32_t n_impossible;

    int32_t one_after_another_min; /* end of the last step when no two ever run together; -1: no such plan */
    uint32_t one_after_another_sessions;
    date_moment one_after_another_finish;
    bool one_after_another_dated;

    const struct plan_paces *paces; /* the input's */
    bool announced;                 /* a plan was announced before */
    struct plan_shift *shifts;      /* what this one changes of it (announced.h) */
    uint32_t n_shifts;
} plan;

/* Makes a plan. false for what no plan can be made from: a kit without steps, a workshop without crew or sessions, sessions that
 * overlap, a crew above PLAN_MAX_CREW (ERR_INPUT). Missing parts and steps nobody can do are no failure: they stand in
 * the plan. The kit must have passed kit_check. */
MUST_USE bool plan_make(arena *a, const plan_input *in, plan **out, err *e);

/* "optimal", "feasible", "infeasible", "unknown" */
const char *plan_status_word(plan_status s);

/* The session a minute belongs to as a start (is_end false) or as an end; index into plan.sessions. */
uint32_t plan_session_at(const plan *p, int32_t minute, bool is_end);

/* The planned step of the kit's step, or NULL when it is done, stopped, waiting or impossible. */
const plan_step *plan_find_step(const plan *p, kit_index step);

/* ---- changes, and what they buy --------------------------------------------------------------------------------- */

typedef enum {
    PLAN_ONE_MORE_PERSON,    /* who may do what person `what` may, at every session */
    PLAN_ALWAYS_THERE,       /* person `what` comes to every session, all of it */
    PLAN_STAYS_AWAY,         /* person `what` does not come to session `session` of the workshop */
    PLAN_ONE_MORE_TOOL,      /* of tool `what` */
    PLAN_ONE_MORE_WORKPLACE, /* of zone `what` */
    PLAN_ONE_MORE_SESSION,   /* on the day after session `what`, at its times, with everybody there */
    PLAN_SESSION_CANCELLED,  /* session `what` */
    PLAN_PART_HERE,          /* every piece of part `what` that the steps need is here at the start */
    PLAN_PERSON_GONE,        /* person `what` comes to no session any more */
    PLAN_ONE_LESS_TOOL,      /* of tool `what` */
    PLAN_ONE_LESS_WORKPLACE, /* of zone `what` */
    PLAN_PART_LATER          /* everything promised of part `what` comes `session` days later than promised */
} plan_change_kind;

typedef struct {
    plan_change_kind kind;
    kit_index what,
        session; /* session: KIT_NONE where it does not apply; of PLAN_PART_LATER a number of days */
} plan_change;

/* The input with these changes made, in `a`; what is not changed is shared with `in`. Indices of `in` stay valid in it. */
void plan_change_input(arena *a, const plan_input *in, const plan_change *changes, uint32_t n,
                       plan_input *out);

/* "a second ring spanner 13 mm (T-04)", "Ada at all of every session" */
text plan_change_words(arena *a, const plan_input *in, plan_change change);

/* A plan in the figures by which two are compared. */
typedef struct {
    uint32_t steps_planned, sessions; /* sessions: used up to the finish, before which `finish` lies */
    int32_t makespan_min;
    date_moment finish;
    bool dated, proven, found;
} plan_outcome;

plan_outcome plan_outcome_of(const plan *p);

/* Which is better: more steps, then the earlier finish on the wall clock. < 0: a is better. */
int plan_compare_outcomes(const plan_outcome *a, const plan_outcome *b);

typedef struct {
    plan_change change;
    plan_outcome then;
    int32_t days_earlier,
        min_earlier; /* of the finish: calendar days; minutes on the clock. Both 0 when nothing is gained */
    uint32_t more_steps; /* steps that can then go ahead too */
    bool sure;           /* both plans are proven: the gain is this and no other */
    text sentence;
} plan_effect;

typedef struct {
    plan_outcome now;
    plan_effect *effects; /* every change that was tried, the best first */
    uint32_t n_effects;
    uint32_t n_plans; /* solved for the answer */

    bool wanted, met; /* a wanted day was given; today's plan meets it */
    /* The smallest set of these changes with which the plan is complete by the wanted day. Empty when none is needed or
     * none of up to `tried` changes was found. With `least` no smaller set of them does; otherwise a plan that could
     * not be proven leaves room for one. */
    plan_change *enough;
    uint32_t n_enough, tried;
    bool least;
    bool never; /* not even all of them at once do: proven */
} plan_why;

/* What holds the build up, found by solving again: once for each person, tool, workplace, session and missing part that
 * could matter. `now` is the plan of `in`. Failing as plan_make. */
MUST_USE bool plan_ask_why(arena *a, const plan_input *in, const plan *now, plan_why **out, err *e);

/* The answer as docs/json.md gives it. */
void plan_write_why_json(const plan_input *in, const plan_why *w, buf *out);

/* ---- as JSON ------------------------------------------------------------------------------------------------------- */

/* The plan as docs/json.md gives it, one object. */
void plan_write_json(const plan *p, buf *out);

#include "plan/announced.h"  /* what was announced, and what changes of it */
#include "plan/curve.h"      /* the finish against the size of the crew */
#include "plan/evening.h"    /* one session */
#include "plan/late_parts.h" /* which missing pieces to chase, what to order by when */
#include "plan/pace.h"       /* how long this crew takes */
#include "plan/risk.h"       /* the plan carried out many times */
#include "plan/tonight.h"    /* steps that a session cannot hold */

#endif
