/* test_plan_turns.c: turns against every other choice of people, and against choices by dice. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "plan_rules.h"
#include "random_build.h"

enum { MOST_STRETCHES = 12, MOST_CREW = 9, MOST_MINUTES = 4000, MOST_NAMINGS = 20000 };

static plan *make(arena *a, const plan_input *in) {
    plan *p;
    err e;
    if (!plan_make(a, in, &p, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return p;
}

/* Everything that a choice of people needs, looked up minute by minute from the tables. */
typedef struct {
    const plan *p;
    const kit *k;
    const kit_workshop *w;
    const plan_stretch *at[MOST_STRETCHES];
    kit_index step[MOST_STRETCHES];
    uint32_t n;
    bool there[MOST_CREW][MOST_MINUTES];
    uint32_t hands[MOST_STRETCHES], beside[MOST_STRETCHES]; /* sets of people of the choice at hand */
    int32_t share[MOST_CREW];
    uint64_t namings;
    int64_t best_waits;
    int32_t best[MOST_CREW]; /* lacks, the largest first */
    bool any;
} choice;

static bool is_there(const choice *c, kit_index q, const plan_session *s, int32_t minute) {
    if (!s->dated)
        return true;
    int clock = (int)((s->begins + (minute - s->from_min)) % 1440);
    for (uint32_t x = 0; x < c->w->n_attendance; x++) {
        const kit_attendance *t = &c->w->attendance[x];
        if (t->session == s->session && t->person == q &&
            (!t->comes || (t->from >= 0 && clock < t->from) || (t->until >= 0 && clock >= t->until)))
            return false;
    }
    return true;
}

/* Nobody counts as there while nobody may work. */
static void look_up_presence(choice *c) {
    for (uint32_t n = 0; n < c->p->n_sessions; n++)
        for (int32_t m = c->p->sessions[n].from_min; m < c->p->sessions[n].to_min; m++) {
            int64_t adults = 0, all = 0;
            for (kit_index q = 0; q < c->w->n_crew; q++) {
                c->there[q][m] = is_there(c, q, &c->p->sessions[n], m);
                adults += c->there[q][m] && c->w->crew[q].adult;
                all += c->there[q][m];
            }
            for (kit_index q = 0; q < c->w->n_crew; q++)
                if (adults < c->w->minimum_adults || (adults == 1 && all == 2))
                    c->there[q][m] = false;
        }
}

static void look_up_shares(choice *c) {
    int64_t pool = 0, present[MOST_CREW] = {0}, all = 0;
    for (uint32_t x = 0; x < c->n; x++)
        if (c->k->steps[c->step[x]].supervision != KIT_ADULT_DOES)
            pool += (int64_t)(c->at[x]->end_min - c->at[x]->start_min) * c->at[x]->n_people;
    for (kit_index q = 0; q < c->w->n_crew; q++)
        for (int32_t m = 0; m < c->p->makespan_min && !c->w->crew[q].adult; m++) {
            present[q] += c->there[q][m];
            all += c->there[q][m];
        }
    for (kit_index q = 0; q < c->w->n_crew; q++)
        c->share[q] = all > 0 ? (int32_t)(pool * present[q] / all) : 0;
}

/* false: too large for this test. */
static bool open_choice(choice *c, const plan *p, const plan_input *in) {
    memset(c, 0, sizeof *c);
    c->p = p;
    c->k = in->kit;
    c->w = in->workshop;
    if (p->n_steps == 0 || in->workshop->n_crew > MOST_CREW ||
        p->sessions[p->n_sessions - 1].to_min > MOST_MINUTES)
        return false;
    for (uint32_t k = 0; k < p->n_steps; k++)
        for (uint32_t x = 0; x < p->steps[k].n_stretches; x++) {
            if (c->n == MOST_STRETCHES)
                return false;
            c->step[c->n] = p->steps[k].step;
            c->at[c->n++] = &p->steps[k].stretches[x];
        }
    look_up_presence(c);
    look_up_shares(c);
    return true;
}

/* ---- what a choice is worth ------------------------------------------------------------------------------------------ */

static bool works_at(const choice *c, kit_index q, int32_t minute) {
    for (uint32_t x = 0; x < c->n; x++)
        if (c->at[x]->start_min <= minute && minute < c->at[x]->end_min &&
            ((c->hands[x] | c->beside[x]) >> q & 1))
            return true;
    return false;
}

/* Sessions at which nothing is done are the same for every choice and not counted; nor are they by the plan's search. */
static int64_t waits_of(const choice *c) {
    int64_t beyond = 0;
    for (kit_index q = 0; q < c->w->n_crew; q++)
        for (uint32_t n = 0; n < c->p->n_sessions && !c->w->crew[q].adult; n++) {
            int32_t run = 0, to = c->p->sessions[n].to_min;
            for (int32_t m = c->p->sessions[n].from_min; m < to && m < c->p->makespan_min; m++) {
                run = c->there[q][m] && !works_at(c, q, m) ? run + 1 : 0;
                beyond += run > c->w->longest_wait_min;
            }
        }
    return beyond;
}

