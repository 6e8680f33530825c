/* joining.c: the joining chart of a plan.
 *
 * Sub-assemblies whose times do not meet share a lane; lanes fill from the trunk outwards, on both sides in turn. Everything is laid out
 * from the width: what a person is wide follows from the most people that work side by side.
 */
#include "picture/picture.h"

enum {
    HEAD = 14,
    LABELS = 54,
    LABELS_NARROW = 40,
    GAP = 6,
    GAP_NARROW = 4,
    NARROW = 330,
    MOST_LANES = 64,
    FOOT = 30
};
static const double points_a_minute = 0.55, least_height = 3;

typedef struct {
    kit_index unit;
    int32_t from_min, to_min; /* first start, last end of its planned steps */
    int32_t joins_min;        /* start of its joining step; -1: none is planned */
    uint32_t people;          /* most side by side */
    int lane;                 /* 0 is next to the trunk on the left, 1 on the right, 2 left again */
} unit_run;

typedef struct {
    const plan *p;
    picture to;
    uint32_t *
        beside; /* by planned step: how many people of its unit stand left of it, on steps at the same time */
    unit_run *units;
    uint32_t n_units;
    int lanes;
    double labels, gap, person; /* points */
    double lane_at[MOST_LANES], trunk_at, trunk_width, lane_width[MOST_LANES];
} chart;

static double y_of(int32_t minute) {
    return HEAD + points_a_minute * minute;
}

static uint32_t people_at(const plan_step *s) {
    uint32_t most = 0;
    for (uint32_t k = 0; k < s->n_stretches; k++) {
        uint32_t n = s->stretches[k].n_people + (s->stretches[k].supervisor != KIT_NONE);
        most = n > most ? n : most;
    }
    return most;
}

static kit_index unit_of(const plan *p, uint32_t step) {
    return p->kit->steps[p->steps[step].step].sub_assembly;
}

/* Is a step of the same unit before `step` at the places first .. first + people - 1, at the same time? Its right end, or 0. */
static uint32_t taken_to(const chart *c, uint32_t step, uint32_t first) {
    const plan_step *s = &c->p->steps[step];
    for (uint32_t n = 0; n < step; n++) {
        const plan_step *other = &c->p->steps[n];
        uint32_t right = c->beside[n] + people_at(other);
        if (unit_of(c->p, n) == unit_of(c->p, step) && other->end_min > s->start_min &&
            c->beside[n] < first + people_at(s) && right > first)
            return right;
    }
    return 0;
}

static void stand_side_by_side(chart *c) {
    c->beside = arena_array(c->to.memory, uint32_t, c->p->n_steps);
    for (uint32_t x = 0; x < c->p->n_steps; x++)
        for (uint32_t right = taken_to(c, x, 0); right > 0; right = taken_to(c, x, right))
            c->beside[x] = right;
}

/* People of the unit side by side, at most. */
static uint32_t width_of(const chart *c, kit_index unit) {
    uint32_t most = 0;
    for (uint32_t x = 0; x < c->p->n_steps; x++)
        if (unit_of(c->p, x) == unit && c->beside[x] + people_at(&c->p->steps[x]) > most)
            most = c->beside[x] + people_at(&c->p->steps[x]);
    return most;
}

/* ---- units and lanes ---------------------------------------------------------------------------------------------- */

static int32_t joining_start(const plan *p, kit_index unit) {
    const kit *k = p->kit;
    int32_t first = -1;
    for (uint32_t x = 0; x < k->n_step_after; x++) {
        const kit_after *row = &k->step_after[x];
        if (k->steps[row->after].sub_assembly != unit || k->steps[row->step].sub_assembly == unit)
            continue;
        const plan_step *joining = plan_find_step(p, row->step);
        if (joining && (first < 0 || joining->start_min < first))
            first = joining->start_min;
    }
    return first;
}

