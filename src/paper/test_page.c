/* test_page.c: does this printer keep true scale, and how far does it reach? */
#include <stdio.h>

#include "paper/book.h"
#include "paper/masthead.h"
#include "paper/ruler.h"

/* What a printer reaches is seen from which of the nested frames are whole. */
static void draw_frames(sheet *s) {
    type_style small = {.size = TYPE_SMALL, .colour = INK_QUIET, .most_lines = 1};
    double width = s->left + s->right, height = s->bottom + MM(19);
    for (int mm = 3; mm <= 12; mm += 3) {
        sheet_box(s, MM(mm), MM(mm), width - 2 * MM(mm), height - 2 * MM(mm), 0.4, INK_BLACK);
        char shown[16];
        snprintf(shown, sizeof shown, "%d mm", mm);
        sheet_text(s, text_of(shown), small, s->left + MM(20) * mm / 3, MM(mm) - 1, MM(14));
    }
}

static void compose_test(sheet *s, const void *what) {
    (void)what;
    draw_frames(s);
    s->y += MM(6);
    masthead m = {
        .kind = "TEST PAGE",
        .title = TEXT("Does this printer keep true scale?"),
        .subtitle = TEXT(
            "Print it at 100 %, without “fit to page”. Which frame is whole on all sides tells what the printer reaches.")};
    masthead_draw(s, &m);
    ruler_draw(s);
    double x = s->left + MM(2), y = s->y + MM(4);
    for (int i = 0; i <= 100; i++)
        sheet_rule(s, x, y + MM(i),
                   x + MM(i % 10 == 0  ? 5
                          : i % 5 == 0 ? 3.5
                                       : 2),
                   y + MM(i), 0.4, INK_BLACK);
    sheet_rule(s, x, y, x, y + MM(100), 0.4, INK_BLACK);
    sheet_box(s, x + MM(25), y, MM(50), MM(50), 0.8, INK_BLACK);
    type_style words = {.size = TYPE_BODY, .colour = INK_BLACK};
    sheet_text(
        s,
        TEXT("Upright, too, 0 to 100 must be 100 mm; the square is 50 by 50 mm. If both directions are "
             "wrong by the same, print again with --ruler and the length you measured. If they differ, "
             "the printer stretches one way: do not lay pieces on its gauge sheets."),
        words, x + MM(85), y, s->right - x - MM(85));
    s->y = y + MM(104);
}

bool paper_test_page(arena *a, const paper_setup *setup, buf *pdf, paper_notes *notes, err *e) {
    book *to;
    if (!book_open(a, setup, TEXT("Test page"), TEXT("Kitbench test page"), pdf, &to, e))
        return false;
    book_add(to, &(book_section){
                     .outline = TEXT("Test page"), .running = TEXT("Test page"), .compose = compose_test});
    return book_close(to, notes, e);
}
