/* reasons.h: lists of reasons, people in lists, and the rules of who may; private to the room. */
#ifndef DESK_REASONS_H
#define DESK_REASONS_H

#include "desk/act.h"

void reasons_add(const desk *d, desk_reasons *why, const char *format, ...) PRINTF_LIKE(3, 4);

/* Names or numbers with commas between, as numbers; inside an act. */
MUST_USE bool reasons_people(desk *d, const char *names, kit_texts *out, err *e);
text reasons_join(arena *a, const kit_texts *people); /* "P1;P3" */
bool reasons_is_among(const kit_texts *people, text number);

/* "Fern and Otter" need no more than names: the name of a number, in the crew or not. */
const kit_person *reasons_person(const desk *d, text number); /* NULL: in no crew table */
bool reasons_may_supervise(const desk *d, text number, kit_index step);

/* Everything that speaks against starting; `people` and `confirm` are numbers. */
void may_start(const desk *d, kit_index step, const kit_texts *people, text confirm, date_moment now,
               desk_reasons *why);

/* The same for others who go on with a running step: who they are, no more. */
void may_take_over(const desk *d, kit_index step, const kit_texts *people, date_moment now,
                   desk_reasons *why);

/* What speaks against it whoever does it: order, delays, hold points, pieces, what runs beside it, tools and places in
 * use (may_places.c), who is in the room at all (may_people.c). */
void may_begin(const desk *d, kit_index step, date_moment now, desk_reasons *why);
void may_have_places(const desk *d, kit_index step, desk_reasons *why);
void may_be_in_room(const desk *d, date_moment now, desk_reasons *why);

/* Skills and presence of those who work on it or confirm it (may_people.c). */
void may_be_here(const desk *d, kit_index step, const kit_texts *people, text confirm, date_moment now,
                 desk_reasons *why);

/* The session that is on at a moment, an hour before and after it included; KIT_NONE: none. */
kit_index session_at(const kit_workshop *w, date_moment now);

/* Tests of the step that are not as they must be before something follows: hold points that are not signed, and values
 * out of limits. */
void may_follow(const desk *d, kit_index step, desk_reasons *why);

/* Ends an act: written when there is no reason against it, otherwise left as it was. */
MUST_USE bool reasons_end(desk *d, bool ok, const desk_reasons *why, err *e);

/* Codes (codes.c): a reason when an adult's word is not proved; a person whose word is; a try at a code (person empty: the
 * one to join with); a new one to join with. */
void roles_check(const desk *d, text person, desk_reasons *why);
void roles_add_proof(desk *d, text person);
MUST_USE bool roles_try_code(desk *d, text person, text code, err *e);
MUST_USE bool roles_set_join_code(desk *d, text code, desk_who who, err *e);

/* Tools that are not here, or not counted since the last work (tidy.c). */
void tidy_check_tools(const desk *d, desk_reasons *why);

/* Moves pieces: one entry. */
MUST_USE bool append_move(desk *d, const store_entry *stamp, const stock_move *m, err *e);

/* All pieces of a step at `from` go to `to`; single-use ones to `single_use`. */
MUST_USE bool append_empty(desk *d, const store_entry *stamp, kit_index step, stock_place from,
                           stock_place to, stock_place single_use, err *e);

/* Draws what a step needs into its tub. */
MUST_USE bool append_draw(desk *d, const store_entry *stamp, kit_index step, err *e);

#endif
