/* test_plan_multiskill.c: published multi-skill instances, written as builds, have the published best finishes.
 *
 * Each activity is a step whose people are bound to one skill each (own_people); everybody is of age and one session is long enough.
 * Instances and their best finishes: K. D. Young, T. Feydy, A. Schutt, "Constraint Programming Applied to the Multi-Skill Project
 * Scheduling Problem", CP 2017; read from ../shared/data/multiskill or below $KITBENCH_DATA. bench/multiskill.py runs all of them.
 */
#include <jansson.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "plan_rules.h"

typedef struct {
    const char *file;
    int32_t best; /* best.csv: proven by the authors */
} instance;

static const instance instances[] = {
    {"set1a/inst_set1a_sf0.5_nc1.5_n20_m10_00.json", 61},
    {"set1a/inst_set1a_sf0.5_nc1.5_n20_m10_01.json", 66},
    {"set1a/inst_set1a_sf0.5_nc1.5_n20_m10_02.json", 55},
    {"set1a/inst_set1a_sf0.5_nc1.5_n20_m10_03.json", 58},
    {"set1a/inst_set1a_sf0_nc1.8_n20_m20_00.json", 42},
    {"set1a/inst_set1a_sf1_nc1.5_n20_m25_00.json", 42},
    {"set2c/inst_set2c_sf0_nc1.5_n30_l6_m15_00.json", 34},
    {"set2c/inst_set2c_sf0_nc1.5_n30_l8_m8_00.json", 27},
};

static int64_t number_at(const json_t *list, size_t at) {
    return json_integer_value(json_array_get(list, at));
}

/* Steps are the activities that take time; `step_of` says which. */
static void take_steps(arena *a, const json_t *it, kit *k, kit_index *step_of) {
    const json_t *durations = json_object_get(it, "duration"),
                 *needs = json_object_get(it, "people_needed_by_skill");
    size_t n = json_array_size(durations), skills = json_array_size(json_array_get(needs, 0));
    k->steps = arena_array(a, kit_step, n);
    k->step_skills = arena_array(a, kit_step_skill, n * skills);
    k->n_skills = (uint32_t)skills;
    k->skills = arena_array(a, kit_named, skills);
    for (size_t i = 0; i < n; i++) {
        step_of[i] = KIT_NONE;
        int64_t minutes = number_at(durations, i);
        if (minutes == 0)
            continue;
        kit_step s = {.number = arena_format(a, "S%zu", i),
                      .sub_assembly = KIT_NONE,
                      .work = KIT_NONE,
                      .zone = KIT_NONE};
        s.low_min = s.likely_min = s.high_min = minutes;
        for (size_t x = 0; x < skills; x++) {
            int64_t people = number_at(json_array_get(needs, i), x);
            s.people += people;
            if (people > 0)
                k->step_skills[k->n_step_skills++] = (kit_step_skill){
                    .step = k->n_steps, .skill = (kit_index)x, .people = people, .own_people = true};
        }
        step_of[i] = k->n_steps;
        k->steps[k->n_steps++] = s;
    }
}

static void take_order(arena *a, const json_t *it, kit *k, const kit_index *step_of) {
    const json_t *after = json_object_get(it, "after");
    k->step_after = arena_array(a, kit_after, json_array_size(after));
    for (size_t x = 0; x < json_array_size(after); x++) {
        kit_index before = step_of[number_at(json_array_get(after, x), 0)];
        kit_index step = step_of[number_at(json_array_get(after, x), 1)];
        if (before != KIT_NONE && step != KIT_NONE)
            k->step_after[k->n_step_after++] = (kit_after){0, step, before};
    }
}

static void take_crew(arena *a, const json_t *it, kit_workshop *w) {
    const json_t *has = json_object_get(it, "has_skill");
    w->n_crew = (uint32_t)json_array_size(has);
    w->crew = arena_array(a, kit_person, w->n_crew);
    for (uint32_t p = 0; p < w->n_crew; p++) {
        const json_t *row = json_array_get(has, p);
        kit_person *x = &w->crew[p];
        *x = (kit_person){.number = arena_format(a, "P%u", (unsigned)p), .adult = true};
        x->skills.list = arena_array(a, kit_index, json_array_size(row));
        for (size_t s = 0; s < json_array_size(row); s++)
            if (number_at(row, s))
                x->skills.list[x->skills.n++] = (kit_index)s;
    }
    w->sessions = arena_array(a, kit_session, 1);
    w->sessions[0] = (kit_session){.number = 1, .day = 20000, .start = 0, .end = 1439};
    w->n_sessions = 1;
    w->minimum_adults = 1;
    w->beginners_percent = 100;
}

static void published_finishes_are_reached(void **state) {
    (void)state;
    const char *data = getenv("KITBENCH_DATA");
    for (size_t n = 0; n < sizeof instances / sizeof instances[0]; n++) {
        arena *a = arena_open();
        text path = arena_format(a, "%s/multiskill/%s", data ? data : "../shared/data", instances[n].file);
        json_error_t why_not;
        json_t *it = json_load_file(path.at, 0, &why_not);
        if (!it) {
            print_message("SKIPPED: %s\n", why_not.text);
            arena_close(a);
            skip();
        }
        kit k = {.name = TEXT("published")};
        kit_workshop w = {0};
        kit_index *step_of = arena_array(a, kit_index, json_array_size(json_object_get(it, "duration")));
        take_steps(a, it, &k, step_of);
        take_order(a, it, &k, step_of);
        take_crew(a, it, &w);
        plan_input in = {.kit = &k, .workshop = &w, .from = INT64_MIN};
        plan *p;
        err e;
        broken_rule why;
        assert_true(plan_make(a, &in, &p, &e));
        if (!plan_rules_hold(p, &in, &why))
            fail_msg("%s: %s", instances[n].file, why.text);
        if (p->makespan_min != instances[n].best || p->lower_bound_min > instances[n].best)
            fail_msg("%s: finish %d, bound %d, published %d", instances[n].file, (int)p->makespan_min,
                     (int)p->lower_bound_min, (int)instances[n].best);
        json_decref(it);
        arena_close(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(published_finishes_are_reached)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
