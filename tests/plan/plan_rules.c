/* plan_rules.c: the rules, one function each. */
#include "plan_rules.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const plan *p;
    const plan_input *in;
    const kit *k;
    const kit_workshop *w;
    broken_rule *why;
    char names[2][48]; /* of the steps in a sentence */
    int turn;
} judge;

static bool broken(judge *j, plan_rule rule, const char *format, ...) PRINTF_LIKE(3, 4);
static bool broken(judge *j, plan_rule rule, const char *format, ...) {
    va_list list;
    va_start(list, format);
    j->why->rule = rule;
    vsnprintf(j->why->text, sizeof j->why->text, format, list);
    va_end(list);
    return false;
}

static const char *label(judge *j, text number) {
    char *to = j->names[j->turn ^= 1];
    snprintf(to, sizeof j->names[0], "%.*s", TEXT_ARG(number));
    return to;
}

static const char *step_name(judge *j, kit_index step) {
    return label(j, j->k->steps[step].number);
}

/* ---- sessions ------------------------------------------------------------------------------------------------------- */

static date_moment opens(const kit_session *s) {
    return (date_moment)s->day * 1440 + s->start + s->opening_min;
}

static date_moment shuts(const kit_session *s) {
    return s->cancelled ? opens(s) : (date_moment)s->day * 1440 + s->end - s->closing_min;
}

static bool sessions_hold(judge *j) {
    const plan *p = j->p;
    int32_t at = 0;
    uint32_t dated = 0, expected = 0;
    for (kit_index s = 0; s < j->w->n_sessions; s++)
        expected +=
            shuts(&j->w->sessions[s]) > opens(&j->w->sessions[s]) && shuts(&j->w->sessions[s]) > j->in->from;
    for (uint32_t n = 0; n < p->n_sessions; n++) {
        const plan_session *s = &p->sessions[n];
        if (s->from_min != at || s->to_min <= at || s->ends - s->begins != s->to_min - s->from_min)
            return broken(j, RULE_SESSIONS, "session %lld is not laid on end", (long long)s->number);
        at = s->to_min;
        if (n > 0 && s->begins < p->sessions[n - 1].ends)
            return broken(j, RULE_SESSIONS, "session %lld begins before the one before ends",
                          (long long)s->number);
        if (!s->dated)
            continue;
        const kit_session *w = &j->w->sessions[s->session];
        date_moment begins = opens(w) > j->in->from ? opens(w) : j->in->from;
        if (s->number != w->number || s->begins != begins || s->ends != shuts(w) || dated != n)
            return broken(j, RULE_SESSIONS, "session %lld is not as the workshop says", (long long)s->number);
        dated++;
    }
    if (dated != expected)
        return broken(j, RULE_SESSIONS, "%u dated sessions of %u", (unsigned)dated, (unsigned)expected);
    return true;
}

static const plan_session *session_of_minute(const plan *p, int32_t minute) {
    for (uint32_t n = 0; n < p->n_sessions; n++)
        if (p->sessions[n].from_min <= minute && minute < p->sessions[n].to_min)
            return &p->sessions[n];
    return NULL;
}

/* The clock when a working minute begins, and when the minute before it has ended. */
static date_moment clock_of_start(const plan *p, int32_t minute) {
    const plan_session *s = session_of_minute(p, minute);
    return s ? s->begins + (minute - s->from_min) : INT64_MAX;
}

static date_moment clock_of_end(const plan *p, int32_t minute) {
    return clock_of_start(p, minute - 1) + 1;
}

static bool is_there(const judge *j, kit_index person, int32_t minute) {
    const plan_session *s = session_of_minute(j->p, minute);
    if (!s)
        return false;
    if (!s->dated)
        return true;
    int clock = (int)((s->begins + (minute - s->from_min)) % 1440);
    if (s->begins / 1440 != (s->begins + (minute - s->from_min)) / 1440)
        clock += 1440;
    bool there = true;
    for (uint32_t x = 0; x < j->w->n_attendance; x++) {
        const kit_attendance *a = &j->w->attendance[x];
        if (a->session != s->session || a->person != person)
            continue;
        if (!a->comes || (a->from >= 0 && clock < a->from) || (a->until >= 0 && clock >= a->until))
            there = false;
    }
    return there;
}

