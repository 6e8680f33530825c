#include "trade/identify.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "trade/look.h"

/* What one candidate would show. */
typedef struct {
    const designation *name;
    double expected[LOOK_COUNT]; /* mm; NAN: not known or none */
    double chance;
} suspect;

static const double close_slip = 0.05, far_slip = 0.005;

const char *look_name(look_sort look) {
    static const char *const names[LOOK_COUNT] = {"what kind of piece it is",
                                                  "its shape",
                                                  "what turns it",
                                                  "the thread's diameter",
                                                  "its length",
                                                  "its width",
                                                  "the pitch",
                                                  "the mark"};
    return (unsigned)look < LOOK_COUNT ? names[look] : "unknown";
}

const char *gauge_name(gauge_sort gauge) {
    static const char *const names[] = {"by eye", "with a ruler", "with a caliper"};
    return (unsigned)gauge <= GAUGE_CALIPER ? names[gauge] : "unknown";
}

static bool is_measure(look_sort look) {
    return look == LOOK_THREAD || look == LOOK_LENGTH || look == LOOK_WIDTH || look == LOOK_PITCH;
}

/* One standard deviation of a reading. Pitches are told with a gauge or by trying a nut: they match or they do not. */
static double error_mm(look_sort look, gauge_sort gauge) {
    if (look == LOOK_PITCH)
        return 0.06;
    return gauge == GAUGE_CALIPER ? 0.07 : gauge == GAUGE_RULER ? 0.5 : 1.5;
}

static void expect(suspect *s, const designation *d) {
    fastener_size size;
    bool known = fastener_size_of(d, &size, NULL);
    for (int i = 0; i < LOOK_COUNT; i++)
        s->expected[i] = (double)NAN;
    s->name = d;
    if (d->thread_um)
        s->expected[LOOK_THREAD] = d->kind == FASTENER_WASHER && known ? size.hole_um / 1e3
                                   : d->kind == FASTENER_NUT ? (d->thread_um - 1.08 * d->pitch_um) / 1e3
                                                             : d->thread_um / 1e3 - (d->pitch_um ? 0.1 : 0);
    if (d->length_um)
        s->expected[LOOK_LENGTH] = d->length_um / 1e3;
    if (d->pitch_um)
        s->expected[LOOK_PITCH] = d->pitch_um / 1e3;
    if (known && (size.flats_um || size.width_um))
        s->expected[LOOK_WIDTH] = (size.flats_um ? size.flats_um : size.width_um) / 1e3;
}

static double measured(double reading, double expected, double error) {
    if (isnan(expected))
        return 0.02; /* a piece without that measure, or a table gap: possible, unlikely */
    double off = (reading - expected) / error;
    return exp(-0.5 * off * off) + 1e-6; /* a gross slip is never impossible */
}

static bool alike_forms(fastener_form a, fastener_form b) {
    designation x = {.kind = fastener_form_kind(a), .form = a, .thread_um = 8000}, y = x;
    y.form = b;
    look_alike look;
    designation_look_alike(&x, &y, &look);
    return x.kind == fastener_form_kind(b) && look.grade != LOOK_DIFFERENT;
}

static double named(unsigned said, unsigned is, bool alike) {
    return said == is ? 1 : alike ? close_slip : far_slip;
}

static double likelihood(const suspect *s, const seen_thing *t) {
    const designation *d = s->name;
    switch (t->look) {
    case LOOK_KIND:
        return named(t->shape, d->kind, false);
    case LOOK_FORM:
        return named(t->shape, d->form, alike_forms((fastener_form)t->shape, d->form));
    case LOOK_DRIVE:
        return named(t->shape, d->drive, false);
    case LOOK_MARK:
        return !d->grade ? 0.3 : text_equal_nocase(t->mark, text_of(d->grade->code)) ? 1 : far_slip;
    case LOOK_THREAD:
    case LOOK_LENGTH:
    case LOOK_WIDTH:
    case LOOK_PITCH:
        return measured(t->mm, s->expected[t->look], error_mm(t->look, t->gauge));
    case LOOK_COUNT:
    default:
        return 1;
    }
}

static double entropy_bits(const double *chances, uint32_t n) {
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
        room[i] = list[i].chance * likelihood(&list[i], t);
    return entropy_bits(room, n);
}

/* Mean entropy left: each suspect in turn is taken to be the true one; its reading scatters, by three points of Gauss and
 * Hermite. A candidate without the measure leaves all as it is. */
static double mean_left(const suspect *list, uint32_t n, look_sort look, gauge_sort gauge, double before,
                        double *room) {
    static const double nodes[3] = {-1.7320508, 0, 1.7320508}, weights[3] = {1.0 / 6, 2.0 / 3, 1.0 / 6};
    double mean = 0;
    for (uint32_t i = 0; i < n; i++) {
        const suspect *s = &list[i];
        if (s->chance < 1e-6)
            continue;
        seen_thing t = {.look = look, .gauge = gauge};
        if (!is_measure(look)) {
            const designation *d = s->name;
            t.shape = look == LOOK_KIND   ? (unsigned)d->kind
                      : look == LOOK_FORM ? (unsigned)d->form
                                          : (unsigned)d->drive;
            t.mark = d->grade ? text_of(d->grade->code) : (text){"", 0};
            bool open = look == LOOK_MARK && !d->grade;
            mean += s->chance * (open ? before : left_after(list, n, &t, room));
            continue;
        }
        if (isnan(s->expected[look])) {
            mean += s->chance * before;
            continue;
        }
        for (int k = 0; k < 3; k++) {
            t.mm = s->expected[look] + nodes[k] * error_mm(look, gauge);
            mean += s->chance * weights[k] * left_after(list, n, &t, room);
        }
    }
    return mean;
}