static void collect_units(chart *c) {
    const plan *p = c->p;
    c->units = arena_array(c->to.memory, unit_run, p->kit->n_sub_assemblies);
    for (kit_index u = 0; u < p->kit->n_sub_assemblies; u++) {
        unit_run run = {.unit = u, .from_min = INT32_MAX, .people = width_of(c, u)};
        for (uint32_t x = 0; x < p->n_steps; x++) {
            const plan_step *s = &p->steps[x];
            if (p->kit->steps[s->step].sub_assembly != u)
                continue;
            run.from_min = s->start_min < run.from_min ? s->start_min : run.from_min;
            run.to_min = s->end_min > run.to_min ? s->end_min : run.to_min;
        }
        if (run.from_min == INT32_MAX)
            continue;
        run.joins_min = joining_start(p, u);
        uint32_t at = c->n_units++; /* those that join first stand nearest to the trunk */
        for (; at > 0 && c->units[at - 1].from_min > run.from_min; at--)
            c->units[at] = c->units[at - 1];
        c->units[at] = run;
    }
}

static int32_t run_end(const unit_run *u) {
    return u->joins_min > u->to_min ? u->joins_min : u->to_min;
}

/* The first lane that is free, a little way (its name needs room) before the unit begins. */
static void choose_lanes(chart *c) {
    int32_t free_from[MOST_LANES] = {0};
    for (uint32_t n = 0; n < c->n_units; n++) {
        unit_run *u = &c->units[n];
        int32_t begins = u->from_min - (int32_t)(12 / points_a_minute);
        while (u->lane < c->lanes && u->lane + 1 < MOST_LANES && free_from[u->lane] > begins)
            u->lane++;
        c->lanes = u->lane + 1 > c->lanes ? u->lane + 1 : c->lanes;
        free_from[u->lane] = run_end(u);
    }
}

static void lay_out(chart *c) {
    uint32_t trunk = width_of(c, KIT_NONE), lane_people[MOST_LANES] = {0};
    trunk = trunk ? trunk : 1;
    for (uint32_t n = 0; n < c->n_units; n++)
        if (c->units[n].people > lane_people[c->units[n].lane])
            lane_people[c->units[n].lane] = c->units[n].people;
    uint32_t all = trunk;
    for (int x = 0; x < c->lanes; x++)
        all += lane_people[x];
    double room = c->to.width - c->labels - c->gap * (c->lanes + 1);
    c->person = room / all > 30 ? 30 : room / all;
    double at = c->labels;
    for (int x = c->lanes - 1 - (c->lanes % 2 == 0); x >= 0;
         x -= 2) { /* the left ones, the outermost first */
        c->lane_at[x] = at;
        at += c->lane_width[x] = c->person * lane_people[x];
        at += c->gap;
    }
    c->trunk_at = at;
    c->trunk_width = c->person * trunk;
    at += c->trunk_width + c->gap;
    for (int x = 1; x < c->lanes; x += 2) {
        c->lane_at[x] = at;
        at += c->lane_width[x] = c->person * lane_people[x];
        at += c->gap;
    }
}

/* ---- drawing -------------------------------------------------------------------------------------------------------- */

static void draw_sessions(chart *c) {
    for (uint32_t n = 0; n < c->p->n_sessions; n++) {
        const plan_session *s = &c->p->sessions[n];
        if (s->from_min >= c->p->makespan_min)
            break;
        double y = y_of(s->from_min), height = y_of(s->to_min) - y;
        char day[11] = "";
        if (s->dated)
            date_print(date_of_moment(s->begins), day);
        picture_add(&c->to, (picture_shape){.kind = PICTURE_BOX,
                                            .y = y,
                                            .width = c->to.width,
                                            .height = height,
                                            .fill = n % 2 ? PICTURE_PAPER : PICTURE_WASH});
        picture_add(
            &c->to,
            (picture_shape){
                .kind = PICTURE_LINE, .y = y, .width = c->to.width, .stroke = PICTURE_FAINT, .weight = 0.5});
        picture_add(&c->to,
                    (picture_shape){.kind = PICTURE_TEXT,
                                    .x = 2,
                                    .y = y + 2,
                                    .width = c->labels - 4,
                                    .height = 12,
                                    .stroke = PICTURE_INK,
                                    .size = PICTURE_BODY,
                                    .bold = true,
                                    .words = arena_format(c->to.memory, "%lld", (long long)s->number)});
        if (height > 26)
            picture_add(&c->to,
                        (picture_shape){.kind = PICTURE_TEXT,
                                        .x = 2,
                                        .y = y + 14,
                                        .width = c->labels - 4,
                                        .height = 10,
                                        .stroke = PICTURE_QUIET,
                                        .words = arena_format(c->to.memory, "%s",
                                                              s->dated ? day + (c->to.width < NARROW ? 5 : 0)
                                                                       : "no date")});
    }
}

