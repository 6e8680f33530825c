/* report.h: what the report says, before it is text or CSV; private to the room. */
#ifndef DESK_REPORT_H
#define DESK_REPORT_H

#include "desk/desk.h"

/* The makers' numbers of a part with "; " between. */
text report_makers_numbers(arena *a, const kit_part *p);

/* The label of a container when it has one, else its number. */
text report_label(const kit *k, kit_index container);

/* "12 pieces", "1 piece", "12000 mm" */
text report_quantity(arena *a, int64_t n, kit_unit unit);

#endif
