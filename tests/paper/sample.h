/* sample.h: a kit made up in memory, of any size, for the sheets to be tried on. */
#ifndef TESTS_PAPER_SAMPLE_H
#define TESTS_PAPER_SAMPLE_H

#include "kit/kit.h"

typedef struct {
    uint32_t boxes, bags, rows; /* bags over all boxes; rows over all bags */
    uint32_t steps;
    text long_name; /* of the third part, the second bag and the second step; empty for ordinary ones */
} sample_size;

const kit *sample_kit(arena *a, sample_size size);

#endif
