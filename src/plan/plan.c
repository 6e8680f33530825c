/* plan.c: the order in which a plan is made.
 *
 *   1. which steps the pieces suffice for and this crew can do; a step found impossible on the way sends us back here
 *   2. a line of sessions long enough to do one step after another
 *   3. the plan that does just that; its end is where the line may end
 *   4. the plan in which sub-assemblies run beside the main machine, begun from the one before
 *   5. with the finish kept, sub-assemblies put off until just before they are needed; when the crew was told a plan, the
 *      one nearest to that instead
 *   6. names, days, slack
 */
#include <stdlib.h>
#include <string.h>

#include "plan/answer.h"
#include "plan/just_in_time.h"
#include "plan/solve.h"
#include "plan/stay.h"

/* Undated sessions that a plan may go on over, and how many days away a promise may lie before it counts as none. */
enum { MAX_UNDATED = 2000, MAX_DAYS_AHEAD = 1000 };

static void make_impossible(planner *p, kit_index step, text reason, text remedy) {
    p->supply.fate[step] = STOCK_FATE_IMPOSSIBLE;
    p->reasons[step] = reason;
    p->remedies[step] = remedy;
}

/* Leaves out what is promised for a day beyond all planning. */
static void take_arrivals(planner *p, const plan_input *in) {
    date_day last = 0;
    for (kit_index s = 0; s < p->workshop->n_sessions; s++)
        last = p->workshop->sessions[s].day > last ? p->workshop->sessions[s].day : last;
    plan_arrival *list = arena_array(p->memory, plan_arrival, in->n_arrivals);
    p->in.arrivals = list;
    p->in.n_arrivals = 0;
    for (uint32_t k = 0; k < in->n_arrivals; k++)
        if (in->arrivals[k].quantity > 0 && date_of_moment(in->arrivals[k].at) - last <= MAX_DAYS_AHEAD)
            list[p->in.n_arrivals++] = in->arrivals[k];
}

static bool check_input(const plan_input *in, err *e) {
    if (in->kit->n_steps == 0)
        return err_input(e, "steps", "add the steps of the build to steps.csv of the kit",
                         "the kit has no steps, so there is nothing to plan");
    if (!in->workshop)
        return err_input(e, "workshop", "make the build file with --workshop FOLDER",
                         "the build has no workshop: no crew and no sessions to plan with");
    return true;
}

/* This crew's minutes for a hundred of the kit's. */
static int64_t percent_of(const planner *p, kit_index step) {
    return p->in.paces ? p->in.paces->percent_of_step[step] : p->workshop->beginners_percent;
}

static bool begin(planner *p, arena *a, const plan_input *in, err *e) {
    *p = (planner){.memory = a, .in = *in, .kit = in->kit, .workshop = in->workshop};
    if (!check_input(in, e) || !calendar_open(a, in->workshop, in->from, 0, &p->calendar, e))
        return false;
    uint32_t n = in->kit->n_steps;
    take_arrivals(p, in);
    p->build_order = kit_build_order(a, in->kit);
    p->reasons = arena_array(a, text, n);
    p->remedies = arena_array(a, text, n);
    p->supply.fate = arena_array(a, stock_fate, n);
    for (kit_index s = 0; s < n; s++)
        p->supply.fate[s] = STOCK_FATE_GOES;
    for (uint32_t k = 0; k < in->n_done; k++)
        p->supply.fate[in->done[k].step] = STOCK_FATE_DONE;
    for (kit_index s = 0; s < n; s++) {
        plan_job j;
        text reason, remedy;
        job_of_step(a, in->kit, &p->calendar, s, percent_of(p, s), &j);
        if (p->supply.fate[s] == STOCK_FATE_GOES && !limits_allow(p, &j, &reason, &remedy))
            make_impossible(p, s, reason, remedy);
    }
    return true;
}

/* ---- the line of sessions ------------------------------------------------------------------------------------------- */