/* ---- one step ----------------------------------------------------------------------------------------------------------- */

static int32_t with_beginners(const judge *j, int64_t minutes) {
    int64_t hundredths = minutes * j->w->beginners_percent;
    int64_t whole = hundredths / 100 + (hundredths % 100 != 0);
    return (int32_t)(whole < 1 ? 1 : whole);
}

static bool is_change_point(const judge *j, const kit_step *s, int32_t done) {
    for (uint32_t x = 0; x < s->change_over_min.n; x++)
        if (with_beginners(j, s->change_over_min.list[x]) == done)
            return true;
    return false;
}

/* Walks through the step's minutes, counting work and the taking up again. */
static bool course_holds(judge *j, const plan_step *x) {
    const kit_step *s = &j->k->steps[x->step];
    int32_t done = 0, taking_up = 0, need = with_beginners(j, s->likely_min);
    if (x->n_stretches == 0 || x->stretches[0].start_min != x->start_min ||
        x->stretches[x->n_stretches - 1].end_min != x->end_min)
        return broken(j, RULE_STRETCHES, "%s: its stretches are not its time", step_name(j, x->step));
    for (uint32_t n = 0; n < x->n_stretches; n++) {
        const plan_stretch *t = &x->stretches[n];
        if (t->session >= j->p->n_sessions || t->start_min >= t->end_min ||
            t->start_min < j->p->sessions[t->session].from_min ||
            t->end_min > j->p->sessions[t->session].to_min)
            return broken(j, RULE_STRETCHES, "%s: a stretch is not in its session", step_name(j, x->step));
        if (n > 0 && t->start_min != x->stretches[n - 1].end_min)
            return broken(j, RULE_STRETCHES, "%s: a gap between stretches", step_name(j, x->step));
        if (n > 0 && t->session != x->stretches[n - 1].session) {
            if (!s->may_pause)
                return broken(j, RULE_PAUSE, "%s may not be left", step_name(j, x->step));
            taking_up += (int32_t)s->resume_min;
        } else if (n > 0 && (taking_up > 0 || !is_change_point(j, s, done))) {
            return broken(j, RULE_CHANGE_OVER, "%s: people change after %d min", step_name(j, x->step),
                          (int)done);
        }
        for (int32_t m = t->start_min; m < t->end_min; m++) {
            if (taking_up > 0)
                taking_up--;
            else
                done++;
        }
    }
    if (done != need || taking_up != 0)
        return broken(j, RULE_DURATION, "%s: %d min of work, %d needed", step_name(j, x->step), (int)done,
                      (int)need);
    return true;
}

static bool may_supervise(const judge *j, kit_index person, kit_index work) {
    const kit_person *p = &j->w->crew[person];
    if (!p->adult)
        return false;
    if (work == KIT_NONE)
        return true;
    for (uint32_t n = 0; n < p->supervises.n; n++)
        if (p->supervises.list[n] == work)
            return true;
    return false;
}

static bool has_skill(const judge *j, kit_index person, kit_index skill) {
    for (uint32_t n = 0; n < j->w->crew[person].skills.n; n++)
        if (j->w->crew[person].skills.list[n] == skill)
            return true;
    return false;
}

/* Those not busy answer for all rows that want no people of their own. */
static bool others_answer(const judge *j, kit_index step, const plan_stretch *t, uint64_t busy) {
    for (uint32_t n = 0; n < j->k->n_step_skills; n++) {
        const kit_step_skill *need = &j->k->step_skills[n];
        int64_t have = 0;
        for (uint32_t a = 0; a < t->n_people && need->step == step && !need->own_people; a++)
            have += !(busy >> a & 1) && has_skill(j, t->people[a], need->skill);
        if (need->step == step && !need->own_people && have < need->people)
            return false;
    }
    return true;
}

/* Tries everybody from number `from` on for what row `row` of step_skills still wants when `given` have it, then the rows
 * behind it. */
static bool skills_answered(const judge *j, kit_index step, const plan_stretch *t, uint32_t row,
                            uint32_t from, int64_t given, uint64_t busy) {
    const kit_step_skill *need = &j->k->step_skills[row];
    if (row == j->k->n_step_skills)
        return others_answer(j, step, t, busy);
    if (need->step != step || !need->own_people || given == need->people)
        return skills_answered(j, step, t, row + 1, 0, 0, busy);
    for (uint32_t a = from; a < t->n_people; a++)
        if (!(busy >> a & 1) && has_skill(j, t->people[a], need->skill) &&
            skills_answered(j, step, t, row, a + 1, given + 1, busy | (uint64_t)1 << a))
            return true;
    return false;
}

