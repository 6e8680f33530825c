/* paint.h: the shapes of picture/ on a sheet. */
#ifndef PAPER_PAINT_H
#define PAPER_PAINT_H

#include "paper/sheet.h"
#include "picture/picture.h"

/* Paints with the picture's upper left corner at x, y; the cursor does not move. */
void paint_picture(sheet *s, const picture *p, double x, double y);

#endif
