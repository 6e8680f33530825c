/* identify_next.c: which look or measurement tells most: every one that is still open is tried on paper. */
#include <math.h>

#include "trade/identify_inside.h"

double identify_entropy_bits(const double *chances, uint32_t n) {
    double sum = 0, bits = 0;
    for (uint32_t i = 0; i < n; i++)
        sum += chances[i];
    for (uint32_t i = 0; i < n && sum > 0; i++) {
        double p = chances[i] / sum;
        bits -= p > 1e-12 ? p * log2(p) : 0;
    }
    return bits;
}

/* Entropy left after one more observation. */
static double left_after(const suspect *list, uint32_t n, const seen_thing *t, double *room) {
    for (uint32_t i = 0; i < n; i++)
        room[i] = list[i].chance * suspect_likelihood(&list[i], t);
    return identify_entropy_bits(room, n);
}

/* Mean entropy left when the piece is `s` and its `look` is looked at. A reading scatters, by three points of Gauss and
 * Hermite; a candidate without the measure leaves all as it is. */
static double left_if(const suspect *list, uint32_t n, const suspect *s, next_look look, double before,
                      double *room) {
    static const double nodes[3] = {-1.7320508, 0, 1.7320508}, weights[3] = {1.0 / 6, 2.0 / 3, 1.0 / 6};
    const designation *d = s->name;
    seen_thing t = {.look = look.look, .gauge = look.gauge};
    if (!look_is_measure(look.look)) {
        t.shape = look.look == LOOK_KIND   ? (unsigned)d->kind
                  : look.look == LOOK_FORM ? (unsigned)d->form
                                           : (unsigned)d->drive;
        t.mark = d->grade ? text_of(d->grade->code) : (text){"", 0};
        return look.look == LOOK_MARK && !d->grade ? before : left_after(list, n, &t, room);
    }
    if (isnan(s->expected[look.look]))
        return before;
    double mean = 0;
    for (int k = 0; k < 3; k++) {
        t.mm = s->expected[look.look] + nodes[k] * look_error_mm(look.look, look.gauge);
        mean += weights[k] * left_after(list, n, &t, room);
    }
    return mean;
}

static double mean_left(const suspect *list, uint32_t n, next_look look, double before, double *room) {
    double mean = 0;
    for (uint32_t i = 0; i < n; i++)
        mean += list[i].chance * left_if(list, n, &list[i], look, before, room);
    return mean;
}

/* Looks with few answers: each answer by its own chance. */
static double mean_left_of_answers(const suspect *list, uint32_t n, const seen_thing *answers,
                                   unsigned n_answers, double *room) {
    double mean = 0;
    for (unsigned k = 0; k < n_answers; k++) {
        double chance = 0, left = left_after(list, n, &answers[k], room);
        for (uint32_t i = 0; i < n; i++)
            chance += room[i];
        mean += chance * left;
    }
    return mean;
}

static bool was_seen(const seen_thing *seen, uint32_t n_seen, look_sort look, gauge_sort gauge) {
    for (uint32_t i = 0; i < n_seen; i++)
        if (seen[i].look == look && (!look_is_measure(look) || look == LOOK_PITCH || seen[i].gauge >= gauge))
            return true;
    return false;
}

/* Between looks that tell the same the simpler one: what it costs to fetch a ruler, a nut, a caliper, in bits. */
static double worth(const next_look *look) {
    double cost = look->look == LOOK_MATE        ? 0.04
                  : look->gauge == GAUGE_CALIPER ? 0.06
                  : look->gauge == GAUGE_RULER   ? 0.02
                                                 : 0;
    return look->bits - cost;
}

static void add_next(identity *out, next_look look, double left) {
    look.bits = out->bits_open - left;
    if (look.bits < 0.05)
        return;
    uint32_t i = out->n_next < NEXT_LOOKS ? out->n_next++ : NEXT_LOOKS - 1;
    if (i == NEXT_LOOKS - 1 && out->n_next == NEXT_LOOKS && worth(&out->next[i]) > worth(&look))
        return;
    for (; i > 0 && worth(&out->next[i - 1]) < worth(&look); i--)
        out->next[i] = out->next[i - 1];
    out->next[i] = look;
}

