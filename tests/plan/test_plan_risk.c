/* test_plan_risk.c: carrying a plan out many times, held against closed forms and published worked examples. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "plan/plan.h"
#include "plan/risk_draw.h"
#include "random_build.h"

enum { SAMPLES = 20000, MOST = 40 };

/* A share of SAMPLES may be so far from its chance: four standard errors, once in 16,000 tests. */
static double room_of(double chance) {
    return 4 * sqrt(chance * (1 - chance) / SAMPLES) + 1e-9;
}

#define assert_chance(share_, chance_)                                                                       \
    do {                                                                                                     \
        double got_ = (share_), want_ = (chance_);                                                           \
        if (fabs(got_ - want_) > room_of(want_))                                                             \
            fail_msg("%s: %.5f of the samples, by the closed form %.5f", #share_, got_, want_);              \
    } while (0)

/* ---- builds ----------------------------------------------------------------------------------------------------------- */

typedef struct {
    kit k;
    kit_workshop w;
    kit_step steps[MOST];
    kit_after after[MOST];
    kit_person crew[MOST];
    kit_session sessions[MOST];
    plan_input in;
} site;

/* `n_sessions` sessions of `length` minutes on days one after the other, `adults` of age and as many learners; no steps yet. */
static site *new_site(arena *a, uint32_t n_sessions, int length, uint32_t adults, uint32_t learners) {
    site *s = arena_new(a, site);
    s->k = (kit){.steps = s->steps, .step_after = s->after};
    s->w = (kit_workshop){.crew = s->crew,
                          .n_crew = adults + learners,
                          .sessions = s->sessions,
                          .n_sessions = n_sessions,
                          .beginners_percent = 100,
                          .minimum_adults = 1,
                          .wanted_day = INT32_MAX,
                          .late_days = 7};
    for (uint32_t p = 0; p < adults + learners; p++)
        s->crew[p] = (kit_person){.number = arena_format(a, "p%u", (unsigned)p), .adult = p < adults};
    for (uint32_t k = 0; k < n_sessions; k++)
        s->sessions[k] = (kit_session){
            .number = (int64_t)k + 1, .day = 20000 + (date_day)k, .start = 10, .end = 10 + length};
    s->in = (plan_input){.kit = &s->k, .workshop = &s->w, .from = INT64_MIN};
    return s;
}

/* A step for one person; KIT_NONE: after none. */
static kit_index add_step(site *s, int64_t low, int64_t likely, int64_t high, kit_index after) {
    kit_index n = s->k.n_steps++;
    s->steps[n] = (kit_step){.number = n % 2 ? TEXT("odd") : TEXT("even"),
                             .sub_assembly = KIT_NONE,
                             .work = KIT_NONE,
                             .zone = KIT_NONE,
                             .low_min = low,
                             .likely_min = likely,
                             .high_min = high,
                             .people = 1};
    if (after != KIT_NONE)
        s->after[s->k.n_step_after++] = (kit_after){0, n, after};
    return n;
}

static plan *make(arena *a, const plan_input *in) {
    plan *p;
    err e;
    if (!plan_make(a, in, &p, &e))
        fail_msg("%s: %s", e.place, e.cause);
    return p;
}

static plan_risk *assess(arena *a, const plan_input *in, const plan *p, uint32_t threads) {
    plan_risk *r;
    err e;
    plan_risk_options how = {.samples = SAMPLES, .seed = 7, .threads = threads};
    if (!plan_assess_risk(a, in, p, &how, &r, &e))
        fail_msg("%s: %s", e.place, e.cause);
    assert_int_equal(r->samples, SAMPLES);
    return r;
}

/* ---- durations --------------------------------------------------------------------------------------------------------- */

/* Mean (a + 4 m + b) / 6: Malcolm, Roseboom, Clark, Fazar (1959). Variance of the beta with 1 + 4 x and 5 - 4 x: alpha beta over
 * 6 * 6 * 7; rounding to minutes adds a twelfth (Sheppard). */
static void durations_have_the_three_point_moments(void **state) {
    (void)state;
    arena *a = arena_open();
    static const int32_t cases[][3] = {
        {10, 40, 70}, {60, 60, 120}, {30, 90, 90}, {10, 15, 20}, {45, 60, 180}};
    for (size_t c = 0; c < sizeof cases / sizeof *cases; c++) {
        int32_t low = cases[c][0], likely = cases[c][1], high = cases[c][2];
        risk_minutes m = risk_minutes_of(a, low, likely, high);
        double mean = 0, squares = 0, x = (double)(likely - low) / (high - low);
        for (uint32_t k = 0; k < m.n; k++) {
            double p = ldexp((double)m.upto[k], -64) - (k ? ldexp((double)m.upto[k - 1], -64) : 0);
            assert_true(p >= 0);
            mean += p * (low + (double)k);
            squares += p * (low + (double)k) * (low + (double)k);
        }
        double span = high - low, variance = span * span * (1 + 4 * x) * (5 - 4 * x) / 252 + 1.0 / 12;
        assert_true(fabs(mean - (low + 4 * likely + high) / 6.0) < 0.03);
        assert_true(fabs(squares - mean * mean - variance) < 0.01 * variance + 0.02);
        assert_int_equal(risk_draw_minutes(&m, 0), low);
        assert_int_equal(risk_draw_minutes(&m, UINT64_MAX), high);
    }
    risk_minutes certain = risk_minutes_of(a, 30, 30, 30);
    assert_int_equal(risk_draw_minutes(&certain, 12345), 30);
    arena_close(a);
}

/* Hillier and Lieberman, "Introduction to Operations Research", the construction example: low, likely and high weeks along its mean
 * critical path; mean 44, variance 9, and with the normal approximation a chance of 0.84 to be done within 47 weeks. (Figures from
 * memory.) A week is 60 minutes here. Their variance is ((b - a) / 6)^2; that of the distribution itself is up to a third more. */
static void a_published_path(void **state) {
    (void)state;
    arena *a = arena_open();
    static const int64_t path[][3] = {{60, 120, 180},  {120, 210, 480}, {360, 540, 1080}, {60, 270, 300},
                                      {240, 240, 600}, {180, 540, 540}, {60, 330, 420},   {300, 330, 540}};
    site *s = new_site(a, 6, 1410, 1, 0); /* two sessions are 47 weeks */
    kit_index last = KIT_NONE;
    double variance = 0;
    for (size_t k = 0; k < sizeof path / sizeof *path; k++) {
        last = add_step(s, path[k][0], path[k][1], path[k][2], last);
        s->steps[last].may_pause = true;
        double span = (double)(path[k][2] - path[k][0]), x = (double)(path[k][1] - path[k][0]) / span;
        variance += span * span * (1 + 4 * x) * (5 - 4 * x) / 252;
    }
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    assert_true(fabs(r->mean_min - 44 * 60) < 4 * r->mean_error);
    assert_true(fabs(r->mean_error * sqrt(SAMPLES) - sqrt(variance)) < 0.02 * sqrt(variance));
    assert_true(fabs(r->by_session[1].by_then.share - 0.84) < 0.03);
    arena_close(a);
}

/* The mean of the greater of two equal independent normals is mu + sigma / sqrt(pi): Clark, "The greatest of a finite set of random
 * variables", Operations Research 9 (1961). Each branch is twenty steps, whose sum is near enough to normal; they are planned with their
 * least minutes, so that no step waits for its turn. */
static void the_greater_of_two_normals(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a, 1, 1400, 1, 2);
    kit_index last[2] = {KIT_NONE, KIT_NONE};
    for (int k = 0; k < 20; k++)
        for (int branch = 0; branch < 2; branch++)
            last[branch] = add_step(s, 10, 10, 130, last[branch]);
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    double sigma = sqrt(20 * (120.0 * 120 * 5 / 252 + 1.0 / 12));
    assert_true(fabs(r->mean_min - (600 + sigma / sqrt(acos(-1)))) < 4 * r->mean_error + 0.01 * sigma);
    /* either branch decides as often, and a whole branch does together */
    for (uint32_t k = 0; k < r->n_steps; k++)
        assert_true(fabs(r->steps[k].decides.share - 0.5) < 0.03);
    arena_close(a);
}

