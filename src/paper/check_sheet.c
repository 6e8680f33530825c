/* check_sheet.c: the sheets for the stock check of one box.
 *
 * Rows stand by bag in the order of the packing list, with both numbers, so that a pair can go through a bag without
 * searching. What has to be written is little: a tick for a row that is all right, numbers only where it is not, and
 * one tick for a whole bag. The words are those of quick entry, so that a sheet is typed in line by line.
 */
#include "paper/book.h"
#include "paper/masthead.h"
#include "paper/table.h"
#include "paper/wording.h"

typedef struct {
    arena *memory; /* for wordings; emptied by its owner after each box */
    const kit *kit;
    kit_index box;
    int copy, copies;
} box_sheet;

static const table_column columns[] = {
    {.head = "row", .width = MM(10), .align = TYPE_END, .ledger = true},
    {.head = "right", .width = MM(10), .align = TYPE_CENTRE},
    {.head = "expected", .width = MM(19), .align = TYPE_END, .bold = true},
    {.head = "number in the kit", .width = MM(30)},
    {.head = "maker's number", .width = MM(27)},
    {.head = "what it is", .share = 1},
    {.head = "usable, if not all", .width = MM(17)},
    {.head = "damaged", .width = MM(16)},
};
enum { WHAT_COLUMN = 5, N_COLUMNS = sizeof columns / sizeof columns[0] };

static bool is_battery(const kit *k, kit_index part) {
    for (uint32_t i = 0; i < k->n_batteries; i++)
        if (k->batteries[i].part == part)
            return true;
    return false;
}

/* A line to write on for each battery of the row; a kit with more batteries than that has a list of its own. */
static void draw_voltages(const box_sheet *b, table *t, int64_t batteries) {
    enum { MOST = 12 };
    for (int64_t i = 1; i <= batteries && i <= MOST; i++) {
        table_cell cells[N_COLUMNS] = {{.kind = CELL_TEXT}};
        cells[WHAT_COLUMN].kind = CELL_LINE;
        cells[WHAT_COLUMN].main = arena_format(b->memory, "battery %lld, alone, V", (long long)i);
        table_row(t, cells);
    }
}

static void draw_row(const box_sheet *b, table *t, const kit_row *row) {
    const kit *k = b->kit;
    const kit_part *part = &k->parts[row->part];
    arena *a = b->memory;
    text spare = row->spare
                     ? arena_format(a, "%.*s spare", TEXT_ARG(wording_quantity(a, row->spare, row->unit)))
                     : TEXT("");
    table_cell cells[N_COLUMNS] = {
        {.main = arena_format(a, "%lld", (long long)row->line)},
        {.kind = CELL_TICK},
        {.main = wording_quantity(a, row->quantity, row->unit), .under = spare},
        {.main = part->number},
        {.main = wording_list(a, part->makers_numbers, "–")},
        {.main = wording_part(a, part), .under = part->note},
        {.kind = CELL_LINE},
        {.kind = CELL_LINE},
    };
    table_row(t, cells);
    if (is_battery(k, row->part))
        draw_voltages(b, t, row->quantity);
}

static text container_remark(const box_sheet *b, const kit_container *c) {
    buf words = {0};
    buf_add(&words, c->name);
    if (c->label.len)
        buf_addf(&words, "%slabel %.*s", words.len ? " · " : "", TEXT_ARG(c->label));
    if (c->kind == KIT_BAG && c->gross_mass_g >= 0)
        buf_addf(&words, "%s%.*s", words.len ? " · " : "",
                 TEXT_ARG(wording_mass(b->memory, c->gross_mass_g)));
    text t = arena_text(b->memory, buf_text(&words));
    buf_free(&words);
    return t;
}

