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

static const type_style item_style = {.size = TYPE_BODY, .colour = INK_BLACK};

static void draw_item(sheet *s, bool crossed, text words, double x, double width) {
    if (crossed)
        sheet_crossed(s, x, s->y + 1.5, MARK);
    else
        sheet_tick(s, x, s->y + 1.5, MARK);
    sheet_text(s, words, item_style, x + MARK_ROOM, s->y, width - MARK_ROOM);
}

void card_item(sheet *s, bool crossed, text words) {
    double height = typeset_height(s->type, words, item_style, card_width(s) - MARK_ROOM);
    sheet_room(s, height);
    draw_item(s, crossed, words, card_left(s), card_width(s));
    s->y += height + 2;
}

void card_items(sheet *s, bool crossed, const text *list, uint32_t n) {
    double half = card_width(s) / 2, leading = type_leading(item_style.size);
    for (uint32_t i = 0; i < n; i++) {
        bool pair = i + 1 < n && typeset_lines(s->type, list[i], item_style, half - MARK_ROOM - 6) <= 1 &&
                    typeset_lines(s->type, list[i + 1], item_style, half - MARK_ROOM) <= 1;
        if (!pair) {
            card_item(s, crossed, list[i]);
            continue;
        }
        sheet_room(s, leading);
        draw_item(s, crossed, list[i], card_left(s), half);
        draw_item(s, crossed, list[++i], card_left(s) + half, half);
        s->y += leading + 2;
    }
}

void card_line(sheet *s, text words, bool bold) {
    type_style style = {.size = TYPE_BODY, .bold = bold, .colour = INK_BLACK};
    sheet_paragraph(s, words, style, card_left(s), card_width(s));
}
