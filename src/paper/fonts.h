/* fonts.h: the two fonts inside the executable, and a font map that knows nothing else.
 *
 * DejaVu Sans and its bold cover Latin, Greek, Cyrillic, Hebrew and Arabic, and their digits all have one width. The
 * library that finds fonts wants files, so each font is given to it as a memory file of this process. No
 * configuration of the system is read: the same text looks the same on every machine.
 */
#ifndef PAPER_FONTS_H
#define PAPER_FONTS_H

#include <pango/pangocairo.h>

#include "base/err.h"

#define FONT_FAMILY "DejaVu Sans"

typedef struct fonts fonts;

/* The caller closes it. ERR_RUN when the system refuses a memory file. */
MUST_USE bool fonts_open(fonts **out, err *e);
void fonts_close(fonts *f); /* NULL is allowed */

PangoFontMap *fonts_map(const fonts *f);

#endif
