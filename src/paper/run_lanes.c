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
    picture_lanes l = {
        .from_min = c.from,
        .to_min = c.to,
        .clock = r->session->dated,
        .lanes = names,
        .n_lanes = (uint16_t)w->n_crew,
        .blocks = c.blocks,
        .n_blocks = c.n_blocks,
        .shades = c.shades,
        .n_shades = c.n_shades,
    };
    picture p = picture_draw_lanes(r->memory, &l, sheet_width(s));
    sheet_room(s, p.height);
    paint_picture(s, &p, s->left, s->y);
    s->y += p.height;
}
