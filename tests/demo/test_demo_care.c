/* test_demo_care.c: the demo kit shows the usual cautions where the work can hurt someone.
 *
 * These are trade habits (common practice, no source); the demo is what makers will copy from, so it must not lose
 * them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "demo/demo_kit.h"

static bool uses_part(const kit *k, kit_index step, const char *part) {
    kit_index wanted = kit_find_part(k, text_of(part));
    for (uint32_t p = 0; p < k->n_step_parts; p++)
        if (k->step_parts[p].step == step && k->step_parts[p].part == wanted)
            return true;
    return false;
}

static bool not_beside(const kit *k, kit_index step, const char *work) {
    for (uint32_t w = 0; w < k->steps[step].not_beside.n; w++)
        if (text_is(k->works[k->steps[step].not_beside.list[w]].number, work))
            return true;
    return false;
}

static void test_struck_pins(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t found = 0;
    for (kit_index s = 0; s < k->n_steps; s++) {
        if (!demo_is_work(k, s, "striking"))
            continue;
        found++;
        assert_true(demo_says(k->steps[s].wear, "goggles (everyone near)"));
        assert_true(demo_cautions(k, s, "goggles for everyone"));
        assert_int_equal(k->steps[s].supervision, KIT_BESIDE);
    }
    assert_true(found >= 2);
}

static void test_lifting_the_ring(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t found = 0;
    for (kit_index s = 0; s < k->n_steps; s++)
        if (demo_is_work(k, s, "lifting") && k->steps[s].people == 6) {
            found++;
            assert_int_equal(k->steps[s].supervision, KIT_BESIDE);
            assert_true(not_beside(k, s, "machine") && not_beside(k, s, "live"));
        }
    assert_int_equal(found, 1);
}

static void test_turning_parts(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t found = 0;
    for (kit_index s = 0; s < k->n_steps; s++) {
        if (!demo_is_work(k, s, "live"))
            continue;
        found++;
        assert_int_not_equal(k->steps[s].supervision, KIT_IN_ROOM);
        assert_true(demo_says(k->steps[s].not_wear, "gloves") &&
                    demo_says(k->steps[s].not_wear, "loose hair"));
        assert_true(demo_cautions(k, s, "stop button"));
        assert_true(not_beside(k, s, "machine") && not_beside(k, s, "height") && not_beside(k, s, "lifting"));
    }
    assert_true(found >= 3);
}

/* D-801 are the batteries, D-802 the fuse, D-803 the link between them; the fuse comes very last. */
static void test_batteries(void **state) {
    const demo *d = demo_of(state);
    const kit *k = d->kit;
    kit_index fuse = KIT_NONE;
    for (kit_index s = 0; s < k->n_steps; s++)
        if (uses_part(k, s, "D-802"))
            fuse = s;
    assert_true(fuse != KIT_NONE);
    assert_true(uses_part(k, fuse, "D-803"));
    assert_int_equal(k->steps[fuse].supervision, KIT_ADULT_DOES);
    assert_true(text_find(k->steps[fuse].instruction, TEXT("fuse very last")) >= 0);
    for (kit_index s = 0; s < k->n_steps; s++) {
        bool wiring = demo_is_work(k, s, "wiring") || demo_is_work(k, s, "battery");
        assert_true(!wiring || demo_comes_after(d, fuse, s));
        if (demo_is_work(k, s, "battery")) {
            assert_int_equal(k->steps[s].supervision, KIT_ADULT_DOES);
            assert_true(demo_says(k->steps[s].not_wear, "rings"));
            assert_true(demo_cautions(k, s, "adult"));
        }
    }
}

static bool needs_skill(const kit *k, kit_index step, kit_index skill) {
    for (uint32_t s = 0; s < k->n_step_skills; s++)
        if (k->step_skills[s].step == step && k->step_skills[s].skill == skill)
            return true;
    return false;
}

/* A ladder needs a skill that only adults have: so a plan never sends a learner up. */
static void test_ladders(void **state) {
    const kit *k = demo_of(state)->kit;
    const kit_workshop *w = demo_of(state)->workshop;
    kit_index ladder = kit_find_tool(k, TEXT("LA-3")), skill = 0;
    while (skill < k->n_skills && !text_is(k->skills[skill].number, "ladder"))
        skill++;
    assert_true(skill < k->n_skills);
    for (uint32_t p = 0; p < w->n_crew; p++)
        for (uint32_t s = 0; s < w->crew[p].skills.n; s++)
            assert_true(w->crew[p].adult || w->crew[p].skills.list[s] != skill);
    uint32_t found = 0;
    assert_true(ladder != KIT_NONE);
    for (uint32_t t = 0; t < k->n_step_tools; t++)
        if (k->step_tools[t].tool == ladder) {
            kit_index s = k->step_tools[t].step;
            found++;
            assert_true(demo_cautions(k, s, "ladders are for adults"));
            assert_true(needs_skill(k, s, skill));
        }
    assert_true(found >= 5);
}

static void test_sealant(void **state) {
    const kit *k = demo_of(state)->kit;
    uint32_t found = 0;
    for (kit_index s = 0; s < k->n_steps; s++) {
        if (!demo_is_work(k, s, "sealing"))
            continue;
        found++;
        assert_true(demo_cautions(k, s, "open"));
        assert_true(not_beside(k, s, "striking"));
        assert_true(k->steps[s].delay_min >= 480 && k->steps[s].delay_text.len > 0);
        for (uint32_t p = 0; p < k->n_step_parts; p++) /* plastic: never by torque, never locked */
            if (k->step_parts[p].step == s) {
                assert_true(k->step_parts[p].tightening != KIT_TORQUE);
                assert_true(k->step_parts[p].condition != KIT_THREAD_LOCKED);
            }
    }
    assert_true(found >= 5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_struck_pins),   cmocka_unit_test(test_lifting_the_ring),
        cmocka_unit_test(test_turning_parts), cmocka_unit_test(test_batteries),
        cmocka_unit_test(test_ladders),       cmocka_unit_test(test_sealant),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
