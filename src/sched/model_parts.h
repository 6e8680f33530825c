/* model_parts.h: the steps of model_build, one per file. Private to the model. Each returns false without memory. */
#ifndef SCHED_MODEL_PARTS_H
#define SCHED_MODEL_PARTS_H

#include "sched/model.h"

bool model_build_domains(model *m, memory *mem);   /* model_domains.c */
bool model_build_resources(model *m, memory *mem); /* model_resources.c */
bool model_build_lanes(model *m, memory *mem);     /* model_lanes.c */
bool model_build_stock(model *m, memory *mem);     /* model_stock.c */
bool model_build_bounds(model *m, memory *mem);    /* model_bounds.c */

/* Turns counts at [k + 1] into offsets; at[0] = 0. */
void model_counts_to_offsets(int32_t *at, int32_t n);

#endif
