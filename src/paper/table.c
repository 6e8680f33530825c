#include "paper/table.h"

#include <assert.h>

enum { PAD_SIDE = 4, PAD_TOP = 3, PAD_BOTTOM = 3, TICK_SIDE = 11 };

static const type_style head_style = {.size = TYPE_SMALL, .colour = INK_QUIET};
static const type_style under_style = {.size = TYPE_SMALL, .colour = INK_QUIET};
static const type_style band_style = {.size = TYPE_LARGE, .bold = true, .colour = INK_BLACK, .most_lines = 1};
static const type_style remark_style = {.size = TYPE_SMALL, .colour = INK_QUIET, .most_lines = 1};

static type_style cell_style(const table_column *c) {
    return (type_style){.size = TYPE_BODY, .bold = c->bold, .colour = INK_BLACK, .align = c->align};
}

static type_style below_style(const table_cell *cell) {
    type_style style = under_style;
    if (cell->loud) {
        style.bold = true;
        style.colour = INK_BLACK;
    }
    return style;
}

/* A column behind the ledger line keeps more distance. */
static double text_x(const table *t, int i) {
    return t->x[i] + PAD_SIDE + (i > 0 && t->form.columns[i - 1].ledger ? 4 : 0);
}

static double text_width(const table *t, int i) {
    return t->x[i + 1] - text_x(t, i) - PAD_SIDE;
}

table table_begin(sheet *s, const table_form *form, double left) {
    assert(form->n >= 1 && form->n <= TABLE_MOST_COLUMNS);
    table t = {.on = s, .form = *form};
    double fixed = 0, shares = 0;
    for (int i = 0; i < form->n; i++) {
        fixed += form->columns[i].width;
        shares += form->columns[i].width > 0 ? 0 : form->columns[i].share;
    }
    double rest = s->right - left - fixed;
    t.x[0] = left;
    for (int i = 0; i < form->n; i++) {
        const table_column *c = &form->columns[i];
        t.x[i + 1] = t.x[i] + (c->width > 0 ? c->width : rest * c->share / shares);
    }
    return t;
}

static double head_height(table *t) {
    if (t->form.no_head)
        return 0;
    int lines = 1;
    for (int i = 0; i < t->form.n; i++) {
        int n = typeset_lines(t->on->type, text_of(t->form.columns[i].head), head_style, text_width(t, i));
        lines = n > lines ? n : lines;
    }
    return lines * type_leading(TYPE_SMALL) + 4;
}

/* The ledger line beside a strip of the table. */
static void draw_ledger(const table *t, double from, double to) {
    for (int i = 0; i < t->form.n; i++) {
        if (t->form.columns[i].ledger)
            sheet_ledger_line(t->on, t->x[i + 1], from, to);
    }
}

static void draw_head(table *t) {
    double height = head_height(t);
    if (height <= 0)
        return;
    sheet *s = t->on;
    for (int i = 0; i < t->form.n; i++) {
        const table_column *c = &t->form.columns[i];
        type_style style = head_style;
        style.align = c->align;
        text words = text_of(c->head);
        double own = typeset_height(s->type, words, style, text_width(t, i));
        sheet_text(s, words, style, text_x(t, i), s->y + height - 4 - own + 1, text_width(t, i));
    }
    sheet_rule(s, t->x[0], s->y + height, t->x[t->form.n], s->y + height, 0.8, INK_BLACK);
    draw_ledger(t, s->y, s->y + height);
    s->y += height;
}

static double band_height(void) {
    return type_leading(TYPE_LARGE) + 10;
}

static void draw_band(table *t, bool again) {
    sheet *s = t->on;
    const table_band_text *b = &t->band;
    double height = band_height(), y = s->y + 6, x = text_x(t, 0), right = t->x[t->form.n];
    double room = right - x;
    sheet_fill(s, t->x[0], s->y + 3, right - t->x[0], height - 3, INK_WASH);
    if (b->tick && !again) {
        double wide = typeset_width(s->type, text_of(b->tick), under_style);
        double blank = b->blank ? MM(56) : 0;
        double at = right - wide - TICK_SIDE - 10 - blank;
        sheet_fill(s, at, y + 1, TICK_SIDE, TICK_SIDE, INK_PAPER);
        sheet_tick(s, at, y + 1, TICK_SIDE);
        sheet_text(s, text_of(b->tick), under_style, at + TICK_SIDE + 4, y + 3, wide + 2);
        if (b->blank)
            sheet_blank(s, b->blank, right - blank, y, blank - 4);
        room = at - x - 6;
    }
    double title = typeset_width(s->type, b->title, band_style) + 8;
    title = title > room ? room : title;
    sheet_text(s, b->title, band_style, x, y, title);
    text remark = again ? TEXT("continued") : b->remark;
    if (room - title > MM(8))
        sheet_text(s, remark, remark_style, x + title, y + 3, room - title);
    sheet_rule(s, t->x[0], s->y + height, right, s->y + height, 0.5, INK_BLACK);
    s->y += height;
}

