#include "paper/typeset.h"

#include <string.h>

#include "base/utf8.h"

typedef struct {
    double points, leading;
} type_step;

static const type_step scale[TYPE_SIZES] = {
    [TYPE_SMALL] = {6.8, 10}, [TYPE_BODY] = {8.5, 12},   [TYPE_LARGE] = {10.5, 14},
    [TYPE_HEAD] = {13.0, 18}, [TYPE_TITLE] = {18.0, 24}, [TYPE_POSTER] = {27.0, 32},
};

enum { MOST_MISSING = 64 };

struct typeset {
    fonts *fonts;
    PangoContext *context;
    PangoLayout *layout;
    PangoFontDescription *faces[TYPE_SIZES][2];
    double ascent, descent;  /* of a font of one point */
    double advances[2][128]; /* of the ASCII characters in a font of one point, by weight */
    buf joined;              /* scratch: a text with its line breaks taken out */
    uint32_t missing[MOST_MISSING];
    int n_missing;
};

double type_leading(type_size size) {
    return scale[size].leading;
}

double type_points(type_size size) {
    return scale[size].points;
}

static void make_faces(typeset *t) {
    for (int size = 0; size < TYPE_SIZES; size++) {
        for (int bold = 0; bold < 2; bold++) {
            PangoFontDescription *d = pango_font_description_new();
            pango_font_description_set_family_static(d, FONT_FAMILY);
            pango_font_description_set_weight(d, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
            pango_font_description_set_absolute_size(d, scale[size].points * PANGO_SCALE);
            t->faces[size][bold] = d;
        }
    }
}

/* Nothing of the screen: no hinting, no rounding to pixels, no language from the environment. */
static void make_context(typeset *t) {
    t->context = pango_font_map_create_context(fonts_map(t->fonts));
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(t->context, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(t->context, 72);
    pango_context_set_round_glyph_positions(t->context, FALSE);
    pango_context_set_language(t->context, pango_language_from_string("en"));
    pango_context_set_base_dir(t->context, PANGO_DIRECTION_WEAK_LTR);
}

static void measure_font(typeset *t) {
    const PangoFontDescription *d = t->faces[TYPE_POSTER][0];
    PangoFontMetrics *m = pango_context_get_metrics(t->context, d, NULL);
    double size = scale[TYPE_POSTER].points * PANGO_SCALE;
    t->ascent = pango_font_metrics_get_ascent(m) / size;
    t->descent = pango_font_metrics_get_descent(m) / size;
    pango_font_metrics_unref(m);
}

/* The width of each printable ASCII character alone. */
static void measure_ascii(typeset *t) {
    double size = scale[TYPE_POSTER].points * PANGO_SCALE;
    for (int bold = 0; bold < 2; bold++) {
        pango_layout_set_font_description(t->layout, t->faces[TYPE_POSTER][bold]);
        for (int c = ' '; c <= '~'; c++) {
            PangoRectangle logical;
            pango_layout_set_text(t->layout, &(char){(char)c}, 1);
            pango_layout_get_extents(t->layout, NULL, &logical);
            t->advances[bold][c] = logical.width / size;
        }
    }
}

bool typeset_open(arena *a, typeset **out, err *e) {
    typeset *t = arena_new(a, typeset);
    if (!fonts_open(&t->fonts, e))
        return false;
    make_context(t);
    make_faces(t);
    measure_font(t);
    t->layout = pango_layout_new(t->context);
    measure_ascii(t);
    pango_layout_set_wrap(t->layout, PANGO_WRAP_WORD_CHAR);
    /* A number broken inside must not seem to have a dash there. */
    PangoAttrList *plain = pango_attr_list_new();
    pango_attr_list_insert(plain, pango_attr_insert_hyphens_new(FALSE));
    pango_layout_set_attributes(t->layout, plain);
    pango_attr_list_unref(plain);
    *out = t;
    return true;
}

void typeset_close(typeset *t) {
    if (!t)
        return;
    g_object_unref(t->layout);
    for (int size = 0; size < TYPE_SIZES; size++)
        for (int bold = 0; bold < 2; bold++)
            pango_font_description_free(t->faces[size][bold]);
    g_object_unref(t->context);
    fonts_close(t->fonts);
    buf_free(&t->joined);
}

/* The library limits lines by paragraph, so a text with a limit becomes one paragraph. */
static text join_lines(typeset *t, text words) {
    if (!memchr(words.at, '\n', words.len) && !memchr(words.at, '\r', words.len))
        return words;
    buf_clear(&t->joined);
    for (size_t i = 0; i < words.len; i++)
        buf_add_char(&t->joined, words.at[i] == '\n' || words.at[i] == '\r' ? ' ' : words.at[i]);
    return buf_text(&t->joined);
}

/* Puts `words` into the one layout. A width below 0 is no limit. */
static void set_layout(typeset *t, text words, type_style style, double width) {
    if (style.most_lines > 0)
        words = join_lines(t, words);
    pango_layout_set_width(t->layout, width < 0 ? -1 : (int)(width * PANGO_SCALE));
    pango_layout_set_font_description(t->layout, t->faces[style.size][style.bold]);
    pango_layout_set_ellipsize(t->layout, style.most_lines > 0 && width >= 0 ? PANGO_ELLIPSIZE_END
                                                                             : PANGO_ELLIPSIZE_NONE);
    pango_layout_set_height(t->layout, style.most_lines > 0 ? -style.most_lines : -1);
    pango_layout_set_text(t->layout, words.at, (int)words.len);
}

/* The lines of a text whose every line surely fits, without setting it: most cells of most tables. Otherwise 0. Pairs
 * of letters that stand wider than alone are covered by the 3 %. */
static int lines_surely(const typeset *t, text words, type_style style, double width) {
    double sum = 0, room = width / scale[style.size].points / 1.03;
    int lines = 1;
    for (size_t i = 0; i < words.len && sum <= room; i++) {
        unsigned char c = (unsigned char)words.at[i];
        if (c == '\n' && style.most_lines == 0) {
            lines++;
            sum = 0;
            continue;
        }
        if (c < ' ' || c > '~')
            return 0;
        sum += t->advances[style.bold][c];
    }
    return sum <= room ? lines : 0;
}

int typeset_lines(typeset *t, text words, type_style style, double width) {
    if (words.len == 0)
        return 0;
    int sure = lines_surely(t, words, style, width);
    if (sure)
        return sure;
    set_layout(t, words, style, width);
    return pango_layout_get_line_count(t->layout);
}

double typeset_height(typeset *t, text words, type_style style, double width) {
    return typeset_lines(t, words, style, width) * type_leading(style.size);
}

double typeset_width(typeset *t, text words, type_style style) {
    if (words.len == 0)
        return 0;
    style.most_lines = 0;
    set_layout(t, words, style, -1);
    PangoRectangle logical;
    pango_layout_get_extents(t->layout, NULL, &logical);
    return (double)logical.width / PANGO_SCALE;
}

static void remember_missing(typeset *t, uint32_t point) {
    for (int i = 0; i < t->n_missing; i++)
        if (t->missing[i] == point)
            return;
    if (t->n_missing < MOST_MISSING)
        t->missing[t->n_missing++] = point;
}

static void look_for_missing(typeset *t, const PangoLayoutLine *line) {
    for (GSList *r = line->runs; r; r = r->next) {
        const PangoGlyphString *glyphs = ((PangoLayoutRun *)r->data)->glyphs;
        for (int i = 0; i < glyphs->num_glyphs; i++) {
            PangoGlyph g = glyphs->glyphs[i].glyph;
            if (g != PANGO_GLYPH_EMPTY && (g & PANGO_GLYPH_UNKNOWN_FLAG))
                remember_missing(t, g & ~(PangoGlyph)PANGO_GLYPH_UNKNOWN_FLAG);
        }
    }
}

/* Where a line begins inside its column. */
static double indent_of(const PangoLayoutLine *line, double line_width, type_style style, double width,
                        bool single) {
    if (!single && line->resolved_dir == PANGO_DIRECTION_RTL && style.align != TYPE_CENTRE)
        return width - line_width;
    switch (style.align) {
    case TYPE_CENTRE:
        return (width - line_width) / 2;
    case TYPE_END:
        return width - line_width;
    case TYPE_START:
    default:
        return 0;
    }
}

void typeset_draw(typeset *t, cairo_t *cr, text words, type_style style, double x, double y, double width) {
    if (words.len == 0)
        return;
    set_layout(t, words, style, width);
    ink_use(cr, style.colour);
    const type_step *step = &scale[style.size];
    double baseline =
        y + (step->leading - (t->ascent + t->descent) * step->points) / 2 + t->ascent * step->points;
    int n = pango_layout_get_line_count(t->layout);
    for (int i = 0; i < n; i++) {
        PangoLayoutLine *line = pango_layout_get_line_readonly(t->layout, i);
        PangoRectangle logical;
        pango_layout_line_get_extents(line, NULL, &logical);
        look_for_missing(t, line);
        double indent = indent_of(line, (double)logical.width / PANGO_SCALE, style, width, n == 1);
        cairo_move_to(cr, x + indent, baseline + i * step->leading);
        pango_cairo_show_layout_line(cr, line);
    }
}

void typeset_add_notes(const typeset *t, arena *a, paper_notes *notes) {
    if (!t->n_missing)
        return;
    buf list = {0};
    for (int i = 0; i < t->n_missing; i++)
        buf_addf(&list, "%sU+%04X", i ? ", " : "", (unsigned)t->missing[i]);
    if (t->n_missing == MOST_MISSING)
        buf_add_z(&list, " and others");
    arena_room(a, notes->list, notes->n, notes->cap, text);
    notes->list[notes->n++] =
        arena_format(a, "the fonts have no sign for %.*s; each is drawn as a box with its code point",
                     TEXT_ARG(buf_text(&list)));
    buf_free(&list);
}
