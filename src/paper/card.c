/* card.c: the ledger that all blocks of a job card stand in. */
#include "paper/card.h"

double card_left(const sheet *s) {
    return s->left + CARD_LEDGER + CARD_GAP;
}

double card_width(const sheet *s) {
    return s->right - card_left(s);
}

static void begin_block(sheet *s, const char *name, double height, bool loud) {
    type_style style = {.size = TYPE_BODY, .bold = true, .align = TYPE_END};
    double width = CARD_LEDGER - CARD_GAP;
    double own = typeset_height(s->type, text_of(name), style, width);
    sheet_room(s, height > own ? height : own);
    if (loud) {
        double wide = typeset_width(s->type, text_of(name), style);
        sheet_fill(s, s->left + width - wide - 5, s->y - 2, wide + 10, own + 4, INK_BLACK);
    }
    sheet_beside(s, name, loud ? INK_PAPER : INK_BLACK);
    s->beside = name;
}

void card_block(sheet *s, const char *name, double height) {
    begin_block(s, name, height, false);
}

void card_loud_block(sheet *s, const char *name, double height) {
    begin_block(s, name, height, true);
}

void card_end_block(sheet *s) {
    s->beside = NULL;
    s->y += 7;
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
