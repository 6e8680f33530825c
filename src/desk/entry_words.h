/* entry_words.h: cutting a line of quick entry into words, numbers and quoted texts; private to the room. */
#ifndef DESK_ENTRY_WORDS_H
#define DESK_ENTRY_WORDS_H

#include "base/text.h"

/* Each takes what it looks for off the front of `rest` (blanks first) and tells whether it was there; otherwise `rest`
 * stays. Words are compared without case. */
bool take_word(text *rest, const char *word);
bool take_char(text *rest, char c);
bool take_any_word(text *rest, text *word); /* letters, digits, '-', '.', '_' */
bool take_quoted(text *rest, text *inside); /* "..." on one line */
bool take_prefix(text *rest,
                 text prefix); /* followed by the end or by something that is no letter and no digit */
bool at_end(text rest);

#endif
