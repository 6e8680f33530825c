/* Problem files: any bytes are read or refused by both readers; a small problem that is read is solved for a moment, where the solver's
 * own checker must be content. */
#include <stdint.h>
#include <stdlib.h>

#include "cli/solve_read.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    text t = {(const char *)data, size};
    for (int form = 0; form < 2; form++) {
        sched_problem *p = sched_open();
        sched_fault found;
        arena *a = arena_open();
        faults wrong = faults_in(a);
        bool ok = form == 0 ? solve_read_json(p, "fuzz", t, &wrong) : solve_read_psplib(p, "fuzz", t, &wrong);
        if (ok && sched_task_count(p) < 50) {
            sched_options o = sched_default_options();
            o.effort = 20;
            o.memory_bytes = 32 << 20;
            sched_result *r;
            if (!sched_solve(p, &o, &r, &found) && found.code == SCHED_FAULT_INTERNAL)
                abort();
            sched_result_close(r);
        }
        sched_close(p);
        arena_close(a);
    }
    return 0;
}