static void list_jobs(planner *p) {
    supply_share(p->memory, &p->in, p->build_order, &p->supply);
    p->jobs = arena_array(p->memory, plan_job, p->kit->n_steps);
    p->job_of = arena_array(p->memory, uint32_t, p->kit->n_steps);
    p->n_jobs = 0;
    for (uint32_t k = 0; k < p->kit->n_steps; k++) {
        kit_index step = p->build_order[k];
        p->job_of[step] = NO_JOB;
        if (p->supply.fate[step] != STOCK_FATE_GOES)
            continue;
        p->job_of[step] = p->n_jobs;
        job_of_step(p->memory, p->kit, &p->calendar, step, percent_of(p, step), &p->jobs[p->n_jobs++]);
    }
}

/* Enough undated sessions for one step after another: each begins a session of its own and waits out its delay. */
static uint32_t undated_needed(const planner *p) {
    int64_t minutes = calendar_undated_minutes(p->workshop), days = calendar_undated_days(p->workshop);
    int64_t sessions = 1;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        const plan_job *it = &p->jobs[j];
        const kit_step *s = &p->kit->steps[it->step];
        int64_t net = minutes - it->resume;
        sessions += 1 + (it->may_pause && net > 0 ? (it->duration + net - 1) / net : 1);
        sessions += s->delay_clock == KIT_WALL_CLOCK ? s->delay_min / (days * MINUTES_PER_DAY) + 1
                                                     : s->delay_min / minutes + 1;
    }
    for (uint32_t k = 0; k < p->in.n_arrivals; k++) {
        int64_t away = date_of_moment(p->in.arrivals[k].at);
        for (kit_index s = 0; s < p->workshop->n_sessions; s++)
            away = date_of_moment(p->in.arrivals[k].at) - p->workshop->sessions[s].day < away
                       ? date_of_moment(p->in.arrivals[k].at) - p->workshop->sessions[s].day
                       : away;
        sessions += away > 0 ? (away / days + 1) : 0;
    }
    return (uint32_t)(sessions < MAX_UNDATED ? sessions : MAX_UNDATED);
}

/* Lays `undated` sessions behind the dated ones and works everything out that depends on the line. false: a job has
 * no place on it; it is then impossible. */
static bool lay_line(planner *p, uint32_t undated, bool *all_fit, err *e) {
    *all_fit = true;
    if (!calendar_open(p->memory, p->workshop, p->in.from, undated, &p->calendar, e))
        return false;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        text reason, remedy;
        job_find_starts(p->memory, &p->calendar, &p->jobs[j]);
        if (p->jobs[j].n_starts > 0)
            continue;
        limits_tell_no_start(p, &p->jobs[j], &reason, &remedy);
        make_impossible(p, p->jobs[j].step, reason, remedy);
        *all_fit = false;
    }
    if (!*all_fit)
        return true;
    planner_relate(p);
    return true;
}

static network network_of(const planner *p) {
    return (network){.calendar = &p->calendar,
                     .jobs = p->jobs,
                     .n_jobs = p->n_jobs,
                     .links = p->links,
                     .n_links = p->n_links,
                     .order = p->order,
                     .release = p->release};
}

static void make_too_late(planner *p, uint32_t job) {
    make_impossible(p, p->jobs[job].step,
                    TEXT("what comes before it is done too late for the sessions at which it could be done"),
                    TEXT("bring those it needs together at a later session, or hold a longer one later"));
}

/* Jobs and a line on which each of them has a place. */
static bool find_line(planner *p, err *e) {
    for (;;) {
        bool all_fit;
        list_jobs(p);
        if (!lay_line(p, undated_needed(p), &all_fit, e))
            return false;
        if (!all_fit)
            continue;
        network n = network_of(p);
        uint32_t late = network_forward(&n, arena_array(p->memory, network_times, p->n_jobs));
        if (late == UINT32_MAX)
            return true;
        make_too_late(p, late);
    }
}

bool planner_begin(planner *p, arena *a, const plan_input *in, err *e) {
    return begin(p, a, in, e) && find_line(p, e);
}

/* Cuts the line behind the session in which the given minute ends. */
static bool shorten_line(planner *p, int32_t minute, err *e) {
    uint32_t session = calendar_session(&p->calendar, minute, true);
    uint32_t undated = session + 1 > p->calendar.n_dated ? session + 1 - p->calendar.n_dated : 0;
    bool all_fit;
    return lay_line(p, undated, &all_fit, e);
}

