#include "trade/look.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What the eye notices without a ruler, one piece at a time; see look.h. */
static double notice_um(double size_um) {
    double relative = 0.10 * size_um;
    return relative > 700 ? relative : 700;
}

static double seen_between(int32_t a_um, int32_t b_um) {
    int32_t larger = a_um > b_um ? a_um : b_um;
    return larger ? abs(a_um - b_um) / notice_um(larger) : 0;
}

/* Forms that differ in something a beginner does not look for. The reason says what to look at. */
typedef struct {
    fastener_form a, b;
    const char *tell;
} close_forms;

static const close_forms close_list[] = {
    {FORM_CYLINDER_HEAD, FORM_LOW_CYLINDER_HEAD, "the head of the one is only about half as high"},
    {FORM_BUTTON_HEAD, FORM_PAN_HEAD, "look into the head: hex socket or cross"},
    {FORM_COUNTERSUNK_HEAD, FORM_RAISED_COUNTERSUNK_HEAD, "one head is flat on top, the other domed"},
    {FORM_PAN_HEAD, FORM_CHEESE_HEAD, "the edge of the head: rounded or straight"},
    {FORM_HEX_NUT, FORM_THIN_NUT, "put them side by side: one is about half as high"},
    {FORM_LOCK_NUT, FORM_THIN_LOCK_NUT, "put them side by side: one is lower"},
    {FORM_HEX_NUT, FORM_ALL_METAL_LOCK_NUT, "the plain one runs on by hand, the locking one does not"},
    {FORM_HEX_NUT, FORM_LOCK_NUT, "look for the coloured plastic ring; it does not run on by hand"},
    {FORM_FLANGE_NUT, FORM_FLANGE_LOCK_NUT, "look for the plastic ring; it does not run on by hand"},
    {FORM_PLAIN_WASHER, FORM_CHAMFERED_WASHER, "look for the bevelled edge"},
    {FORM_PLAIN_WASHER, FORM_SMALL_WASHER, "put one on the other: the small one is narrower"},
    {FORM_PLAIN_WASHER, FORM_LARGE_WASHER, "put one on the other: the large one stands out all round"},
    {FORM_LARGE_WASHER, FORM_EXTRA_LARGE_WASHER, "put one on the other"},
    {FORM_PLAIN_WASHER, FORM_SPRING_WASHER, "the spring washer is cut through"},
    {FORM_FLAT_POINT, FORM_CUP_POINT, "look at the end: flat, or a ring with a hollow"},
    {FORM_FLAT_POINT, FORM_CONE_POINT, "look at the end: flat, or a tip"},
    {FORM_FLAT_POINT, FORM_DOG_POINT, "look at the end: flat, or a thinner peg"},
    {FORM_CUP_POINT, FORM_CONE_POINT, "look at the end: a ring with a hollow, or a tip"},
    {FORM_CUP_POINT, FORM_DOG_POINT, "look at the end: a ring with a hollow, or a thinner peg"},
    {FORM_CONE_POINT, FORM_DOG_POINT, "look at the end: a tip, or a peg"},
    {FORM_DOWEL_PIN, FORM_SPRING_PIN, "the spring pin is hollow"},
    {FORM_DOWEL_PIN, FORM_TAPER_PIN, "measure both ends: the taper pin has two diameters"},
};

static const close_forms *find_close(fastener_form a, fastener_form b) {
    for (size_t i = 0; i < sizeof close_list / sizeof *close_list; i++)
        if ((close_list[i].a == a && close_list[i].b == b) || (close_list[i].a == b && close_list[i].b == a))
            return &close_list[i];
    return NULL;
}

static void name_size(const designation *d, char out[48]) {
    const char *m = d->kind == FASTENER_PIN || d->kind == FASTENER_RING ? "" : "M";
    if (d->length_um)
        snprintf(out, 48, "%s%gx%g", m, d->thread_um / 1e3, d->length_um / 1e3);
    else
        snprintf(out, 48, "%s%g", m, d->thread_um / 1e3);
}

static look_grade grade_of(double seen) {
    return seen < 1.0 ? LOOK_ALIKE : seen <= 3.0 ? LOOK_NEAR : LOOK_DIFFERENT;
}

