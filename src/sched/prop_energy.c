/* prop_energy.c: energetic reasoning in the prover. Not there yet: energy_on is never set. */
#include "sched/prover.h"
bool propagate_energy(prover *p) {
    (void)p;
    return true;
}
void explain_energy(prover *p, int32_t resource, int32_t note, literal l) {
    (void)p;
    (void)resource;
    (void)note;
    (void)l;
}
