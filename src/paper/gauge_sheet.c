/* gauge_sheet.c: every fastener of a kit in true scale, to lay pieces on. */
#include <stdlib.h>

#include "paper/book.h"
#include "paper/masthead.h"
#include "paper/paint.h"
#include "paper/ruler.h"
#include "paper/wording.h"

typedef struct {
    const kit_part *part;
    designation is;
    picture picture;
    text words;
} gauge;

typedef struct {
    arena *memory;
    const kit *kit;
    gauge *gauges;
    uint32_t n;
    text *not_drawn; /* parts with a designation that has no picture */
    uint32_t n_not_drawn;
} gauges;

/* Alike pieces side by side: that is where a sheet helps. */
static int compare(const void *x, const void *y) {
    const gauge *a = x, *b = y;
    if (a->is.kind != b->is.kind)
        return a->is.kind < b->is.kind ? -1 : 1;
    if (a->is.thread_um != b->is.thread_um)
        return a->is.thread_um < b->is.thread_um ? -1 : 1;
    if (a->is.form != b->is.form)
        return a->is.form < b->is.form ? -1 : 1;
    if (a->is.length_um != b->is.length_um)
        return a->is.length_um < b->is.length_um ? -1 : 1;
    return a->part < b->part ? -1 : a->part > b->part;
}

static void collect(gauges *g) {
    const kit *k = g->kit;
    g->gauges = arena_array(g->memory, gauge, k->n_parts);
    g->not_drawn = arena_array(g->memory, text, k->n_parts);
    for (uint32_t i = 0; i < k->n_parts; i++) {
        gauge one = {.part = &k->parts[i]};
        if (!one.part->designation.len)
            continue;
        if (designation_read(one.part->designation, &one.is, NULL) &&
            picture_fastener(g->memory, &one.is, 1, &one.picture, NULL)) {
            one.words = one.part->designation;
            g->gauges[g->n++] = one;
        } else {
            g->not_drawn[g->n_not_drawn++] = one.part->number;
        }
    }
    if (g->n)
        qsort(g->gauges, g->n, sizeof g->gauges[0], compare);
}

#define BETWEEN MM(7)
static const type_style number_style = {
    .size = TYPE_BODY, .bold = true, .colour = INK_BLACK, .most_lines = 1};
static const type_style words_style = {.size = TYPE_SMALL, .colour = INK_BLACK, .most_lines = 2};

/* A picture has its own width, its words at least as much as they need on two lines. */
static double width_of(const gauge *g) {
    double least = MM(34);
    return g->picture.width > least ? g->picture.width : least;
}

static double words_height(void) {
    return type_leading(TYPE_BODY) + 2 * type_leading(TYPE_SMALL);
}

/* As many as fit side by side; returns how many. */
static uint32_t draw_line(const gauges *g, sheet *s, uint32_t from) {
    double width = 0, height = 0;
    uint32_t n = 0;
    while (from + n < g->n) {
        double more = width_of(&g->gauges[from + n]) + (n ? BETWEEN : 0);
        if (n && width + more > sheet_width(s))
            break;
        width += more;
        if (g->gauges[from + n].picture.height > height)
            height = g->gauges[from + n].picture.height;
        n++;
    }
    sheet_room(s, height + words_height() + BETWEEN);
    double x = s->left;
    for (uint32_t i = from; i < from + n; i++) {
        const gauge *one = &g->gauges[i];
        double w = width_of(one);
        paint_picture(s, &one->picture, x, s->y + height - one->picture.height);
        double y = s->y + height + 3;
        sheet_text(s, one->part->number, number_style, x, y, w);
        sheet_text(s, one->words, words_style, x, y + type_leading(TYPE_BODY), w);
        x += w + BETWEEN;
    }
    s->y += height + words_height() + BETWEEN;
    return n;
}

static void compose_gauges(sheet *s, const void *what) {
    const gauges *g = what;
    masthead m = {
        .kind = "GAUGE SHEET",
        .title = TEXT("Fasteners in true scale"),
        .subtitle = TEXT(
            "Lay a piece on its picture. A ruler hardly tells M5 from M6: use a caliper, or run a nut on.")};
    masthead_draw(s, &m);
    ruler_draw(s);
    for (uint32_t i = 0; i < g->n;)
        i += draw_line(g, s, i);
    if (!g->n_not_drawn)
        return;
    kit_texts list = {g->not_drawn, g->n_not_drawn};
    text told = arena_format(g->memory, "Not drawn, because there is no table of their sizes here: %.*s.",
                             TEXT_ARG(wording_list(g->memory, list, "")));
    sheet_paragraph(s, told, words_style, s->left, sheet_width(s));
}

bool paper_gauge_sheets(arena *a, const paper_setup *setup, const kit *k, buf *pdf, paper_notes *notes,
                        err *e) {
    gauges g = {.memory = a, .kit = k};
    collect(&g);
    if (g.n == 0)
        return err_input(e, "parts.csv", "gauge sheets need fasteners with a designation",
                         "no part can be drawn");
    book *to;
    text title = arena_format(a, "Gauge sheet: %.*s", TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    book_add(to, &(book_section){.outline = TEXT("Gauge sheet"),
                                 .running = TEXT("Gauge sheet · fasteners in true scale"),
                                 .compose = compose_gauges,
                                 .what = &g});
    return book_close(to, notes, e);
}
