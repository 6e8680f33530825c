/* sheet.h: the page that is being filled, and what is drawn on it.
 *
 * A composer gets a sheet, draws at the cursor `y` and moves it down. While pages are only counted, drawing does
 * nothing but the cursor moves all the same, so a composer must not ask which of the two it is. What must stay
 * together asks sheet_room first.
 *
 * Every length is in points; MM() turns millimetres into points.
 */
#ifndef PAPER_SHEET_H
#define PAPER_SHEET_H

#include "paper/typeset.h"

#define MM(x) ((x)*72.0 / 25.4)

/* All heights are multiples of it. */
enum { GRID = 2 };

typedef struct book book;

typedef struct sheet {
    typeset *type;
    cairo_t *cr;        /* NULL while pages are only counted */
    double left, right; /* of the content */
    double top, bottom; /* of the content of the page at hand */
    double y;           /* where the next thing goes */
    int page, pages;    /* of this section, from 1; pages is 0 while counting */
    double ledger;      /* where the ledger line runs down each page; 0: nowhere */
    const char *beside; /* stands left of the ledger line again when the page turns; NULL: nothing */
    const struct book_section *section;
    book *book;
} sheet;

/* Ends the page and begins the next, with the section's running head. */
void sheet_turn(sheet *s);

/* Turns the page unless `height` fits above the bottom or the page is still empty. True when it turned. */
bool sheet_room(sheet *s, double height);

/* Height left above the bottom. */
double sheet_left_over(const sheet *s);

static inline double sheet_width(const sheet *s) {
    return s->right - s->left;
}

void sheet_text(sheet *s, text words, type_style style, double x, double y, double width);

/* Draws the text at the cursor over the given column and moves the cursor below it. A text that needs several pages
 * is not meant for this: it is cut at the page's height. */
void sheet_paragraph(sheet *s, text words, type_style style, double x, double width);

void sheet_rule(sheet *s, double x1, double y1, double x2, double y2, double weight, ink colour);
void sheet_box(sheet *s, double x, double y, double width, double height, double weight, ink colour);
void sheet_fill(sheet *s, double x, double y, double width, double height, ink colour);

/* An empty square to tick, its side `side`; crossed out: what must not be. */
void sheet_tick(sheet *s, double x, double y, double side);
void sheet_crossed(sheet *s, double x, double y, double side);

/* The ledger line, from the cursor down to the foot, and from now on down each page of the section. What stands left of
 * it names what stands right of it. */
void sheet_ledger(sheet *s, double x);

/* A name left of the ledger line, at the cursor. */
void sheet_beside(sheet *s, const char *name, ink colour);

/* The ledger line as a piece of its own. */
void sheet_ledger_line(sheet *s, double x, double from, double to);

/* "Name: ________": a small quiet label with a line to write on after it, ending at x + width. */
void sheet_blank(sheet *s, const char *label, double x, double y, double width);

#endif
