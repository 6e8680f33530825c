/* search.h: parts by the words a person types; part of kit.h, which includes it.
 *
 * "M8 nut", "lockng nut", a piece of a maker's number that is half rubbed off: every word is looked for in a part's
 * number, maker's numbers, name and designation, and its meaning is compared with the designation ("allen" finds a hex
 * socket). Case, blanks and dashes do not count. Words with a slip of the pen count only when no part answers to all
 * words as they are. Workload: some hundred parts, a few words, typed by a person; each part is looked at once.
 */
#ifndef KIT_SEARCH_H
#define KIT_SEARCH_H

#include "kit/records.h"

/* How the worst of the words was found. */
typedef enum {
    KIT_FOUND_WHOLE,   /* as a word of its own: "M8" in "M8x25", not in "M80" */
    KIT_FOUND_MEANING, /* in other words: "bolt" for a screw */
    KIT_FOUND_INSIDE,  /* inside a longer word or number: "12/1" in "LF-12/100" */
    KIT_FOUND_SLIP,    /* with a slip of the pen: one in four letters and more, two in seven and more */
    KIT_FOUND_NOT
} kit_found;

typedef struct {
    kit_index part;
    kit_found worst;    /* of the words that were found; KIT_FOUND_NOT: none */
    uint32_t not_found; /* words that nothing in the part answers to */
    uint32_t effort;    /* sum over the words: the order within the same worst one */
} kit_hit;

/* The parts that answer best, best first, in the arena; 0 when none answers to at least half of the words. Only the best
 * of these classes is given: all words found as words or by meaning; all found, some inside of others; all, some with
 * a slip; all but one; and so on. */
uint32_t kit_search_parts(arena *a, const kit *k, text words, kit_hit **out);

#endif
