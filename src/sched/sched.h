/* sched.h: scheduling under limited resources, with a proof.
 *
 * You describe a problem (tasks, what must come before what, resources, calendars), call sched_solve, and get start
 * times, the latest end ("makespan") and a lower bound no schedule can beat. Where the two meet the plan is proven
 * best. A first use, two tasks that share one spanner:
 *
 *     sched_problem *p = sched_open();
 *     int32_t spanner = sched_add_resource(p, 1);
 *     int32_t a = sched_add_task(p, 30), b = sched_add_task(p, 20);
 *     sched_set_demand(p, a, spanner, 1);
 *     sched_set_demand(p, b, spanner, 1);
 *     sched_options o = sched_default_options();
 *     sched_result *r;
 *     sched_fault fault;
 *     if (sched_solve(p, &o, &r, &fault)) printf("%d\n", r->makespan);      // 50
 *     sched_result_close(r);
 *     sched_close(p);
 *
 * Time is a bare integer: minutes, hours, whatever the caller counts; all of it lies in 0 .. SCHED_TIME_MAX. A task
 * that starts at s and lasts d holds its resources in [s, s + d). Indices count from 0 in the order of adding.
 *
 * Building never fails at once: a wrong value is remembered and told by sched_validate (and by sched_solve), so that
 * a caller writes down its whole problem and looks at one place. Calls with an index that does not exist are such
 * faults too. After a problem is validated, several threads may solve it at the same time; nobody may change it
 * meanwhile.
 *
 * There is no global state and no input or output. Memory is taken by malloc and counted against the limit in the
 * options; running out of it gives the best schedule found so far, or SCHED_UNKNOWN.
 */
#ifndef SCHED_SCHED_H
#define SCHED_SCHED_H

#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/attributes.h"

#define SCHED_TIME_MAX 100000000    /* largest time, duration, delay */
#define SCHED_AMOUNT_MAX 1000000000 /* largest capacity, demand, stock amount */
#define SCHED_TASKS_MAX 1000000
#define SCHED_NONE (-1)

typedef struct sched_problem sched_problem;

/* ---- the problem ------------------------------------------------------------------------------------------- */

/* A new, empty problem, or NULL when there is no memory. The caller owns it; sched_close(NULL) is allowed. */
sched_problem *sched_open(void);
void sched_close(sched_problem *p);

/* Adds a task of `duration` >= 0 and returns its index. */
int32_t sched_add_task(sched_problem *p, int32_t duration);

/* Never starts before `earliest_start`; never ends after `latest_end`; starts at `start` and nowhere else. */
void sched_set_release(sched_problem *p, int32_t task, int32_t earliest_start);
void sched_set_deadline(sched_problem *p, int32_t task, int32_t latest_end);
void sched_fix_start(sched_problem *p, int32_t task, int32_t start);

/* Nothing may end after `horizon`. Without it a horizon long enough for one task after the other is taken. */
void sched_set_horizon(sched_problem *p, int32_t horizon);

/* Adds first .. last (both included) to the starts the task may have. A task without any such call may start
 * anywhere. */
void sched_allow_starts(sched_problem *p, int32_t task, int32_t first, int32_t last);

/* Cut points: instants, such as the end of a session, that belong to the whole problem. What they mean to a task is
 * said task by task:
 *   SCHED_CUT_IGNORED  nothing (the default);
 *   SCHED_CUT_KEPT     the task never has a cut strictly inside its run;
 *   SCHED_CUT_COSTS    at each cut reached with work left, `extra` >= 0 is added to the work left: the time to take it
 *                      up again. Its resources are held throughout. */
typedef enum { SCHED_CUT_IGNORED, SCHED_CUT_KEPT, SCHED_CUT_COSTS } sched_crossing;
void sched_add_cut(sched_problem *p, int32_t time);
void sched_set_crossing(sched_problem *p, int32_t task, sched_crossing crossing, int32_t extra);

/* A renewable resource with the given capacity, changed in [from, to) by sched_set_capacity; of several changes of
 * one instant the last call counts. Past the last change the first capacity holds. */
