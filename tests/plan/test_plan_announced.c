/* test_plan_announced.c: new plans keep to what was announced, within the rules and without a later finish, and tell what they change. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan_rules.h"
#include "random_build.h"

static plan *make(arena *a, const plan_input *in) {
    plan *p;
    err e;
    if (!plan_make(a, in, &p, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return p;
}

/* Announces the plan: its dated stretches. */
static void announce(arena *a, const plan *p, plan_input *in) {
    uint32_t most = 0;
    for (uint32_t n = 0; n < p->n_steps; n++)
        most += p->steps[n].n_stretches;
    plan_told *told = arena_array(a, plan_told, most);
    in->told = told;
    in->n_told = 0;
    for (uint32_t n = 0; n < p->n_steps; n++)
        for (uint32_t k = 0; k < p->steps[n].n_stretches; k++) {
            const plan_stretch *s = &p->steps[n].stretches[k];
            const plan_session *on = &p->sessions[s->session];
            if (on->dated)
                told[in->n_told++] = (plan_told){p->steps[n].step,
                                                 on->begins + (s->start_min - on->from_min),
                                                 s->end_min - s->start_min,
                                                 s->people,
                                                 s->n_people,
                                                 s->supervisor,
                                                 false};
        }
}

/* ---- by hand ---------------------------------------------------------------------------------------------------------- */

typedef struct {
    kit k;
    kit_workshop w;
    kit_step steps[2];
    kit_person crew[2];
    kit_session sessions[2];
    plan_told told[2];
    kit_attendance away;
    plan_input in;
} bench;

static const kit_index people[] = {0, 1};

/* Two steps of an hour for one person each, two adults, two evenings of 90 minutes; both steps announced for the first, `swapped` says
 * who is to do which. */
static bench *new_bench(arena *a, bool swapped) {
    bench *b = arena_new(a, bench);
    *b = (bench){.k = {.steps = b->steps, .n_steps = 2},
                 .w = {.crew = b->crew,
                       .n_crew = 2,
                       .sessions = b->sessions,
                       .n_sessions = 2,
                       .beginners_percent = 100,
                       .minimum_adults = 1,
                       .wanted_day = INT32_MAX}};
    for (kit_index n = 0; n < 2; n++) {
        b->steps[n] = (kit_step){.number = n ? TEXT("S2") : TEXT("S1"),
                                 .sub_assembly = KIT_NONE,
                                 .work = KIT_NONE,
                                 .zone = KIT_NONE,
                                 .low_min = 60,
                                 .likely_min = 60,
                                 .high_min = 60,
                                 .people = 1};
        b->crew[n] = (kit_person){
            .number = n ? TEXT("p2") : TEXT("p1"), .name = n ? TEXT("Otter") : TEXT("Wren"), .adult = true};
        b->sessions[n] = (kit_session){.number = n + 1, .day = 20000 + (date_day)n, .start = 600, .end = 690};
        b->told[n] = (plan_told){
            n, (date_moment)20000 * 1440 + 600, 60, &people[n != (kit_index)swapped], 1, KIT_NONE, false};
    }
    b->in = (plan_input){.kit = &b->k, .workshop = &b->w, .told = b->told, .n_told = 2, .from = INT64_MIN};
    return b;
}

static void people_stay_where_they_were_told(void **state) {
    (void)state;
    for (int swapped = 0; swapped < 2; swapped++) {
        arena *a = arena_open();
        bench *b = new_bench(a, swapped);
        plan *p = make(a, &b->in);
        assert_true(p->announced);
        assert_int_equal(p->n_shifts, 0);
        for (uint32_t n = 0; n < 2; n++)
            assert_int_equal(p->steps[n].stretches[0].people[0], b->told[p->steps[n].step].people[0]);
        arena_close(a);
    }
}

static void who_is_away_is_the_reason(void **state) {
    (void)state;
    arena *a = arena_open();
    bench *b = new_bench(a, false);
    b->away = (kit_attendance){.session = 0, .person = 1, .from = -1, .until = -1};
    b->w.attendance = &b->away;
    b->w.n_attendance = 1;
    plan *p = make(a, &b->in);
    assert_int_equal(p->makespan_min, 150); /* one of them in the first evening, one in the second */
    assert_int_equal(p->n_shifts, 1);
    assert_int_equal(p->shifts[0].kind, PLAN_SHIFT_SESSION);
    if (p->shifts[0].step == 1)
        assert_string_equal(p->shifts[0].why.at, "Otter is away");
    assert_true(p->shifts[0].now == (date_moment)20001 * 1440 + 600);
    arena_close(a);
}