/* ---- who comes --------------------------------------------------------------------------------------------------------- */

/* Ten steps that fill a session each. */
static site *ten_evenings(arena *a, uint32_t adults) {
    site *s = new_site(a, 30, 100, adults, 2);
    for (int k = 0; k < 10; k++)
        add_step(s, 100, 100, 100, k ? (kit_index)(k - 1) : KIT_NONE);
    return s;
}

/* The chance that the tenth success comes at try 10 + k: negative binomial. */
static double tenth_at(int k, double p) {
    double c = 1;
    for (int i = 1; i <= k; i++)
        c = c * (9 + i) / i;
    return c * pow(p, 10) * pow(1 - p, k);
}

static void assert_evenings(const plan_risk *r, double p) {
    assert_int_equal(r->by_session[8].last.count, 0);
    for (int k = 0; k < 6; k++)
        assert_chance(r->by_session[9 + k].last.share, tenth_at(k, p));
}

/* Two adults must be there and each comes to 95 of a hundred: that both come to all of ten is 0.95^20 = 0.3585. */
static void two_of_two_come_to_all_of_ten(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = ten_evenings(a, 2);
    s->w.minimum_adults = 2;
    s->crew[0].misses_percent = s->crew[1].misses_percent = 5;
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    assert_chance(r->by_session[9].last.share, pow(0.95, 20));
    assert_evenings(r, 0.95 * 0.95);
    assert_chance(r->by_session[3].held_up.share,
                  1 - 0.95 * 0.95 - 0.05 * 0.05); /* one more helps when one is away */
    arena_close(a);
}

