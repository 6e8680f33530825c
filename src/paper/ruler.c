#include "paper/ruler.h"

#include <stdio.h>

enum { RULER_MM = 100 };

void ruler_draw(sheet *s) {
    double x = s->left + MM(2), y = s->y + MM(2);
    type_style small = {.size = TYPE_SMALL, .colour = INK_BLACK, .align = TYPE_CENTRE, .most_lines = 1};
    for (int i = 0; i <= RULER_MM; i++) {
        double length = i % 10 == 0 ? MM(5) : i % 5 == 0 ? MM(3.5) : MM(2);
        sheet_rule(s, x + MM(i), y, x + MM(i), y + length, 0.4, INK_BLACK);
        char shown[8];
        snprintf(shown, sizeof shown, "%d", i);
        if (i % 10 == 0)
            sheet_text(s, text_of(shown), small, x + MM(i) - MM(5), y + length + 1, MM(10));
    }
    sheet_rule(s, x, y, x + MM(RULER_MM), y, 0.4, INK_BLACK);
    type_style words = {.size = TYPE_SMALL, .colour = INK_BLACK};
    double beside = x + MM(RULER_MM) + MM(6), width = s->right - beside;
    text told = TEXT("Lay a ruler on it: 0 to 100 must be 100 mm. If it is not, print again and say what "
                     "you measured, as --ruler 97.5");
    sheet_text(s, told, words, beside, y, width);
    double high = typeset_height(s->type, told, words, width), own = MM(5) + type_leading(TYPE_SMALL) + 1;
    s->y = y + (high > own ? high : own) + MM(3);
}
