/* tools.h: what turns a fastener, and reading the names of tools.
 *
 * From a designation comes what the hand needs: a spanner of which width (open, ring or socket, whatever fits the place), a
 * hex key of which size, a driver of which number. A nut and the head of its screw are held at the same time, so a joint
 * with both needs two tools. Where a hexagon's width depends on the family of standards, both widths are told.
 */
#ifndef TRADE_TOOLS_H
#define TRADE_TOOLS_H

#include "trade/dimensions.h"

typedef enum {
    TOOL_NONE,
    TOOL_SPANNER, /* open, ring, combination or socket: all turn an outside hexagon */
    TOOL_HEX_KEY,
    TOOL_CROSS_DRIVER,
    TOOL_SLOT_DRIVER,
    TOOL_HEXALOBULAR_KEY,
    TOOL_RING_PLIERS,
    TOOL_HAMMER_AND_PUNCH, /* pins: everyone near wears goggles */
    TOOL_PLIERS,           /* split pins */
    TOOL_SORT_COUNT
} tool_sort;

typedef struct {
    tool_sort sort;
    int32_t size_um;  /* of spanners and hex keys; 0 when not known */
    int32_t other_um; /* a spanner's second width, when kits mix old and new hexagons */
    int number;       /* of drivers; -1 when not known */
} tool_need;

/* What turns or holds this piece; TOOL_NONE for washers, wing nuts and whatever a hand does. Never fails: a size that is
 * not in the tables is 0. */
tool_need tool_for(const designation *d);

/* "spanner 13 mm (or 12)", "hex key 6 mm", "cross driver size 2" */
int tool_print(const tool_need *t, char out[64]);
const char *tool_sort_name(tool_sort sort);

/* Reads a tool from the columns of a tool table, name, kind and size: ("", "ring spanner", "13 mm"), ("", "hex key", "6 mm"),
 * ("screwdriver, cross recess", "screwdriver", "PH2"), ("", "socket set", "8-19 mm"). False when it is none of ours: a
 * drill, a torque wrench. */
typedef struct {
    tool_sort sort;
    int32_t low_um, high_um; /* of a set; equal for a single tool; 0: the size is not said */
    int number;              /* of drivers, -1 */
    bool is_set;             /* one of each size */
} tool_piece;

bool tool_read(text name, text kind, text size, tool_piece *out);

/* Whether the tool serves the need; the second width does not count: it is the same need with another spanner. */
bool tool_serves(const tool_piece *piece, const tool_need *need);

bool tool_need_equal(const tool_need *a, const tool_need *b);
/* By sort, then size: the order of a tool list. */
int tool_need_compare(const tool_need *a, const tool_need *b);

#endif