int32_t sched_add_resource(sched_problem *p, int32_t capacity);
void sched_set_capacity(sched_problem *p, int32_t resource, int32_t from, int32_t to, int32_t capacity);

/* The task holds `amount` >= 0 of the resource from its start to its end. The last call counts. A task of duration 0
 * holds nothing. */
void sched_set_demand(sched_problem *p, int32_t task, int32_t resource, int32_t amount);

/* A delay counted on another clock: a map f of times, f(t) >= t, never falling. From `from` on (to the next piece)
 * f(t) = value + slope * (t - from), slope 0 or 1. Before the first piece f(t) = t. Returns the map's index. */
typedef struct {
    int32_t from, value, slope;
} sched_map_piece;
int32_t sched_add_map(sched_problem *p, const sched_map_piece *pieces, size_t n);

/* `after` starts no earlier than x + delay (map SCHED_NONE) or f(x) + delay, where x is the end of `before`
 * (SCHED_END_START) or its start (SCHED_START_START). delay >= 0. Cycles are a fault. */
typedef enum { SCHED_END_START, SCHED_START_START } sched_relation_kind;
void sched_add_relation(sched_problem *p, sched_relation_kind kind, int32_t before, int32_t after,
                        int32_t delay, int32_t map);

/* The two tasks never run at the same time. A task of duration 0 never overlaps anything. */
void sched_forbid_overlap(sched_problem *p, int32_t a, int32_t b);

/* A set of tasks that may never run all at the same instant. */
void sched_forbid_all_overlap(sched_problem *p, const int32_t *tasks, size_t n);

/* A reservoir: stock of which `initial` is there at time 0, `amount` more arrives at `time`, a task draws at its start
 * and gives back at its end. At every instant the stock, with all that happens at that instant counted in, is at least
 * 0. (Room on a shelf is a reservoir too: drawn by the first task, given back by the last.) */
int32_t sched_add_reservoir(sched_problem *p, int32_t initial);
void sched_add_arrival(sched_problem *p, int32_t reservoir, int32_t time, int32_t amount);
void sched_set_draw(sched_problem *p, int32_t task, int32_t reservoir, int32_t amount);
void sched_set_give(sched_problem *p, int32_t task, int32_t reservoir, int32_t amount);

/* Second-stage objectives: once the makespan is as small as could be found it is kept, and the objectives are minimised
 * one after the other, each without spoiling those before it. An objective is a sum of costs, each a function of one
 * task's start: cost(s) = value + slope * (s - from) from `from` on (to the next piece); before the first piece the
 * first `value`. |value| <= 10^12, |slope| <= 10^6. */
typedef struct {
    int32_t from;
    int64_t value;
    int32_t slope;
} sched_cost_piece;
int32_t sched_add_objective(sched_problem *p);
void sched_add_cost(sched_problem *p, int32_t objective, int32_t task, const sched_cost_piece *pieces,
                    size_t n);

int32_t sched_task_count(const sched_problem *p);

/* ---- faults ------------------------------------------------------------------------------------------------ */

typedef enum {
    SCHED_FAULT_NONE,
    SCHED_FAULT_INDEX,   /* a task, resource, map, reservoir or objective that does not exist */
    SCHED_FAULT_VALUE,   /* a value outside its range */
    SCHED_FAULT_CYCLE,   /* relations that go round; `task` and `other` lie on the cycle */
    SCHED_FAULT_MAP,     /* a map that falls, or goes back in time, or has another slope than 0 or 1 */
    SCHED_FAULT_COST,    /* pieces of a cost not in order */
    SCHED_FAULT_HORIZON, /* the times needed exceed SCHED_TIME_MAX: count in a coarser unit */
    SCHED_FAULT_MEMORY,  /* no memory to write the problem down */
    SCHED_FAULT_INTERNAL /* the checker refused an answer of the solver: a bug of this library, never a bad plan */
} sched_fault_code;

