/* work.h: the use cases of the running build; part of desk.h, which includes it.
 *
 * What is asked for and may not be is no failure: the call returns true, writes nothing, and `why` lists every reason, so
 * that they can all be mended at once. An empty list: it is written. A failure (false) is wrong input or a file that
 * cannot be used, as everywhere in this room.
 *
 * People are given as names or numbers with commas between ("Fern, Otter"). What an adult has to say
 * must be proved once codes are set (roles.h). `who.by` of a start or change-over is not used: the people are.
 */
#ifndef DESK_WORK_H
#define DESK_WORK_H

#include "stock/stock.h"

struct desk;

typedef struct {
    text *list; /* a sentence each */
    uint32_t n;
    size_t cap;
} desk_reasons;

/* A step by its number. The failure says where numbers are found. */
MUST_USE bool desk_find_step(const struct desk *d, text number, kit_index *out, err *e);

/* Begins a step, or goes on with one that was left or blocked. `confirm`: the supervisor who says yes; NULL or "":
 * nobody. The step's pieces are drawn into its tub: from the compartment first, then from the rows as they are packed. */
MUST_USE bool desk_start(struct desk *d, kit_index step, const char *people, const char *confirm,
                         desk_who who, desk_reasons *why, err *e);

/* Others go on with a running step. */
MUST_USE bool desk_change_over(struct desk *d, kit_index step, const char *people, desk_who who,
                               desk_reasons *why, err *e);

/* Left at a session's end (`reason` NULL), or blocked for a reason. */
MUST_USE bool desk_leave(struct desk *d, kit_index step, const char *reason, desk_who who, desk_reasons *why,
                         err *e);

typedef struct {
    kit_index part;
    int64_t quantity;
} desk_left;

/* minutes -1: as the clock says. What is `left` of the pieces drawn goes from the tub to the compartment, the rest is
 * fitted. */
MUST_USE bool desk_finish(struct desk *d, kit_index step, int64_t minutes, const desk_left *left,
                          uint32_t n_left, desk_who who, desk_reasons *why, err *e);

/* Writes a measured value down, signed when `signed_by` is not NULL. A value out of limits is written as it is and
 * blocks what follows. A signed result is replaced only by an adult's, with a reason. `value`: a number, or yes / no. */
MUST_USE bool desk_test(struct desk *d, kit_index test, text value, const char *signed_by, const char *reason,
                        desk_who who, desk_reasons *why, err *e);

typedef struct {
    kit_index part;
    int64_t quantity;
    stock_place from, to;
    kit_index row, step; /* KIT_NONE: not said; a tub and what is fitted need a step */
} desk_transfer;

MUST_USE bool desk_move(struct desk *d, const desk_transfer *t, desk_who who, desk_reasons *why, err *e);

/* A closing count; `missing` NULL or empty: everything is here. Not while a box or bag is not back where it came from. */
MUST_USE bool desk_close_count(struct desk *d, const char *missing, desk_who who, desk_reasons *why, err *e);

/* What stands between now and "list complete"; an empty list: it is. Says nothing about safety. */
void desk_release(const struct desk *d, desk_reasons *why);

/* Takes a step apart with all that hides it (stock_undo_step): single-use pieces are scrapped, others go to their
 * compartments. */
MUST_USE bool desk_undo_step(struct desk *d, kit_index step, const char *reason, desk_who who,
                             desk_reasons *why, err *e);

/* What desk_undo_step would do now. */
void desk_plan_undoing(const struct desk *d, kit_index step, stock_undoing *out);

/* A battery measured after arrival. rested_min -1: not said. */
MUST_USE bool desk_read_battery(struct desk *d, kit_index row, int64_t piece, int64_t millivolts,
                                int64_t rested_min, bool charged, desk_who who, err *e);

typedef struct {
    kit_index row;
    int64_t piece;
    const stock_reading *last; /* NULL: never measured since its arrival */
    date_moment charged_at;    /* 0: not known */
    bool known;                /* `low` to `high`: share of its charge at the last reading */
    double low, high;
    bool flat;
    text why_not; /* why the reading says nothing */
    date_day
        top_up; /* next; by the label's days, or at once when a reading asks for it; INT32_MAX: not known */
} desk_battery;

/* Every battery of the packing list. */
uint32_t desk_batteries(const struct desk *d, desk_battery **out);

#endif
