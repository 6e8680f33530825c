/* wording.h: the kit's data in the words that stand on every sheet. All texts live in the arena. */
#ifndef PAPER_WORDING_H
#define PAPER_WORDING_H

#include "kit/kit.h"

/* "12" pieces, "12.5 m", "250 mm", "1.2 kg", "3 packs" */
text wording_quantity(arena *a, int64_t quantity, kit_unit unit);

/* The unit that the packing list uses for a part. */
kit_unit wording_unit(const kit *k, kit_index part);

/* "24.6 kg", "850 g" */
text wording_mass(arena *a, int64_t grams);

/* "Bag B3"; a number that begins with its kind already is not doubled: "Box 3" */
text wording_container(arena *a, const kit *k, kit_index container);

/* "box 3 > bag B3": the way to a container, from the shipped box inwards */
text wording_place(arena *a, const kit *k, kit_index container);

/* The list with ", " between, or `none` when it is empty. */
text wording_list(arena *a, kit_texts list, const char *none);

/* The part's name, and its designation on a line of its own. */
text wording_part(arena *a, const kit_part *p);

/* The same on one line: "hexagon screw, ISO 4017 M10x30-8.8". */
text wording_part_line(arena *a, const kit_part *p);

/* "2 × combination spanner 13 mm"; a size that the name says already is not said twice. */
text wording_tool(arena *a, const kit_tool *t, int64_t quantity);

/* "S12 Name" */
text wording_step(arena *a, const kit *k, kit_index step);

/* "9 N m, crosswise, twice" / "tight, by hand tool" / "leave loose; S31 tightens it" / "" */
text wording_tightening(arena *a, const kit *k, const kit_step_part *p);

/* "10.5 to 12 mm", "at least 3 mm", "at most 5 V", "13 ribs", or "yes" for a test without limits */
text wording_limits(arena *a, const kit_step_test *t);

/* "about 25 min (20 to 40)" */
text wording_minutes(arena *a, const kit_step *s);

/* A name that runs from right to left, between left-to-right marks, so that it keeps its place in a list; any other
 * name as it is. */
text wording_name(arena *a, text name);

/* What the kit's names stand for in one word: "learner", "supervisor", "leader". */
const char *wording_signer(kit_signer s);

/* "Dome kit · serial 7 · revision C", for the foot of each page */
text wording_kit(arena *a, const kit *k);

/* "Friday 14 March 2027", "14 March 2027" */
text wording_day(arena *a, date_day d);
text wording_date(arena *a, date_day d);

#endif
