/* act.h: how a use case changes the file: begin, append, finish; private to the room. */
#ifndef DESK_ACT_H
#define DESK_ACT_H

#include "desk/desk.h"

/* Takes the write lock and brings the desk's stock up to date with what others wrote; finds who does it. `stamp` gets
 * an entry that knows when, who and on which device. */
MUST_USE bool act_begin(desk *d, desk_who who, store_entry *stamp, err *e);

/* `stamp` as an entry of another kind. */
store_entry act_entry(const store_entry *stamp, store_verb verb);

/* Ends the act: commits when `ok`, otherwise leaves the file as it was. Brings the stock up to date. */
MUST_USE bool act_end(desk *d, bool ok, err *e);

/* The number of a person by name or number, inside an act. Without a crew a new name gets a number. */
MUST_USE bool act_person(desk *d, text by, text *number, err *e);

/* Reads the record anew and assesses it. */
MUST_USE bool desk_load_stock(desk *d, err *e);

/* Reads what the crew was told (announce.c). */
MUST_USE bool desk_load_announced(desk *d, err *e);

/* A text that somebody typed: UTF-8, one line, not endless. `what` names it in the failure. */
MUST_USE bool act_check_text(text t, const char *what, err *e);

/* "B3 row 7" */
text place_of_row(arena *a, const kit *k, kit_index row);

#endif
