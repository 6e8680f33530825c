/* test_plan_mutants.c: a judge that never says no judges nothing. Right plans are broken in one place each, in every way
 * there is a rule for, and the judge of plan_rules.h must refuse each, naming that rule. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan_rules.h"
#include "random_build.h"

/* A plan and all it was made from, every part a copy that may be broken. */
typedef struct {
    arena *memory;
    plan p;
    plan_input in;
    kit k;
    kit_workshop w;
} specimen;

static void *copy_of(arena *a, const void *list, size_t n, size_t size) {
    void *copy = arena_alloc_array(a, n + 1, size);
    if (n > 0)
        memcpy(copy, list, n * size);
    return copy;
}

#define COPY(a, list, n, type) ((list) = (type *)copy_of((a), (list), (n), sizeof(type)))

static plan_stretch *stretches_of(specimen *s, uint32_t step) {
    union {
        const plan_stretch *from;
        plan_stretch *to;
    } u = {s->p.steps[step].stretches};
    return u.to;
}

static kit_index *people_of(plan_stretch *t) {
    union {
        const kit_index *from;
        kit_index *to;
    } u = {t->people};
    return u.to;
}

static void copy_plan(specimen *s, const plan *p) {
    arena *a = s->memory;
    s->p = *p;
    COPY(a, s->p.sessions, p->n_sessions, plan_session);
    COPY(a, s->p.steps, p->n_steps, plan_step);
    COPY(a, s->p.stopped, p->n_stopped, plan_stopped);
    COPY(a, s->p.waiting, p->n_waiting, plan_waiting);
    for (uint32_t n = 0; n < p->n_steps; n++) {
        const plan_step *old = &p->steps[n];
        s->p.steps[n].stretches = copy_of(a, old->stretches, old->n_stretches, sizeof(plan_stretch));
        for (uint32_t t = 0; t < old->n_stretches; t++)
            stretches_of(s, n)[t].people =
                copy_of(a, old->stretches[t].people, old->stretches[t].n_people, sizeof(kit_index));
    }
}

static specimen specimen_of(arena *a, const plan *p, const plan_input *in) {
    specimen s = {.memory = a, .in = *in, .k = *in->kit, .w = *in->workshop};
    copy_plan(&s, p);
    COPY(a, s.k.steps, s.k.n_steps, kit_step);
    COPY(a, s.k.zones, s.k.n_zones, kit_zone);
    COPY(a, s.w.crew, s.w.n_crew, kit_person);
    COPY(a, s.w.tools, s.w.n_tools, kit_owned);
    COPY(a, s.w.workplaces, s.w.n_workplaces, kit_owned);
    kit_attendance *more = arena_array(a, kit_attendance, s.w.n_attendance + (size_t)PLAN_MAX_CREW);
    memcpy(more, s.w.attendance, s.w.n_attendance * sizeof *more);
    s.w.attendance = more;
    s.in.arrivals = copy_of(a, in->arrivals, in->n_arrivals, sizeof(plan_arrival));
    return s;
}

/* ---- ways to break it: false when this plan has nothing to break so --------------------------------------------------- */

static bool move_session(specimen *s) {
    s->p.sessions[0].begins++;
    return s->p.n_sessions > 0;
}

static bool drop_step(specimen *s) {
    return s->p.n_steps > 0 && s->p.n_steps--;
}

static bool plan_twice(specimen *s) {
    if (s->p.n_steps == 0)
        return false;
    s->p.steps[s->p.n_steps] = s->p.steps[0]; /* copies have room for one more */
    s->p.n_steps++;
    return true;
}

static bool leave_gap(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        plan_stretch *t = stretches_of(s, n);
        if (s->p.steps[n].n_stretches < 2 || t[1].end_min - t[1].start_min < 2)
            continue;
        t[1].start_min++;
        return true;
    }
    return false;
}

static bool leave_early(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        plan_step *x = &s->p.steps[n];
        plan_stretch *last = &stretches_of(s, n)[x->n_stretches - 1];
        if (last->end_min - last->start_min < 2)
            continue;
        last->end_min--;
        x->end_min--;
        x->end--;
        return true;
    }
    return false;
}

static bool forbid_pause(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (s->p.steps[n].session != s->p.steps[n].last_session) {
            s->k.steps[s->p.steps[n].step].may_pause = false;
            return true;
        }
    return false;
}

static bool change_anywhere(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        plan_step *x = &s->p.steps[n];
        if (x->n_stretches != 1 || x->end_min - x->start_min < 2 || s->k.steps[x->step].change_over_min.n > 0)
            continue;
        plan_stretch *two = arena_array(s->memory, plan_stretch, 2);
        two[0] = two[1] = x->stretches[0];
        two[0].end_min = two[1].start_min = x->start_min + 1;
        x->stretches = two;
        x->n_stretches = 2;
        return true;
    }
    return false;
}

