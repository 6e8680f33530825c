/* card.h: a job card in pieces, each in a file of its own; job_card.c puts them together.
 *
 * A card is a ledger: names at the left of the line, what they name at its right. Order of a card: what must be done
 * and known before, then parts and tools, then the work, its tests, and how to stop and go on.
 */
#ifndef PAPER_CARD_H
#define PAPER_CARD_H

#include "paper/image.h"

typedef struct {
    arena *memory;
    const kit *kit;
    kit_index step;
    uint32_t number, of; /* this card in the pack */
    const paper_setup *setup;
    paper_notes *notes;
    arena *lasting; /* for the notes */
    image picture;
} card;

/* The names' column, and where the content begins, from the sheet's left. */
#define CARD_LEDGER MM(27)
#define CARD_GAP MM(4)

double card_left(const sheet *s);
double card_width(const sheet *s);

/* Begins a block: makes room for `height` together with its name, and writes the name. */
void card_block(sheet *s, const char *name, double height);

/* The same with the name white on black: must not be overlooked. */
void card_loud_block(sheet *s, const char *name, double height);

/* Space after a block. */
void card_end_block(sheet *s);

/* A tick or a crossed square with words beside it, wrapped; moves the cursor. */
void card_item(sheet *s, bool crossed, text words);

/* Several of them, two beside each other where they are short. */
void card_items(sheet *s, bool crossed, const text *list, uint32_t n);

/* A plain paragraph in the content column. */
void card_line(sheet *s, text words, bool bold);

/* Opens the step's picture, if it has one; a picture that cannot be drawn is noted. The card's maker closes it. */
void card_find_picture(card *c);

void card_before(const card *c, sheet *s);
void card_wear(const card *c, sheet *s);
void card_cautions(const card *c, sheet *s);
void card_parts(const card *c, sheet *s);
void card_tools(const card *c, sheet *s);
void card_picture(const card *c, sheet *s);
void card_work(const card *c, sheet *s);
void card_tests(const card *c, sheet *s);
void card_stopping(const card *c, sheet *s);
void card_after(const card *c, sheet *s);
void card_done(const card *c, sheet *s);

#endif