static bool team_holds(judge *j, const plan_step *x, const plan_stretch *t) {
    const kit_step *s = &j->k->steps[x->step];
    if ((int64_t)t->n_people != s->people)
        return broken(j, RULE_TEAM, "%s: %u people", step_name(j, x->step), (unsigned)t->n_people);
    for (uint32_t a = 0; a < t->n_people; a++) {
        if (t->people[a] >= j->w->n_crew || t->people[a] == t->supervisor)
            return broken(j, RULE_TEAM, "%s: not a person of its own", step_name(j, x->step));
        for (uint32_t b = 0; b < a; b++)
            if (t->people[a] == t->people[b])
                return broken(j, RULE_TEAM, "%s: one person twice", step_name(j, x->step));
    }
    bool beside = s->supervision == KIT_BESIDE;
    if (beside != (t->supervisor != KIT_NONE) || (beside && !may_supervise(j, t->supervisor, s->work)))
        return broken(j, RULE_SUPERVISOR, "%s: the supervisor beside it", step_name(j, x->step));
    if (s->supervision == KIT_ADULT_DOES) {
        bool may = s->work == KIT_NONE;
        for (uint32_t a = 0; a < t->n_people; a++) {
            may = may || may_supervise(j, t->people[a], s->work);
            if (!j->w->crew[t->people[a]].adult)
                return broken(j, RULE_ADULT_DOES, "%s: a learner does an adult's work",
                              step_name(j, x->step));
        }
        if (!may)
            return broken(j, RULE_ADULT_DOES, "%s: none of the adults may", step_name(j, x->step));
    }
    if (!skills_answered(j, x->step, t, 0, 0, 0, 0))
        return broken(j, RULE_SKILL, "%s: skill missing", step_name(j, x->step));
    return true;
}

static bool clock_holds(judge *j, const plan_step *x) {
    const plan *p = j->p;
    const plan_session *first = session_of_minute(p, x->start_min),
                       *last = session_of_minute(p, x->end_min - 1);
    if (first != &p->sessions[x->session] || last != &p->sessions[x->last_session] ||
        first->dated != x->start_dated || last->dated != x->end_dated ||
        x->start != clock_of_start(p, x->start_min) || x->end != clock_of_end(p, x->end_min))
        return broken(j, RULE_CLOCK, "%s: its sessions or times on the clock", step_name(j, x->step));
    return true;
}

/* ---- order ------------------------------------------------------------------------------------------------------------------ */

static int64_t working_minutes_between(const judge *j, date_moment a, date_moment b) {
    int64_t sum = 0;
    for (kit_index s = 0; s < j->w->n_sessions; s++)
        for (date_moment m = opens(&j->w->sessions[s]); m < shuts(&j->w->sessions[s]); m++)
            sum += m >= a && m < b;
    return sum;
}

static bool waited_since_done(const judge *j, const plan_done *d, const plan_step *x) {
    const kit_step *before = &j->k->steps[d->step];
    date_moment start = clock_of_start(j->p, x->start_min), line = j->p->sessions[0].begins;
    if (start < d->at)
        return false;
    if (before->delay_clock == KIT_WALL_CLOCK)
        return start >= d->at + before->delay_min;
    if (d->at <= line)
        return working_minutes_between(j, d->at, line) + x->start_min >= before->delay_min;
    int64_t waited = 0;
    for (int32_t m = 0; m < x->start_min; m++)
        waited += clock_of_start(j->p, m) >= d->at;
    return waited >= before->delay_min;
}

