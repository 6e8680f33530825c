/* lanes.c: an evening as lanes. */
#include "picture/picture.h"

enum { NAMES = 84, AXIS = 16, LANE = 30, PAD = 3, FOOT = 2, STRIP = 7 };

typedef struct {
    const picture_lanes *from;
    picture to;
} drawing;

double picture_lanes_height(uint16_t n_lanes) {
    return AXIS + LANE * (double)n_lanes + FOOT;
}

static double x_of(const drawing *d, int minute) {
    const picture_lanes *l = d->from;
    double span = l->to_min > l->from_min ? l->to_min - l->from_min : 1;
    int clipped = minute < l->from_min ? l->from_min : minute > l->to_min ? l->to_min : minute;
    return NAMES + (d->to.width - NAMES) * (clipped - l->from_min) / span;
}

static double y_of(uint16_t lane) {
    return AXIS + LANE * (double)lane;
}

/* Minutes between two marks, so that their labels do not touch. */
static int step_of(const drawing *d) {
    static const int steps[] = {5, 10, 15, 30, 60, 120, 240};
    int span = d->from->to_min - d->from->from_min;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if ((double)span / steps[i] * 32 <= d->to.width - NAMES)
            return steps[i];
    return 480;
}

static void draw_axis(drawing *d) {
    const picture_lanes *l = d->from;
    int step = step_of(d);
    int first = (l->from_min + step - 1) / step * step;
    for (int minute = first; minute <= l->to_min; minute += step) {
        double x = x_of(d, minute);
        int shown = l->clock ? minute : minute - l->from_min;
        bool last = x > d->to.width - 14;
        picture_add(&d->to,
                    (picture_shape){.kind = PICTURE_TEXT,
                                    .x = last ? x - 30 : x - 15,
                                    .y = 0,
                                    .width = 30,
                                    .height = 10,
                                    .stroke = PICTURE_QUIET,
                                    .words = arena_format(d->to.memory, l->clock ? "%02d:%02d" : "%d:%02d",
                                                          shown / 60 % 24, shown % 60),
                                    .anchor = last ? PICTURE_END : PICTURE_MIDDLE});
        picture_add(&d->to, (picture_shape){.kind = PICTURE_LINE,
                                            .x = x,
                                            .y = AXIS - 4,
                                            .height = 4 + LANE * (double)l->n_lanes,
                                            .stroke = PICTURE_FAINT,
                                            .weight = 0.4});
    }
}

static void draw_lane(drawing *d, uint16_t i) {
    const picture_lane *lane = &d->from->lanes[i];
    double y = y_of(i);
    picture_add(&d->to, (picture_shape){.kind = PICTURE_TEXT,
                                        .y = y + PAD,
                                        .width = NAMES - 8,
                                        .height = 24,
                                        .stroke = PICTURE_INK,
                                        .words = lane->name,
                                        .size = PICTURE_BODY,
                                        .bold = true,
                                        .most_lines = lane->remark.len ? 1 : 2});
    picture_add(&d->to, (picture_shape){.kind = PICTURE_TEXT,
                                        .y = y + 15,
                                        .width = NAMES - 8,
                                        .height = 10,
                                        .stroke = PICTURE_QUIET,
                                        .words = lane->remark});
    picture_add(
        &d->to,
        (picture_shape){
            .kind = PICTURE_LINE, .y = y, .width = d->to.width, .stroke = PICTURE_FAINT, .weight = 0.4});
}

static void draw_shade(drawing *d, const picture_shade *s) {
    bool all = s->lane == PICTURE_ALL_LANES;
    double x = x_of(d, s->from_min), width = x_of(d, s->to_min) - x;
    double y = all ? AXIS : y_of(s->lane), height = all ? LANE * (double)d->from->n_lanes : LANE;
    if (width <= 0)
        return;
    picture_add(&d->to, (picture_shape){.kind = PICTURE_BOX,
                                        .x = x,
                                        .y = y + 0.5,
                                        .width = width,
                                        .height = height - 1,
                                        .fill = PICTURE_WASH});
    picture_add(&d->to, (picture_shape){.kind = PICTURE_TEXT,
                                        .x = x + PAD,
                                        .y = all ? y + 2 : y + 10,
                                        .width = width - 2 * PAD,
                                        .height = 10,
                                        .stroke = PICTURE_QUIET,
                                        .words = s->words});
}

static void draw_block(drawing *d, const picture_block *b) {
    double x = x_of(d, b->from_min), width = x_of(d, b->to_min) - x, y = y_of(b->lane) + PAD;
    double height = LANE - 2 * PAD, strip = b->beside ? STRIP : 0;
    if (width <= 0)
        return;
    picture_add(&d->to, (picture_shape){.kind = PICTURE_BOX,
                                        .x = x + 0.8,
                                        .y = y,
                                        .width = width - 1.6,
                                        .height = height,
                                        .stroke = PICTURE_INK,
                                        .weight = 0.9,
                                        .fill = PICTURE_PAPER});
    if (b->beside)
        picture_add(&d->to, (picture_shape){.kind = PICTURE_BOX,
                                            .x = x + 0.8,
                                            .y = y,
                                            .width = strip,
                                            .height = height,
                                            .stroke = PICTURE_INK,
                                            .weight = 0.6,
                                            .fill = PICTURE_INK,
                                            .hatched = true});
    picture_add(&d->to, (picture_shape){.kind = PICTURE_TEXT,
                                        .x = x + PAD + 1 + strip,
                                        .y = y + 1.5,
                                        .width = width - 2 * PAD - strip,
                                        .height = 12,
                                        .stroke = PICTURE_INK,
                                        .words = b->title,
                                        .size = PICTURE_BODY,
                                        .bold = true});
    picture_add(&d->to, (picture_shape){.kind = PICTURE_TEXT,
                                        .x = x + PAD + 1 + strip,
                                        .y = y + 12.5,
                                        .width = width - 2 * PAD - strip,
                                        .height = 10,
                                        .stroke = PICTURE_INK,
                                        .words = b->words});
}

picture picture_draw_lanes(arena *a, const picture_lanes *l, double width) {
    drawing d = {.from = l, .to = picture_in(a, width, picture_lanes_height(l->n_lanes))};
    draw_axis(&d);
    for (uint32_t i = 0; i < l->n_shades; i++)
        draw_shade(&d, &l->shades[i]);
    for (uint16_t i = 0; i < l->n_lanes; i++)
        draw_lane(&d, i);
    for (uint32_t i = 0; i < l->n_blocks; i++)
        draw_block(&d, &l->blocks[i]);
    double bottom = y_of(l->n_lanes);
    picture_add(&d.to,
                (picture_shape){
                    .kind = PICTURE_LINE, .y = bottom, .width = width, .stroke = PICTURE_INK, .weight = 0.8});
    picture_add(&d.to, (picture_shape){.kind = PICTURE_LINE,
                                       .x = NAMES - 4,
                                       .y = AXIS,
                                       .height = bottom - AXIS,
                                       .stroke = PICTURE_ACCENT,
                                       .weight = 0.6});
    picture_add(&d.to, (picture_shape){.kind = PICTURE_LINE,
                                       .x = NAMES - 2.4,
                                       .y = AXIS,
                                       .height = bottom - AXIS,
                                       .stroke = PICTURE_ACCENT,
                                       .weight = 0.6});
    return d.to;
}
