#include "paper/ink.h"

void ink_use(cairo_t *cr, ink i) {
    static const double rgb[][3] = {
        [INK_BLACK] = {0.11, 0.11, 0.12},  [INK_QUIET] = {0.33, 0.33, 0.35},
        [INK_FAINT] = {0.70, 0.70, 0.71},  [INK_WASH] = {0.935, 0.935, 0.93},
        [INK_ACCENT] = {0.58, 0.17, 0.10}, [INK_PAPER] = {1, 1, 1},
    };
    cairo_set_source_rgb(cr, rgb[i][0], rgb[i][1], rgb[i][2]);
}
