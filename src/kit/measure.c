/* measure.c: how large a kit is. */
#include "kit/kit.h"

kit_size kit_measure(const kit *k) {
    kit_size s = {.rows = k->n_rows,
                  .parts = k->n_parts,
                  .steps = k->n_steps,
                  .sub_assemblies = k->n_sub_assemblies,
                  .tools = k->n_tools,
                  .tests = k->n_step_tests};
    for (uint32_t i = 0; i < k->n_containers; i++)
        *(k->containers[i].kind == KIT_BOX ? &s.boxes : &s.bags) += 1;
    for (uint32_t i = 0; i < k->n_parts; i++)
        s.fastener_parts += k->parts[i].designation.len > 0;
    for (uint32_t i = 0; i < k->n_rows; i++)
        s.pieces += k->rows[i].unit == KIT_PIECE ? k->rows[i].quantity : 0;
    for (uint32_t i = 0; i < k->n_steps; i++)
        s.person_min += k->steps[i].people * k->steps[i].likely_min;
    for (uint32_t i = 0; i < k->n_step_tests; i++)
        s.hold_points += k->step_tests[i].hold_point;
    return s;
}