static bool order_holds(judge *j, const plan_step *x) {
    for (uint32_t n = 0; n < j->k->n_step_after; n++) {
        if (j->k->step_after[n].step != x->step)
            continue;
        kit_index other = j->k->step_after[n].after;
        const kit_step *s = &j->k->steps[other];
        const plan_step *before = plan_find_step(j->p, other);
        bool right = false;
        for (uint32_t d = 0; d < j->in->n_done; d++)
            right = right || (j->in->done[d].step == other && waited_since_done(j, &j->in->done[d], x));
        if (before && s->delay_clock == KIT_WALL_CLOCK)
            right = x->start_min >= before->end_min &&
                    clock_of_start(j->p, x->start_min) >= clock_of_end(j->p, before->end_min) + s->delay_min;
        else if (before)
            right = x->start_min >= before->end_min + s->delay_min;
        if (!right)
            return broken(j, RULE_ORDER, "%s starts too early after %s", step_name(j, x->step),
                          step_name(j, other));
    }
    return true;
}

/* ---- one minute --------------------------------------------------------------------------------------------------------------- */

static bool runs(const plan_step *x, int32_t minute) {
    return x->start_min <= minute && minute < x->end_min;
}

static bool people_hold_at(judge *j, int32_t minute) {
    const plan *p = j->p;
    uint32_t work[PLAN_MAX_CREW] = {0};
    bool any = false;
    for (uint32_t n = 0; n < p->n_steps; n++)
        for (uint32_t y = 0; y < p->steps[n].n_stretches; y++) {
            const plan_stretch *t = &p->steps[n].stretches[y];
            if (minute < t->start_min || minute >= t->end_min)
                continue;
            any = true;
            for (uint32_t a = 0; a < t->n_people; a++)
                work[t->people[a]]++;
            if (t->supervisor != KIT_NONE)
                work[t->supervisor]++;
        }
    int64_t adults = 0, learners = 0;
    for (kit_index q = 0; q < j->w->n_crew; q++) {
        bool there = is_there(j, q, minute);
        adults += there && j->w->crew[q].adult;
        learners += there && !j->w->crew[q].adult;
        if (work[q] > 0 && !there)
            return broken(j, RULE_PRESENT, "minute %d: person %u is not there", (int)minute, (unsigned)q);
        if (work[q] > 1)
            return broken(j, RULE_TWO_PLACES, "minute %d: person %u at two places", (int)minute, (unsigned)q);
    }
    if (any && adults < j->w->minimum_adults)
        return broken(j, RULE_ADULTS_IN_ROOM, "minute %d: %d adults", (int)minute, (int)adults);
    if (any && adults == 1 && learners == 1)
        return broken(j, RULE_ALONE_WITH_LEARNER, "minute %d", (int)minute);
    return true;
}

static int64_t owned(const kit_owned *list, uint32_t n, kit_index what) {
    for (uint32_t x = 0; x < n; x++)
        if (list[x].what == what)
            return list[x].quantity;
    return n == 0 ? INT64_MAX : 0;
}

static bool things_hold_at(judge *j, int32_t minute) {
    const plan *p = j->p;
    const kit *k = j->k;
    for (kit_index z = 0; z < k->n_zones; z++) {
        int64_t used = 0, room = k->zones[z].kind == KIT_ZONE
                                     ? k->zones[z].groups
                                     : owned(j->w->workplaces, j->w->n_workplaces, z);
        for (uint32_t n = 0; n < p->n_steps; n++)
            used += runs(&p->steps[n], minute) && k->steps[p->steps[n].step].zone == z;
        if (used > room)
            return broken(j, RULE_PLACE, "minute %d: %s", (int)minute, label(j, k->zones[z].number));
    }
    for (kit_index t = 0; t < k->n_tools; t++) {
        int64_t used = 0;
        for (uint32_t x = 0; x < k->n_step_tools; x++)
            for (uint32_t n = 0; n < p->n_steps; n++)
                if (k->step_tools[x].tool == t && k->step_tools[x].step == p->steps[n].step &&
                    runs(&p->steps[n], minute))
                    used += k->step_tools[x].quantity;
        if (used > owned(j->w->tools, j->w->n_tools, t))
            return broken(j, RULE_TOOL, "minute %d: %s", (int)minute, label(j, k->tools[t].number));
    }
    for (uint32_t a = 0; a < p->n_steps; a++)
        for (uint32_t b = 0; b < p->n_steps; b++) {
            const kit_step *x = &k->steps[p->steps[a].step];
            for (uint32_t n = 0; n < x->not_beside.n && a != b; n++)
                if (x->not_beside.list[n] == k->steps[p->steps[b].step].work && runs(&p->steps[a], minute) &&
                    runs(&p->steps[b], minute))
                    return broken(j, RULE_NOT_BESIDE, "minute %d: %s and %s", (int)minute,
                                  step_name(j, p->steps[a].step), step_name(j, p->steps[b].step));
        }
    return true;
}

