/* lexicon.h: the words by which people name fasteners (private to the room).
 *
 * One table of phrases (lexicon_words.c), each with what it says: kind, form, drive, material and so on. Reading takes
 * the longest phrase at each word; words of seven letters and more may hold one typing error, of ten and more two. */
#ifndef TRADE_LEXICON_H
#define TRADE_LEXICON_H

#include "trade/designation.h"

/* What a phrase says besides kind, form, drive, material. */
typedef enum {
    SAYS_NOTHING = 0,
    SAYS_LOCKING = 1,      /* a nut or washer that locks; which build is not said */
    SAYS_TAPPING = 2,      /* cuts its own thread */
    SAYS_THIN = 4,         /* of nuts */
    SAYS_LARGE = 8,        /* of washers */
    SAYS_FULL_THREAD = 16, /* to the head */
    SAYS_PART_THREAD = 32,
    SAYS_NOT = 64,      /* the phrase names something that is no fastener: "lead screw", "hex key" */
    SAYS_ONLY_IF = 128, /* the noun needs a thread beside it to count: "rod", "insert", "pin" */
    SAYS_FLANGE = 256,
    SAYS_SPRING = 512
} phrase_sense;

typedef struct {
    const char *phrases; /* lower case, one blank between words (a dash, too), divided by '|' */
    fastener_kind kind;
    fastener_form form;
    fastener_drive drive;
    fastener_material material;
    fastener_finish finish;
    unsigned sense; /* phrase_sense bits */
} lexicon_phrase;

typedef struct {
    fastener_kind kind;
    fastener_form form;
    fastener_drive drive;
    fastener_material material;
    fastener_finish finish;
    unsigned sense;
    bool not_fastener;
    unsigned known_words, unknown_words;
    bool kind_conflict, form_conflict; /* two phrases say different things; the first is kept */
    char misspelt[32];                 /* the last word that was read in spite of an error, as written */
    char meant[32];                    /* and what it was read as */
} word_reading;

/* Reads the words among the first `len` bytes of a cleaned line; numbers and marks between them are passed over. */
void lexicon_read(const char *line, size_t len, word_reading *out);

/* Whether a form said in words allows the form of a standard: "countersunk" allows raised countersunk. */
bool lexicon_form_fits(fastener_form said, fastener_form of_standard);

/* A mark behind a size: strength, material, finish, "LH". len 0: none of them. */
typedef struct {
    size_t len;
    const fastener_grade *grade;
    fastener_material material;
    fastener_finish finish;
    bool left_hand;
} mark_reading;

mark_reading lexicon_read_mark(const char *at, fastener_kind kind);

const lexicon_phrase *lexicon_phrase_at(size_t i); /* NULL after the last */

#endif