static void draw_step(chart *c, const plan_step *s, double x) {
    const kit_step *k = &c->p->kit->steps[s->step];
    double y = y_of(s->start_min), height = y_of(s->end_min) - y, width = c->person * people_at(s);
    height = height < least_height ? least_height : height;
    text title = arena_format(c->to.memory, "%.*s %.*s: %d min, %u people%s", TEXT_ARG(k->number),
                              TEXT_ARG(k->name), (int)(s->end_min - s->start_min), (unsigned)people_at(s),
                              s->decides_finish ? ", decides the finish" : "");
    picture_add(&c->to, (picture_shape){.kind = PICTURE_BOX,
                                        .x = x + 0.5,
                                        .y = y + 0.5,
                                        .width = width - 1,
                                        .height = height - 1,
                                        .stroke = PICTURE_INK,
                                        .weight = s->decides_finish ? 1.4 : 0.6,
                                        .fill = PICTURE_PAPER,
                                        .role = TEXT("step"),
                                        .title = title,
                                        .target = arena_format(c->to.memory, "#%.*s", TEXT_ARG(k->number))});
    if (s->decides_finish)
        picture_add(&c->to, (picture_shape){.kind = PICTURE_BOX,
                                            .x = x + 0.5,
                                            .y = y + 0.5,
                                            .width = 2.5,
                                            .height = height - 1,
                                            .fill = PICTURE_ACCENT});
    if (height < 9)
        return;
    bool narrow = width <= 40; /* room for the number alone, and not in bold letters */
    double left = s->decides_finish ? 4 : 2.5;
    picture_add(&c->to,
                (picture_shape){.kind = PICTURE_TEXT,
                                .x = x + left,
                                .y = y + 1,
                                .width = narrow && width < 17 + left ? 17 : width - left,
                                .height = height - 1,
                                .stroke = PICTURE_INK,
                                .bold = s->decides_finish && !narrow,
                                .most_lines = !narrow && height > 20 ? (int)((height - 1) / 10) : 1,
                                .title = title,
                                .words = narrow ? k->number
                                                : arena_format(c->to.memory, "%.*s %.*s", TEXT_ARG(k->number),
                                                               TEXT_ARG(k->name))});
}

