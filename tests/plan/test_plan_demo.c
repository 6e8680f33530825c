/* test_plan_demo.c: the demo build planned as it is, with pieces missing, with too few sessions, by crews that cannot. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "plan_rules.h"

typedef struct {
    arena *memory;
    const kit *kit;
    kit_workshop workshop; /* a copy that a test may change */
} build;

static int open_build(void **state) {
    arena *a = arena_open();
    build *b = arena_new(a, build);
    faults f = faults_in(a);
    const kit_workshop *w;
    err e;
    b->memory = a;
    assert_true(kit_read(a, "demo/kit", "demo/workshop", &f, &b->kit, &w, &e));
    b->workshop = *w;
    b->workshop.crew = arena_array(a, kit_person, w->n_crew);
    memcpy(b->workshop.crew, w->crew, w->n_crew * sizeof *w->crew);
    b->workshop.tools = arena_array(a, kit_owned, w->n_tools);
    memcpy(b->workshop.tools, w->tools, w->n_tools * sizeof *w->tools);
    b->workshop.sessions = arena_array(a, kit_session, w->n_sessions);
    memcpy(b->workshop.sessions, w->sessions, w->n_sessions * sizeof *w->sessions);
    *state = b;
    return 0;
}

static int close_build(void **state) {
    arena_close(((build *)*state)->memory);
    return 0;
}

static plan_input input_of(const build *b) {
    return (plan_input){.kit = b->kit, .workshop = &b->workshop, .from = INT64_MIN, .effort = 1000};
}

static int64_t *as_packed(const build *b) {
    int64_t *usable = arena_array(b->memory, int64_t, b->kit->n_parts);
    for (kit_index p = 0; p < b->kit->n_parts; p++)
        usable[p] = kit_packed(b->kit, p);
    return usable;
}

static plan *made(const build *b, const plan_input *in) {
    plan *p;
    err e;
    broken_rule why;
    if (!plan_make(b->memory, in, &p, &e))
        fail_msg("%s: %s", e.place, e.cause);
    if (!plan_rules_hold(p, in, &why))
        fail_msg("rule %d: %s", (int)why.rule, why.text);
    return p;
}

static void whole_build(void **state) {
    build *b = *state;
    plan_input in = input_of(b);
    plan *p = made(b, &in);
    assert_int_equal(p->n_steps, b->kit->n_steps);
    assert_true(p->finish_dated);
    assert_true(p->one_after_another_min > p->makespan_min);
    assert_true(p->lower_bound_min > 0);
    uint32_t with_slack = 0;
    for (uint32_t n = 0; n < p->n_steps; n++)
        with_slack += p->steps[n].slack_min > 0;
    assert_true(with_slack > 0 && with_slack < p->n_steps);
}

/* The same input gives the same plan. */
static void same_again(void **state) {
    build *b = *state;
    plan_input in = input_of(b);
    buf first = {0}, second = {0};
    plan_write_json(made(b, &in), &first);
    plan_write_json(made(b, &in), &second);
    assert_true(text_equal(buf_text(&first), buf_text(&second)));
    buf_free(&first);
    buf_free(&second);
}

static void too_few_sessions(void **state) {
    build *b = *state;
    b->workshop.n_sessions = 4;
    plan_input in = input_of(b);
    plan *p = made(b, &in);
    assert_int_equal(p->n_steps, b->kit->n_steps);
    assert_false(p->finish_dated);
    assert_true(p->n_undated_used > 0);
    buf out = {0};
    plan_write_json(p, &out);
    json_t *j = json_loads(out.at, 0, NULL);
    assert_non_null(j);
    assert_true(json_is_null(json_object_get(j, "finish")));
    size_t null_ends = 0, k;
    json_t *step;
    json_array_foreach(json_object_get(j, "steps"), k, step) {
        bool dated = json_integer_value(json_object_get(step, "session")) <= 4;
        assert_int_equal(dated, !json_is_null(json_object_get(step, "start")));
        null_ends += json_is_null(json_object_get(step, "end"));
    }
    assert_true(null_ends > 0);
    json_decref(j);
    buf_free(&out);
}

