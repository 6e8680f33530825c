/* emergency_card.c: what hangs beside the telephone: blanks for what only the leader knows, and what to do first. */
#include "paper/kit_sheet.h"

static void add_blanks(sheet *s) {
    static const char *const blanks[] = {"emergency number",
                                         "we are at (street, number, door)",
                                         "how help gets in, who meets them at the road",
                                         "telephone here",
                                         "first aider tonight",
                                         "first-aid box",
                                         "fire extinguisher, fire blanket",
                                         "main switch of the room",
                                         "leader",
                                         "parents' numbers are kept by"};
    for (size_t i = 0; i < sizeof blanks / sizeof blanks[0]; i++) {
        sheet_room(s, 34);
        sheet_blank(s, blanks[i], s->left, s->y + 12, sheet_width(s));
        s->y += 34;
    }
}

/* General first-aid sense, no more: common practice, no source. What a licensed course teaches goes before it. */
static void add_first(sheet *s) {
    static const char *const first[] = {
        "Stop: say the stop word, switch the machine off, keep others away.",
        "Look: are you safe yourself? Then go to the one who is hurt.",
        "Call: where, what, how many, who calls; do not hang up first.",
        "Help until help comes: bleeding, breathing, warmth. Stay with them.",
        "Electric shock: do not touch before the current is off.",
        "Battery acid: much water for a long time, also for eyes; then a doctor.",
        "Write down what happened and who saw it. Tell the parents of a minor.",
    };
    heading_draw(s, "First", 120);
    type_style style = {.size = TYPE_LARGE, .colour = INK_BLACK};
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++) {
        sheet_paragraph(s, text_of(first[i]), style, s->left, sheet_width(s));
        s->y += 5;
    }
}

static void compose(sheet *s, const void *what) {
    const kit_sheet *c = what;
    masthead m = {.kind = "EMERGENCY CARD", .title = TEXT("If somebody is hurt"), .subtitle = c->kit->name};
    masthead_draw(s, &m);
    add_blanks(s);
    add_first(s);
    s->y += 8;
    masthead_defer(s, "This card replaces no first-aid course: somebody in the room has one.");
}

void add_emergency_card(book *b, const kit_sheet *k) {
    book_add(b, &(book_section){.outline = TEXT("Emergency card"),
                                .running = TEXT("Emergency card"),
                                .compose = compose,
                                .what = k});
}
