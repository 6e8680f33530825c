/* session_words.h: cutting a rule for sessions into weekdays, days, times and small words; private to session_rule.c. */
#ifndef DESK_SESSION_WORDS_H
#define DESK_SESSION_WORDS_H

#include "base/date.h"
#include "base/err.h"

typedef enum {
    SESSION_WEEKDAY, /* number: 0 is Monday */
    SESSION_MONTH,   /* number: 1..12 */
    SESSION_NUMBER,  /* number */
    SESSION_CLOCK,   /* number: minutes after midnight */
    SESSION_DAY,     /* number: written in full */
    SESSION_TO,
    SESSION_NOT,
    SESSION_AND, /* or a comma */
    SESSION_END
} session_word_kind;

typedef struct {
    session_word_kind kind;
    int number;
    text as_written;
} session_word;

enum { SESSION_MOST_WORDS = 400 };

/* All words, the last of kind SESSION_END. False with what could not be understood. */
MUST_USE bool session_words_read(arena *a, text rule, session_word **out, err *e);

extern const char session_example[]; /* "Tuesdays 18:30 to 20:30, ..." */

#endif
