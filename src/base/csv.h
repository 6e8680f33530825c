/* csv.h: reads CSV as RFC 4180 describes it, and says where it is not.
 *
 * Workload: files of some thousand records, read once. The whole text is parsed into records of cells in an arena;
 * every cell knows its line, every record its number as a spreadsheet shows it (a quoted line break does not start a
 * new record). Reading goes on after a fault, so that all are found in one run.
 */
#ifndef BASE_CSV_H
#define BASE_CSV_H

#include "base/faults.h"

typedef struct {
    text value;    /* without its quotes; "" taken as one quote */
    uint32_t line; /* 1-based line of the file where the cell begins */
    bool quoted;
} csv_cell;

typedef struct {
    csv_cell *cells;
    uint32_t n;   /* cells; a line without anything is a record of no cells */
    uint32_t row; /* 1-based record number; the header is row 1 */
} csv_record;

typedef struct {
    csv_record *records;
    size_t n;
} csv_table;

/* Parses `bytes`, which must outlive `out` (cells point into it where they can). A byte order mark is skipped; CRLF
 * and LF both end a record. `separator` is ',' for the standard; draft lists also use ';' and tab. Added to `f`, each
 * with row and what would be right: bytes that are not UTF-8, NUL bytes, a bare CR, a quote inside an unquoted cell,
 * text after a closing quote, a quote that never closes. True when nothing was added. */
MUST_USE bool csv_read(arena *a, text bytes, char separator, text file, faults *f, csv_table *out);

#endif
