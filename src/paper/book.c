#include "paper/book.h"

#include <cairo-pdf.h>
#include <stdio.h>

#define MARGIN_SIDE MM(15)
#define MARGIN_TOP MM(13)
#define MARGIN_BOTTOM MM(19) /* the foot stands in it */
#define MOST_SCALE 1.25

struct book {
    arena *memory;
    double width, height; /* of the paper, upright */
    double scale;         /* of all that is drawn; the room on a page is so much smaller */
    text foot;
    text as_of; /* empty when the setup names no moment */
    typeset *type;
    cairo_surface_t *surface;
    cairo_t *cr;
    int pages_before; /* pages of the sections that are drawn */
};

static const type_style small_style = {.size = TYPE_SMALL, .colour = INK_QUIET, .most_lines = 1};
static const type_style small_end = {
    .size = TYPE_SMALL, .colour = INK_QUIET, .most_lines = 1, .align = TYPE_END};

static cairo_status_t take_bytes(void *to, const unsigned char *bytes, unsigned int n) {
    buf_add(to, (text){(const char *)bytes, n});
    return CAIRO_STATUS_SUCCESS;
}

static void set_metadata(book *b, const paper_setup *setup, text title) {
    char moment[20] = "1970-01-01T00:00:00";
    if (setup->as_of != PAPER_NO_MOMENT) {
        char shown[17];
        date_print_moment(setup->as_of, shown);
        snprintf(moment, sizeof moment, "%.10sT%.5s:00", shown, shown + 11);
        b->as_of = arena_format(b->memory, "as of %s", shown);
    }
    cairo_pdf_surface_set_metadata(b->surface, CAIRO_PDF_METADATA_TITLE, arena_z(b->memory, title));
    cairo_pdf_surface_set_metadata(b->surface, CAIRO_PDF_METADATA_CREATOR, "kitbench");
    cairo_pdf_surface_set_metadata(b->surface, CAIRO_PDF_METADATA_CREATE_DATE, moment);
}

bool book_open(arena *a, const paper_setup *setup, text title, text foot, buf *to, book **out, err *e) {
    book *b = arena_new(a, book);
    b->memory = a;
    b->foot = foot;
    b->width = setup->size == PAPER_A4 ? MM(210) : 612;
    b->height = setup->size == PAPER_A4 ? MM(297) : 792;
    b->scale = setup->printed_mm > 0 ? 100 / setup->printed_mm : 1;
    if (!(b->scale > 1 / MOST_SCALE && b->scale < MOST_SCALE))
        return err_input(e, "ruler", "80 to 125 mm", "a ruler of 100 mm cannot have come out as %g mm",
                         setup->printed_mm);
    if (!typeset_open(a, &b->type, e))
        return false;
    b->surface = cairo_pdf_surface_create_for_stream(take_bytes, to, b->width, b->height);
    cairo_pdf_surface_restrict_to_version(b->surface, CAIRO_PDF_VERSION_1_5);
    b->cr = cairo_create(b->surface);
    cairo_scale(b->cr, b->scale, b->scale);
    set_metadata(b, setup, title);
    *out = b;
    return true;
}

static void draw_foot(const book *b, sheet *s) {
    double y = s->bottom + MM(4), third = sheet_width(s) / 3;
    sheet_rule(s, s->left, y, s->right, y, 0.4, INK_QUIET);
    y += 3;
    sheet_text(s, b->foot, small_style, s->left, y, third + MM(25));
    type_style middle = small_end;
    middle.most_lines = 1;
    text mid = s->section->foot.len ? s->section->foot : b->as_of;
    sheet_text(s, mid, middle, s->left + third + MM(28), y, third);
    char page[64];
    snprintf(page, sizeof page, "page %d of %d", s->page, s->pages);
    sheet_text(s, text_of(page), small_end, s->right - MM(30), y, MM(30));
}

static void begin_page(book *b, sheet *s) {
    s->page++;
    s->top = s->section->bare ? 0 : MARGIN_TOP;
    s->y = s->top;
    if (s->section->bare)
        return;
    if (s->page > 1) {
        type_style style = {.size = TYPE_BODY, .bold = true, .colour = INK_BLACK, .most_lines = 1};
        sheet_text(s, s->section->running, style, s->left, s->top, sheet_width(s));
        s->top += type_leading(TYPE_BODY) + 4;
        sheet_rule(s, s->left, s->top - 2, s->right, s->top - 2, 0.8, INK_BLACK);
        s->top += 6;
    }
    s->y = s->top;
    if (s->ledger > 0)
        sheet_ledger(s, s->ledger);
    if (s->beside)
        sheet_beside(s, s->beside, INK_BLACK);
    if (s->cr)
        draw_foot(b, s);
}

static void end_page(const sheet *s) {
    if (s->cr)
        cairo_show_page(s->cr);
}

void book_turn(book *b, sheet *s) {
    end_page(s);
    begin_page(b, s);
}

static sheet begin_section(book *b, const book_section *section, bool draw, int pages) {
    double width = section->landscape ? b->height : b->width;
    double height = section->landscape ? b->width : b->height;
    if (draw)
        cairo_pdf_surface_set_size(b->surface, width, height);
    width /= b->scale;
    height /= b->scale;
    double side = section->bare ? 0 : MARGIN_SIDE;
    sheet s = {
        .type = b->type,
        .cr = draw ? b->cr : NULL,
        .left = side,
        .right = width - side,
        .bottom = section->bare ? height : height - MARGIN_BOTTOM,
        .pages = pages,
        .section = section,
        .book = b,
    };
    begin_page(b, &s);
    return s;
}

void book_add(book *b, const book_section *section) {
    sheet counted = begin_section(b, section, false, 0);
    section->compose(&counted, section->what);
    char place[32];
    snprintf(place, sizeof place, "page=%d", b->pages_before + 1);
    cairo_pdf_surface_add_outline(b->surface, CAIRO_PDF_OUTLINE_ROOT, arena_z(b->memory, section->outline),
                                  place, CAIRO_PDF_OUTLINE_FLAG_OPEN);
    sheet drawn = begin_section(b, section, true, counted.page);
    section->compose(&drawn, section->what);
    end_page(&drawn);
    b->pages_before += drawn.page;
}

bool book_close(book *b, paper_notes *notes, err *e) {
    typeset_add_notes(b->type, b->memory, notes);
    notes->pages += b->pages_before;
    cairo_status_t drawn = cairo_status(b->cr);
    cairo_destroy(b->cr);
    cairo_surface_finish(b->surface);
    cairo_status_t written = cairo_surface_status(b->surface);
    cairo_surface_destroy(b->surface);
    typeset_close(b->type);
    cairo_status_t status = drawn ? drawn : written;
    if (status)
        return err_run(e, "the PDF", "", "it cannot be drawn (%s)", cairo_status_to_string(status));
    return true;
}