/* For questions about the finish alone: the known plan's own line, up to the session in which it ends. No better plan needs
 * more, and nothing has to be found to tell how long the line must be. false in `laid` when the known plan does not
 * lie on the dated sessions. */
static bool lay_known_line(planner *p, bool *laid, err *e) {
    int32_t finish = 0;
    *laid = false;
    if (!p->in.without_alone || !p->in.known_starts)
        return true;
    list_jobs(p);
    if (!calendar_open(p->memory, p->workshop, p->in.from, 0, &p->calendar, e))
        return false;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        plan_job *it = &p->jobs[j];
        int32_t start = p->in.known_starts[it->step], end = -1;
        job_find_starts(p->memory, &p->calendar, it);
        if (start >= 0 && job_next_start(it, start) == start)
            end = job_end(&p->calendar, it, start);
        if (end < 0)
            return true;
        finish = end > finish ? end : finish;
    }
    p->calendar.n_sessions = calendar_session(&p->calendar, finish, true) + 1;
    p->calendar.end = p->calendar.sessions[p->calendar.n_sessions - 1].to_min;
    p->calendar.n_dated = p->calendar.n_sessions;
    while (p->calendar.n_presence > 0 &&
           p->calendar.presence[p->calendar.n_presence - 1].from >= p->calendar.end)
        p->calendar.n_presence--;
    for (uint32_t j = 0; j < p->n_jobs; j++)
        job_find_starts(p->memory, &p->calendar, &p->jobs[j]);
    planner_relate(p);
    *laid = p->n_jobs > 0;
    return true;
}

/* ---- making ----------------------------------------------------------------------------------------------------------- */

/* No schedule was found although each job has its place alone. Only jobs that cannot be done at undated sessions, where
 * everybody is there, can be in the way: the one with the least room is given up. NO_JOB when there is none. */
static uint32_t tightest_job(const planner *p) {
    const calendar *c = &p->calendar;
    int32_t undated_from = c->n_dated < c->n_sessions ? c->sessions[c->n_dated].from_min : c->end, least = 0;
    network n = network_of(p);
    network_times *times = arena_array(p->memory, network_times, p->n_jobs);
    (void)network_forward(&n, times); /* find_line made sure of it */
    uint32_t tightest = NO_JOB;
    for (uint32_t j = 0; j < p->n_jobs; j++) {
        int32_t last = p->jobs[j].starts[p->jobs[j].n_starts - 1].last, room = last - times[j].early_start;
        if (last < undated_from && (tightest == NO_JOB || room < least)) {
            tightest = j;
            least = room;
        }
    }
    return tightest;
}

/* Solves both. When there is no schedule one of the jobs is given up, and all begins again. */
static bool solve_both(planner *p, solve_answer *alone, solve_answer *together, err *e) {
    bool laid;
    *alone = *together = (solve_answer){0};
    if (!lay_known_line(p, &laid, e) || (laid && !solve_together(p, NULL, together, e)))
        return false;
    if (laid && together->found)
        return true;
    for (;;) {
        *alone = *together = (solve_answer){0};
        if (!find_line(p, e))
            return false;
        if (p->n_jobs == 0)
            return true;
        stay_begin(p);
        if (!solve_alone(p, alone, e) || (alone->found && !shorten_line(p, alone->makespan, e)) ||
            !solve_together(p, alone->found ? alone->starts : NULL, together, e))
            return false;
        uint32_t tightest = together->found ? NO_JOB : tightest_job(p);
        if (tightest == NO_JOB)
            return true;
        make_too_late(p, tightest);
    }
}

bool plan_make(arena *a, const plan_input *in, plan **out, err *e) {
    planner p;
    solve_answer alone, together;
    if (!begin(&p, a, in, e) || !solve_both(&p, &alone, &together, e))
        return false;
    const int32_t *early = together.starts;
    if (together.found && !in->finish_only &&
        !(in->n_told > 0 ? stay_close(&p, &together, e) : just_in_time(&p, &together, e)))
        return false;
    *out = answer_make(&p, &alone, &together);
    if (together.found)
        just_in_time_tell(&p, early, &together, *out);
    (*out)->paces = in->paces;
    (*out)->announced = in->n_told > 0;
    plan_find_shifts(a, in, *out, &(*out)->shifts, &(*out)->n_shifts);
    return true;
}
