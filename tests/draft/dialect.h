/* dialect.h: writes a table as some program somewhere would, for tests of the reader. Letters go through iconv, so that
 * the reader's own tables are checked by another hand.
 */
#ifndef TESTS_DRAFT_DIALECT_H
#define TESTS_DRAFT_DIALECT_H

#include "base/text.h"

typedef enum { BREAK_LF, BREAK_CRLF, BREAK_CR, BREAKS } line_break;
typedef enum {
    LETTERS_UTF8,
    LETTERS_UTF8_MARKED, /* with a byte order mark */
    LETTERS_UTF16_LE,
    LETTERS_UTF16_BE,
    LETTERS_UTF16_LE_MARKED,
    LETTERS_UTF16_BE_MARKED,
    LETTERS_WINDOWS_1252,
    LETTERS
} letters;

typedef struct {
    char separator;
    letters letters;
    line_break breaks;
    bool quote_all;
    bool no_last_break;
} dialect;

typedef struct {
    text *cells;
    size_t n;
} table_row;

typedef struct {
    table_row *rows;
    size_t n;
} table;

/* The bytes of the table in the dialect, in the arena. Fails the test when a letter is not in the encoding. */
text dialect_write(arena *a, const table *t, dialect d);

/* "semicolon, UTF-16LE, CRLF" */
text dialect_in_words(arena *a, dialect d);

#endif