/* ---- pieces ----------------------------------------------------------------------------------------------------------------------- */

static int64_t need(const kit *k, kit_index step, kit_index part) {
    int64_t sum = 0;
    for (uint32_t n = 0; n < k->n_step_parts; n++)
        if (k->step_parts[n].step == step && k->step_parts[n].part == part)
            sum += k->step_parts[n].quantity;
    return sum;
}

static int64_t there_by(const judge *j, kit_index part, date_moment m) {
    int64_t sum = 0;
    for (uint32_t r = 0; r < j->k->n_rows && !j->in->usable; r++)
        sum += j->k->rows[r].part == part ? j->k->rows[r].quantity : 0;
    if (j->in->usable)
        sum = j->in->usable[part];
    for (uint32_t n = 0; n < j->in->n_arrivals; n++)
        if (j->in->arrivals[n].part == part && j->in->arrivals[n].at <= m)
            sum += j->in->arrivals[n].quantity;
    return sum;
}

static bool parts_hold(judge *j) {
    for (kit_index part = 0; part < j->k->n_parts; part++)
        for (uint32_t n = 0; n < j->p->n_steps; n++) {
            int64_t drawn = 0;
            for (uint32_t x = 0; x < j->p->n_steps; x++)
                if (j->p->steps[x].start_min <= j->p->steps[n].start_min)
                    drawn += need(j->k, j->p->steps[x].step, part);
            if (drawn > there_by(j, part, clock_of_start(j->p, j->p->steps[n].start_min)))
                return broken(j, RULE_PARTS, "%s: pieces of %s", step_name(j, j->p->steps[n].step),
                              label(j, j->k->parts[part].number));
        }
    return true;
}

typedef enum { GOES, IS_DONE, IS_STOPPED, IS_WAITING, IS_IMPOSSIBLE } fate;

static int64_t told_missing(const plan *p, kit_index step, kit_index part) {
    for (uint32_t n = 0; n < p->n_stopped; n++)
        if (p->stopped[n].step == step && p->stopped[n].part == part)
            return p->stopped[n].missing;
    return 0;
}

/* First the steps that can go ahead, in build order: each draws all it needs or nothing. */
static void share_to_goers(judge *j, const kit_index *order, fate *is, int64_t *left) {
    const kit *k = j->k;
    for (uint32_t n = 0; n < k->n_steps; n++) {
        kit_index s = order[n];
        for (uint32_t x = 0; x < k->n_step_after && is[s] == GOES; x++)
            if (k->step_after[x].step == s && is[k->step_after[x].after] > IS_DONE)
                is[s] = IS_WAITING;
        for (kit_index part = 0; part < k->n_parts && is[s] == GOES; part++)
            if (need(k, s, part) > left[part])
                is[s] = IS_STOPPED;
        for (kit_index part = 0; part < k->n_parts && is[s] == GOES; part++)
            left[part] -= need(k, s, part);
    }
}

/* What is left is set against the steps that are held up; what one of them lacks must be told. */
static bool held_ones_told(judge *j, kit_index s, fate *is, int64_t *left) {
    const kit *k = j->k;
    for (kit_index part = 0; part < k->n_parts; part++) {
        int64_t wanted = is[s] == IS_STOPPED || is[s] == IS_WAITING ? need(k, s, part) : 0;
        int64_t given = wanted < left[part] ? wanted : left[part];
        left[part] -= given;
        if (told_missing(j->p, s, part) != wanted - given)
            return broken(j, RULE_STOPPED, "%s: missing %s", step_name(j, s),
                          label(j, k->parts[part].number));
        if (wanted > given)
            is[s] = IS_STOPPED;
    }
    return true;
}

