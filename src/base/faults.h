/* faults.h: every fault of an input in one go.
 *
 * A reader that stops at the first fault costs its user a run for each. Readers and checkers add what they find to
 * a list and go on; the list is sorted by place before it is shown. It lives in an arena and dies with it.
 */
#ifndef BASE_FAULTS_H
#define BASE_FAULTS_H

#include <stdint.h>

#include "base/text.h"

/* Where: a file's name as the user knows it, the row as a spreadsheet numbers it (1 is the header; 0 for the whole
 * file), the column's name (empty for the whole row). */
typedef struct {
    text file;
    uint32_t row;
    text column;
} fault_place;

typedef struct {
    fault_place place;
    text cause;  /* "\"12,5\" is not a number" */
    text remedy; /* "write 12.5" */
} fault;

typedef struct {
    arena *memory;
    fault *list;
    size_t n, cap;
    bool of_lines; /* the input is no table: its rows are lines of a text */
} faults;

/* An empty list in `a`; a plain value. */
faults faults_in(arena *a);

/* Adds one fault. All texts are copied into the list's arena, bytes that are not UTF-8 as U+FFFD. A second fault with the same place and the same
 * cause is not added. */
void fault_add(faults *f, fault_place place, const char *remedy, const char *cause_format, ...)
    PRINTF_LIKE(4, 5);

/* By file, row, column as they were met; stable. */
void faults_sort(faults *f);

/* "parts.csv row 17, mass_g" */
text fault_place_text(arena *a, fault_place place);

/* The same for the i-th fault of a list; of a text without columns "standard input line 3". */
text faults_place_text(const faults *f, size_t i);

#endif
