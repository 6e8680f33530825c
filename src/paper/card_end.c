/* card_end.c: how to stop, what comes next, and what is written down at the end. */
#include "paper/card.h"
#include "paper/wording.h"

void card_stopping(const card *c, sheet *s) {
    const kit_step *step = &c->kit->steps[c->step];
    arena *a = c->memory;
    card_block(s, "If time is up", 40);
    if (!step->may_pause) {
        card_line(s, TEXT("Finish it in one go: it must not be left half done."), true);
    } else {
        if (step->safe_state.len)
            card_line(s, arena_format(a, "Leave it like this: %.*s", TEXT_ARG(step->safe_state)), false);
        else
            card_line(s, TEXT("It may be left."), false);
        if (step->resume_min)
            card_line(s, arena_format(a, "Going on takes %lld min more.", (long long)step->resume_min),
                      false);
    }
    buf minutes = {0};
    for (uint32_t i = 0; i < step->change_over_min.n; i++)
        buf_addf(&minutes, "%s%lld", i ? ", " : "", (long long)step->change_over_min.list[i]);
    if (minutes.len)
        card_line(s, arena_format(a, "People may change over after %.*s min.", TEXT_ARG(buf_text(&minutes))),
                  false);
    buf_free(&minutes);
    card_end_block(s);
}

/* "2 × D-934 hexagon nut M8, 4 × D-933 washer": the parts left loose in `loosened` that `closer` tightens; empty when there are none. */
static text loose_parts(const card *c, kit_index loosened, kit_index closer) {
    const kit *k = c->kit;
    buf b = {0};
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->step == loosened && p->closed_by == closer)
            buf_addf(&b, "%s%lld × %.*s %.*s", b.len ? ", " : "", (long long)p->quantity,
                     TEXT_ARG(k->parts[p->part].number), TEXT_ARG(k->parts[p->part].name));
    }
    text t = arena_text(c->memory, buf_text(&b));
    buf_free(&b);
    return t;
}

/* True for the first of the parts that one step leaves loose for another. */
static bool first_of_pair(const kit *k, uint32_t at) {
    for (uint32_t i = 0; i < at; i++)
        if (k->step_parts[i].step == k->step_parts[at].step &&
            k->step_parts[i].closed_by == k->step_parts[at].closed_by)
            return false;
    return true;
}

static void add_loose(const card *c, sheet *s) {
    const kit *k = c->kit;
    arena *a = c->memory;
    for (uint32_t i = 0; i < k->n_step_parts; i++) {
        const kit_step_part *p = &k->step_parts[i];
        if (p->closed_by == KIT_NONE || (p->step != c->step && p->closed_by != c->step) ||
            !first_of_pair(k, i))
            continue;
        text parts = loose_parts(c, p->step, p->closed_by);
        card_item(s, false,
                  p->step == c->step ? arena_format(a, "on the loose list: %.*s, until %.*s", TEXT_ARG(parts),
                                                    TEXT_ARG(wording_step(a, k, p->closed_by)))
                                     : arena_format(a, "off the loose list, tightened now: %.*s from %.*s",
                                                    TEXT_ARG(parts), TEXT_ARG(wording_step(a, k, p->step))));
    }
}

static void add_delay(const card *c, sheet *s) {
    const kit_step *step = &c->kit->steps[c->step];
    if (!step->delay_min)
        return;
    char wait[32];
    date_print_duration(step->delay_min, wait);
    const char *clock = step->delay_clock == KIT_WALL_CLOCK ? "by the clock on the wall" : "of working time";
    card_line(s,
              arena_format(c->memory, "Wait %s %s%s%.*s", wait, clock, step->delay_text.len ? ": " : "",
                           TEXT_ARG(step->delay_text)),
              true);
}

void card_after(const card *c, sheet *s) {
    const kit *k = c->kit;
    card_block(s, "Then", 14);
    double from = s->y;
    add_loose(c, s);
    add_delay(c, s);
    for (uint32_t i = 0; i < k->n_step_after; i++)
        if (k->step_after[i].after == c->step)
            card_line(s,
                      arena_format(c->memory, "next: %.*s",
                                   TEXT_ARG(wording_step(c->memory, k, k->step_after[i].step))),
                      false);
    if (s->y == from)
        card_line(s, TEXT("nothing waits for this step"), false);
    card_end_block(s);
}

void card_done(const card *c, sheet *s) {
    (void)c;
    card_block(s, "Done", 36);
    double x = card_left(s), width = card_width(s), gap = MM(4);
    sheet_blank(s, "by", x, s->y, width * 0.5 - gap);
    sheet_blank(s, "and", x + width * 0.5, s->y, width * 0.5);
    s->y += 20;
    sheet_blank(s, "day", x, s->y, width * 0.3 - gap);
    sheet_blank(s, "minutes it took", x + width * 0.3, s->y, width * 0.34 - gap);
    sheet_blank(s, "pieces left over", x + width * 0.64, s->y, width * 0.36);
    s->y += 20;
    card_end_block(s);
}
