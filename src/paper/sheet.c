#include "paper/sheet.h"

#include "paper/book.h"

void sheet_turn(sheet *s) {
    book_turn(s->book, s);
}

double sheet_left_over(const sheet *s) {
    return s->bottom - s->y;
}

bool sheet_room(sheet *s, double height) {
    if (s->y + height <= s->bottom + 0.01 || s->y <= s->top)
        return false;
    sheet_turn(s);
    return true;
}

void sheet_text(sheet *s, text words, type_style style, double x, double y, double width) {
    if (s->cr)
        typeset_draw(s->type, s->cr, words, style, x, y, width);
}

void sheet_paragraph(sheet *s, text words, type_style style, double x, double width) {
    double leading = type_leading(style.size);
    int most = (int)((s->bottom - s->top) / leading);
    if (style.most_lines == 0 && typeset_lines(s->type, words, style, width) > most)
        style.most_lines = most;
    double height = typeset_height(s->type, words, style, width);
    sheet_room(s, height);
    sheet_text(s, words, style, x, s->y, width);
    s->y += height;
}

void sheet_rule(sheet *s, double x1, double y1, double x2, double y2, double weight, ink colour) {
    if (!s->cr)
        return;
    ink_use(s->cr, colour);
    cairo_set_line_width(s->cr, weight);
    cairo_move_to(s->cr, x1, y1);
    cairo_line_to(s->cr, x2, y2);
    cairo_stroke(s->cr);
}

void sheet_box(sheet *s, double x, double y, double width, double height, double weight, ink colour) {
    if (!s->cr)
        return;
    ink_use(s->cr, colour);
    cairo_set_line_width(s->cr, weight);
    cairo_rectangle(s->cr, x, y, width, height);
    cairo_stroke(s->cr);
}

void sheet_fill(sheet *s, double x, double y, double width, double height, ink colour) {
    if (!s->cr)
        return;
    ink_use(s->cr, colour);
    cairo_rectangle(s->cr, x, y, width, height);
    cairo_fill(s->cr);
}

void sheet_tick(sheet *s, double x, double y, double side) {
    sheet_box(s, x, y, side, side, 0.8, INK_BLACK);
}

void sheet_blank(sheet *s, const char *label, double x, double y, double width) {
    type_style style = {.size = TYPE_SMALL, .colour = INK_QUIET};
    double used = typeset_width(s->type, text_of(label), style) + 4;
    sheet_text(s, text_of(label), style, x, y + 3, width);
    if (used < width)
        sheet_rule(s, x + used, y + 12.5, x + width, y + 12.5, 0.5, INK_QUIET);
}

void sheet_crossed(sheet *s, double x, double y, double side) {
    sheet_box(s, x, y, side, side, 1.2, INK_BLACK);
    sheet_rule(s, x, y, x + side, y + side, 1.2, INK_BLACK);
    sheet_rule(s, x, y + side, x + side, y, 1.2, INK_BLACK);
}

void sheet_ledger_line(sheet *s, double x, double from, double to) {
    sheet_rule(s, x, from, x, to, 0.6, INK_ACCENT);
    sheet_rule(s, x + 1.6, from, x + 1.6, to, 0.6, INK_ACCENT);
}

void sheet_beside(sheet *s, const char *name, ink colour) {
    type_style style = {.size = TYPE_BODY, .bold = true, .colour = colour, .align = TYPE_END};
    sheet_text(s, text_of(name), style, s->left, s->y, s->ledger - s->left - MM(4));
}

void sheet_ledger(sheet *s, double x) {
    s->ledger = x;
    sheet_ledger_line(s, x, s->y, s->bottom);
}
