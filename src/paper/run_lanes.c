/* run_lanes.c: the evening as lanes, one for each person. */
#include "paper/paint.h"
#include "paper/run.h"
#include "picture/picture.h"

typedef struct {
    const run *run;
    picture_block *blocks;
    uint32_t n_blocks;
    picture_shade *shades;
    uint32_t n_shades;
    int from, to; /* of the axis */
} canvas;

static int wall(const canvas *c, int32_t minute) {
    const plan_session *s = c->run->session;
    return (int)(s->begins % MINUTES_PER_DAY) + (minute - s->from_min);
}

static void add_block(canvas *c, kit_index person, const run_step *step, const plan_stretch *s, bool beside) {
    const kit_step *what = &c->run->plan->kit->steps[step->planned->step];
    c->blocks[c->n_blocks++] = (picture_block){.lane = (uint16_t)person,
                                               .from_min = wall(c, s->start_min),
                                               .to_min = wall(c, s->end_min),
                                               .title = what->number,
                                               .words = what->name,
                                               .beside = beside};
}

static void add_blocks(canvas *c) {
    size_t most = 0;
    for (uint32_t i = 0; i < c->run->n_steps; i++)
        for (uint32_t j = 0; j < c->run->steps[i].n; j++)
            most += c->run->steps[i].stretches[j]->n_people + 1;
    c->blocks = arena_array(c->run->memory, picture_block, most);
    for (uint32_t i = 0; i < c->run->n_steps; i++) {
        const run_step *step = &c->run->steps[i];
        for (uint32_t j = 0; j < step->n; j++) {
            const plan_stretch *s = step->stretches[j];
            for (uint32_t p = 0; p < s->n_people; p++)
                add_block(c, s->people[p], step, s, false);
            if (s->supervisor != KIT_NONE)
                add_block(c, s->supervisor, step, s, true);
        }
    }
}

static void add_shade(canvas *c, uint16_t lane, int from, int to, const char *words) {
    if (from < to)
        c->shades[c->n_shades++] =
            (picture_shade){.lane = lane, .from_min = from, .to_min = to, .words = text_of(words)};
}

static void add_shades(canvas *c) {
    const run *r = c->run;
    uint32_t crew = r->plan->workshop->n_crew;
    int begin = wall(c, r->session->from_min), end = wall(c, r->session->to_min);
    c->shades = arena_array(r->memory, picture_shade, 2 * (size_t)crew + 2);
    add_shade(c, PICTURE_ALL_LANES, c->from, begin, "opening");
    add_shade(c, PICTURE_ALL_LANES, end, c->to, "closing");
    for (uint32_t i = 0; i < crew; i++) {
        int from, until;
        if (!run_comes(r, i, &from, &until)) {
            add_shade(c, (uint16_t)i, begin, end, "does not come");
            continue;
        }
        if (from >= 0)
            add_shade(c, (uint16_t)i, begin, from, "not here yet");
        if (until >= 0)
            add_shade(c, (uint16_t)i, until, end, "gone");
    }
}

/* The part of the evening that concerns lanes first .. first + n - 1, as a drawing of its own. */
static picture draw_some(const canvas *c, const picture_lane *names, uint16_t first, uint16_t n,
                         double width) {
    arena *a = c->run->memory;
    picture_block *blocks = arena_array(a, picture_block, c->n_blocks);
    picture_shade *shades = arena_array(a, picture_shade, c->n_shades);
    picture_lanes l = {.from_min = c->from,
                       .to_min = c->to,
                       .clock = c->run->session->dated,
                       .lanes = names + first,
                       .n_lanes = n,
                       .blocks = blocks,
                       .shades = shades};
    for (uint32_t i = 0; i < c->n_blocks; i++) {
        if (c->blocks[i].lane < first || c->blocks[i].lane >= first + n)
            continue;
        blocks[l.n_blocks] = c->blocks[i];
        blocks[l.n_blocks++].lane = (uint16_t)(c->blocks[i].lane - first);
    }
    for (uint32_t i = 0; i < c->n_shades; i++) {
        bool all = c->shades[i].lane == PICTURE_ALL_LANES;
        if (!all && (c->shades[i].lane < first || c->shades[i].lane >= first + n))
            continue;
        shades[l.n_shades] = c->shades[i];
        if (!all)
            shades[l.n_shades].lane = (uint16_t)(c->shades[i].lane - first);
        l.n_shades++;
    }
    return picture_draw_lanes(a, &l, width);
}

/* The most lanes in one drawing; a larger crew gets several, each with its own axis. */
enum { MOST_LANES = 16 };

void run_draw_lanes(const run *r, sheet *s) {
    const kit_workshop *w = r->plan->workshop;
    canvas c = {.run = r};
    run_span(r, &c.from, &c.to);
    picture_lane *names = arena_array(r->memory, picture_lane, w->n_crew);
    for (uint32_t i = 0; i < w->n_crew; i++)
        names[i] = (picture_lane){.name = run_person(r, i),
                                  .remark = w->crew[i].leader  ? TEXT("leader")
                                            : w->crew[i].adult ? TEXT("adult")
                                                               : TEXT("")};
    add_blocks(&c);
    add_shades(&c);
    for (uint32_t first = 0; first < w->n_crew; first += MOST_LANES) {
        uint32_t left = w->n_crew - first;
        picture p = draw_some(&c, names, (uint16_t)first, (uint16_t)(left < MOST_LANES ? left : MOST_LANES),
                              sheet_width(s));
        sheet_room(s, p.height);
        paint_picture(s, &p, s->left, s->y);
        s->y += p.height + 8;
    }
}
