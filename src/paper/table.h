/* table.h: rows under a head, over as many pages as it takes.
 *
 * The columns have fixed widths or share what is left. A row is as high as its highest cell and is never cut in two;
 * on a new page the head is repeated, and under it the band (the bag) that the row belongs to. A band never stands
 * alone at the foot of a page. A table keeps no rows: each is measured and drawn when it is given, so a table of any
 * length takes the same memory. A row that would be higher than a page has its longest texts cut with "…".
 */
#ifndef PAPER_TABLE_H
#define PAPER_TABLE_H

#include "paper/sheet.h"

enum { TABLE_MOST_COLUMNS = 12 };

typedef struct {
    const char *head;
    double width; /* in points; 0: a share of what the others leave */
    double share;
    type_align align;
    bool bold;
    bool ledger; /* the ledger line stands at its right */
} table_column;

typedef enum { CELL_TEXT, CELL_TICK, CELL_LINE } cell_kind;

typedef struct {
    cell_kind kind; /* a text; a square to tick; a line to write on, after a short `main` */
    text main;
    text under; /* smaller, below it */
    bool loud;  /* `under` is bold and black */
} table_cell;

typedef struct {
    const table_column *columns;
    int n;
    double least_row; /* least height of a row; room for handwriting */
    bool no_head;
} table_form;

/* What heads a group of rows. */
typedef struct {
    text title;        /* "Bag B3" */
    text remark;       /* after it, quieter */
    const char *tick;  /* at the right: a square to tick with this after it; NULL for none */
    const char *blank; /* and a line to write on; NULL for none */
} table_band_text;

typedef struct {
    sheet *on;
    table_form form;
    double x[TABLE_MOST_COLUMNS + 1]; /* left edges, and the right end */
    bool begun;                       /* the head is drawn */
    bool has_band, band_waits;        /* band_waits: given, not drawn yet */
    table_band_text band;
} table;

/* Starts a table across the width from `left` to the sheet's right edge. `form` is copied, its columns must outlive
 * the table. The head is drawn with the first row. */
table table_begin(sheet *s, const table_form *form, double left);
void table_band(table *t, table_band_text band);
void table_row(table *t, const table_cell *cells);
/* Closes with a rule; a table without rows keeps its head. */
void table_end(table *t);

#endif
