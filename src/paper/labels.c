/* labels.c: labels for boxes and bags, and for the sorter's compartments, on label sheets of any grid. */
#include "paper/book.h"
#include "paper/paint.h"
#include "paper/wording.h"

typedef struct {
    text number, name, more; /* large; below it; small and quiet */
    bool name_bold;
    const char *code;
    text link; /* what the QR code says */
    text designation;
} label;

typedef struct {
    arena *memory;
    const paper_label_form *form;
    label *labels;
    uint32_t n;
} label_sheet;

#define INSET MM(2.5)

/* The fastener in true scale, where it fits beside the code. */
static void draw_fastener(const label_sheet *l, sheet *s, const label *of, double x, double y, double width,
                          double height) {
    designation d;
    picture p;
    if (of->designation.len && designation_read(of->designation, &d, NULL) &&
        picture_fastener(l->memory, &d, 1, &p, NULL) && p.width <= width && p.height <= height)
        paint_picture(s, &p, x, y + height - p.height);
}

static void draw_code(const label_sheet *l, sheet *s, const label *of, double right, double top,
                      double side) {
    picture qr;
    type_style style = {
        .size = TYPE_LARGE, .bold = true, .colour = INK_BLACK, .align = TYPE_CENTRE, .most_lines = 1};
    if (picture_qr(l->memory, of->link, side, &qr, NULL))
        paint_picture(s, &qr, right - side, top);
    sheet_text(s, text_of(of->code), style, right - side, top + side, side);
}

static void draw_label(const label_sheet *l, sheet *s, const label *of, double x, double y) {
    double width = MM(l->form->width_mm), height = MM(l->form->height_mm);
    double code = type_leading(TYPE_LARGE), side = height - 2 * INSET - code;
    double most = width * 0.33;
    side = side > most ? most : side;
    double left = x + INSET, top = y + INSET, column = width - 3 * INSET - side;
    type_style number = {.size = TYPE_HEAD, .bold = true, .colour = INK_BLACK, .most_lines = 1};
    type_style name = {.size = TYPE_BODY, .bold = of->name_bold, .colour = INK_BLACK, .most_lines = 2};
    type_style small = {.size = TYPE_SMALL, .colour = INK_QUIET, .most_lines = 2};
    draw_code(l, s, of, x + width - INSET, top, side);
    sheet_text(s, of->number, number, left, top, column);
    double at = top + type_leading(TYPE_HEAD);
    sheet_text(s, of->name, name, left, at, column);
    at += typeset_height(s->type, of->name, name, column);
    double bottom = y + height - INSET;
    if (at + type_leading(TYPE_SMALL) <= bottom) {
        sheet_text(s, of->more, small, left, at, column);
        at += typeset_height(s->type, of->more, small, column);
    }
    draw_fastener(l, s, of, left, at, column, bottom - at);
}

static void compose(sheet *s, const void *what) {
    const label_sheet *l = what;
    const paper_label_form *f = l->form;
    int each = f->columns * f->rows, place = f->first - 1;
    for (uint32_t i = 0; i < l->n; i++, place++) {
        if (place == each) {
            sheet_turn(s);
            place = 0;
        }
        int column = place % f->columns, row = place / f->columns;
        double x = MM(f->left_mm) + column * MM(f->width_mm + f->gap_x_mm);
        double y = MM(f->top_mm) + row * MM(f->height_mm + f->gap_y_mm);
        draw_label(l, s, &l->labels[i], x, y);
    }
}

/* --- what stands on them --- */

static text link_of(arena *a, const paper_label_form *f, const kit *k, text number, const char *code) {
    if (f->address.len)
        return arena_format(a, "%.*s/%s", TEXT_ARG(f->address), code);
    return arena_format(a, "%.*s %.*s %s", TEXT_ARG(k->serial.len ? k->serial : k->number), TEXT_ARG(number),
                        code);
}

static uint32_t rows_inside(const kit *k, kit_index container) {
    uint32_t n = 0;
    for (uint32_t i = 0; i < k->n_rows; i++)
        n += k->rows[i].container == container;
    return n;
}

static label label_container(arena *a, const paper_label_form *f, const kit *k, const kit_codes *codes,
                             kit_index i) {
    const kit_container *c = &k->containers[i];
    const char *code = codes->by_index[KIT_CODE_CONTAINER][i].code;
    text mass = c->gross_mass_g >= 0 ? wording_mass(a, c->gross_mass_g) : TEXT("");
    text carried = c->lift_people > 1 ? arena_format(a, " · lift with %lld adults", (long long)c->lift_people)
                                      : TEXT("");
    text in = c->inside != KIT_NONE
                  ? arena_format(a, " · in %.*s", TEXT_ARG(wording_container(a, k, c->inside)))
                  : TEXT("");
    uint32_t rows = rows_inside(k, i);
    return (label){.number = wording_container(a, k, i),
                   .name = c->name,
                   .more =
                       arena_format(a, "%u row%s%s%.*s%.*s%.*s", rows, rows == 1 ? "" : "s",
                                    mass.len ? " · " : "", TEXT_ARG(mass), TEXT_ARG(carried), TEXT_ARG(in)),
                   .code = code,
                   .link = link_of(a, f, k, c->number, code)};
}

