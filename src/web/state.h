/* state.h: the build as the pages see it: small JSON values under keys; private to the room.
 *
 * The whole is a flat table, "row/A1/3" or "step/S12" to a value. It is made anew from the desk after each change (a
 * fraction of a millisecond for a usual kit) and compared with the one before: what differs is what the pages are told.
 * So no act has to know what it changes on a page.
 */
#ifndef WEB_STATE_H
#define WEB_STATE_H

#include "base/json_out.h"
#include "desk/desk.h"

typedef struct state state;

state *state_open(void);
void state_close(state *s);

/* A new round: everything is put again between begin and end. */
void state_begin(state *s);

/* Puts a value under a key made like printf. Between the two calls one object is written. */
json_out *state_put(state *s, bool leader, const char *format, ...) PRINTF_LIKE(3, 4);
void state_done(state *s);

/* Puts a value that is JSON already, in one line. */
void state_put_raw(state *s, const char *key, text json);

/* Compares with the round before. False: nothing changed. Otherwise the two texts get {"at", "set", "drop"}. */
bool state_end(state *s, const char *at, buf *all, buf *leader);

/* {"at", "set"}: all of it. */
void state_write(const state *s, const char *at, bool leader, buf *out);

/* Adds JSON in one line: without the blanks between its parts. */
void state_add_compact(buf *out, text json);

/* What the desk says, as values of this round (state_stock.c, state_work.c). */
void state_put_stock(state *s, const desk *d);
void state_put_work(state *s, const desk *d);
/* What taking `step` apart would mean (state_work.c). */
void state_write_undoing(const desk *d, kit_index step, buf *out);

void state_put_shared(state *s, const desk *d); /* state_shared.c */
void state_put_journal(state *s, const desk *d);

/* What never changes: the kit (state_kit.c). */
void state_write_kit(const desk *d, buf *out);

#endif