static void a_session_called_off_is_the_reason(void **state) {
    (void)state;
    arena *a = arena_open();
    bench *b = new_bench(a, false);
    b->sessions[0].cancelled = true;
    plan *p = make(a, &b->in);
    assert_int_equal(p->n_shifts, 2);
    for (int n = 0; n < 2; n++) {
        assert_int_equal(p->shifts[n].kind, PLAN_SHIFT_SESSION);
        assert_string_equal(p->shifts[n].why.at, "session 1 was called off");
    }
    arena_close(a);
}

static void what_was_not_announced_is_added(void **state) {
    (void)state;
    arena *a = arena_open();
    bench *b = new_bench(a, false);
    b->in.n_told = 1;
    plan *p = make(a, &b->in);
    assert_int_equal(p->n_shifts, 1);
    assert_int_equal(p->shifts[0].kind, PLAN_SHIFT_ADDED);
    assert_int_equal(p->shifts[0].step, 1);
    arena_close(a);
}

/* ---- any build ---------------------------------------------------------------------------------------------------------- */

static bool all_dated(const plan *p) {
    for (uint32_t n = 0; n < p->n_steps; n++)
        if (!p->steps[n].end_dated)
            return false;
    return p->n_steps > 0;
}

static void a_plan_again_changes_nothing(void **state) {
    (void)state;
    uint32_t again = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 3 + (uint32_t)(seed % 14));
        plan *p = make(a, &in);
        if (p->proven && all_dated(p)) {
            announce(a, p, &in);
            plan *q = make(a, &in);
            broken_rule why;
            if (q->n_shifts > 0)
                fail_msg("seed %d: %s changes though nothing has (%s)", (int)seed,
                         in.kit->steps[q->shifts[0].step].number.at, plan_shift_word(q->shifts[0].kind));
            assert_true(plan_rules_hold(q, &in, &why));
            again++;
        }
        arena_close(a);
    }
    assert_true(again > 10);
}

/* Announced steps that begin at another session than they were told; -1 for a plan with other steps. */
static int moves_of(const plan *p, const plan_input *told) {
    int moves = 0;
    for (uint32_t n = 0; n < told->n_told; n++) {
        const plan_step *s = plan_find_step(p, told->told[n].step);
        bool first = n == 0 || told->told[n - 1].step != told->told[n].step;
        if (!first)
            continue;
        if (!s)
            return -1;
        const plan_session *on = &p->sessions[s->session];
        moves += !on->dated || told->told[n].from < on->begins || told->told[n].from >= on->ends;
    }
    return moves;
}

/* Something changes; the finish is as without the announcement, fewer steps move, and each rule holds. */
static void changes_are_few(void **state) {
    (void)state;
    int kept = 0, anew = 0, compared = 0;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 5 + (uint32_t)(seed % 12)), changed, without;
        plan *p = make(a, &in);
        plan_change c = {PLAN_STAYS_AWAY, (kit_index)(seed % in.workshop->n_crew), 0};
        if (seed % 3 == 0)
            c = (plan_change){PLAN_SESSION_CANCELLED, (kit_index)(seed % in.workshop->n_sessions), KIT_NONE};
        if (!all_dated(p) || in.workshop->n_sessions < 2) {
            arena_close(a);
            continue;
        }
        announce(a, p, &in);
        plan_change_input(a, &in, &c, 1, &changed);
        without = changed;
        without.n_told = 0;
        plan *q = make(a, &changed), *r = make(a, &without);
        broken_rule why;
        if (!plan_rules_hold(q, &changed, &why))
            fail_msg("seed %d: %s", (int)seed, why.text);
        int x = moves_of(q, &in), y = moves_of(r, &in);
        if (q->proven && r->proven && x >= 0 && y >= 0) {
            assert_int_equal(q->makespan_min, r->makespan_min);
            if (x > y)
                fail_msg("seed %d: %d steps leave their session, %d do without the announcement", (int)seed,
                         x, y);
            kept += x;
            anew += y;
            compared++;
        }
        arena_close(a);
    }
    print_message("%d builds: %d steps leave their announced session, %d would when planned anew\n", compared,
                  kept, anew);
    assert_true(compared > 15 && kept < anew);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(people_stay_where_they_were_told),
        cmocka_unit_test(who_is_away_is_the_reason),
        cmocka_unit_test(a_session_called_off_is_the_reason),
        cmocka_unit_test(what_was_not_announced_is_added),
        cmocka_unit_test(a_plan_again_changes_nothing),
        cmocka_unit_test(changes_are_few),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
