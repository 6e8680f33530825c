/* prop_stock.c: reservoirs in the prover. Not propagated yet: solve.c keeps such problems from it. */
#include "sched/prover.h"
bool propagate_stock(prover *p) {
    (void)p;
    return true;
}
void explain_stock(prover *p, int32_t reservoir, int32_t time, literal l) {
    (void)p;
    (void)reservoir;
    (void)time;
    (void)l;
}
