#include "paper/paint.h"

static ink ink_of(picture_tone tone) {
    static const ink inks[] = {INK_PAPER, INK_BLACK, INK_QUIET, INK_FAINT, INK_WASH, INK_ACCENT, INK_PAPER};
    return inks[tone];
}

/* Slanting lines 3 points apart, clipped to the box. */
static void hatch(sheet *s, const picture_shape *b, double x, double y) {
    if (!s->cr)
        return;
    cairo_save(s->cr);
    cairo_rectangle(s->cr, x, y, b->width, b->height);
    cairo_clip(s->cr);
    int lines = (int)((b->width + b->height) / 3);
    for (int i = 0; i <= lines; i++)
        sheet_rule(s, x + 3 * i, y, x + 3 * i - b->height, y + b->height, 0.5, ink_of(b->fill));
    cairo_restore(s->cr);
}

static void paint_box(sheet *s, const picture_shape *b, double x, double y) {
    if (b->fill != PICTURE_NOTHING && b->hatched)
        hatch(s, b, x, y);
    else if (b->fill != PICTURE_NOTHING)
        sheet_fill(s, x, y, b->width, b->height, ink_of(b->fill));
    if (b->stroke != PICTURE_NOTHING)
        sheet_box(s, x, y, b->width, b->height, b->weight, ink_of(b->stroke));
}

static void paint_text(sheet *s, const picture_shape *t, double x, double y) {
    static const type_size sizes[] = {TYPE_SMALL, TYPE_BODY, TYPE_LARGE};
    static const type_align aligns[] = {TYPE_START, TYPE_CENTRE, TYPE_END};
    type_style style = {.size = sizes[t->size],
                        .bold = t->bold,
                        .colour = ink_of(t->stroke),
                        .align = aligns[t->anchor],
                        .most_lines = t->most_lines ? t->most_lines : 1};
    if (t->width > 4) /* narrower holds not even a "…" */
        sheet_text(s, t->words, style, x, y, t->width);
}

static void paint_path(sheet *s, const picture_shape *p, double x, double y) {
    if (!s->cr || p->n_points < 2)
        return;
    cairo_new_path(s->cr);
    for (size_t i = 0; i < p->n_points; i++)
        cairo_line_to(s->cr, x + p->points[2 * i], y + p->points[2 * i + 1]);
    if (p->closed)
        cairo_close_path(s->cr);
    if (p->closed && p->fill != PICTURE_NOTHING) {
        ink_use(s->cr, ink_of(p->fill));
        cairo_fill_preserve(s->cr);
    }
    if (p->stroke != PICTURE_NOTHING) {
        ink_use(s->cr, ink_of(p->stroke));
        cairo_set_line_width(s->cr, p->weight);
        cairo_stroke_preserve(s->cr);
    }
    cairo_new_path(s->cr);
}

void paint_picture(sheet *s, const picture *p, double x, double y) {
    for (size_t i = 0; i < p->n; i++) {
        const picture_shape *shape = &p->shapes[i];
        double at_x = x + shape->x, at_y = y + shape->y;
        switch (shape->kind) {
        case PICTURE_BOX:
            paint_box(s, shape, at_x, at_y);
            break;
        case PICTURE_LINE:
            sheet_rule(s, at_x, at_y, at_x + shape->width, at_y + shape->height, shape->weight,
                       ink_of(shape->stroke));
            break;
        case PICTURE_TEXT:
            paint_text(s, shape, at_x, at_y);
            break;
        case PICTURE_PATH:
            paint_path(s, shape, at_x, at_y);
            break;
        }
    }
}
