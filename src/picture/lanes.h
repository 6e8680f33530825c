/* lanes.h: an evening as lanes: time from left to right, a lane for each person, a block for each piece of work.
 *
 * Blocks of one lane do not overlap in a right plan; those that do are drawn over each other. What is beside the work
 * (a supervisor) has a hatched strip; what nobody can work in (opening, closing, not there) is washed and named.
 */
#ifndef PICTURE_LANES_H
#define PICTURE_LANES_H

#include <stdint.h>

#include "picture/picture.h"

enum { LANES_ALL = UINT16_MAX };

typedef struct {
    text name;
    text remark; /* smaller, below: "leader", "from 19:00" */
} lanes_lane;

typedef struct {
    uint16_t lane;
    int from_min, to_min;
    text title; /* bold: "S12" */
    text words; /* after it, cut to fit */
    bool beside;
} lanes_block;

typedef struct {
    uint16_t lane; /* LANES_ALL: over all lanes */
    int from_min, to_min;
    text words;
} lanes_shade;

typedef struct {
    int from_min, to_min; /* of the axis */
    bool clock; /* minutes are minutes after midnight and are labelled so; otherwise counted from 0:00 */
    const lanes_lane *lanes;
    uint16_t n_lanes;
    const lanes_block *blocks;
    uint32_t n_blocks;
    const lanes_shade *shades;
    uint32_t n_shades;
} lanes;

/* The height that the drawing takes. */
double lanes_height(uint16_t n_lanes);

/* Draws it `width` wide. */
picture lanes_draw(arena *a, const lanes *l, double width);

#endif
