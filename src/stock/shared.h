/* shared.h: several people at one build: who has which box, second counts, labels of compartments, tools, and what the
 * maker was asked for. Part of stock.h, which includes it. Entries that still stand, as in work.h.
 */
#ifndef STOCK_SHARED_H
#define STOCK_SHARED_H

#include "kit/kit.h"

/* A row counted again by somebody who was not shown the first count. */
typedef struct {
    int64_t entry;
    kit_index row;
    int64_t usable, damaged;
    text person; /* by number */
} stock_second_count;

/* A box or bag lies with these people, at that table. */
typedef struct {
    int64_t entry;
    date_moment at;
    kit_index container;
    kit_texts people;
    text place;
} stock_hold;

/* The compartment in which pieces of a part lie. */
typedef struct {
    int64_t entry;
    kit_index part;
    text label; /* "tray 2, B4" */
} stock_label;

typedef struct {
    int64_t entry;
    date_moment at;
    kit_index tool;
    int64_t quantity;
} stock_tool_count;

/* So many pieces of a part were asked of the maker in a report that was sent. */
typedef struct {
    int64_t entry;
    date_moment at;
    kit_index part;
    int64_t quantity;
    text note; /* how it was sent, or why it was corrected */
} stock_asked;

#endif