static bool was_seen(const seen_thing *seen, uint32_t n_seen, look_sort look, gauge_sort gauge) {
    for (uint32_t i = 0; i < n_seen; i++)
        if (seen[i].look == look && (!is_measure(look) || look == LOOK_PITCH || seen[i].gauge >= gauge))
            return true;
    return false;
}

static void add_next(identity *out, next_look look) {
    uint32_t i = out->n_next < NEXT_LOOKS ? out->n_next++ : NEXT_LOOKS - 1;
    for (; i > 0 && out->next[i - 1].bits < look.bits; i--)
        out->next[i] = out->next[i - 1];
    out->next[i] = look;
}

static void find_next(const suspect *list, uint32_t n, const seen_thing *seen, uint32_t n_seen, double *room,
                      identity *out) {
    static const next_look tries[] = {
        {LOOK_KIND, GAUGE_EYE, 0},       {LOOK_FORM, GAUGE_EYE, 0},       {LOOK_DRIVE, GAUGE_EYE, 0},
        {LOOK_THREAD, GAUGE_RULER, 0},   {LOOK_THREAD, GAUGE_CALIPER, 0}, {LOOK_LENGTH, GAUGE_RULER, 0},
        {LOOK_LENGTH, GAUGE_CALIPER, 0}, {LOOK_WIDTH, GAUGE_RULER, 0},    {LOOK_WIDTH, GAUGE_CALIPER, 0},
        {LOOK_PITCH, GAUGE_EYE, 0},      {LOOK_MARK, GAUGE_EYE, 0},
    };
    for (size_t k = 0; k < sizeof tries / sizeof *tries; k++) {
        next_look look = tries[k];
        if (was_seen(seen, n_seen, look.look, look.gauge))
            continue;
        look.bits = out->bits_open - mean_left(list, n, look.look, look.gauge, out->bits_open, room);
        if (look.bits >= 0.05)
            add_next(out, look);
    }
}

static int by_chance(const void *a, const void *b) {
    const ranked *x = a, *y = b;
    if (x->chance != y->chance)
        return x->chance > y->chance ? -1 : 1;
    return (x->candidate > y->candidate) - (x->candidate < y->candidate);
}

static bool check_seen(const seen_thing *seen, uint32_t n_seen, err *e) {
    if (n_seen > SEEN_MAX)
        return err_input(e, "identify", "leave some out", "more than %d observations", SEEN_MAX);
    for (uint32_t i = 0; i < n_seen; i++) {
        bool measure = is_measure(seen[i].look);
        if ((unsigned)seen[i].look >= LOOK_COUNT || (unsigned)seen[i].gauge > GAUGE_CALIPER)
            return err_input(e, "identify", "name a look that is known", "observation %u is not known",
                             i + 1);
        if (measure && !(seen[i].mm >= 0.05 && seen[i].mm <= 1000))
            return err_input(e, "identify", "give millimetres from 0.05 to 1000",
                             "%s of %g mm is out of range", look_name(seen[i].look), seen[i].mm);
    }
    return true;
}

/* Chances after all observations; the best likelihood tells whether anything fits at all. */
static double judge(suspect *list, const candidate *c, uint32_t n, const seen_thing *seen, uint32_t n_seen) {
    double sum = 0, best = 0;
    for (uint32_t i = 0; i < n; i++) {
        double fits = 1;
        expect(&list[i], c[i].name);
        for (uint32_t k = 0; k < n_seen; k++)
            fits *= likelihood(&list[i], &seen[k]);
        list[i].chance = fits * (c[i].pieces >= 1 ? c[i].pieces : 1);
        sum += list[i].chance;
        best = fits > best ? fits : best;
    }
    for (uint32_t i = 0; i < n; i++)
        list[i].chance = sum > 0 ? list[i].chance / sum : 1.0 / n;
    return best;
}

static bool coarse_ruler(const candidate *c, const identity *out, const seen_thing *seen, uint32_t n_seen) {
    bool ruler = false;
    for (uint32_t i = 0; i < n_seen; i++)
        ruler |= seen[i].look == LOOK_THREAD && seen[i].gauge != GAUGE_CALIPER;
    if (!ruler || out->n < 2 || out->order[1].chance < 0.05)
        return false;
    int32_t a = c[out->order[0].candidate].name->thread_um, b = c[out->order[1].candidate].name->thread_um;
    return a != b && abs(a - b) <= 1000;
}

bool identify_piece(arena *a, const candidate *list, uint32_t n, const seen_thing *seen, uint32_t n_seen,
                    identity *out, err *e) {
    memset(out, 0, sizeof *out);
    if (n == 0 || n > CANDIDATES_MAX)
        return err_input(e, "identify", "give the parts of a kit",
                         "there must be 1 to %d parts to choose from", CANDIDATES_MAX);
    if (!check_seen(seen, n_seen, e))
        return false;
    suspect *suspects = arena_array(a, suspect, n);
    double *room = arena_array(a, double, n);
    double best = judge(suspects, list, n, seen, n_seen);
    out->nothing_fits = n_seen > 0 && best < pow(0.05, 1 + n_seen / 4.0);
    out->order = arena_array(a, ranked, n);
    out->n = n;
    for (uint32_t i = 0; i < n; i++) {
        out->order[i] = (ranked){i, suspects[i].chance};
        room[i] = suspects[i].chance;
    }
    out->bits_open = entropy_bits(room, n);
    qsort(out->order, n, sizeof *out->order, by_chance);
    find_next(suspects, n, seen, n_seen, room, out);
    out->ruler_is_coarse = coarse_ruler(list, out, seen, n_seen);
    return true;
}