static uint32_t lacks_of(const choice *c, int32_t *lacks) {
    uint32_t n = 0;
    for (kit_index q = 0; q < c->w->n_crew; q++) {
        int32_t lack = c->share[q];
        if (c->w->crew[q].adult)
            continue;
        for (uint32_t x = 0; x < c->n; x++)
            lack -= (c->hands[x] >> q & 1) ? c->at[x]->end_min - c->at[x]->start_min : 0;
        uint32_t k = n++;
        for (; k > 0 && lacks[k - 1] < lack; k--)
            lacks[k] = lacks[k - 1];
        lacks[k] = lack;
    }
    return n;
}

/* < 0: a is better */
static int compare_lacks(const int32_t *a, const int32_t *b, uint32_t n) {
    for (uint32_t k = 0; k < n; k++)
        if (a[k] != b[k])
            return a[k] < b[k] ? -1 : 1;
    return 0;
}

/* ---- every choice ------------------------------------------------------------------------------------------------------ */

static bool lists(kit_indices set, kit_index what) {
    for (uint32_t k = 0; k < set.n; k++)
        if (set.list[k] == what)
            return true;
    return false;
}

static bool may_supervise(const choice *c, kit_index q, const kit_step *s) {
    const kit_person *who = &c->w->crew[q];
    return who->adult && (s->work == KIT_NONE || lists(who->supervises, s->work));
}

static bool team_is_right(const choice *c, uint32_t x) {
    const kit_step *s = &c->k->steps[c->step[x]];
    bool supervised = false;
    for (kit_index q = 0; q < c->w->n_crew; q++) {
        bool at_work = c->hands[x] >> q & 1;
        if (s->supervision == KIT_ADULT_DOES && at_work && !c->w->crew[q].adult)
            return false;
        supervised = supervised || (at_work && may_supervise(c, q, s));
    }
    if (s->supervision == KIT_ADULT_DOES && s->work != KIT_NONE && !supervised)
        return false;
    for (uint32_t n = 0; n < c->k->n_step_skills; n++) {
        int64_t have = 0;
        if (c->k->step_skills[n].step != c->step[x])
            continue;
        for (kit_index q = 0; q < c->w->n_crew; q++)
            have += (c->hands[x] >> q & 1) && lists(c->w->crew[q].skills, c->k->step_skills[n].skill);
        if (have < c->k->step_skills[n].people)
            return false;
    }
    return true;
}

static bool is_free(const choice *c, uint32_t x, kit_index q) {
    for (int32_t m = c->at[x]->start_min; m < c->at[x]->end_min; m++)
        if (!c->there[q][m])
            return false;
    for (uint32_t y = 0; y < x; y++)
        if (((c->hands[y] | c->beside[y]) >> q & 1) && c->at[y]->start_min < c->at[x]->end_min &&
            c->at[x]->start_min < c->at[y]->end_min)
            return false;
    return true;
}

static void judge(choice *c) {
    int32_t lacks[MOST_CREW];
    int64_t waits = waits_of(c);
    uint32_t n = lacks_of(c, lacks);
    c->namings++;
    if (c->any &&
        (waits > c->best_waits || (waits == c->best_waits && compare_lacks(lacks, c->best, n) >= 0)))
        return;
    c->any = true;
    c->best_waits = waits;
    memcpy(c->best, lacks, sizeof lacks);
}

static void try_all(choice *c, uint32_t x, bool with_supervisor, kit_index least, uint32_t left) {
    if (c->namings > MOST_NAMINGS)
        return;
    if (x == c->n) {
        judge(c);
        return;
    }
    const kit_step *s = &c->k->steps[c->step[x]];
    if (!with_supervisor && s->supervision == KIT_BESIDE) {
        for (kit_index q = 0; q < c->w->n_crew; q++) {
            if (!may_supervise(c, q, s) || !is_free(c, x, q))
                continue;
            c->beside[x] = 1U << q;
            try_all(c, x, true, 0, c->at[x]->n_people);
        }
        c->beside[x] = 0;
        return;
    }
    if (left == 0) {
        if (team_is_right(c, x))
            try_all(c, x + 1, false, 0, x + 1 < c->n ? c->at[x + 1]->n_people : 0);
        return;
    }
    for (kit_index q = least; q < c->w->n_crew; q++) {
        if ((c->beside[x] >> q & 1) || !is_free(c, x, q))
            continue;
        c->hands[x] |= 1U << q;
        try_all(c, x, true, q + 1, left - 1);
        c->hands[x] &= ~(1U << q);
    }
}

