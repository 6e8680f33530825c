/* acts.h: what a page may do to a build, one function for each word; private to the room. */
#ifndef WEB_ACTS_H
#define WEB_ACTS_H

#include "web/app.h"
#include "web/ask.h"

/* One act on its way. */
typedef struct {
    app *app;
    desk *desk;
    arena *memory;
    const json_t *in;
    device *who;
    desk_who by;
    desk_reasons mind; /* written, and this does not fit any more */
    desk_reasons why;  /* not empty: it was not written */
    bool conflict;     /* not written, since somebody else was there before; `why` says what stands */
} act;

/* False with `e` when the input is wrong; a refusal is no failure. */
typedef bool act_function(act *a, err *e);

/* acts_stock.c */
act_function act_count, act_find, act_receive, act_promise, act_arrive, act_enter, act_reading;
/* acts_together.c */
act_function act_take, act_bring_back, act_all_here, act_count_again, act_label, act_tools, act_report_sent;
/* acts_people.c */
act_function act_add_person, act_change_person, act_remove_person, act_add_sessions, act_cancel_session,
    act_attend;
/* acts_work.c */
act_function act_start, act_change_over, act_leave, act_block, act_finish, act_test, act_move, act_close,
    act_undo, act_undo_step, act_set_code;

/* The box or bag, the step that the input names. */
MUST_USE bool act_container(act *a, kit_index *out, err *e);
MUST_USE bool act_row(act *a, kit_index *container, kit_index *row, err *e); /* "in" and "line" */
MUST_USE bool act_step(act *a, kit_index *out, err *e);
MUST_USE bool act_part(act *a, const json_t *in, kit_index *out, err *e);

/* Adds a reason why it is not written. */
void acts_refuse(act *a, text reason);

/* An adult says yes: by the device in their own hand, or by a PIN in the input. Otherwise a reason is added. */
MUST_USE bool acts_confirm(act *a, const char *adult, err *e);

/* The photo in the input, empty when there is none. */
MUST_USE bool act_read_photo(act *a, text *out, err *e);

enum { ACT_MOST_PIECES = 1000000000 };

#endif
