/* together.h: several pairs at one stock check, and what has to be put right at an evening's end; part of desk.h, which
 * includes it.
 */
#ifndef DESK_TOGETHER_H
#define DESK_TOGETHER_H

#include "stock/stock.h"

/* ---- boxes and bags on tables ---- */

/* These people have a box or bag, at that table (may be empty). Somebody else who has it is a reason against it, unless
 * `anyway`. */
MUST_USE bool desk_take(struct desk *d, kit_index container, const char *people, text place, bool anyway,
                        desk_who who, desk_reasons *why, err *e);

/* It is back where it came from. */
MUST_USE bool desk_bring_back(struct desk *d, kit_index container, desk_who who, desk_reasons *why, err *e);

/* Who has it; NULL: nobody. */
const stock_hold *desk_holder(const struct desk *d, kit_index container);

/* Every row of the box or bag, nested ones included, that nobody counted yet is as on the list: one act. `n` gets how many. */
MUST_USE bool desk_all_here(struct desk *d, kit_index container, desk_who who, uint32_t *n, err *e);

/* ---- counted again ---- */

/* Counted again by somebody who was not shown the count. The count stands; whether the two agree is for the leader
 * (desk_second_counts). Not by the one who counted, and not before. */
MUST_USE bool desk_count_again(struct desk *d, kit_index row, int64_t usable, int64_t damaged, desk_who who,
                               desk_reasons *why, err *e);

typedef struct {
    const stock_count *count;
    const stock_second_count *again; /* the last one since that count */
    bool agree;
} desk_second_count;

/* Rows that were counted again since their count, in the order of the packing list; in the desk's arena. */
uint32_t desk_second_counts(const struct desk *d, desk_second_count **out);

/* ---- photos ---- */

/* The photo that came with an entry (desk_count.photo); empty when there is none. */
MUST_USE bool desk_photo(const struct desk *d, int64_t entry, text *bytes, err *e);

/* ---- compartments and tools ---- */

/* The compartment in which pieces of a part lie; an empty label: in none. */
MUST_USE bool desk_label(struct desk *d, kit_index part, text label, desk_who who, err *e);
text desk_label_of(const struct desk *d, kit_index part); /* empty: none */

typedef struct {
    kit_index tool;
    int64_t quantity;
} desk_tools_here;

/* How many of each tool are here; one act. */
MUST_USE bool desk_count_tools(struct desk *d, const desk_tools_here *list, uint32_t n, desk_who who, err *e);

/* How many of a tool there should be: what the workshop has, else what the kit's maker advises. */
int64_t desk_tools_expected(const struct desk *d, kit_index tool);

/* The last count of a tool; NULL: never. `fresh`: done since the last work on any step. */
const stock_tool_count *desk_tool_count(const struct desk *d, kit_index tool, bool *fresh);

/* ---- what was asked of the maker ---- */

/* The report was sent: every part that lacks pieces is asked for, with as many as lack now. `note`: how it was sent; may
 * be NULL. `n` gets how many parts were not asked for in that number before; none: nothing is written. */
MUST_USE bool desk_report_sent(struct desk *d, const char *note, desk_who who, uint32_t *n, err *e);

/* A report that was sent is corrected by an adult, with a reason: so many are asked for. */
MUST_USE bool desk_correct_asked(struct desk *d, kit_index part, int64_t quantity, const char *reason,
                                 desk_who who, desk_reasons *why, err *e);

typedef enum {
    DESK_NOT_ASKED, /* lacks pieces, and the maker was not asked for all of them */
    DESK_ASKED,
    DESK_PROMISED, /* all that lack, for days to come */
    DESK_OVERDUE,  /* a promised day is over */
    DESK_ARRIVED   /* was asked for, and lacks no more */
} desk_chase_state;

const char *desk_chase_word(desk_chase_state s); /* "not asked", "asked", "promised", "overdue", "arrived" */

typedef struct {
    kit_index part;
    int64_t lacking, asked, promised;
    date_moment asked_at;   /* valid when asked > 0 */
    date_day promised_for;  /* the last day promised; INT32_MAX: none */
    uint32_t steps_stopped; /* steps that cannot go on without it */
    kit_index *
        stand_ins; /* of kit.stand_ins: what the maker allows in its place; nothing releases one but people */
    uint32_t n_stand_ins;
    desk_chase_state state;
} desk_chased;

/* Every part that lacks pieces or was asked for, in the order of the parts; in the desk's arena. */
uint32_t desk_chase(const struct desk *d, date_day today, desk_chased **out);

#endif
