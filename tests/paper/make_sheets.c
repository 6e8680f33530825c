/* make_sheets.c: writes every kind of sheet, for the checks that read PDFs with other people's tools.
 *
 *   make_sheets FOLDER          one PDF for each sheet and size of kit
 *   make_sheets --faulty FILE   a page with a text over another and one beyond the margin, to try the checks on
 */
#include <stdio.h>
#include <string.h>

#include "base/sys.h"
#include "paper/book.h"
#include "sample.h"
#include "sample_evening.h"

/* 300 characters: words, and one that is wider than any column. */
static text long_name(arena *a) {
    buf b = {0};
    while (b.len < 200)
        buf_add_z(&b, "cross-member with ");
    while (b.len < 300)
        buf_add_char(&b, 'x');
    text t = arena_text(a, buf_text(&b));
    buf_free(&b);
    return t;
}

static bool write_pdf(arena *a, const char *folder, const char *name, buf *pdf) {
    err e;
    bool ok = sys_write_file(arena_format(a, "%s/%s.pdf", folder, name).at, buf_text(pdf), &e);
    if (!ok)
        fprintf(stderr, "%s: %s\n", e.place, e.cause);
    buf_free(pdf);
    return ok;
}

static const stock *sample_stock(arena *a, const kit *k) {
    stock_record *r = arena_new(a, stock_record);
    r->counts = arena_array(a, stock_count, k->n_rows);
    for (uint32_t i = 0; i + 1 < k->n_rows; i++) {
        stock_count c = {.entry = i + 1, .row = i, .usable = k->rows[i].quantity, .times = 1};
        c.usable -= i % 5 == 1;
        c.damaged = i % 10 == 1;
        c.note = c.damaged ? TEXT("thread crushed") : TEXT("");
        c.usable += i % 7 == 3 ? 2 : 0;
        r->counts[r->n_counts++] = c;
    }
    r->receipts = arena_array(a, stock_receipt, 1);
    r->receipts[0] = (stock_receipt){
        .entry = 9000, .box = 0, .mass_g = 24100, .damage = TEXT_INIT("corner crushed"), .at = 30000000};
    r->n_receipts = 1;
    r->finds = arena_array(a, stock_find, 1);
    r->finds[0] = (stock_find){.entry = 9001,
                               .container = 1,
                               .what = TEXT_INIT("blackened screws of another kit"),
                               .part = KIT_NONE,
                               .quantity = 12};
    r->n_finds = 1;
    return stock_assess(a, k, r);
}

/* Those that a kit alone is enough for; a kit without tools and hazards has none of theirs. */
static bool make_of_kit(arena *a, const char *folder, const char *size, const paper_setup *setup,
                        const kit *k) {
    static const char *const names[] = {"tools",     "hazards",      "emergency-card", "battery-card",
                                        "unit-tags", "release-list", "closing-sheet",  "packing-lists"};
    bool ok = true;
    for (int which = 0; ok && which <= PAPER_PACKING_LISTS; which++) {
        buf pdf = {0};
        paper_notes notes = {0};
        err e;
        if (paper_of_kit(a, setup, (paper_kit_sheet)which, k, &pdf, &notes, &e))
            ok = write_pdf(a, folder, arena_format(a, "%s-%s", names[which], size).at, &pdf);
        else
            fprintf(stderr, "%s-%s: %s\n", names[which], size, e.cause);
    }
    return ok;
}

static bool make_kind(arena *a, const char *folder, const char *size, const paper_setup *setup, const kit *k,
                      int copies) {
    buf pdf = {0};
    paper_notes notes = {0};
    err e;
    bool ok = paper_check_sheets(a, setup, k, &(paper_check_choice){.copies = copies}, &pdf, &notes, &e) &&
              write_pdf(a, folder, arena_format(a, "check-sheets-%s", size).at, &pdf);
    ok = ok && paper_job_cards(a, setup, k, &(paper_card_choice){0}, &pdf, &notes, &e) &&
         write_pdf(a, folder, arena_format(a, "job-cards-%s", size).at, &pdf);
    ok = ok && paper_report(a, setup, k, sample_stock(a, k), TEXT("Owl Meadow Club"), &pdf, &notes, &e) &&
         write_pdf(a, folder, arena_format(a, "report-%s", size).at, &pdf);
    ok = ok && make_of_kit(a, folder, size, setup, k);
    for (uint32_t session = 0; ok && session < 2; session++)
        ok = paper_run_sheet(a, setup, sample_plan(a, k), session, &pdf, &notes, &e) &&
             write_pdf(a, folder, arena_format(a, "run-sheet-%u-%s", session + 1, size).at, &pdf);
    return ok;
}

static bool make_all(arena *a, const char *folder) {
    paper_setup a4 = {.as_of = 30000000}, letter = {.size = PAPER_LETTER, .as_of = PAPER_NO_MOMENT};
    sample_size usual = {.boxes = 2, .bags = 5, .rows = 60, .steps = 6};
    sample_size long_names = usual;
    long_names.long_name = long_name(a);
    sample_size large = {.boxes = 5, .bags = 100, .rows = 5000, .steps = 6};
    return make_kind(a, folder, "a4", &a4, sample_kit(a, usual), 2) &&
           make_kind(a, folder, "letter", &letter, sample_kit(a, usual), 1) &&
           make_kind(a, folder, "long", &a4, sample_kit(a, long_names), 1) &&
           make_kind(a, folder, "large", &a4, sample_kit(a, large), 1);
}

static void compose_faulty(sheet *s, const void *what) {
    (void)what;
    type_style style = {.size = TYPE_HEAD, .colour = INK_BLACK};
    sheet_text(s, TEXT("underneath"), style, s->left + 40, s->top + 40, 200);
    sheet_text(s, TEXT("above it"), style, s->left + 44, s->top + 44, 200);
    sheet_text(s, TEXT("too far out"), style, s->right - 20, s->top + 90, 200);
}

static bool make_faulty(arena *a, const char *path) {
    paper_setup setup = {.as_of = PAPER_NO_MOMENT};
    buf pdf = {0};
    paper_notes notes = {0};
    err e;
    book *b;
    bool ok = book_open(a, &setup, TEXT("faulty"), TEXT("faulty"), &pdf, &b, &e);
    if (!ok)
        return false;
    book_add(
        b, &(book_section){.outline = TEXT("faulty"), .running = TEXT("faulty"), .compose = compose_faulty});
    ok = book_close(b, &notes, &e) && sys_write_file(path, buf_text(&pdf), &e);
    buf_free(&pdf);
    return ok;
}

int main(int argc, char **argv) {
    arena *a = arena_open();
    bool ok = argc == 3 && strcmp(argv[1], "--faulty") == 0 ? make_faulty(a, argv[2])
              : argc == 2                                   ? make_all(a, argv[1])
                                                            : false;
    arena_close(a);
    return ok ? 0 : 1;
}
