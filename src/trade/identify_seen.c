/* identify_seen.c: what a piece would show, and how likely it is that this was seen on it. */
#include <math.h>

#include "trade/identify_inside.h"
#include "trade/look.h"

static const double close_slip = 0.05, far_slip = 0.005;

bool look_is_measure(look_sort look) {
    return look == LOOK_THREAD || look == LOOK_LENGTH || look == LOOK_WIDTH || look == LOOK_PITCH;
}

/* One standard deviation of a reading. Pitches are told with a gauge or by trying a nut: they match or they do not. */
double look_error_mm(look_sort look, gauge_sort gauge) {
    if (look == LOOK_PITCH)
        return 0.06;
    return gauge == GAUGE_CALIPER ? 0.07 : gauge == GAUGE_RULER ? 0.5 : 1.5;
}

void suspect_expect(suspect *s, const designation *d) {
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

static bool takes_nut(const designation *d) {
    return d->kind == FASTENER_SCREW || d->kind == FASTENER_SET_SCREW || d->kind == FASTENER_ROD;
}

bool look_can_mate(const designation *d) {
    return d->pitch_um > 0 && (d->kind == FASTENER_NUT || takes_nut(d));
}

/* That the two run on each other freely. */
double look_mate_chance(const designation *piece, const designation *mate) {
    const designation *nut = piece->kind == FASTENER_NUT ? piece : mate;
    const designation *screw = nut == piece ? mate : piece;
    if (nut->kind != FASTENER_NUT || !takes_nut(screw))
        return 0.003;
    if (nut->thread_um == screw->thread_um)
        return nut->pitch_um != screw->pitch_um || nut->left_hand != screw->left_hand ? 0.03 : 0.98;
    int32_t slack = nut->thread_um - screw->thread_um;
    return slack > 0 && slack <= 2000 ? 0.05 : 0.003;
}

/* What the eye calls the finish (common practice, no source): stainless is bright; unmarked steel is mostly zinc, hard
 * socket screws mostly black. */
double look_finish_chance(const designation *d, fastener_finish said) {
    /*                                         unknown plain black zinc  dip   nickel */
    static const double stainless[FINISH_COUNT] = {0, 0.85, 0.03, 0.06, 0.02, 0.04};
    static const double hard[FINISH_COUNT] = {0, 0.10, 0.60, 0.26, 0.02, 0.02};
    static const double steel[FINISH_COUNT] = {0, 0.18, 0.15, 0.60, 0.04, 0.03};
    if ((unsigned)said >= FINISH_COUNT)
        return far_slip;
    if (d->finish != FINISH_UNKNOWN)
        return said == d->finish ? 0.9 : 0.025;
    if (d->material == MATERIAL_A1 || d->material == MATERIAL_A2 || d->material == MATERIAL_A4 ||
        d->material == MATERIAL_STAINLESS)
        return stainless[said];
    bool black =
        d->kind == FASTENER_SET_SCREW ||
        (d->grade && (text_is(text_of(d->grade->code), "10.9") || text_is(text_of(d->grade->code), "12.9")));
    return black ? hard[said] : steel[said];
}

double suspect_likelihood(const suspect *s, const seen_thing *t) {
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
    case LOOK_FINISH:
        return look_finish_chance(d, (fastener_finish)t->shape);
    case LOOK_MATE:
        return t->runs ? look_mate_chance(d, t->mate) : 1 - look_mate_chance(d, t->mate);
    case LOOK_THREAD:
    case LOOK_LENGTH:
    case LOOK_WIDTH:
    case LOOK_PITCH:
        return measured(t->mm, s->expected[t->look], look_error_mm(t->look, t->gauge));
    case LOOK_COUNT:
    default:
        return 1;
    }
}