static void add_finish(const suspect *list, uint32_t n, double *room, identity *out) {
    seen_thing answers[FINISH_COUNT - 1];
    for (unsigned k = 0; k + 1 < FINISH_COUNT; k++)
        answers[k] = (seen_thing){.look = LOOK_FINISH, .shape = k + 1};
    add_next(out, (next_look){.look = LOOK_FINISH},
             mean_left_of_answers(list, n, answers, FINISH_COUNT - 1, room));
}

/* Locking nuts grip before they say anything; a plain one of the same thread is the better gauge. */
static bool runs_freely(const designation *d) {
    return d->kind != FASTENER_NUT || (d->form != FORM_LOCK_NUT && d->form != FORM_THIN_LOCK_NUT &&
                                       d->form != FORM_ALL_METAL_LOCK_NUT && d->form != FORM_FLANGE_LOCK_NUT);
}

static bool was_tried(const seen_thing *seen, uint32_t n_seen, const designation *mate) {
    for (uint32_t i = 0; i < n_seen; i++)
        if (seen[i].look == LOOK_MATE &&
            (seen[i].mate->kind == FASTENER_NUT) == (mate->kind == FASTENER_NUT) &&
            seen[i].mate->thread_um == mate->thread_um && seen[i].mate->pitch_um == mate->pitch_um)
            return true;
    return false;
}

/* An earlier candidate of the same thread that serves at least as well as a gauge. */
static bool is_doubled(const candidate *all, uint32_t n_all, uint32_t at) {
    const designation *d = all[at].name;
    for (uint32_t i = 0; i < n_all; i++) {
        const designation *o = all[i].name;
        if (i != at && (o->kind == FASTENER_NUT) == (d->kind == FASTENER_NUT) && look_can_mate(o) &&
            o->thread_um == d->thread_um && o->pitch_um == d->pitch_um && o->left_hand == d->left_hand &&
            (runs_freely(o) == runs_freely(d) ? i < at : runs_freely(o)))
            return true;
    }
    return false;
}

static void add_mates(const suspect *list, uint32_t n, const candidate *all, uint32_t n_all,
                      const seen_thing *seen, uint32_t n_seen, double *room, identity *out) {
    for (uint32_t i = 0; i < n_all; i++) {
        const designation *d = all[i].name;
        if (!look_can_mate(d) || was_tried(seen, n_seen, d) || is_doubled(all, n_all, i))
            continue;
        const seen_thing answers[2] = {{.look = LOOK_MATE, .mate = d, .runs = true},
                                       {.look = LOOK_MATE, .mate = d}};
        add_next(out, (next_look){.look = LOOK_MATE, .mate = i},
                 mean_left_of_answers(list, n, answers, 2, room));
    }
}

void identify_next(const suspect *list, uint32_t n, const candidate *all, const seen_thing *seen,
                   uint32_t n_seen, double *room, identity *out) {
    static const next_look tries[] = {
        {LOOK_KIND, GAUGE_EYE, 0, 0},       {LOOK_FORM, GAUGE_EYE, 0, 0},
        {LOOK_DRIVE, GAUGE_EYE, 0, 0},      {LOOK_THREAD, GAUGE_RULER, 0, 0},
        {LOOK_THREAD, GAUGE_CALIPER, 0, 0}, {LOOK_LENGTH, GAUGE_RULER, 0, 0},
        {LOOK_LENGTH, GAUGE_CALIPER, 0, 0}, {LOOK_WIDTH, GAUGE_RULER, 0, 0},
        {LOOK_WIDTH, GAUGE_CALIPER, 0, 0},  {LOOK_PITCH, GAUGE_EYE, 0, 0},
        {LOOK_MARK, GAUGE_EYE, 0, 0},
    };
    for (size_t k = 0; k < sizeof tries / sizeof *tries; k++)
        if (!was_seen(seen, n_seen, tries[k].look, tries[k].gauge))
            add_next(out, tries[k], mean_left(list, n, tries[k], out->bits_open, room));
    if (!was_seen(seen, n_seen, LOOK_FINISH, GAUGE_EYE))
        add_finish(list, n, room, out);
    add_mates(list, n, all, out->n, seen, n_seen, room, out);
}