/* A part that several steps draw: without it they stop, what follows waits; promised, it is waited for. */
static void pieces_missing(void **state) {
    build *b = *state;
    plan_input in = input_of(b);
    const kit_step_part *row = &b->kit->step_parts[b->kit->n_step_parts / 3];
    int64_t *usable = as_packed(b);
    usable[row->part] = 0;
    in.usable = usable;
    plan *p = made(b, &in);
    assert_true(p->n_stopped > 0);
    assert_int_equal(p->stopped[0].part, row->part);
    assert_int_equal(p->n_steps + p->n_stopped + p->n_waiting, b->kit->n_steps);
    assert_true(p->n_steps > 0);
    int32_t without = plan_find_step(p, row->step) ? 1 : 0;
    assert_int_equal(without, 0);

    date_moment late = (date_moment)(b->workshop.sessions[9].day) * MINUTES_PER_DAY;
    plan_arrival promised = {row->part, kit_packed(b->kit, row->part), late};
    in.arrivals = &promised;
    in.n_arrivals = 1;
    p = made(b, &in);
    assert_int_equal(p->n_stopped, 0);
    assert_int_equal(p->n_steps, b->kit->n_steps);
    assert_true(plan_find_step(p, row->step)->start >= late);
}

static void steps_done(void **state) {
    build *b = *state;
    plan_input in = input_of(b);
    plan *all = made(b, &in);
    plan_done done[10];
    for (uint32_t n = 0; n < 10; n++)
        done[n] = (plan_done){all->steps[n].step, all->steps[n].end};
    const plan_session *second = &all->sessions[1];
    in.done = done;
    in.n_done = 10;
    in.from = second->begins + 30;
    bool closed = true; /* a step is done only when all before it are: true for the first ten by time */
    for (uint32_t n = 0; n < 10; n++)
        closed = closed && all->steps[n].end <= in.from;
    if (!closed)
        in.from = all->steps[9].end > in.from ? all->steps[9].end : in.from;
    plan *rest = made(b, &in);
    assert_int_equal(rest->n_steps, b->kit->n_steps - 10);
    for (uint32_t n = 0; n < rest->n_steps; n++)
        assert_true(rest->steps[n].start >= in.from);
}

/* ---- crews that cannot ------------------------------------------------------------------------------------------------- */

static const plan_impossible *reason_with(const plan *p, const char *piece) {
    for (uint32_t n = 0; n < p->n_impossible; n++)
        if (text_find(p->impossible[n].reason, text_of(piece)) >= 0)
            return &p->impossible[n];
    return NULL;
}

static void must_name(const build *b, const char *piece) {
    plan_input in = input_of(b);
    in.effort = 100;
    plan *p = made(b, &in);
    const plan_impossible *found = reason_with(p, piece);
    if (!found)
        fail_msg("no step is impossible because %s (%u are)", piece, (unsigned)p->n_impossible);
    assert_true(found->remedy.len > 0);
    assert_null(plan_find_step(p, found->step));
}

static void nobody_supervises(void **state) {
    build *b = *state;
    for (kit_index p = 0; p < b->workshop.n_crew; p++)
        b->workshop.crew[p].supervises.n = 0;
    must_name(b, "no adult of the crew may supervise");
}

static void nobody_has_the_skill(void **state) {
    build *b = *state;
    for (kit_index p = 0; p < b->workshop.n_crew; p++)
        b->workshop.crew[p].skills.n = 0;
    must_name(b, "must have the skill");
}

static void too_few_adults(void **state) {
    build *b = *state;
    b->workshop.minimum_adults = 5;
    plan_input in = input_of(b);
    plan *p = made(b, &in);
    assert_int_equal(p->n_impossible, b->kit->n_steps);
    assert_int_equal(p->status, PLAN_INFEASIBLE);
    assert_non_null(reason_with(p, "5 adults must be in the room"));
}

static void no_tool(void **state) {
    build *b = *state;
    b->workshop.tools[0].quantity = 0;
    must_name(b, "and the workshop has 0");
}

static void no_workplace(void **state) {
    build *b = *state;
    assert_true(b->workshop.n_workplaces > 1);
    b->workshop.workplaces++;
    b->workshop.n_workplaces--;
    must_name(b, "and the workshop has none");
}

static void too_few_people(void **state) {
    build *b = *state;
    b->workshop.n_crew = 4;
    b->workshop.n_attendance = 0;
    must_name(b, "and the crew has 4");
}

static void sessions_too_short(void **state) {
    build *b = *state;
    for (kit_index s = 0; s < b->workshop.n_sessions; s++)
        b->workshop.sessions[s].end =
            b->workshop.sessions[s].start +
            (int)(b->workshop.sessions[s].opening_min + b->workshop.sessions[s].closing_min) + 25;
    must_name(b, "may not be left; the longest session has 25 min");
}

static void one_adult_one_learner(void **state) {
    build *b = *state;
    kit_person pair[2];
    uint32_t n = 0;
    for (kit_index p = 0; p < b->workshop.n_crew && n < 2; p++)
        if (n == 0 || b->workshop.crew[p].adult != pair[0].adult)
            pair[n++] = b->workshop.crew[p];
    b->workshop.minimum_adults = 1;
    b->workshop.crew = pair;
    b->workshop.n_crew = 2;
    b->workshop.n_attendance = 0;
    must_name(b, "one adult would be alone with one learner");
}