/* The rows of one container, then those of the containers inside it. */
static void draw_container(const box_sheet *b, table *t, kit_index container) {
    const kit *k = b->kit;
    const kit_container *c = &k->containers[container];
    bool any = false;
    for (uint32_t i = 0; i < k->n_rows; i++) {
        if (k->rows[i].container != container)
            continue;
        if (!any) {
            bool is_box = c->kind == KIT_BOX;
            table_band(t, (table_band_text){
                              .title = is_box ? TEXT("Lying in the box itself")
                                              : wording_container(b->memory, k, container),
                              .remark = is_box ? TEXT("") : container_remark(b, c),
                              .tick = is_box ? "itself all right" : "bag all right",
                              .blank = "except",
                          });
        }
        any = true;
        draw_row(b, t, &k->rows[i]);
    }
    for (uint32_t i = 0; i < k->n_containers; i++)
        if (k->containers[i].inside == container)
            draw_container(b, t, i);
}

static void draw_masthead(const box_sheet *b, sheet *s) {
    const kit *k = b->kit;
    const kit_container *box = &k->containers[b->box];
    masthead m = {
        .kind = "CHECK SHEET",
        .title = wording_container(b->memory, k, b->box),
        .subtitle = container_remark(b, box),
    };
    if (b->copies > 1) {
        m.corner = arena_format(b->memory, "copy %d of %d", b->copy, b->copies);
        m.corner_more = TEXT("each pair counts on its own");
    }
    masthead_draw(s, &m);
}

/* Who counts, and what is looked at before the box is opened. */
static void draw_blanks(const box_sheet *b, sheet *s) {
    const kit_container *box = &b->kit->containers[b->box];
    double half = sheet_width(s) / 2, gap = MM(4), row = 22;
    sheet_blank(s, "counted by", s->left, s->y, half - gap);
    sheet_blank(s, "and", s->left + half, s->y, half * 0.45);
    sheet_blank(s, "day", s->left + half * 1.5, s->y, half * 0.5);
    s->y += row;
    sheet_blank(s, "weighed at the door, kg", s->left, s->y, half * 0.62);
    text mass = box->gross_mass_g >= 0 ? arena_format(b->memory, "maker says %.*s",
                                                      TEXT_ARG(wording_mass(b->memory, box->gross_mass_g)))
                                       : TEXT("");
    type_style quiet = {.size = TYPE_SMALL, .colour = INK_QUIET, .most_lines = 1};
    sheet_text(s, mass, quiet, s->left + half * 0.62 + 6, s->y + 3, half * 0.36);
    double x = s->left + half;
    sheet_tick(s, x, s->y, 11);
    sheet_text(s, TEXT("whole outside"), quiet, x + 15, s->y + 3, MM(24));
    sheet_tick(s, x + MM(28), s->y, 11);
    sheet_text(s, TEXT("damaged outside: photograph it first"), quiet, x + MM(28) + 15, s->y + 3,
               half - MM(33));
    s->y += row;
}

static void draw_lifting(const box_sheet *b, sheet *s) {
    const kit_container *box = &b->kit->containers[b->box];
    if (box->lift_people < 2)
        return;
    text words = arena_format(b->memory, "Lift with %lld adults.", (long long)box->lift_people);
    type_style style = {.size = TYPE_LARGE, .bold = true, .colour = INK_BLACK};
    sheet_box(s, s->left + 1, s->y + 1, sheet_width(s) - 2, 20, 1.6, INK_BLACK);
    sheet_text(s, words, style, s->left + 8, s->y + 4, sheet_width(s) - 16);
    s->y += 30;
}

/* Room for what is on no row: what the page leaves, at least two lines. */
static void draw_finds(sheet *s) {
    static const table_column finds[] = {
        {.head = "found in", .width = MM(26), .ledger = true},
        {.head = "pieces", .width = MM(20)},
        {.head = "what it is, and every number that stands on it", .share = 1},
    };
    enum { LINE = 20, ABOVE = 44, BELOW = 20 };
    sheet_room(s, ABOVE + 2 * LINE + BELOW);
    int lines = (int)((sheet_left_over(s) - ABOVE - BELOW) / LINE);
    lines = lines < 2 ? 2 : lines > 5 ? 5 : lines;
    s->y += 14;
    type_style head = {.size = TYPE_LARGE, .bold = true, .colour = INK_BLACK};
    sheet_paragraph(s, TEXT("Not on the list"), head, s->left, sheet_width(s));
    table_form form = {.columns = finds, .n = 3, .least_row = LINE};
    table t = table_begin(s, &form, s->left);
    table_cell cells[3] = {{.kind = CELL_TEXT}, {.kind = CELL_TEXT}, {.kind = CELL_TEXT}};
    for (int i = 0; i < lines; i++)
        table_row(&t, cells);
    table_end(&t);
}

