#include "paper/facts.h"

enum { PAD = 5 };

static const type_style label_style = {.size = TYPE_SMALL, .most_lines = 1};
static const type_style under_style = {.size = TYPE_SMALL};

static type_style inked(type_style style, const fact *f, ink plain) {
    style.colour = f->loud ? INK_PAPER : plain;
    return style;
}

/* The largest size in which no word of the value breaks: a serial number that goes on in the next line is read as two. */
static type_style value_style(sheet *s, text value, double width) {
    type_style style = {.size = TYPE_LARGE, .bold = true};
    for (; style.size > TYPE_SMALL; style.size--) {
        text rest = value, word;
        bool fits = true;
        while (rest.len && text_next_piece(&rest, ' ', &word))
            fits = fits && typeset_width(s->type, word, style) <= width;
        if (fits)
            break;
    }
    return style;
}

static double fact_height(sheet *s, const fact *f, double width) {
    return type_leading(TYPE_SMALL) +
           typeset_height(s->type, f->value, value_style(s, f->value, width), width) +
           typeset_height(s->type, f->under, under_style, width) + 2 * PAD;
}

static void draw_fact(sheet *s, const fact *f, double x, double width, double height) {
    double y = s->y + PAD, inner = width - 2 * PAD;
    if (f->loud)
        sheet_fill(s, x, s->y, width, height, INK_BLACK);
    sheet_text(s, text_of(f->label), inked(label_style, f, INK_QUIET), x + PAD, y, inner);
    y += type_leading(TYPE_SMALL);
    type_style style = inked(value_style(s, f->value, inner), f, INK_BLACK);
    sheet_text(s, f->value, style, x + PAD, y, inner);
    y += typeset_height(s->type, f->value, style, inner);
    sheet_text(s, f->under, inked(under_style, f, INK_QUIET), x + PAD, y, inner);
}

void facts_draw(sheet *s, const fact *facts, const double *shares, int n) {
    double sum = 0, height = 0;
    for (int i = 0; i < n; i++)
        sum += shares[i];
    for (int i = 0; i < n; i++) {
        double h = fact_height(s, &facts[i], sheet_width(s) * shares[i] / sum - 2 * PAD);
        height = h > height ? h : height;
    }
    double x = s->left;
    for (int i = 0; i < n; i++) {
        double width = sheet_width(s) * shares[i] / sum;
        draw_fact(s, &facts[i], x, width, height);
        if (i > 0 && !facts[i].loud && !facts[i - 1].loud)
            sheet_rule(s, x, s->y, x, s->y + height, 0.4, INK_QUIET);
        x += width;
    }
    sheet_rule(s, s->left, s->y, s->right, s->y, 0.8, INK_BLACK);
    sheet_rule(s, s->left, s->y + height, s->right, s->y + height, 0.8, INK_BLACK);
    s->y += height;
}