/* Shares the pieces out by hand and compares with what the plan tells. */
static bool stopped_hold(judge *j) {
    const kit *k = j->k;
    arena *a = arena_open();
    const kit_index *order = kit_build_order(a, k);
    fate *is = arena_array(a, fate, k->n_steps);
    int64_t *left = arena_array(a, int64_t, k->n_parts);
    bool right = true;
    for (kit_index part = 0; part < k->n_parts; part++)
        left[part] = there_by(j, part, INT64_MAX);
    for (uint32_t n = 0; n < j->in->n_done; n++)
        is[j->in->done[n].step] = IS_DONE;
    for (uint32_t n = 0; n < j->p->n_impossible; n++)
        is[j->p->impossible[n].step] = IS_IMPOSSIBLE;
    share_to_goers(j, order, is, left);
    for (uint32_t n = 0; n < k->n_steps && right; n++) {
        kit_index s = order[n];
        right = held_ones_told(j, s, is, left);
        bool told_waiting = false;
        for (uint32_t x = 0; x < j->p->n_waiting; x++)
            told_waiting = told_waiting || j->p->waiting[x].step == s;
        if (right &&
            (told_waiting != (is[s] == IS_WAITING) || (plan_find_step(j->p, s) != NULL) != (is[s] == GOES)))
            right = broken(j, RULE_STEPS_ONCE, "%s is not planned, stopped or waiting as it should",
                           step_name(j, s));
    }
    arena_close(a);
    return right;
}

/* ---- the whole ------------------------------------------------------------------------------------------------------------------- */

static bool each_step_once(judge *j) {
    for (kit_index s = 0; s < j->k->n_steps; s++) {
        uint32_t planned = 0, other = 0, stopped = 0;
        for (uint32_t n = 0; n < j->p->n_steps; n++)
            planned += j->p->steps[n].step == s;
        for (uint32_t n = 0; n < j->in->n_done; n++)
            other += j->in->done[n].step == s;
        for (uint32_t n = 0; n < j->p->n_waiting; n++)
            other += j->p->waiting[n].step == s;
        for (uint32_t n = 0; n < j->p->n_impossible; n++)
            other += j->p->impossible[n].step == s;
        for (uint32_t n = 0; n < j->p->n_stopped; n++)
            stopped += j->p->stopped[n].step == s;
        if (planned + other + (stopped > 0) != 1)
            return broken(j, RULE_STEPS_ONCE, "%s stands %u times", step_name(j, s),
                          (unsigned)(planned + other + (stopped > 0)));
    }
    return true;
}

static bool finish_holds(judge *j) {
    const plan *p = j->p;
    int32_t end = 0;
    for (uint32_t n = 0; n < p->n_steps; n++)
        end = p->steps[n].end_min > end ? p->steps[n].end_min : end;
    if (p->n_steps > 0 && p->status != PLAN_OPTIMAL && p->status != PLAN_FEASIBLE)
        return broken(j, RULE_FINISH, "steps with status %s", plan_status_word(p->status));
    if (p->makespan_min != end || p->lower_bound_min > end || p->lower_bound_min < 0 ||
        (p->n_steps > 0 && p->proven != (p->lower_bound_min == end)) ||
        (p->status == PLAN_OPTIMAL) != p->proven)
        return broken(j, RULE_FINISH, "end %d, told %d, bound %d", (int)end, (int)p->makespan_min,
                      (int)p->lower_bound_min);
    if (p->one_after_another_min >= 0 && p->one_after_another_min < end)
        return broken(j, RULE_FINISH, "slower than one after another");
    if (p->n_steps > 0 && p->finish != clock_of_end(p, end))
        return broken(j, RULE_FINISH, "the finish on the clock");
    if (p->n_steps > 0 && p->finish_dated != session_of_minute(p, end - 1)->dated)
        return broken(j, RULE_FINISH, "dated or not");
    return true;
}

static bool slack_holds(judge *j) {
    bool decides = j->p->n_steps == 0;
    for (uint32_t n = 0; n < j->p->n_steps; n++) {
        const plan_step *x = &j->p->steps[n];
        decides = decides || x->decides_finish;
        if (x->slack_min < 0 || x->end_min > j->p->makespan_min || x->decides_finish != (x->slack_min == 0))
            return broken(j, RULE_SLACK, "%s: slack %d", step_name(j, x->step), (int)x->slack_min);
        if (x->early_start_min > x->start_min || x->early_start_min > x->late_start_min)
            return broken(j, RULE_SLACK, "%s: early and late", step_name(j, x->step));
    }
    if (!decides)
        return broken(j, RULE_SLACK, "no step decides the finish");
    return true;
}

