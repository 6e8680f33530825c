/* test_plan_people.c: naming against trying everything, and what it tells when there are no names. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan/people.h"

enum { JOBS = 5, CREW = 4, LENGTH = 12 };

static uint32_t next(uint64_t *state) {
    *state = *state * 6364136223846793005ULL + 1442695040888963407ULL;
    return (uint32_t)(*state >> 33);
}

/* One session of LENGTH minutes in which people come late and leave early. */
typedef struct {
    kit_workshop w;
    kit_person crew[CREW];
    kit_session session;
    kit_attendance attendance[CREW];
    calendar c;
    plan_job jobs[JOBS];
    people_set seats[JOBS][2];
    job_team teams[JOBS];
    int32_t starts[JOBS];
} evening;

static void random_evening(arena *a, uint64_t seed, evening *e) {
    uint64_t dice = seed * 77 + 5;
    memset(e, 0, sizeof *e);
    e->w.minimum_adults = 1;
    e->w.crew = e->crew;
    e->w.n_crew = CREW;
    e->w.sessions = &e->session;
    e->w.n_sessions = 1;
    e->w.attendance = e->attendance;
    e->session = (kit_session){0, 1, 20000, 600, 600 + LENGTH, 0, 0, false};
    for (kit_index p = 0; p < CREW; p++) {
        e->crew[p].adult = p == 0;
        if (p > 0 && next(&dice) % 3 == 0)
            e->attendance[e->w.n_attendance++] = (kit_attendance){
                0, 0, p, true, 600 + (int)(next(&dice) % 4), 600 + 8 + (int)(next(&dice) % 4)};
    }
    err why;
    assert_true(calendar_open(a, &e->w, INT64_MIN, 0, &e->c, &why));
    for (uint32_t j = 0; j < JOBS; j++) {
        plan_job *x = &e->jobs[j];
        x->duration = 2 + (int32_t)(next(&dice) % 6);
        x->n_seats = 1 + next(&dice) % 4 / 3;
        for (uint32_t s = 0; s < x->n_seats; s++)
            e->seats[j][s] = next(&dice) % 2 ? 15 : 1 + next(&dice) % 15;
        e->teams[j].seats = e->seats[j];
        x->teams = &e->teams[j];
        x->n_teams = 1;
        e->starts[j] = (int32_t)(next(&dice) % (uint32_t)(LENGTH - x->duration + 1));
    }
}

/* Tries every person for every seat from `seat` on; jobs left out by `without` need nobody. */
static bool some_naming(const evening *e, uint32_t seat, uint32_t without, kit_index *people) {
    uint32_t j = 0, first = 0;
    while (j < JOBS && first + e->jobs[j].n_seats <= seat)
        first += e->jobs[j++].n_seats;
    if (j == JOBS)
        return true;
    if (without >> j & 1)
        return some_naming(e, first + e->jobs[j].n_seats, without, people);
    int32_t from = e->starts[j], to = from + e->jobs[j].duration;
    for (kit_index p = 0; p < CREW; p++) {
        bool can = e->seats[j][seat - first] >> p & 1;
        for (int32_t m = from; m < to && can; m++)
            can = calendar_there(&e->c, m, m + 1) >> p & 1;
        for (uint32_t other = 0, at = 0; other <= j && can; at += e->jobs[other++].n_seats)
            for (uint32_t s = 0; s < e->jobs[other].n_seats && at + s < seat; s++)
                if (!(without >> other & 1) && people[at + s] == p && e->starts[other] < to &&
                    from < e->starts[other] + e->jobs[other].duration)
                    can = false;
        people[seat] = p;
        if (can && some_naming(e, seat + 1, without, people))
            return true;
    }
    return false;
}

static void check_conflict(const evening *e, const people_conflict *why) {
    uint32_t blamed = 0;
    kit_index people[2 * JOBS];
    assert_true(why->n > 0);
    for (uint32_t k = 0; k < why->n; k++) {
        blamed |= 1U << why->jobs[k];
        assert_true(why->ranges[k].first <= e->starts[why->jobs[k]]);
        assert_true(why->ranges[k].last >= e->starts[why->jobs[k]]);
    }
    assert_false(some_naming(e, 0, ~blamed, people)); /* they are enough for it */
    for (uint32_t k = 0; k < why->n; k++)             /* and none of them can be left out */
        assert_true(some_naming(e, 0, ~blamed | 1U << why->jobs[k], people));
    if (why->together) /* at no other start either: with everybody there, at one instant */
        return;
    for (int tries = 0; tries < 30; tries++) { /* any starts in the ranges fail, too */
        evening other = *e;
        uint64_t dice = (uint64_t)tries + 1;
        for (uint32_t k = 0; k < why->n; k++)
            other.starts[why->jobs[k]] =
                why->ranges[k].first +
                (int32_t)(next(&dice) % (uint32_t)(why->ranges[k].last - why->ranges[k].first + 1));
        assert_false(some_naming(&other, 0, ~blamed, people));
    }
}

static void as_trying_everything(void **state) {
    (void)state;
    uint32_t named = 0, not_named = 0, wider = 0;
    for (uint64_t seed = 1; seed <= 4000; seed++) {
        arena *a = arena_open();
        evening e;
        random_evening(a, seed, &e);
        people_work w = {&e.c, e.jobs, JOBS, NULL};
        people_stretch *out;
        uint32_t n;
        people_conflict why;
        kit_index people[2 * JOBS];
        people_answer answer = people_name(a, &w, e.starts, &out, &n, &why);
        bool can = some_naming(&e, 0, 0, people);
        if ((answer == PEOPLE_NAMED) != can)
            fail_msg("seed %u: names %s", (unsigned)seed, can ? "were missed" : "were invented");
        if (answer == PEOPLE_CANNOT) {
            check_conflict(&e, &why);
            for (uint32_t k = 0; k < why.n; k++)
                wider += why.ranges[k].first < why.ranges[k].last;
        }
        named += answer == PEOPLE_NAMED;
        not_named += answer == PEOPLE_CANNOT;
        arena_close(a);
    }
    print_message("%u named, %u not, %u ranges wider than one start\n", named, not_named, wider);
    assert_true(named > 500 && not_named > 500 && wider > 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_trying_everything)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
