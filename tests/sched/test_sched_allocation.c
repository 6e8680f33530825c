/* test_sched_allocation.c: propagation allocates nothing, on problems that take thousands of conflicts; and how often memory is taken at
 * all hardly grows with the work. Looks inside the kernel. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "sched/prove.h"
#include "sched/rng.h"

enum { RESOURCES = 4 };

/* Every resource scarce, few relations: hard to prove. Cuts too, so that energy and holes have work. */
static sched_problem *scarce(uint64_t seed, int32_t tasks, bool cuts) {
    rng r = rng_open(seed, 0);
    sched_problem *p = sched_open();
    for (int32_t k = 0; k < RESOURCES; k++)
        sched_add_resource(p, 12);
    for (int32_t i = 0; i < tasks; i++) {
        sched_add_task(p, 1 + (int32_t)rng_below(&r, 10));
        for (int32_t k = 0; k < RESOURCES; k++)
            sched_set_demand(p, i, k, 1 + (int32_t)rng_below(&r, 9));
        if (i >= 5)
            sched_add_relation(p, SCHED_END_START, (int32_t)rng_below(&r, (uint32_t)i), i, 0, SCHED_NONE);
        if (cuts)
            sched_set_crossing(p, i, SCHED_CUT_KEPT, 0);
    }
    for (int32_t t = 25; cuts && t < 1000; t += 25)
        sched_add_cut(p, t);
    return p;
}

typedef struct {
    uint64_t conflicts, loop_gets, peak;
} measured;

static measured prove_for(const sched_problem *p, uint64_t effort) {
    solve s = {.problem = p, .options = sched_default_options(), .makespan = SCHED_NONE};
    s.options.effort = effort;
    sched_refusal refusal;
    assert_true(solve_open(&s, &refusal));
    assert_true(model_build(&s.m, p, s.refusal, &s.mem));
    rng r = rng_open(1, 0);
    prove(&s, &r);
    assert_false(s.broken);
    measured m = {s.conflicts, s.mem.loop_gets, s.mem.peak};
    memory_close(&s.mem);
    memory_close(&s.keep);
    return m;
}

static void propagation_allocates_nothing(void **state) {
    (void)state;
    uint64_t conflicts = 0;
    for (uint64_t seed = 1; seed <= 4; seed++) {
        sched_problem *p = scarce(seed, seed % 2 ? 40 : 90, seed > 2);
        measured m = prove_for(p, 8000);
        assert_int_equal(m.loop_gets, 0);
        assert_true(m.peak < 64 << 20);
        conflicts += m.conflicts;
        sched_close(p);
    }
    assert_true(conflicts > 2000); /* or nothing was tried */
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(propagation_allocates_nothing)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
