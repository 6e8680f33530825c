/* stock.h: from what was counted to what is missing, what it stops, and what to look at again.
 *
 * Pure: a kit and a record of what people found go in, an assessment comes out; nothing is read or written. A record
 * holds what stands now (the last count of each row, entries that were undone left out) in the order of the journal.
 *
 * Words: a row is one part in one container with its expected quantity. `usable` and `damaged` are what was found.
 * A row that nobody counted says nothing: it is neither missing nor there. For planning it is taken as the packing
 * list says, and that quantity is kept apart (`not_counted`).
 *
 *   lacking = expected - usable, when positive    what has to be sent
 *   missing = expected - usable - damaged, when positive; the rest of what is lacking lies here, damaged
 *   extra   = usable - expected, when positive
 *
 * Pieces that arrived later are added to the usable pieces of the row they were put into, until that row is counted
 * again: then they lie in the bag and are counted with the rest.
 *
 * Quantities are in the row's unit (pieces, or mm, g, mg, ml, packs). Ownership: everything lives in the arena given
 * to stock_assess. Workload: 5,000 rows, 500 steps, some thousand counts; assessed at each command. O(n log n) but for
 * the look-alikes, which compare each row with too many with each row with too few.
 */
#ifndef STOCK_STOCK_H
#define STOCK_STOCK_H

#include "kit/kit.h"
#include "stock/share.h"
#include "stock/shared.h"
#include "stock/work.h"

/* The count of a row that stands, or what arrived for it. `entry` is the journal's number: larger is later. */
typedef struct {
    int64_t entry;
    kit_index row;
    int64_t usable, damaged; /* 0.. */
    bool in_transit;         /* the damage was done on the way */
    text note;
    uint32_t times; /* how often this row was counted, this count included */
    text person;    /* who counted, by number; empty: not said */
} stock_count;

/* Something found in a container that is on none of its rows. */
typedef struct {
    int64_t entry;
    kit_index container;
    text what;
    kit_index part; /* the kit's part that `what` names, KIT_NONE when it names none */
    int64_t quantity;
} stock_find;

/* A box at the door; of several receipts of a box the last stands. */
typedef struct {
    int64_t entry;
    kit_index box;
    int64_t mass_g; /* weighed; -1 when not */
    text damage;    /* empty: none seen */
    date_moment at;
} stock_receipt;

/* What the maker promised. A promise for the same part and day takes the place of the earlier one. */
typedef struct {
    int64_t entry;
    kit_index part;
    int64_t quantity;
    date_day day;
} stock_promise;

/* Pieces that came later. `row` is where they were put; KIT_NONE when the part is on no row. */
typedef struct {
    int64_t entry;
    kit_index part, row;
    int64_t usable, damaged;
} stock_arrival;

/* Voltage of one battery, measured on arrival. */
typedef struct {
    int64_t entry;
    kit_index row;
    int64_t piece; /* 1.. within the row */
    int64_t millivolts;
} stock_voltage;

struct stock_record {
    stock_count *counts; /* at most one for each row */
    uint32_t n_counts;
    stock_find *finds;
    uint32_t n_finds;
    stock_receipt *receipts; /* at most one for each box */
    uint32_t n_receipts;
    stock_promise *promises;
    uint32_t n_promises;
    stock_arrival *arrivals;
    uint32_t n_arrivals;
    stock_voltage *voltages;
    uint32_t n_voltages;
    /* The running build, each in the order of the journal (work.h). */
    stock_event *events;
    uint32_t n_events;
    stock_result *results;
    uint32_t n_results;
    stock_move *moves;
    uint32_t n_moves;
    stock_reading *readings;
    uint32_t n_readings;
    stock_closing *closings;
    uint32_t n_closings;
    /* Several people at one build (shared.h), each in the order of the journal. */
    stock_second_count *second_counts;
    uint32_t n_second_counts;
    stock_hold *holds; /* at most one for each container */
    uint32_t n_holds;
    stock_label *labels; /* at most one for each part */
    uint32_t n_labels;
    stock_tool_count *tool_counts; /* at most one for each tool */
    uint32_t n_tool_counts;
    stock_asked *asked; /* at most one for each part */
    uint32_t n_asked;
};

typedef struct {
    bool counted;
    uint32_t times;
    int64_t expected;
    int64_t usable; /* arrivals since the count included */
    int64_t damaged;
    int64_t arrived; /* of `usable`: came after the count that stands */
    int64_t lacking, missing, extra;
    bool in_transit; /* damaged on the way: said at the count, or the box was received damaged */
    text note;
} stock_row;

/* A part over all its rows. Usable pieces = counted or arrived on its rows + found in wrong containers. */
typedef struct {
    int64_t expected;
    int64_t usable;
    int64_t not_counted; /* expected on rows that nobody counted */
    int64_t damaged;
    int64_t lacking;  /* expected - usable - not_counted, when positive: what the maker has to send */
    int64_t extra;    /* the other way round */
    int64_t needed;   /* by all steps */
    int64_t promised; /* sum over `supplies` */
    stock_supply *supplies;
    uint32_t n_supplies;
} stock_part;