typedef struct {
    sched_fault_code code;
    int32_t task, other, resource; /* SCHED_NONE where it does not apply */
    int64_t value;
    char text[192]; /* an English sentence with the indices in it */
} sched_fault;

/* How many faults the calls so far have been found to have (never more than 64), and the last of them in `last` (or NULL). Asked
 * after each call it tells which one was wrong. */
size_t sched_faults_so_far(const sched_problem *p, sched_fault *last);

/* All faults, at most `room` of them into `out`; returns how many there are (0: the problem can be solved). A demand
 * above every capacity or an empty window is not a fault but makes the problem infeasible, which sched_solve tells
 * with its reason. */
size_t sched_validate(const sched_problem *p, sched_fault *out, size_t room);

/* ---- solving ----------------------------------------------------------------------------------------------- */

typedef enum {
    SCHED_UNKNOWN,   /* nothing found, nothing excluded, within the limits */
    SCHED_FEASIBLE,  /* a schedule; lower_bound < makespan */
    SCHED_OPTIMAL,   /* a schedule; lower_bound == makespan */
    SCHED_INFEASIBLE /* there is none; see the reason */
} sched_status;

/* Set from any thread to make the solve come back soon with its best. */
typedef struct {
    atomic_bool asked;
} sched_cancel;
void sched_ask_cancel(sched_cancel *c);

/* What a caller's check says of a schedule it does not want. Filled through the functions below from inside the
 * check. */
typedef struct sched_refusal sched_refusal;

/* "Not all of these tasks may run at one instant." They must do so in the schedule shown. */
void sched_refuse_overlap(sched_refusal *r, const int32_t *tasks, size_t n);

/* "Not all of these may hold": start of `task` at least / at most `value`. All must hold in the schedule shown. */
typedef struct {
    int32_t task;
    bool at_most;
    int32_t value;
} sched_start_bound;
void sched_refuse_bounds(sched_refusal *r, const sched_start_bound *bounds, size_t n);

/* "But this one could be taken": starts of all tasks. Looked at when the makespan is still being minimised, taken when it is
 * right and better than the best so far; the check is not asked again. The last call in a check counts. */
void sched_suggest_instead(sched_refusal *r, const int32_t *starts);

typedef struct {
    int32_t best; /* makespan of the best schedule so far, SCHED_NONE before the first */
    int32_t lower_bound;
    double seconds;
    uint64_t schedules, conflicts;
} sched_progress;

typedef enum { SCHED_CLOCK_WALL, SCHED_CLOCK_PROCESSOR } sched_clock;

typedef struct {
    double seconds; /* 0: no limit by time */
    sched_clock
        clock; /* which clock `seconds` is counted on; PROCESSOR: the time the calling thread (with several
                               threads, each of them) has had of a processor, so that a busy machine changes nothing */
    uint64_t effort; /* 0: no limit; else the work allowed in units of about a thousand elementary steps. With
                               one thread and no limit by time the answer depends on nothing else. */
    uint64_t schedules; /* 0: no limit; else stop after so many generated schedules and prove nothing */
    uint64_t seed;
    int32_t threads;       /* >= 1 */
    uint64_t memory_bytes; /* limit of what this solve allocates; 0: 256 MiB */
    sched_cancel *cancel;  /* or NULL */

    /* Called from the solving threads, one call at a time. `progress` when the best or the bound changes and about ten
     * times a second. `check` for every schedule that would become the best: false refuses it, and then at least
     * one refusal must have been given, else the solve ends as SCHED_FAULT_INTERNAL. */
    void (*progress)(void *user, const sched_progress *now);
    bool (*check)(void *user, const int32_t *starts, sched_refusal *why);
    void *user;

    const int32_t *known_starts; /* a schedule to begin with, or NULL; taken if it is right */
    int32_t known_lower_bound;   /* a makespan bound the caller vouches for, or 0 */
} sched_options;

/* One thread, wall clock, no limits, seed 1. */
sched_options sched_default_options(void);

