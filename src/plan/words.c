/* words.c: the words a plan is told in. */
#include "plan/plan.h"

const char *plan_status_word(plan_status s) {
    static const char *const words[] = {"optimal", "feasible", "infeasible", "unknown"};
    return words[s];
}