/* Same form, other size. */
static void compare_sizes(const designation *a, const designation *b, look_alike *out) {
    double by_length = seen_between(a->length_um, b->length_um);
    /* heads, nuts and washers are at least 1.6 times as wide as the thread: that is what the eye compares */
    double by_thread = seen_between(a->thread_um * 8 / 5, b->thread_um * 8 / 5);
    out->seen = by_length > by_thread ? by_length : by_thread;
    out->grade = grade_of(out->seen);
    char an[48], bn[48];
    name_size(a, an);
    name_size(b, bn);
    if (a->thread_um == b->thread_um) {
        snprintf(out->reason, sizeof out->reason, "same head and thread, %g and %g mm long",
                 a->length_um / 1e3, b->length_um / 1e3);
        snprintf(out->tell, sizeof out->tell, "hold them side by side, or measure the length");
    } else if (a->length_um == b->length_um) {
        snprintf(out->reason, sizeof out->reason, "same shape%s, M%g and M%g",
                 a->length_um ? " and length" : "", a->thread_um / 1e3, b->thread_um / 1e3);
        snprintf(out->tell, sizeof out->tell, "%s",
                 a->kind == FASTENER_WASHER ? "try it on a screw you know"
                                            : "try it with a nut or a screw you know, or measure the thread");
    } else {
        snprintf(out->reason, sizeof out->reason, "same shape, %s and %s", an, bn);
        snprintf(out->tell, sizeof out->tell, "measure thread and length");
    }
}

static const char *mark_name(const designation *d) {
    return d->grade ? d->grade->code : d->material ? fastener_material_name(d->material) : "no mark";
}

/* Same form, same size: what is left are things one has to look for. */
static void compare_marks(const designation *a, const designation *b, look_alike *out) {
    out->seen = 0;
    out->grade = LOOK_ALIKE;
    if (a->pitch_um != b->pitch_um) {
        snprintf(out->reason, sizeof out->reason, "same size, pitch %g and %g mm", a->pitch_um / 1e3,
                 b->pitch_um / 1e3);
        snprintf(out->tell, sizeof out->tell, "lay the threads together: they must mesh; never force a nut");
    } else if (a->left_hand != b->left_hand) {
        snprintf(out->reason, sizeof out->reason, "same size, one has a left-hand thread");
        snprintf(out->tell, sizeof out->tell, "see which way the thread climbs");
    } else if (a->grade != b->grade || a->material != b->material) {
        snprintf(out->reason, sizeof out->reason, "same size, %s and %s", mark_name(a), mark_name(b));
        snprintf(out->tell, sizeof out->tell, "%s",
                 a->kind == FASTENER_SCREW
                     ? "read the mark on the head; most stainless does not hold a magnet"
                     : "read the mark; most stainless does not hold a magnet");
    } else if (a->finish != b->finish) {
        snprintf(out->reason, sizeof out->reason, "same size, finish %s and %s",
                 fastener_finish_name(a->finish), fastener_finish_name(b->finish));
        snprintf(out->tell, sizeof out->tell, "compare the colour");
    } else if (a->extent != b->extent) {
        snprintf(out->reason, sizeof out->reason, "same size, one is threaded to the head");
        snprintf(out->tell, sizeof out->tell, "look for the smooth shank below the head");
    } else if (a->drive != b->drive && a->drive && b->drive) {
        out->grade = LOOK_NEAR;
        out->seen = 1.5;
        snprintf(out->reason, sizeof out->reason, "same head and size, %s and %s",
                 fastener_drive_name(a->drive), fastener_drive_name(b->drive));
        snprintf(out->tell, sizeof out->tell, "look into the head");
    } else if (a->standard != b->standard && a->standard && b->standard) {
        snprintf(out->reason, sizeof out->reason, "same size by two standards");
        snprintf(out->tell, sizeof out->tell,
                 "measure width and height of head or nut: older ones differ at some sizes");
    } else {
        out->grade = LOOK_SAME;
        snprintf(out->reason, sizeof out->reason, "the same piece by all that is written");
    }
}

static void say_different(look_alike *out, const char *reason) {
    out->grade = LOOK_DIFFERENT;
    out->seen = 99;
    snprintf(out->reason, sizeof out->reason, "%s", reason);
}

/* Close forms: the shape itself counts as just noticed; a difference in size comes on top. */
static void compare_close(const designation *a, const designation *b, const close_forms *close,
                          look_alike *out) {
    compare_sizes(a, b, out);
    out->seen = out->seen > 1.0 ? out->seen : 1.0;
    out->grade = out->seen > 1.0 ? grade_of(out->seen) : LOOK_NEAR;
    snprintf(out->reason, sizeof out->reason, "%s and %s, M%g%s", fastener_form_name(a->form),
             fastener_form_name(b->form), a->thread_um / 1e3,
             a->thread_um == b->thread_um ? "" : " or near it");
    snprintf(out->tell, sizeof out->tell, "%s", close->tell);
}

void designation_look_alike(const designation *a, const designation *b, look_alike *out) {
    memset(out, 0, sizeof *out);
    if (!a->kind || a->kind != b->kind) {
        say_different(out, "different kinds of piece");
        return;
    }
    if (!a->thread_um || !b->thread_um) {
        say_different(out, "the size of one is not known");
        return;
    }
    if (a->form != b->form) {
        const close_forms *close = find_close(a->form, b->form);
        if (close)
            compare_close(a, b, close, out);
        else
            say_different(out, "different shapes");
        return;
    }
    if (a->thread_um != b->thread_um || a->length_um != b->length_um)
        compare_sizes(a, b, out);
    else
        compare_marks(a, b, out);
}
