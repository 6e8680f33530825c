/* sheet_row.h: rows of the workshop's tables as they are from now on; private to crew.c and dates.c. */
#ifndef DESK_SHEET_ROW_H
#define DESK_SHEET_ROW_H

#include "desk/reasons.h"

/* One row on its way into the journal: the cells of the row that is there, or none, and those that were changed. */
typedef struct {
    desk *d;
    const kit_table_form *form;
    text key;
    text *cells; /* by the form's columns */
} sheet_row;

/* The row as it is. `key`: the key columns with ';' between. Within an act. */
MUST_USE bool sheet_row_open(desk *d, const char *sheet, text key, sheet_row *out, bool *there, err *e);

void sheet_row_put(sheet_row *r, const char *column, text value);

/* Writes it, or that it is gone. */
MUST_USE bool sheet_row_write(const sheet_row *r, const store_entry *stamp, err *e);
MUST_USE bool sheet_row_remove(desk *d, const char *sheet, text key, const store_entry *stamp, err *e);

/* Ends an act that changed rows: reads the workshop anew; when crew, dates or attendance are wrong in themselves nothing
 * is written and `e` gets the first fault. `mind` gets what else does not fit any more. */
MUST_USE bool sheet_rows_end(desk *d, bool ok, desk_reasons *mind, err *e);

/* The workshop as the file has it; d->workshop becomes NULL when there is none. */
MUST_USE bool desk_load_workshop(desk *d, err *e);

#endif