static bool start_too_early(specimen *s) {
    for (uint32_t x = 0; x < s->k.n_step_after; x++) {
        const plan_step *before = plan_find_step(&s->p, s->k.step_after[x].after);
        const plan_step *after = plan_find_step(&s->p, s->k.step_after[x].step);
        if (!before || !after)
            continue;
        int32_t *starts = arena_array(s->memory, int32_t, s->p.n_steps);
        for (uint32_t n = 0; n < s->p.n_steps; n++)
            starts[n] = &s->p.steps[n] == after ? before->end_min - 1 : s->p.steps[n].start_min;
        plan shifted;
        if (!plan_rules_shift(s->memory, &s->p, starts, &shifted))
            continue;
        s->p = shifted;
        return true;
    }
    return false;
}

static bool ignore_delay(specimen *s) {
    for (uint32_t x = 0; x < s->k.n_step_after; x++) {
        const plan_step *before = plan_find_step(&s->p, s->k.step_after[x].after);
        if (!before || !plan_find_step(&s->p, s->k.step_after[x].step))
            continue;
        s->k.steps[before->step].delay_min = 1000000;
        return true;
    }
    return false;
}

static bool send_one_home(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (stretches_of(s, n)[0].n_people > 1) {
            stretches_of(s, n)[0].n_people--;
            return true;
        }
    return false;
}

static bool count_twice(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (stretches_of(s, n)[0].n_people > 1) {
            people_of(&stretches_of(s, n)[0])[0] = stretches_of(s, n)[0].people[1];
            return true;
        }
    return false;
}

static bool without_supervisor(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (stretches_of(s, n)[0].supervisor != KIT_NONE) {
            stretches_of(s, n)[0].supervisor = KIT_NONE;
            return true;
        }
    return false;
}

static bool supervisor_may_not(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        kit_index who = stretches_of(s, n)[0].supervisor;
        if (who == KIT_NONE || s->k.steps[s->p.steps[n].step].work == KIT_NONE)
            continue;
        s->w.crew[who].supervises.n = 0;
        return true;
    }
    return false;
}

static bool learner_does_it(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (s->k.steps[s->p.steps[n].step].supervision == KIT_ADULT_DOES) {
            s->w.crew[stretches_of(s, n)[0].people[0]].adult = false;
            return true;
        }
    return false;
}

static bool unlearn(specimen *s) {
    for (uint32_t x = 0; x < s->k.n_step_skills; x++) {
        if (!plan_find_step(&s->p, s->k.step_skills[x].step))
            continue;
        for (kit_index p = 0; p < s->w.n_crew; p++)
            s->w.crew[p].skills.n = 0;
        return true;
    }
    return false;
}

static bool stay_away(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        const plan_stretch *t = &s->p.steps[n].stretches[0];
        if (!s->p.sessions[t->session].dated)
            continue;
        s->w.attendance[s->w.n_attendance++] =
            (kit_attendance){0, s->p.sessions[t->session].session, t->people[0], false, -1, -1};
        return true;
    }
    return false;
}

static bool leave_before_end(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        const plan_step *x = &s->p.steps[n];
        const plan_stretch *t = &x->stretches[0];
        if (!x->start_dated || t->end_min - t->start_min < 2)
            continue;
        int clock = (int)(x->start % 1440) + (t->end_min - t->start_min) - 1;
        s->w.attendance[s->w.n_attendance++] =
            (kit_attendance){0, s->p.sessions[t->session].session, t->people[0], true, -1, clock};
        return true;
    }
    return false;
}

static bool two_places(specimen *s) {
    for (uint32_t a = 0; a < s->p.n_steps; a++)
        for (uint32_t b = 0; b < s->p.n_steps; b++) {
            plan_stretch *x = stretches_of(s, a), *y = stretches_of(s, b);
            const kit_step *what = &s->k.steps[s->p.steps[b].step];
            bool free_choice = what->supervision == KIT_IN_ROOM && y->n_people == 1;
            for (uint32_t n = 0; n < s->k.n_step_skills; n++)
                free_choice = free_choice && s->k.step_skills[n].step != s->p.steps[b].step;
            if (a == b || !free_choice || x->start_min >= y->end_min || y->start_min >= x->end_min ||
                y->start_min < x->start_min || y->end_min > x->end_min)
                continue;
            people_of(y)[0] = x->people[0];
            return true;
        }
    return false;
}

static bool more_adults_needed(specimen *s) {
    s->w.minimum_adults = PLAN_MAX_CREW;
    return s->p.n_steps > 0;
}

