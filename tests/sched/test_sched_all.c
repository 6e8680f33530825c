/* test_sched_all.c: tiny random problems with every kind of rule: the kernel against trying every schedule.
 *
 *     test_sched_all [COUNT [SEED]]
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "byte_problem.h"

static uint64_t count = 400, seed = 1;

static uint64_t next(uint64_t *x) { /* splitmix64, as in the kernel; written again */
    uint64_t z = *x += 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

static void kernel_agrees_with_trying_everything(void **state) {
    (void)state;
    uint64_t feasible = 0, faulty = 0;
    for (uint64_t k = 0; k < count; k++) {
        uint64_t x = seed * 1000003 + k;
        uint8_t bytes[160];
        for (size_t i = 0; i < sizeof bytes; i++)
            bytes[i] = (uint8_t)(next(&x) >> 32);
        int32_t objectives;
        sched_fault fault;
        sched_problem *p = byte_problem(bytes, sizeof bytes, &objectives);
        if (sched_validate(p, &fault, 1) > 0) {
            faulty++;
        } else {
            byte_best best = byte_try_all(p, objectives);
            if (!byte_agrees(p, &best, 1))
                fail_msg("problem %llu of seed %llu: not makespan %d", (unsigned long long)k,
                         (unsigned long long)seed, best.feasible ? best.makespan : -1);
            feasible += best.feasible;
        }
        sched_close(p);
    }
    assert_int_equal(faulty, 0);
    assert_true(feasible > count / 10 && feasible < count);
}

int main(int argc, char **argv) {
    if (argc > 1)
        count = strtoull(argv[1], NULL, 10);
    if (argc > 2)
        seed = strtoull(argv[2], NULL, 10);
    const struct CMUnitTest tests[] = {cmocka_unit_test(kernel_agrees_with_trying_everything)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