bool plan_rules_hold(const plan *p, const plan_input *in, broken_rule *why) {
    judge j = {.p = p, .in = in, .k = in->kit, .w = in->workshop, .why = why};
    *why = (broken_rule){.rule = RULE_NONE};
    if (!sessions_hold(&j) || !each_step_once(&j) || !stopped_hold(&j))
        return false;
    for (uint32_t n = 0; n < p->n_steps; n++) {
        if (!course_holds(&j, &p->steps[n]) || !clock_holds(&j, &p->steps[n]) ||
            !order_holds(&j, &p->steps[n]))
            return false;
        for (uint32_t y = 0; y < p->steps[n].n_stretches; y++)
            if (!team_holds(&j, &p->steps[n], &p->steps[n].stretches[y]))
                return false;
    }
    for (int32_t minute = 0; p->n_sessions > 0 && minute < p->sessions[p->n_sessions - 1].to_min; minute++)
        if (!people_hold_at(&j, minute) || !things_hold_at(&j, minute))
            return false;
    return parts_hold(&j) && finish_holds(&j) && slack_holds(&j);
}

/* ---- shifting --------------------------------------------------------------------------------------------------------------------- */

/* How much work is done when each stretch ends; -1 for the end of a session. */
static void work_at_changes(const judge *j, const plan_step *x, int32_t *done_at) {
    int32_t done = 0, taking_up = 0;
    for (uint32_t n = 0; n < x->n_stretches; n++) {
        for (int32_t m = x->stretches[n].start_min; m < x->stretches[n].end_min; m++) {
            if (taking_up > 0)
                taking_up--;
            else
                done++;
        }
        bool session_ends = n + 1 < x->n_stretches && x->stretches[n + 1].session != x->stretches[n].session;
        done_at[n] = session_ends ? -1 : done;
        taking_up += session_ends ? (int32_t)j->k->steps[x->step].resume_min : 0;
    }
}

/* Lays one step out from `m` on, changing people after the same work as before. */
static bool shift_step(arena *a, const judge *j, const plan_step *old, int32_t m, plan_step *x) {
    const plan *p = j->p;
    const kit_step *s = &j->k->steps[old->step];
    plan_stretch *list = arena_array(a, plan_stretch, old->n_stretches);
    int32_t *done_at = arena_array(a, int32_t, old->n_stretches);
    int32_t done = 0, taking_up = 0, all = with_beginners(j, s->likely_min);
    uint32_t at = 0;
    work_at_changes(j, old, done_at);
    list[0] = old->stretches[0];
    list[0].start_min = m;
    list[0].session = (uint32_t)(session_of_minute(p, m) - p->sessions);
    for (; done < all; m++) {
        const plan_session *now = session_of_minute(p, m);
        if (!now)
            return false;
        bool other = now != &p->sessions[list[at].session];
        if (other || (taking_up == 0 && done_at[at] == done)) {
            if (at + 1 == old->n_stretches)
                return false;
            list[at].end_min = m;
            list[at + 1] = old->stretches[at + 1];
            list[++at].start_min = m;
            list[at].session = (uint32_t)(now - p->sessions);
            taking_up += other ? (int32_t)s->resume_min : 0;
        }
        if (taking_up > 0)
            taking_up--;
        else
            done++;
    }
    list[at].end_min = m;
    *x = *old;
    x->stretches = list;
    x->n_stretches = at + 1;
    x->start_min = list[0].start_min;
    x->end_min = m;
    x->session = list[0].session;
    x->last_session = list[at].session;
    x->start = clock_of_start(p, x->start_min);
    x->end = clock_of_end(p, m);
    x->start_dated = p->sessions[x->session].dated;
    x->end_dated = p->sessions[x->last_session].dated;
    x->slack_min = 0;
    x->decides_finish = true;
    x->early_start_min = 0;
    x->late_start_min = x->start_min;
    return true;
}

bool plan_rules_shift(arena *a, const plan *p, const int32_t *starts, plan *out) {
    broken_rule unused;
    judge j = {.p = p, .k = p->kit, .w = p->workshop, .why = &unused};
    *out = *p;
    out->steps = arena_array(a, plan_step, p->n_steps);
    for (uint32_t n = 0; n < p->n_steps; n++)
        if (!shift_step(a, &j, &p->steps[n], starts[n], &out->steps[n]))
            return false;
    return true;
}