static double cell_height(table *t, int i, const table_cell *cell, int most_lines) {
    if (cell->kind != CELL_TEXT)
        return TICK_SIDE + 2;
    type_style main = cell_style(&t->form.columns[i]), under = below_style(cell);
    main.most_lines = under.most_lines = most_lines;
    return typeset_height(t->on->type, cell->main, main, text_width(t, i)) +
           typeset_height(t->on->type, cell->under, under, text_width(t, i));
}

static double row_height(table *t, const table_cell *cells, int most_lines) {
    double height = 0;
    for (int i = 0; i < t->form.n; i++) {
        double h = cell_height(t, i, &cells[i], most_lines);
        height = h > height ? h : height;
    }
    height += PAD_TOP + PAD_BOTTOM;
    return height > t->form.least_row ? height : t->form.least_row;
}

static void draw_cell(table *t, int i, const table_cell *cell, double height, int most_lines) {
    sheet *s = t->on;
    double x = text_x(t, i), width = text_width(t, i), y = s->y + PAD_TOP;
    if (cell->kind == CELL_TICK) {
        sheet_tick(s, x + (width - TICK_SIDE) / 2, y + 0.5, TICK_SIDE);
        return;
    }
    if (cell->kind == CELL_LINE) {
        double used = cell->main.len ? typeset_width(s->type, cell->main, under_style) + 4 : 0;
        sheet_text(s, cell->main, under_style, x, s->y + height - 4 - type_leading(TYPE_SMALL) + 2, width);
        if (used < width)
            sheet_rule(s, x + used, s->y + height - 4, x + width, s->y + height - 4, 0.5, INK_BLACK);
        return;
    }
    type_style main = cell_style(&t->form.columns[i]), under = below_style(cell);
    main.most_lines = under.most_lines = most_lines;
    under.align = main.align;
    double main_height = typeset_height(s->type, cell->main, main, width);
    sheet_text(s, cell->main, main, x, y, width);
    sheet_text(s, cell->under, under, x, y + main_height, width);
}

/* Turns the page unless `height` fits; what repeats on each page is drawn. */
static void make_room(table *t, double height, bool first) {
    sheet *s = t->on;
    double above = first ? head_height(t) : 0;
    double band = t->band_waits ? band_height() : 0;
    bool turned = sheet_room(s, above + band + height);
    if (first || turned)
        draw_head(t);
    if (t->band_waits || (turned && t->has_band))
        draw_band(t, !t->band_waits);
    t->band_waits = false;
}

void table_band(table *t, table_band_text band) {
    if (t->band_waits) { /* a band that no row followed */
        make_room(t, 0, !t->begun);
        t->begun = true;
    }
    t->band = band;
    t->has_band = t->band_waits = true;
}

void table_row(table *t, const table_cell *cells) {
    sheet *s = t->on;
    bool first = !t->begun;
    t->begun = true;
    int most_lines = 0;
    double height = row_height(t, cells, 0);
    double page = s->bottom - s->top - head_height(t) - band_height() - 30;
    if (height > page) {
        most_lines = (int)(page / (2 * type_leading(TYPE_BODY)));
        height = row_height(t, cells, most_lines);
    }
    make_room(t, height, first);
    for (int i = 0; i < t->form.n; i++)
        draw_cell(t, i, &cells[i], height, most_lines);
    draw_ledger(t, s->y, s->y + height);
    sheet_rule(s, t->x[0], s->y + height, t->x[t->form.n], s->y + height, 0.3, INK_FAINT);
    s->y += height;
}

void table_end(table *t) {
    sheet *s = t->on;
    if (!t->begun || t->band_waits)
        make_room(t, 0, !t->begun);
    sheet_rule(s, t->x[0], s->y, t->x[t->form.n], s->y, 0.8, INK_BLACK);
}