static label label_part(arena *a, const paper_label_form *f, const kit *k, const kit_codes *codes,
                        kit_index i) {
    const kit_part *p = &k->parts[i];
    const char *code = codes->by_index[KIT_CODE_PART][i].code;
    int64_t all = 0;
    for (uint32_t r = 0; r < k->n_rows; r++)
        all += k->rows[r].part == i ? k->rows[r].quantity : 0;
    text quantity = wording_quantity(a, all, wording_unit(k, i));
    return (label){.number = p->number,
                   .name = p->designation,
                   .name_bold = true,
                   .more = arena_format(a, "%.*s · %.*s", TEXT_ARG(quantity), TEXT_ARG(p->name)),
                   .code = code,
                   .link = link_of(a, f, k, p->number, code),
                   .designation = p->designation};
}

static uint32_t collect(arena *a, const kit *k, paper_label_kind kind, const paper_label_form *form,
                        label **out) {
    kit_codes codes;
    kit_make_codes(a, k, &codes);
    if (!codes.n)
        return 0;
    uint32_t n = 0;
    *out = arena_array(a, label, k->n_containers + k->n_parts);
    for (uint32_t i = 0; kind == PAPER_BAG_LABELS && i < k->n_containers; i++)
        (*out)[n++] = label_container(a, form, k, &codes, i);
    for (uint32_t i = 0; kind == PAPER_SORTER_LABELS && i < k->n_parts; i++)
        if (k->parts[i].designation.len)
            (*out)[n++] = label_part(a, form, k, &codes, i);
    return n;
}

/* --- the form --- */

paper_label_form paper_label_default(paper_size size) {
    bool a4 = size == PAPER_A4; /* three columns of eight fill either paper inside what printers reach */
    return (paper_label_form){.columns = 3,
                              .rows = 8,
                              .width_mm = a4 ? 63.5 : 66,
                              .height_mm = a4 ? 33.9 : 31.5,
                              .left_mm = a4 ? 7.25 : 6,
                              .top_mm = 13,
                              .gap_x_mm = a4 ? 2.5 : 3,
                              .gap_y_mm = 0,
                              .first = 1};
}

static bool refuse(const paper_label_form *f, const paper_setup *setup, err *e) {
    double paper_x = setup->size == PAPER_A4 ? 210 : 215.9, paper_y = setup->size == PAPER_A4 ? 297 : 279.4;
    double x = f->left_mm + f->columns * f->width_mm + (f->columns - 1) * f->gap_x_mm;
    double y = f->top_mm + f->rows * f->height_mm + (f->rows - 1) * f->gap_y_mm;
    if (f->columns < 1 || f->rows < 1 || f->columns > 20 || f->rows > 50)
        return err_input(e, "grid", "1 to 20 columns, 1 to 50 rows", "%d by %d is no grid of labels",
                         f->columns, f->rows);
    if (!(f->width_mm >= 30 && f->height_mm >= 15 && f->gap_x_mm >= 0 && f->gap_y_mm >= 0))
        return err_input(e, "label", "at least 30 by 15 mm, gaps not below 0",
                         "labels of %g by %g mm are too small to be read", f->width_mm, f->height_mm);
    if (!(f->left_mm >= 0 && f->top_mm >= 0 && x <= paper_x + 0.01 && y <= paper_y + 0.01))
        return err_input(e, "grid", "fewer or smaller labels, or a smaller offset",
                         "the labels reach to %.1f by %.1f mm, the paper to %.1f by %.1f", x, y, paper_x,
                         paper_y);
    if (f->first < 1 || f->first > f->columns * f->rows)
        return err_input(e, "first", "count from the upper left, row by row", "a sheet has labels 1 to %d",
                         f->columns * f->rows);
    return true;
}

bool paper_labels(arena *a, const paper_setup *setup, const kit *k, paper_label_kind kind,
                  const paper_label_form *form, buf *pdf, paper_notes *notes, err *e) {
    label_sheet l = {.memory = a, .form = form};
    if (!refuse(form, setup, e))
        return false;
    l.n = collect(a, k, kind, form, &l.labels);
    if (l.n == 0)
        return err_input(e, kind == PAPER_BAG_LABELS ? "containers.csv" : "parts.csv",
                         kind == PAPER_BAG_LABELS ? "labels need boxes and bags"
                                                  : "sorter labels are for parts with a designation",
                         "there is nothing to put on labels");
    book *to;
    const char *what = kind == PAPER_BAG_LABELS ? "Labels for boxes and bags" : "Labels for the sorter";
    text title = arena_format(a, "%s: %.*s", what, TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    book_add(to, &(book_section){.outline = text_of(what), .bare = true, .compose = compose, .what = &l});
    return book_close(to, notes, e);
}