/* Everybody else stays away from a session in which only one learner works at all. */
static bool alone_with_learner(specimen *s) {
    for (uint32_t session = 0; session < s->p.n_sessions; session++) {
        uint64_t at_work = 0;
        for (uint32_t n = 0; n < s->p.n_steps; n++)
            for (uint32_t k = 0; k < s->p.steps[n].n_stretches; k++) {
                const plan_stretch *t = &s->p.steps[n].stretches[k];
                for (uint32_t q = 0; q < t->n_people && t->session == session; q++)
                    at_work |= (uint64_t)1 << t->people[q];
                if (t->session == session && t->supervisor != KIT_NONE)
                    at_work |= (uint64_t)1 << t->supervisor;
            }
        kit_index adult = KIT_NONE, learner = KIT_NONE;
        for (kit_index p = 0; p < s->w.n_crew; p++) {
            bool works = at_work >> p & 1;
            if (s->w.crew[p].adult && (adult == KIT_NONE || works))
                adult = p;
            if (!s->w.crew[p].adult && (learner == KIT_NONE || works))
                learner = p;
        }
        uint64_t two =
            adult == KIT_NONE || learner == KIT_NONE ? 0 : ((uint64_t)1 << adult | (uint64_t)1 << learner);
        if (!two || !(at_work >> learner & 1) || (at_work & ~two) || !s->p.sessions[session].dated ||
            s->w.minimum_adults > 1)
            continue;
        for (kit_index p = 0; p < s->w.n_crew; p++)
            if (!(two >> p & 1))
                s->w.attendance[s->w.n_attendance++] =
                    (kit_attendance){0, s->p.sessions[session].session, p, false, -1, -1};
        return true;
    }
    return false;
}

static bool no_place(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        kit_index z = s->k.steps[s->p.steps[n].step].zone;
        if (z == KIT_NONE || s->k.zones[z].kind != KIT_ZONE)
            continue;
        s->k.zones[z].groups = 0;
        return true;
    }
    return false;
}

static bool no_workplace(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++) {
        kit_index z = s->k.steps[s->p.steps[n].step].zone;
        if (z == KIT_NONE || s->k.zones[z].kind != KIT_WORKPLACE)
            continue;
        for (uint32_t k = 0; k < s->w.n_workplaces; k++)
            s->w.workplaces[k].quantity = 0;
        return s->w.n_workplaces > 0;
    }
    return false;
}

static bool no_tool(specimen *s) {
    for (uint32_t x = 0; x < s->k.n_step_tools; x++) {
        if (!plan_find_step(&s->p, s->k.step_tools[x].step))
            continue;
        for (uint32_t t = 0; t < s->w.n_tools; t++)
            s->w.tools[t].quantity = 0;
        return s->w.n_tools > 0;
    }
    return false;
}

static bool forbid_neighbour(specimen *s) {
    for (uint32_t a = 0; a < s->p.n_steps; a++)
        for (uint32_t b = 0; b < s->p.n_steps; b++) {
            const plan_step *x = &s->p.steps[a], *y = &s->p.steps[b];
            kit_index work = s->k.steps[y->step].work;
            if (a == b || work == KIT_NONE || x->start_min >= y->end_min || y->start_min >= x->end_min)
                continue;
            s->k.steps[x->step].not_beside = (kit_indices){copy_of(s->memory, &work, 1, sizeof work), 1};
            return true;
        }
    return false;
}

static bool arrive_later(specimen *s) {
    union {
        const plan_arrival *from;
        plan_arrival *to;
    } u = {s->in.arrivals};
    bool any = false;
    for (uint32_t k = 0; k < s->in.n_arrivals; k++) {
        int64_t drawn = 0;
        for (uint32_t x = 0; x < s->k.n_step_parts; x++)
            if (s->k.step_parts[x].part == u.to[k].part && plan_find_step(&s->p, s->k.step_parts[x].step))
                drawn += s->k.step_parts[x].quantity;
        any = any || drawn > s->in.usable[u.to[k].part];
        u.to[k].at = INT64_MAX - 1;
    }
    return any;
}

static bool missing_one_more(specimen *s) {
    if (s->p.n_stopped > 0)
        s->p.stopped[0].missing++;
    return s->p.n_stopped > 0;
}

static bool forget_waiting(specimen *s) {
    return s->p.n_waiting > 0 && s->p.n_waiting--;
}

static bool wrong_clock(specimen *s) {
    if (s->p.n_steps > 0)
        s->p.steps[0].start++;
    return s->p.n_steps > 0;
}

static bool invent_date(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (!s->p.steps[n].end_dated) {
            s->p.steps[n].end_dated = true;
            return true;
        }
    return false;
}

static bool praise_finish(specimen *s) {
    s->p.makespan_min--;
    return s->p.n_steps > 0;
}

static bool bound_above(specimen *s) {
    s->p.lower_bound_min = s->p.makespan_min + 1;
    return s->p.n_steps > 0;
}