static const type_style note_style = {.size = TYPE_SMALL, .colour = INK_QUIET};

static void draw_how_to(sheet *s) {
    sheet_paragraph(
        s,
        TEXT("Tick a row when all pieces are there and usable; write numbers only where it is not so. One "
             "tick beside a bag stands for all its rows. Everything goes back where it came from."),
        note_style, s->left, sheet_width(s));
    s->y += 6;
}

static void draw_entry(sheet *s) {
    s->y += 8;
    sheet_paragraph(
        s,
        TEXT("Typed in with “kitbench enter FILE”, a line for each bag: bag B3 all right except row 7: 11, "
             "row 9: 4 and 1 damaged"),
        note_style, s->left, sheet_width(s));
}

static void compose(sheet *s, const void *what) {
    const box_sheet *b = what;
    draw_masthead(b, s);
    draw_lifting(b, s);
    draw_blanks(b, s);
    draw_how_to(s);
    table_form form = {.columns = columns, .n = N_COLUMNS, .least_row = 20};
    table t = table_begin(s, &form, s->left);
    draw_container(b, &t, b->box);
    table_end(&t);
    draw_finds(s);
    draw_entry(s);
}

static void add_box(book *to, const paper_check_choice *choice, box_sheet *b) {
    for (b->copy = 1; b->copy <= choice->copies; b->copy++) {
        b->memory = arena_open();
        text box = wording_container(b->memory, b->kit, b->box);
        text name = arena_format(b->memory, "Check sheet · %.*s", TEXT_ARG(box));
        if (b->copies > 1)
            name = arena_format(b->memory, "%.*s · copy %d of %d", TEXT_ARG(name), b->copy, b->copies);
        book_add(to, &(book_section){.outline = name, .running = name, .compose = compose, .what = b});
        arena_close(b->memory);
    }
}

static bool refuse(const kit *k, const paper_check_choice *choice, err *e) {
    if (choice->copies < 1 || choice->copies > 20)
        return err_input(e, "copies", "ask for 1 to 20", "%d copies cannot be printed", choice->copies);
    for (uint32_t i = 0; i < choice->n_boxes; i++) {
        const kit_container *c = &k->containers[choice->boxes[i]];
        if (c->kind != KIT_BOX)
            return err_input(e, "box", "name the box it is in", "%.*s is a bag, and sheets are made by box",
                             TEXT_ARG(c->number));
    }
    if (k->n_rows == 0)
        return err_input(e, "rows.csv", "check sheets need the packing list", "the kit has no rows to check");
    return true;
}

bool paper_check_sheets(arena *a, const paper_setup *setup, const kit *k, const paper_check_choice *choice,
                        buf *pdf, paper_notes *notes, err *e) {
    if (!refuse(k, choice, e))
        return false;
    book *to;
    text title = arena_format(a, "Check sheets: %.*s", TEXT_ARG(k->name));
    if (!book_open(a, setup, title, wording_kit(a, k), pdf, &to, e))
        return false;
    box_sheet b = {.kit = k, .copies = choice->copies};
    uint32_t n = choice->n_boxes ? choice->n_boxes : k->n_containers;
    for (uint32_t i = 0; i < n; i++) {
        b.box = choice->n_boxes ? choice->boxes[i] : i;
        if (k->containers[b.box].kind == KIT_BOX)
            add_box(to, choice, &b);
    }
    return book_close(to, notes, e);
}