typedef struct {
    sched_status status;
    int32_t makespan;    /* latest end of all tasks; SCHED_NONE without a schedule */
    int32_t lower_bound; /* no schedule ends earlier */
    int32_t task_count;
    const int32_t *starts, *ends; /* task_count each, or NULL without a schedule */

    /* For each objective its value in this schedule and a bound for it given the makespan and the values of the
     * objectives before; equal: proven. Objectives not reached within the limits have bound INT64_MIN. */
    int32_t objective_count;
    const int64_t *objective, *objective_bound;

    /* Why infeasible (or, with status SCHED_UNKNOWN, what ended the solve): tasks and resources that cannot be had
     * together, and a sentence. A reason is sufficient: with nothing else in the problem there is no schedule. Where the
     * limits allow it is also without anything superfluous. */
    const int32_t *reason_tasks, *reason_resources;
    int32_t reason_task_count, reason_resource_count;
    char reason[192];

    double seconds;
    uint64_t effort, schedules, conflicts, memory_peak;
} sched_result;

/* Solves. Where all times are multiples of some unit (minutes that are whole hours), it is that many times less work. false: a fault of the problem, or of this library (SCHED_FAULT_INTERNAL), in `fault`; *out is then NULL.
 * true: a result, which the caller closes. Every schedule handed out has passed sched_check. */
MUST_USE bool sched_solve(const sched_problem *p, const sched_options *o, sched_result **out,
                          sched_fault *fault);
void sched_result_close(sched_result *r);

/* ---- simulation -------------------------------------------------------------------------------------------- */

/* How long a task may take: triangular, or the three-point beta distribution of network planning (mean (low + 4 likely + high) / 6).
 * 0 <= low <= likely <= high; low == high: certain. */
typedef enum { SCHED_TRIANGULAR, SCHED_BETA } sched_shape;
typedef struct {
    int32_t low, likely, high;
    sched_shape shape;
} sched_duration;

/* With this probability the capacity of `resource` in [from, to) is `capacity` instead of the planned one. Rows one after the other
 * with the same `event` happen together or not at all (a person who stays away takes several skills along). */
typedef struct {
    int32_t event, resource, from, to, capacity;
    double probability;
} sched_random_change;

typedef struct {
    const int32_t *starts;           /* the plan: its order is the policy */
    const sched_duration *durations; /* one for each task */
    const sched_random_change *changes;
    size_t change_count;
    uint64_t samples, seed;
    int32_t threads;
} sched_simulation;

typedef struct {
    uint64_t samples;
    int32_t task_count;
    int32_t *makespans; /* by sample; SCHED_NONE where some task could never be done */
    uint32_t *
        decides; /* by task: in how many samples it decided the finish: delayed, it would have delayed the last end */
} sched_simulated;

/* The plan carried out many times: tasks start in the order of their planned starts, none before the one in front of it has started,
 * each as soon as what must come before it, resources, cuts and stock allow; nothing is planned anew in between. Deadlines do not
 * bind, fixed starts are releases. A duration drawn longer than the longest stretch between two cuts, of a task that keeps its cuts,
 * is taken as that stretch. The same seed gives the same samples with any number of threads on any machine. */
MUST_USE bool sched_simulate(const sched_problem *p, const sched_simulation *what, sched_simulated **out,
                             sched_fault *fault);
void sched_simulated_close(sched_simulated *r);

/* ---- the checker ------------------------------------------------------------------------------------------- */

/* Does this schedule keep every rule of the problem? Written straight from the definitions above and sharing no code
 * with the solver. On false `fault` names the first broken rule. *makespan is filled when it holds. */
bool sched_check(const sched_problem *p, const int32_t *starts, int32_t *makespan, sched_fault *fault);

/* Value of an objective for these starts. */
int64_t sched_objective_value(const sched_problem *p, int32_t objective, const int32_t *starts);

/* End of `task` when it starts at `start` (SCHED_CUT_COSTS makes it depend on the start). */
int32_t sched_end_of(const sched_problem *p, int32_t task, int32_t start);

#endif
