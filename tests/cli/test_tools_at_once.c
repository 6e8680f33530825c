/* How many of a tool at once: branch and bound against all subsets, on random small kits. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cli/tools_at_once.h"

enum { STEPS = 10 };

static uint64_t seed = 0xA24BAED4963EE407u;

static uint32_t pick(uint32_t below) {
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return (uint32_t)(seed >> 33) % below;
}

/* Order by following the arrows from each step, which shares nothing with the matrix under test. */
static bool waits_for(const kit *k, kit_index step, kit_index other) {
    for (uint32_t i = 0; i < k->n_step_after; i++)
        if (k->step_after[i].step == step &&
            (k->step_after[i].after == other || waits_for(k, k->step_after[i].after, other)))
            return true;
    return false;
}

static uint32_t slowly(const kit *k, const uint32_t *wanted, uint32_t groups) {
    uint32_t best = 0;
    for (uint32_t set = 0; set < 1u << STEPS; set++) {
        uint32_t sum = 0, n = 0;
        bool together = true;
        for (kit_index i = 0; i < STEPS; i++) {
            if (!(set >> i & 1))
                continue;
            n++;
            sum += wanted[i];
            for (kit_index j = 0; j < i; j++)
                if ((set >> j & 1) && (waits_for(k, i, j) || waits_for(k, j, i)))
                    together = false;
        }
        if (together && n <= groups && sum > best)
            best = sum;
    }
    return best;
}

static void test_against_all_subsets(void **state) {
    (void)state;
    for (int round = 0; round < 200; round++) {
        arena *a = arena_open();
        kit_after after[20] = {0};
        kit k = {.n_steps = STEPS, .step_after = after, .n_step_after = pick(20)};
        uint32_t wanted[STEPS];
        for (uint32_t i = 0; i < k.n_step_after; i++) {
            kit_index later = 1 + pick(STEPS - 1);
            after[i] = (kit_after){.step = later, .after = pick(later)};
        }
        for (int i = 0; i < STEPS; i++)
            wanted[i] = pick(3);
        const bool *ordered = tools_order(a, &k);
        for (uint32_t groups = 1; groups <= 5; groups++)
            assert_int_equal(tools_at_once(a, &k, wanted, ordered, groups), slowly(&k, wanted, groups));
        arena_close(a);
    }
}

static void test_no_steps(void **state) {
    (void)state;
    arena *a = arena_open();
    kit k = {0};
    assert_int_equal(tools_at_once(a, &k, NULL, tools_order(a, &k), 3), 0);
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_against_all_subsets),
                                       cmocka_unit_test(test_no_steps)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
