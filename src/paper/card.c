/* card.c: the ledger that all blocks of a job card stand in. */
#include "paper/card.h"

double card_left(const sheet *s) {
    return s->left + CARD_LEDGER + CARD_GAP;
}

double card_width(const sheet *s) {
    return s->right - card_left(s);
}

void card_block(sheet *s, const char *name, double height) {
    type_style style = {.size = TYPE_BODY, .bold = true, .colour = INK_BLACK, .align = TYPE_END};
    double own = typeset_height(s->type, text_of(name), style, CARD_LEDGER - CARD_GAP);
    sheet_room(s, height > own ? height : own);
    sheet_text(s, text_of(name), style, s->left, s->y, CARD_LEDGER - CARD_GAP);
}

void card_end_block(sheet *s) {
    s->y += 8;
}

enum { MARK = 9, MARK_ROOM = 16 };

void card_item(sheet *s, bool crossed, text words) {
    type_style style = {.size = TYPE_BODY, .colour = INK_BLACK};
    double x = card_left(s), width = card_width(s) - MARK_ROOM;
    double height = typeset_height(s->type, words, style, width);
    sheet_room(s, height);
    if (crossed)
        sheet_crossed(s, x, s->y + 1.5, MARK);
    else
        sheet_tick(s, x, s->y + 1.5, MARK);
    sheet_text(s, words, style, x + MARK_ROOM, s->y, width);
    s->y += height + 2;
}

void card_line(sheet *s, text words, bool bold) {
    type_style style = {.size = TYPE_BODY, .bold = bold, .colour = INK_BLACK};
    sheet_paragraph(s, words, style, card_left(s), card_width(s));
}
