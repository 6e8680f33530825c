#include "paper/masthead.h"

void masthead_draw(sheet *s, const masthead *m) {
    double width = sheet_width(s), corner = MM(52), y = s->y;
    type_style kind = {.size = TYPE_SMALL, .bold = true, .colour = INK_ACCENT, .most_lines = 1};
    type_style title = {.size = TYPE_TITLE, .bold = true, .colour = INK_BLACK};
    type_style subtitle = {.size = TYPE_LARGE, .colour = INK_BLACK};
    type_style side = {.size = TYPE_BODY, .colour = INK_BLACK, .align = TYPE_END, .most_lines = 2};
    sheet_rule(s, s->left, y, s->right, y, 2.4, INK_BLACK);
    y += 6;
    sheet_text(s, text_of(m->kind), kind, s->left, y, width - corner);
    double at = y;
    side.bold = true;
    sheet_text(s, m->corner, side, s->right - corner, at, corner);
    at += typeset_height(s->type, m->corner, side, corner);
    side.bold = false;
    sheet_text(s, m->corner_more, side, s->right - corner, at, corner);
    at += typeset_height(s->type, m->corner_more, side, corner);
    y += type_leading(TYPE_SMALL) + 2;
    sheet_text(s, m->title, title, s->left, y, width - corner - MM(4));
    y += typeset_height(s->type, m->title, title, width - corner - MM(4));
    sheet_text(s, m->subtitle, subtitle, s->left, y, width - corner - MM(4));
    y += typeset_height(s->type, m->subtitle, subtitle, width - corner - MM(4));
    s->y = (y > at ? y : at) + 8;
}

void masthead_defer(sheet *s, const char *more) {
    buf words = {0};
    buf_addf(&words, "The kit maker's manual and local rules come first. %s", more);
    type_style style = {.size = TYPE_SMALL, .colour = INK_QUIET};
    sheet_paragraph(s, buf_text(&words), style, s->left, sheet_width(s));
    buf_free(&words);
}

void heading_draw(sheet *s, const char *name, double height) {
    type_style style = {.size = TYPE_HEAD, .bold = true, .colour = INK_BLACK};
    sheet_room(s, height + 34);
    if (s->y > s->top)
        s->y += 14;
    sheet_paragraph(s, text_of(name), style, s->left, sheet_width(s));
    s->y += 2;
}