static void draw_unit(chart *c, const unit_run *u) {
    const kit_sub_assembly *it = &c->p->kit->sub_assemblies[u->unit];
    double x = c->lane_at[u->lane], width = c->lane_width[u->lane], middle = x + width / 2;
    double y = y_of(u->from_min);
    picture_add(&c->to, (picture_shape){.kind = PICTURE_TEXT,
                                        .x = x,
                                        .y = y - 10,
                                        .width = width,
                                        .height = 10,
                                        .bold = true,
                                        .stroke = PICTURE_ACCENT,
                                        .words = it->name.len ? it->name : it->number,
                                        .role = TEXT("unit"),
                                        .title = it->name});
    picture_add(&c->to, (picture_shape){.kind = PICTURE_LINE,
                                        .x = middle,
                                        .y = y,
                                        .height = y_of(run_end(u)) - y,
                                        .stroke = PICTURE_INK,
                                        .weight = 1.2});
    if (u->joins_min < 0)
        return;
    bool left = u->lane % 2 == 0;
    double to = left ? c->trunk_at : c->trunk_at + c->trunk_width, at = y_of(run_end(u)), tip = left ? -5 : 5;
    picture_add(&c->to, (picture_shape){.kind = PICTURE_LINE,
                                        .x = middle,
                                        .y = at,
                                        .width = to - middle,
                                        .stroke = PICTURE_INK,
                                        .weight = 1.2});
    double *points = arena_array(c->to.memory, double, 6);
    points[2] = points[4] = tip;
    points[3] = -3;
    points[5] = 3;
    picture_add(&c->to, (picture_shape){.kind = PICTURE_PATH,
                                        .x = to,
                                        .y = at,
                                        .points = points,
                                        .n_points = 3,
                                        .closed = true,
                                        .fill = PICTURE_INK});
}

static const unit_run *run_of(const chart *c, kit_index unit) {
    for (uint32_t n = 0; n < c->n_units; n++)
        if (c->units[n].unit == unit)
            return &c->units[n];
    return NULL;
}

picture picture_draw_joining(arena *a, const plan *p, double width) {
    chart c = {.p = p, .to = picture_in(a, width < 150 ? 150 : width, y_of(p->makespan_min) + FOOT)};
    if (p->n_steps == 0)
        return c.to;
    c.labels = c.to.width < NARROW ? LABELS_NARROW : LABELS;
    c.gap = c.to.width < NARROW ? GAP_NARROW : GAP;
    stand_side_by_side(&c);
    collect_units(&c);
    choose_lanes(&c);
    lay_out(&c);
    draw_sessions(&c);
    picture_add(&c.to, (picture_shape){.kind = PICTURE_TEXT,
                                       .width = c.labels - 4,
                                       .height = 10,
                                       .stroke = PICTURE_QUIET,
                                       .words = TEXT("session")});
    picture_add(&c.to, (picture_shape){.kind = PICTURE_TEXT,
                                       .x = c.trunk_at,
                                       .width = c.trunk_width,
                                       .height = 10,
                                       .bold = true,
                                       .stroke = PICTURE_ACCENT,
                                       .anchor = PICTURE_MIDDLE,
                                       .words = TEXT("main machine")});
    picture_add(&c.to, (picture_shape){.kind = PICTURE_LINE,
                                       .x = c.trunk_at,
                                       .y = HEAD,
                                       .height = y_of(p->makespan_min) - HEAD,
                                       .stroke = PICTURE_INK,
                                       .weight = 1.2});
    picture_add(&c.to, (picture_shape){.kind = PICTURE_LINE,
                                       .x = c.trunk_at + c.trunk_width,
                                       .y = HEAD,
                                       .height = y_of(p->makespan_min) - HEAD,
                                       .stroke = PICTURE_INK,
                                       .weight = 1.2});
    for (uint32_t n = 0; n < c.n_units; n++)
        draw_unit(&c, &c.units[n]);
    for (uint32_t x = 0; x < p->n_steps; x++) {
        kit_index unit = p->kit->steps[p->steps[x].step].sub_assembly;
        const unit_run *run = unit == KIT_NONE ? NULL : run_of(&c, unit);
        draw_step(&c, &p->steps[x], (run ? c.lane_at[run->lane] : c.trunk_at) + c.person * c.beside[x]);
    }
    picture_add(&c.to, (picture_shape){.kind = PICTURE_TEXT,
                                       .x = c.labels,
                                       .y = y_of(p->makespan_min) + 3,
                                       .width = c.to.width - c.labels,
                                       .height = 12,
                                       .stroke = PICTURE_INK,
                                       .size = PICTURE_BODY,
                                       .bold = true,
                                       .words = TEXT("finished. A bar and a heavy line: decides the finish"),
                                       .most_lines = 2});
    return c.to;
}