static void take_plan(choice *c) {
    for (uint32_t x = 0; x < c->n; x++) {
        c->hands[x] = 0;
        c->beside[x] = c->at[x]->supervisor != KIT_NONE ? 1U << c->at[x]->supervisor : 0;
        for (uint32_t k = 0; k < c->at[x]->n_people; k++)
            c->hands[x] |= 1U << c->at[x]->people[k];
    }
}

/* Change-over points are left out: the plan does not tell those at which everybody stayed. And no skill has people of its
 * own, which would need a matching here. */
static plan_input simple_build(arena *a, plan_input in) {
    kit *k = arena_new(a, kit);
    kit_workshop *w = arena_new(a, kit_workshop);
    *k = *in.kit;
    *w = *in.workshop;
    k->steps = arena_array(a, kit_step, k->n_steps);
    memcpy(k->steps, in.kit->steps, k->n_steps * sizeof *k->steps);
    for (kit_index s = 0; s < k->n_steps; s++)
        k->steps[s].change_over_min = (kit_integers){0};
    k->step_skills = arena_array(a, kit_step_skill, k->n_step_skills);
    for (uint32_t x = 0; x < k->n_step_skills; x++) {
        k->step_skills[x] = in.kit->step_skills[x];
        k->step_skills[x].own_people = false;
    }
    w->longest_wait_min = 20;
    in.kit = k;
    in.workshop = w;
    return in;
}

static void no_choice_is_fairer(void **state) {
    (void)state;
    static choice c;
    uint32_t checked = 0, least = 0, best = 0, waits = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        arena *a = arena_open();
        plan_input in = simple_build(a, random_build_small(a, seed, 2 + (uint32_t)(seed % 5), 2));
        plan *p = make(a, &in);
        broken_rule why;
        if (!plan_rules_hold(p, &in, &why))
            fail_msg("seed %u: %s", (unsigned)seed, why.text);
        if (open_choice(&c, p, &in)) {
            take_plan(&c);
            int32_t lacks[MOST_CREW];
            int64_t own_waits = waits_of(&c);
            uint32_t n = lacks_of(&c, lacks);
            assert_int_equal(p->wait_beyond_min, own_waits);
            for (uint32_t k = 0, q = 0; q < in.workshop->n_crew; q++)
                if (!in.workshop->crew[q].adult && k++ == 0)
                    assert_true(p->turns[q].lack_min <= lacks[0]);
            memset(c.hands, 0, sizeof c.hands);
            memset(c.beside, 0, sizeof c.beside);
            try_all(&c, 0, false, 0, c.at[0]->n_people);
            if (c.namings <= MOST_NAMINGS) {
                bool same = own_waits == c.best_waits && compare_lacks(lacks, c.best, n) == 0;
                checked++;
                best += same;
                least += p->turns_least;
                waits += own_waits > 0;
                if (p->turns_least && !same)
                    fail_msg("seed %u: waits %d of %d, largest lack %d of %d", (unsigned)seed, (int)own_waits,
                             (int)c.best_waits, (int)lacks[0], (int)c.best[0]);
            }
        }
        arena_close(a);
    }
    print_message("%u plans against every choice: %u called least, %u are; %u with waits too long\n", checked,
                  least, best, waits);
    assert_true(checked > 25 && least > 20 && waits > 5 && best * 10 >= checked * 9);
}

/* ---- by hand --------------------------------------------------------------------------------------------------------- */

/* The table adds up: own minutes are those of the stretches, shares those of the pool, and a skill's first step asks for it. */
static void table_adds_up(void **state) {
    (void)state;
    uint32_t practised = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 3 + (uint32_t)(seed % 9));
        plan *p = make(a, &in);
        for (kit_index q = 0; q < in.workshop->n_crew && p->n_steps > 0; q++) {
            const plan_turn *t = &p->turns[q];
            int32_t own = 0;
            for (uint32_t k = 0; k < p->n_steps; k++)
                for (uint32_t x = 0; x < p->steps[k].n_stretches; x++)
                    for (uint32_t y = 0; y < p->steps[k].stretches[x].n_people; y++)
                        if (p->steps[k].stretches[x].people[y] == q)
                            own += p->steps[k].stretches[x].end_min - p->steps[k].stretches[x].start_min;
            assert_int_equal(t->own_min, own);
            assert_int_equal(t->lack_min, in.workshop->crew[q].adult ? 0 : t->share_min - own);
            assert_true(own <= t->present_min);
            for (uint32_t x = 0; x < t->n_skills; x++) {
                bool asked = t->skills[x].before;
                for (uint32_t y = 0; y < in.kit->n_step_skills; y++)
                    asked = asked || (in.kit->step_skills[y].step == t->skills[x].step &&
                                      in.kit->step_skills[y].skill == t->skills[x].skill);
                assert_true(asked);
                practised += !t->skills[x].before;
            }
        }
        arena_close(a);
    }
    print_message("%u skills practised for the first time\n", practised);
    assert_true(practised > 10);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(no_choice_is_fairer),
                                       cmocka_unit_test(table_adds_up)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
