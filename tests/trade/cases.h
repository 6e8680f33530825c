/* cases.h: text files of cases for the tests of this room.
 *
 * Blocks divided by empty lines; lines with '#' in front are comments. The first line of a block is the input, the
 * lines after it what is expected, as `name=value` pairs; a value with blanks stands in double quotes. "not: words" says
 * that the input must be refused and that all the words are in the message.
 */
#ifndef TESTS_TRADE_CASES_H
#define TESTS_TRADE_CASES_H

#include "base/text.h"

typedef struct {
    text name, value;
} case_pair;

enum { CASE_PAIRS = 16 };

typedef struct {
    text input;
    unsigned line;
    case_pair pairs[CASE_PAIRS];
    size_t n_pairs;
    text refusal; /* the words after "not:", at == NULL when none */
} test_case;

typedef struct {
    test_case *list;
    size_t n;
} case_list;

/* Reads tests/trade/cases/NAME, seen from the project's root. Fails the test when the file is missing or malformed. */
case_list cases_read(arena *a, const char *name);

/* The value of a pair, or the empty text. */
text case_value(const test_case *c, const char *name);

/* A whole file of ../shared (or below $KITBENCH_DATA/..); at == NULL when it is not there. */
text shared_file(arena *a, const char *path);

/* A whole file of the project, seen from its root; fails the test when it is missing. */
text project_file(arena *a, const char *path);

#endif
