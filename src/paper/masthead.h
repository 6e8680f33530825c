/* masthead.h: heads, the same on every kind of sheet: of a section's first page, and inside it. */
#ifndef PAPER_MASTHEAD_H
#define PAPER_MASTHEAD_H

#include "paper/sheet.h"

typedef struct {
    const char *kind; /* "Check sheet" */
    text title;       /* large */
    text subtitle;    /* below it, may be empty */
    text corner;      /* upper right: "copy 1 of 3" */
    text corner_more; /* below that */
} masthead;

/* Draws it at the cursor over the full width and moves the cursor below it. */
void masthead_draw(sheet *s, const masthead *m);

/* A heading inside the section, with room for `height` below it before the page ends. */
void heading_draw(sheet *s, const char *name, double height);

/* "The kit maker's manual and local rules come first." with `more` after it: drawn at the cursor in small quiet type. */
void masthead_defer(sheet *s, const char *more);

#endif