/* ---- no plan at all ------------------------------------------------------------------------------------------------------ */

static void refuse(const build *b, const plan_input *in, const char *piece) {
    plan *p;
    err e;
    assert_false(plan_make(b->memory, in, &p, &e));
    assert_int_equal(e.kind, ERR_INPUT);
    assert_non_null(strstr(e.cause, piece));
    assert_true(e.remedy[0] != 0);
}

static void nothing_to_plan_with(void **state) {
    build *b = *state;
    plan_input in = input_of(b);
    kit bare = *b->kit;
    bare.n_steps = 0;
    in.kit = &bare;
    refuse(b, &in, "no steps");
    in.kit = b->kit;
    in.workshop = NULL;
    refuse(b, &in, "no workshop");
    in.workshop = &b->workshop;
    b->workshop.sessions[1].day = b->workshop.sessions[0].day;
    refuse(b, &in, "overlap");
    b->workshop.n_sessions = 0;
    refuse(b, &in, "no session");
    b->workshop.n_crew = 0;
    refuse(b, &in, "no crew");
}

/* ---- JSON ----------------------------------------------------------------------------------------------------------------- */

static void json_says_what_the_plan_says(void **state) {
    build *b = *state;
    plan_input in = input_of(b);
    plan *p = made(b, &in);
    buf out = {0};
    plan_write_json(p, &out);
    json_error_t error;
    json_t *j = json_loads(out.at, JSON_REJECT_DUPLICATES, &error);
    if (!j)
        fail_msg("line %d: %s", error.line, error.text);
    assert_string_equal(json_string_value(json_object_get(j, "status")), plan_status_word(p->status));
    assert_int_equal(json_integer_value(json_object_get(j, "makespan_min")), p->makespan_min);
    assert_int_equal(json_integer_value(json_object_get(j, "lower_bound_min")), p->lower_bound_min);
    assert_int_equal(json_integer_value(json_object_get(j, "one_after_another_min")),
                     p->one_after_another_min);
    assert_int_equal(json_is_true(json_object_get(j, "proven")), p->proven);
    char finish[17];
    date_print_moment(p->finish, finish);
    assert_string_equal(json_string_value(json_object_get(j, "finish")), finish);
    json_t *steps = json_object_get(j, "steps");
    assert_int_equal(json_array_size(steps), p->n_steps);
    for (uint32_t n = 0; n < p->n_steps; n++) {
        const plan_step *s = &p->steps[n];
        json_t *x = json_array_get(steps, n);
        assert_true(text_is(b->kit->steps[s->step].number, json_string_value(json_object_get(x, "step"))));
        assert_int_equal(json_integer_value(json_object_get(x, "start_min")), s->start_min);
        assert_int_equal(json_integer_value(json_object_get(x, "end_min")), s->end_min);
        assert_int_equal(json_integer_value(json_object_get(x, "slack_min")), s->slack_min);
        assert_int_equal(json_is_true(json_object_get(x, "decides_finish")), s->decides_finish);
        json_t *stretches = json_object_get(x, "stretches");
        assert_int_equal(json_array_size(stretches), s->n_stretches);
        for (uint32_t t = 0; t < s->n_stretches; t++) {
            json_t *y = json_array_get(stretches, t);
            assert_int_equal(json_array_size(json_object_get(y, "people")),
                             s->stretches[t].n_people + (s->stretches[t].supervisor != KIT_NONE));
            assert_int_equal(json_is_null(json_object_get(y, "supervisor")),
                             s->stretches[t].supervisor == KIT_NONE);
        }
    }
    json_decref(j);
    buf_free(&out);
}

#define BUILD_TEST(f) cmocka_unit_test_setup_teardown(f, open_build, close_build)

int main(void) {
    const struct CMUnitTest tests[] = {
        BUILD_TEST(whole_build),
        BUILD_TEST(same_again),
        BUILD_TEST(too_few_sessions),
        BUILD_TEST(pieces_missing),
        BUILD_TEST(steps_done),
        BUILD_TEST(nobody_supervises),
        BUILD_TEST(too_few_adults),
        BUILD_TEST(nobody_has_the_skill),
        BUILD_TEST(no_tool),
        BUILD_TEST(no_workplace),
        BUILD_TEST(too_few_people),
        BUILD_TEST(sessions_too_short),
        BUILD_TEST(one_adult_one_learner),
        BUILD_TEST(nothing_to_plan_with),
        BUILD_TEST(json_says_what_the_plan_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
