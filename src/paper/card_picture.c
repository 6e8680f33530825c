/* card_picture.c: the maker's picture of a step. */
#include "paper/card.h"

#define MOST_HEIGHT MM(75)

static void note(const card *c, text name, const char *why) {
    arena_room(c->lasting, c->notes->list, c->notes->n, c->notes->cap, text);
    c->notes->list[c->notes->n++] =
        arena_format(c->lasting, "the picture %.*s of step %.*s is left out: %s", TEXT_ARG(name),
                     TEXT_ARG(c->kit->steps[c->step].number), why);
}

void card_find_picture(card *c) {
    text name = c->kit->steps[c->step].picture, bytes;
    const char *why = "it is not there";
    c->picture = (image){0};
    if (!name.len || !c->setup->find_picture)
        return;
    if (!c->setup->find_picture(c->setup->context, name, &bytes) || !image_open(bytes, &c->picture, &why))
        note(c, name, why);
}

void card_picture(const card *c, sheet *s) {
    double height = image_height(&c->picture, card_width(s), MOST_HEIGHT);
    if (height <= 0)
        return;
    card_block(s, "Picture", height);
    image_draw(s, &c->picture, card_left(s), s->y, card_width(s), MOST_HEIGHT);
    s->y += height;
    card_end_block(s);
}
