/* work.h: the running build: what people said happened to steps, tests and pieces, and what follows from it. Part of
 * stock.h, which includes it.
 *
 * A record holds events that still stand, in the order of the journal. stock_work is derived from them alone; nothing in
 * it is ever stored. `entry` is the journal's number: larger is later.
 *
 * Places of a piece: a row of the packing list (box or bag), a compartment, the tub of a step, fitted by a step, lost,
 * scrapped. What was counted is where the pieces come from; moves only shift them, so over all places a part keeps its
 * number.
 */
#ifndef STOCK_WORK_H
#define STOCK_WORK_H

#include "kit/kit.h"

typedef enum {
    STOCK_STARTED, /* or gone on with */
    STOCK_CHANGED, /* other people go on */
    STOCK_LEFT,    /* unfinished, at a session's end */
    STOCK_HELD,    /* blocked, for a reason */
    STOCK_FINISHED,
    STOCK_STRIPPED /* undone: what it fitted came off */
} stock_event_kind;

typedef struct {
    int64_t entry;
    date_moment at;
    kit_index step;
    stock_event_kind kind;
    kit_texts people; /* numbers of those at work */
    text supervisor;  /* who confirmed; empty: nobody */
    int64_t minutes;  /* said at the finish; -1: not said */
    text note;
} stock_event;

typedef struct {
    int64_t entry;
    date_moment at;
    kit_index test;     /* of kit.step_tests */
    int64_t milli;      /* thousandths of the test's unit; without a unit 1000 is yes, 0 is no */
    text by, signed_by; /* numbers; signed_by empty: not signed */
} stock_result;

typedef enum {
    STOCK_IN_ROW,
    STOCK_IN_COMPARTMENT,
    STOCK_IN_TUB,
    STOCK_FITTED_IN,
    STOCK_LOST,
    STOCK_SCRAPPED,
    STOCK_PLACES
} stock_place;

/* "row", "compartment", "tub", "fitted", "lost", "scrapped"; STOCK_PLACES for any other word. */
const char *stock_place_word(stock_place p);
stock_place stock_place_of(text word);

typedef struct {
    int64_t entry;
    date_moment at;
    kit_index part;
    int64_t quantity; /* > 0 */
    stock_place from, to;
    kit_index row;  /* of the row end of the move; KIT_NONE when there is none, or the part is on no row */
    kit_index step; /* of a tub or of what was fitted; KIT_NONE otherwise */
} stock_move;

typedef struct {
    int64_t entry;
    date_moment at;
    kit_index row;
    int64_t piece, millivolts;
    int64_t rested_min; /* without load or charge; -1: not said */
    bool charged;       /* it was charged to full just then */
} stock_reading;

typedef struct {
    int64_t entry;
    date_moment at;
    text missing; /* what did not come back; empty: all is here */
} stock_closing;

/* ---- what follows ---- */

typedef enum { STOCK_TO_DO, STOCK_RUNNING, STOCK_PAUSED, STOCK_BLOCKED, STOCK_DONE } stock_step_state;

typedef struct {
    stock_step_state state;
    date_moment began;  /* first start since it was last undone; valid unless to do */
    date_moment since;  /* of the last event */
    int64_t worked_min; /* wall clock minutes at work; at the finish what was said there, when it was */
    int64_t entry;      /* of the last event; 0: none ever */
    kit_texts people;   /* at work now, or last */
    kit_texts builders; /* all who worked on it since it was last undone */
    text supervisor;    /* who confirmed the last start */
    text note;          /* reason of a block */
} stock_step;

/* Of the results of a test the last counts, unless the step was undone or disturbed after it. */
typedef struct {
    bool there;     /* a result that counts */
    bool disturbed; /* there was one; another step's work, or undoing, made it void */
    bool in_limits, is_signed;
    const stock_result *last; /* NULL: never */
} stock_test;

typedef struct {
    stock_step *steps; /* by the kit's steps */
    stock_test *tests; /* by the kit's step_tests */
    int64_t (
        *at)[STOCK_PLACES]; /* by part: moved there less moved away; of rows negative when more was drawn */
    int64_t *row_out;       /* by row: drawn less put back */
    bool begun;             /* there is an event */
    date_moment last_at;    /* of the last event of a step */
    int64_t last_entry;
} stock_work;

typedef struct stock_record stock_record;

const stock_work *stock_follow_work(arena *a, const kit *k, const stock_record *record);

/* Pieces of a part in the tub of a step, or fitted by it. */
int64_t stock_at_step(const stock_record *record, kit_index step, kit_index part, stock_place place);

/* Number of a test within its step, from 1, and the other way round (KIT_NONE when the step has no such test). */
int64_t stock_test_number(const kit *k, kit_index test);
kit_index stock_find_test(const kit *k, kit_index step, int64_t number);

/* Is the value within the kit's limits? */
bool stock_in_limits(const kit_step_test *t, int64_t milli);

/* "to do", "running", "left unfinished", "blocked", "done" */
const char *stock_state_word(stock_step_state s);

/* ---- loose on purpose ---- */

typedef struct {
    kit_index need; /* of kit.step_parts: what was left loose, and where */
    kit_index closed_by;
} stock_loose;

/* What steps that were begun left loose and the closing step has not tightened yet. */
uint32_t stock_loose_list(arena *a, const kit *k, const stock_work *w, stock_loose **out);

/* ---- undoing a step ---- */

typedef struct {
    kit_index part;
    int64_t again;     /* single-use pieces to be drawn new */
    int64_t available; /* of them in stock */
} stock_again;

typedef struct {
    kit_index *off; /* begun steps whose work must come off, the last first; the step itself is the last */
    uint32_t n_off;
    kit_index *running; /* of these: at work now, so nothing can be taken off yet */
    uint32_t n_running;
    kit_index *void_tests; /* results that count now and would not any more */
    uint32_t n_void_tests;
    kit_index *
        later; /* begun steps that follow one of `off` and stay: an adult must judge whether they are still right */
    uint32_t n_later;
    stock_again *again;
    uint32_t n_again;
    int64_t off_min;  /* taking off: half of the likely minutes (common practice, no source) */
    int64_t redo_min; /* doing it again: the likely minutes */
} stock_undoing;

/* What undoing a begun step means: whatever hides it must come off first, and whatever hides that. Tests of all these are
 * void, and so are the tests of steps that they disturb. Minutes without a beginners' factor. */
void stock_undo_step(arena *a, const kit *k, const stock_record *record, const stock_work *w, kit_index step,
                     const int64_t *available, stock_undoing *out);

#endif
