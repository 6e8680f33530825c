/* reference.h: rows of ../shared/reference for the tests of this room; published values with their sources, left out when
 * the folder is not there. */
#ifndef TESTS_TRADE_REFERENCE_H
#define TESTS_TRADE_REFERENCE_H

#include <stdbool.h>

#include "base/csv.h"

typedef struct {
    arena *memory;
    csv_table table;
} reference;

/* False (and a message) when the file is not there. */
bool reference_open(reference *r, const char *file);
/* A table of the project itself, below tests/trade/published; fails the test when it is missing or malformed. */
void reference_open_own(reference *r, const char *file);
void reference_close(reference *r);

/* The cell of record i (1 is the first below the header) under a heading; fails the test when there is no such column. */
text reference_text(const reference *r, size_t i, const char *column);
/* NAN for an empty cell or one that is no number. */
double reference_number(const reference *r, size_t i, const char *column);

/* memory_only rows are no hard tests. */
bool reference_is_hard(const reference *r, size_t i);

/* Counts of one comparison, printed at the end of a test. */
typedef struct {
    const char *what;
    unsigned agree, differ, soft, skipped;
} agreement;

/* Compares and counts; prints what differs. Soft rows never count as differing. */
void reference_compare(agreement *a, const reference *r, size_t i, double ours, double published,
                       double tolerance);
void agreement_print(const agreement *a);

#endif