/* A container with all that is nested in it. */
typedef struct {
    uint32_t rows, counted; /* of the packing list */
    uint32_t all_right;     /* counted rows with nothing lacking and nothing extra */
    uint32_t nothing_found; /* counted rows of which not one piece was there */
    uint32_t finds;
    uint32_t low_batteries;
    bool received; /* boxes only */
    int64_t mass_g;
    int64_t mass_difference_g; /* weighed - stated; 0 when one of them is not known */
    bool mass_doubtful;        /* the difference is more than scales explain */
    text damage;
    date_moment received_at;
} stock_container;

/* Two look-alikes, one with too many and one with too few: probably packed or counted for each other. */
typedef struct {
    kit_index extra_row;   /* KIT_NONE when the extra pieces were found on no row: then `find` */
    uint32_t find;         /* index into the record's finds; UINT32_MAX with extra_row */
    kit_index missing_row; /* too few of this */
    int64_t pieces;        /* min(extra, missing) */
    bool fits;             /* extra and missing are the same number */
    text reason;           /* "same head and thread, 20 and 25 mm long" */
    text tell;             /* how to tell them apart; may be empty */
} stock_swap;

typedef struct {
    kit_index row;
    int64_t piece, millivolts, low_mv;
} stock_low_battery;

typedef struct {
    const stock_record *record;
    stock_row *rows;             /* by the kit's rows */
    stock_part *parts;           /* by the kit's parts */
    stock_container *containers; /* by the kit's containers */
    stock_container whole;       /* sums over the shipped boxes; `received` when all are */
    uint32_t boxes, boxes_received;

    /* Rows with something lacking / too many / damaged, and finds: in the order of the packing list. */
    kit_index *missing_rows, *extra_rows, *damaged_rows;
    uint32_t n_missing_rows, n_extra_rows, n_damaged_rows;
    stock_swap *swaps; /* the likeliest first; each row at most once on each side */
    uint32_t n_swaps;
    kit_index *recheck; /* rows of the swaps, each once: count these again first */
    uint32_t n_recheck;
    stock_stop *stops; /* in build order; share.h */
    uint32_t n_stops;
    stock_low_battery *low_batteries;
    uint32_t n_low_batteries;

    const stock_work *work; /* steps, tests and where the pieces are */

    date_day delivered;  /* of the first receipt; INT32_MAX when nothing was received */
    date_day report_by;  /* last day to report to the maker; INT32_MAX when not known or not said */
    date_day carrier_by; /* last day to report damage in transit; likewise */
} stock;

/* Assesses. The kit must have passed kit_check; indices in the record must be the kit's own. */
const stock *stock_assess(arena *a, const kit *k, const stock_record *record);

/* The whole box or bag is missing: every row of it is counted and not one piece was there. */
bool stock_is_absent(const stock_container *c);

/* True when every row is counted and nothing lacks, is extra, damaged or not on the list, no battery is low. */
bool stock_complete(const stock *s);

/* Usable pieces of a part that can be drawn now: usable + not_counted, less what was moved to tubs, fitted, lost or
 * scrapped; not below 0. */
int64_t stock_available(const stock *s, kit_index part);

/* Where `quantity` arrived pieces of `part` go: rows that lack some, in the order of the packing list, what is left to
 * the part's first row. `rows` and `quantities` get one item for each row, at most n_rows of the part; in the arena.
 * No items when the part is on no row. */
typedef struct {
    kit_index row;
    int64_t quantity;
} stock_share;
uint32_t stock_place_arrival(arena *a, const kit *k, const stock *s, kit_index part, int64_t quantity,
                             stock_share **out);

/* ---- at a session's end, and at the end (closing.c, which states the model) ---- */

typedef struct {
    kit_index part, tool; /* one of them; the other is KIT_NONE */
    double chance;        /* that a recount reveals a mistake made since */
    int64_t pieces;       /* to count */
    int64_t seconds;
    bool chosen;
} stock_recount;

/* Every part and tool that was handled since a moment; `chosen` are those whose recount reveals the most within
 * `seconds`. In the order of the kit. Returns how many. */
uint32_t stock_closing_count(arena *a, const kit *k, const stock *s, date_moment since, uint32_t seconds,
                             stock_recount **out);

/* Pieces counted at the end. The caller fills part and counted; each part at most once. */
typedef struct {
    kit_index part;
    int64_t counted;
    int64_t expected;   /* by the record: what was not fitted, lost, scrapped or left in a tub */
    int64_t difference; /* counted - expected */
    kit_index *steps;   /* too many: steps that may have left them out; those that take just as many first */
    uint32_t n_steps, n_exact;
    kit_index
        swapped_for; /* too many of this and too few of that look-alike: may be a swap; KIT_NONE otherwise */
} stock_left_over;
void stock_judge_left_overs(arena *a, const kit *k, const stock *s, stock_left_over *list, uint32_t n);

#include "stock/found.h" /* a piece on the floor: needs the types above */

#endif
