/* book.h: a PDF made of sections.
 *
 * A section is what belongs in one hand: the sheets of one box, one job card. It begins on a new page, has its own
 * entry in the outline and its own page numbers ("page 2 of 5"). Its composer runs twice: once to count the pages,
 * once to draw them.
 *
 * The frame of a page is drawn here: the margins, the running head from the second page on, the foot.
 */
#ifndef PAPER_BOOK_H
#define PAPER_BOOK_H

#include "paper/sheet.h"

typedef struct book_section {
    text outline;   /* entry in the outline */
    text running;   /* head of the pages after the first: "Check sheet · Box 3" */
    text foot;      /* in the middle of the foot, may be empty */
    bool landscape; /* the paper turned */
    bool bare;      /* no margins, head and foot: the composer has the whole paper */
    void (*compose)(sheet *s, const void *what);
    const void *what;
} book_section;

/* Begins a PDF in `to`. `foot` stands at the left of every foot. The caller closes the book; texts must outlive it. */
MUST_USE bool book_open(arena *a, const paper_setup *setup, text title, text foot, buf *to, book **out,
                        err *e);

void book_add(book *b, const book_section *section);

/* Ends the PDF. False when drawing failed anywhere; `to` is then of no use. Notes on missing signs are added. */
MUST_USE bool book_close(book *b, paper_notes *notes, err *e);

/* For sheet.c: the next page of the section that `s` is on. */
void book_turn(book *b, sheet *s);

#endif