static bool claim_proof(specimen *s) {
    s->p.lower_bound_min = s->p.makespan_min - 1;
    s->p.proven = true;
    s->p.status = PLAN_OPTIMAL;
    return s->p.n_steps > 0;
}

static bool negative_slack(specimen *s) {
    if (s->p.n_steps > 0)
        s->p.steps[0].slack_min = -1;
    return s->p.n_steps > 0;
}

static bool deny_deciding(specimen *s) {
    for (uint32_t n = 0; n < s->p.n_steps; n++)
        if (s->p.steps[n].decides_finish) {
            s->p.steps[n].decides_finish = false;
            return true;
        }
    return false;
}

/* ---- the table ----------------------------------------------------------------------------------------------------------- */

typedef struct {
    const char *name;
    plan_rule rule; /* that must be named */
    bool (*apply)(specimen *s);
} mutation;

static const mutation mutations[] = {
    {"move a session", RULE_SESSIONS, move_session},
    {"drop a step", RULE_STEPS_ONCE, drop_step},
    {"plan a step twice", RULE_STEPS_ONCE, plan_twice},
    {"leave a gap", RULE_STRETCHES, leave_gap},
    {"work a minute less", RULE_DURATION, leave_early},
    {"pause what may not", RULE_PAUSE, forbid_pause},
    {"change people anywhere", RULE_CHANGE_OVER, change_anywhere},
    {"start before the end of what it follows", RULE_ORDER, start_too_early},
    {"ignore a delay", RULE_ORDER, ignore_delay},
    {"send one home", RULE_TEAM, send_one_home},
    {"count one person twice", RULE_TEAM, count_twice},
    {"no supervisor", RULE_SUPERVISOR, without_supervisor},
    {"a supervisor who may not", RULE_SUPERVISOR, supervisor_may_not},
    {"a learner does an adult's work", RULE_ADULT_DOES, learner_does_it},
    {"nobody has the skill", RULE_SKILL, unlearn},
    {"somebody stays away", RULE_PRESENT, stay_away},
    {"somebody leaves a minute early", RULE_PRESENT, leave_before_end},
    {"at two places", RULE_TWO_PLACES, two_places},
    {"too few adults", RULE_ADULTS_IN_ROOM, more_adults_needed},
    {"an adult alone with a learner", RULE_ALONE_WITH_LEARNER, alone_with_learner},
    {"no room in a zone", RULE_PLACE, no_place},
    {"no workplace", RULE_PLACE, no_workplace},
    {"no tool", RULE_TOOL, no_tool},
    {"next to what may not be", RULE_NOT_BESIDE, forbid_neighbour},
    {"pieces come later", RULE_PARTS, arrive_later},
    {"one more missing", RULE_STOPPED, missing_one_more},
    {"forget who waits", RULE_STEPS_ONCE, forget_waiting},
    {"a wrong clock", RULE_CLOCK, wrong_clock},
    {"a date that nobody knows", RULE_CLOCK, invent_date},
    {"praise the finish", RULE_FINISH, praise_finish},
    {"a bound above the plan", RULE_FINISH, bound_above},
    {"claim a proof", RULE_FINISH, claim_proof},
    {"negative slack", RULE_SLACK, negative_slack},
    {"deny what decides", RULE_SLACK, deny_deciding},
};

enum { MUTATIONS = sizeof mutations / sizeof mutations[0], BUILDS = 120 };

static void each_broken_rule_is_named(void **state) {
    (void)state;
    uint32_t applied[MUTATIONS] = {0}, named[MUTATIONS] = {0}, missed[MUTATIONS] = {0};
    for (uint64_t seed = 1; seed <= BUILDS; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 4 + (uint32_t)(seed % 9));
        in.effort = 200; /* some plans without proof, too */
        plan *p;
        err e;
        assert_true(plan_make(a, &in, &p, &e));
        for (uint32_t m = 0; m < MUTATIONS; m++) {
            specimen s = specimen_of(a, p, &in);
            if (!mutations[m].apply(&s))
                continue;
            s.in.kit = &s.k;
            s.in.workshop = &s.w;
            s.p.kit = &s.k;
            s.p.workshop = &s.w;
            broken_rule why;
            applied[m]++;
            missed[m] += plan_rules_hold(&s.p, &s.in, &why);
            named[m] += why.rule == mutations[m].rule;
        }
        arena_close(a);
    }
    for (uint32_t m = 0; m < MUTATIONS; m++)
        print_message("%-40s %4u times, %4u named, %u missed\n", mutations[m].name, applied[m], named[m],
                      missed[m]);
    for (uint32_t m = 0; m < MUTATIONS; m++) {
        assert_int_equal(missed[m], 0);
        assert_true(named[m] >= 3);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_broken_rule_is_named)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
