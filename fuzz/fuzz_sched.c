/* The kernel itself: any bytes as a tiny problem, solved, and every schedule tried: the answers must agree. */
#include <stdint.h>
#include <stdlib.h>

#include "byte_problem.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    int32_t objectives;
    sched_fault fault;
    sched_problem *p = byte_problem(data, size, &objectives);
    if (sched_validate(p, &fault, 1) == 0) {
        byte_best best = byte_try_all(p, objectives);
        if (!byte_agrees(p, &best, 1))
            abort();
    }
    sched_close(p);
    return 0;
}