static void sessions_are_called_off(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = ten_evenings(a, 1);
    s->w.cancelled_percent = 20;
    s->w.wanted_day = 20000 + 10; /* session 11 */
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    assert_evenings(r, 0.8);
    assert_chance(r->met.share, tenth_at(0, 0.8) + tenth_at(1, 0.8));
    assert_int_equal(r->by_session[3].held_up.count, 0); /* a supervisor more would not help */
    assert_true(r->met.low < r->met.share && r->met.share < r->met.high);
    arena_close(a);
}

/* One supervisor, away from half of the sessions; the work takes one. Without a reserve it ends in session g with chance 2^-g, after 100 g
 * minutes, 200 on average; with one at the first session after 100. */
static void a_reserve_is_tried(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a, 30, 100, 2, 2);
    static kit_named works[1];
    static kit_index striking[1] = {0};
    s->k.works = works;
    s->k.n_works = 1;
    kit_index step = add_step(s, 100, 100, 100, KIT_NONE);
    s->steps[step].work = 0;
    s->steps[step].supervision = KIT_BESIDE;
    s->crew[0].supervises = (kit_indices){striking, 1};
    s->crew[0].misses_percent = 50;
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    const plan_risk_session *first = &r->by_session[0];
    assert_chance(first->held_up.share, 0.5);
    assert_true(first->tried);
    assert_true(fabs(first->earlier_min - 100) < 4 * first->earlier_error);
    assert_true(first->earlier_error < 4); /* standard deviation of 100 (g - 1) is 141; 4096 samples */
    arena_close(a);
}

/* Promised for the first day; four of ten are late, by 1, 2, 3 ... days with chance 1/2, 1/4, 1/8 ... */
static void promises_come_late(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a, 12, 100, 1, 0);
    kit_part part = {.number = TEXT("P"), .name = TEXT("part")};
    kit_step_part draws = {.step = 0, .part = 0, .quantity = 2, .closed_by = KIT_NONE};
    plan_arrival arrival = {0, 2, (date_moment)20000 * MINUTES_PER_DAY};
    int64_t usable[1] = {0};
    s->k.parts = &part;
    s->k.n_parts = 1;
    s->k.step_parts = &draws;
    s->k.n_step_parts = 1;
    s->in.usable = usable;
    s->in.arrivals = &arrival;
    s->in.n_arrivals = 1;
    s->w.late_percent = 40;
    s->w.late_days = 2;
    add_step(s, 50, 50, 50, KIT_NONE);
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    assert_chance(r->by_session[0].last.share, 0.6);
    for (int k = 1; k < 6; k++)
        assert_chance(r->by_session[k].last.share, 0.4 * pow(0.5, k));
    arena_close(a);
}

/* ---- joins ------------------------------------------------------------------------------------------------------------- */

