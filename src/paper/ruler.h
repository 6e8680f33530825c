/* ruler.h: the printed ruler by which a sheet in true scale proves itself. */
#ifndef PAPER_RULER_H
#define PAPER_RULER_H

#include "paper/sheet.h"

/* Draws 100 mm with a mark for each millimetre at the cursor, what to do when it is not 100 mm, and moves the cursor
 * below. */
void ruler_draw(sheet *s);

#endif
