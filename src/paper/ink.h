/* ink.h: the few inks of a sheet.
 *
 * A workshop ledger: near-black on white, one accent for the ledger line. Black and white first: every sheet says all
 * it says when the accent prints as grey. Contrast on white by the WCAG 2 formula: black 17.0, quiet 7.5, accent 8.0.
 */
#ifndef PAPER_INK_H
#define PAPER_INK_H

#include <cairo.h>

typedef enum { INK_BLACK, INK_QUIET, INK_FAINT, INK_WASH, INK_ACCENT, INK_PAPER } ink;

/* The colour for all that is drawn next. */
void ink_use(cairo_t *cr, ink i);

#endif