/* The main machine takes 60 min, the sub-assembly 40 to 160: late by X - 60, and the joining step with it. */
static void a_join_waits_for_its_sub_assembly(void **state) {
    (void)state;
    arena *a = arena_open();
    site *s = new_site(a, 2, 400, 1, 2);
    static kit_sub_assembly unit[1] = {{.buffer_min = 10}};
    s->k.sub_assemblies = unit;
    s->k.n_sub_assemblies = 1;
    kit_index frame = add_step(s, 60, 60, 60, KIT_NONE), door = add_step(s, 40, 50, 160, KIT_NONE);
    kit_index join = add_step(s, 30, 30, 30, frame);
    s->after[s->k.n_step_after++] = (kit_after){0, join, door};
    s->steps[door].sub_assembly = 0;
    plan_risk *r = assess(a, &s->in, make(a, &s->in), 0);
    risk_minutes m = risk_minutes_of(a, 40, 50, 160);
    double late = 0, mean = 0, before = 0;
    int32_t nine_of_ten = 0;
    for (uint32_t k = 0; k < m.n; k++) {
        double p = ldexp((double)m.upto[k], -64) - before;
        before += p;
        late += k > 20 ? p : 0;
        mean += k > 20 ? p * (k - 20.0) : 0;
        nine_of_ten = before < 0.9 ? (int32_t)k - 20 + 1 : nine_of_ten;
    }
    assert_int_equal(r->n_joins, 1);
    assert_int_equal(r->joins[0].step, join);
    assert_int_equal(r->joins[0].planned_buffer_min, 10);
    assert_chance(r->joins[0].late.share, late);
    assert_true(fabs(r->joins[0].late_min - mean) < 0.5);
    assert_true(abs(r->joins[0].nine_of_ten_min - nine_of_ten) <= 2);
    for (uint32_t k = 0; k < r->n_steps; k++) {
        double want = r->steps[k].step == join ? 1 : r->steps[k].step == door ? late : -1;
        if (want >= 0) /* at equality both decide or the first that was met: the door's share lies between */
            assert_true(r->steps[k].decides.share >= want - 0.02 && r->steps[k].decides.share <= want + 0.03);
    }
    arena_close(a);
}

/* ---- any build ---------------------------------------------------------------------------------------------------------- */

/* With nothing uncertain the plan's order carries the plan out: it ends as planned, or before where steps begin at once. */
static void certain_builds_end_as_planned(void **state) {
    (void)state;
    uint32_t carried_out = 0, exactly = 0;
    for (uint64_t seed = 1; seed <= 150; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 4 + (uint32_t)(seed % 20));
        kit k = *in.kit;
        k.steps = arena_array(a, kit_step, k.n_steps);
        for (kit_index s = 0; s < k.n_steps; s++) {
            k.steps[s] = in.kit->steps[s];
            k.steps[s].low_min = k.steps[s].high_min = k.steps[s].likely_min;
        }
        in.kit = &k;
        plan *p = make(a, &in);
        if (p->n_steps > 0) {
            plan_risk_options how = {.samples = 1};
            plan_risk *r;
            err e;
            assert_true(plan_assess_risk(a, &in, p, &how, &r, &e));
            if (r->unfinished || r->half_min > p->makespan_min)
                fail_msg("build %d ends at %d, planned %d", (int)seed, (int)r->half_min,
                         (int)p->makespan_min);
            carried_out++;
            exactly += r->half_min == p->makespan_min;
        }
        arena_close(a);
    }
    assert_true(carried_out > 100 && exactly > 90);
}

static void threads_do_not_matter(void **state) {
    (void)state;
    for (uint64_t seed = 1; seed <= 3; seed++) {
        arena *a = arena_open();
        plan_input in = random_build(a, seed, 12);
        kit_workshop w = *in.workshop;
        w.crew = arena_array(a, kit_person, w.n_crew);
        memcpy(w.crew, in.workshop->crew, w.n_crew * sizeof *w.crew);
        for (kit_index p = 0; p < w.n_crew; p++)
            w.crew[p].misses_percent = 10 + 5 * (int64_t)p;
        w.cancelled_percent = 5;
        in.workshop = &w;
        plan *p = make(a, &in);
        buf one = {0}, three = {0};
        plan_write_risk_json(p, assess(a, &in, p, 1), &one);
        plan_write_risk_json(p, assess(a, &in, p, 3), &three);
        assert_true(one.len > 200 && text_equal(buf_text(&one), buf_text(&three)));
        buf_free(&one);
        buf_free(&three);
        arena_close(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(durations_have_the_three_point_moments),
        cmocka_unit_test(a_published_path),
        cmocka_unit_test(the_greater_of_two_normals),
        cmocka_unit_test(two_of_two_come_to_all_of_ten),
        cmocka_unit_test(sessions_are_called_off),
        cmocka_unit_test(a_reserve_is_tried),
        cmocka_unit_test(promises_come_late),
        cmocka_unit_test(a_join_waits_for_its_sub_assembly),
        cmocka_unit_test(certain_builds_end_as_planned),
        cmocka_unit_test(threads_do_not_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
