#include "trade/dimensions.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "trade/dims_tables.h"

static const double pi = 3.14159265358979323846;

/* "ISO 4762" among "ISO 4762;DIN 912". */
static bool names_standard(const char *list, const char *name) {
    size_t n = strlen(name);
    for (const char *c = list; c; c = strchr(c, ';')) {
        c += *c == ';';
        if (strncmp(c, name, n) == 0 && (c[n] == ';' || c[n] == 0))
            return true;
    }
    return false;
}

static const dims_family *family_in(const dims_family *list, size_t n, const designation *d,
                                    const char *name) {
    for (size_t i = 0; i < n; i++) {
        if (name && names_standard(list[i].standards, name))
            return &list[i];
        bool same_drive = list[i].drive == d->drive || !d->drive;
        if (!name && list[i].form == d->form && same_drive)
            return &list[i];
    }
    return NULL;
}

static const dims_family *find_family(const designation *d) {
    char name[32];
    if (d->standard)
        fastener_standard_print(d->standard, name, sizeof name);
    const char *wanted = d->standard ? name : NULL;
    size_t n;
    const dims_family *list = dims_hexagons(&n), *found = family_in(list, n, d, wanted);
    if (found)
        return found;
    list = dims_sockets(&n);
    if ((found = family_in(list, n, d, wanted)) != NULL)
        return found;
    list = dims_others(&n);
    return family_in(list, n, d, wanted);
}

static const dims_row *find_row(const dims_family *f, int32_t thread_um) {
    for (size_t i = 0; i < f->n_rows; i++)
        if (f->rows[i].thread * 10 == thread_um)
            return &f->rows[i];
    return NULL;
}

/* The width of the other family of standards: ISO 272 against DIN before it. */
static int32_t other_flats(int32_t thread_um, int32_t flats_um) {
    static const int32_t widths[][3] = {{10000, 16000, 17000}, {12000, 18000, 19000}, {14000, 21000, 22000}};
    for (size_t i = 0; i < sizeof widths / sizeof *widths; i++) {
        if (widths[i][0] != thread_um)
            continue;
        if (widths[i][1] == flats_um)
            return widths[i][2];
        if (widths[i][2] == flats_um)
            return widths[i][1];
    }
    return 0;
}

static void fill(const dims_family *f, const dims_row *r, fastener_size *out) {
    *out = (fastener_size){.flats_um = r->flats * 10,
                           .key_um = r->key * 10,
                           .width_um = r->width * 10,
                           .height_um = r->height * 10,
                           .hole_um = r->hole * 10,
                           .depth_um = r->depth * 10,
                           .thread_length_um = r->thread_length * 10,
                           .ring_um = r->ring * 10,
                           .drive_number = r->number,
                           .source = f->source};
    out->other_flats_um = out->flats_um ? other_flats(r->thread * 10, out->flats_um) : 0;
}

bool fastener_size_of(const designation *d, fastener_size *out, err *e) {
    char place[DESIGNATION_TEXT];
    designation_print(d, place, sizeof place);
    if (!d->kind || !d->thread_um || (!d->standard && !d->form))
        return err_input(e, place, "name the standard and the size", "its shape or its size is not known");
    if (d->profile == THREAD_TAPPING)
        return err_input(e, place, "measure it", "there is no table for tapping screws here");
    const dims_family *f = find_family(d);
    if (!f)
        return err_input(e, place, "measure it, or see the standard",
                         "there is no table of sizes for it here");
    const dims_row *r = find_row(f, d->thread_um);
    if (!r) {
        char remedy[96];
        snprintf(remedy, sizeof remedy, "the table runs from M%g to M%g", f->rows[0].thread / 100.0,
                 f->rows[f->n_rows - 1].thread / 100.0);
        return err_input(e, place, remedy, "the table of sizes has no row for %g mm", d->thread_um / 1e3);
    }
    fill(f, r, out);
    return true;
}

int32_t fastener_threaded_um(const designation *d, const fastener_size *size) {
    if (!d->length_um)
        return 0;
    if (d->extent == THREAD_FULL || d->kind == FASTENER_SET_SCREW || d->kind == FASTENER_ROD)
        return d->length_um;
    if (!size->thread_length_um)
        return d->form == FORM_BUTTON_HEAD ? d->length_um : 0;
    /* shorter ones are threaded to the head: less than b and a run-out of about three pitches would stay smooth */
    int32_t head_um = d->form == FORM_COUNTERSUNK_HEAD ? size->height_um : 0;
    if (d->length_um <= size->thread_length_um + 3 * d->pitch_um + head_um)
        return d->length_um - head_um;
    return d->length_um > 125000 ? size->thread_length_um + 6000 : size->thread_length_um;
}

/* ISO 273 in hundredths of a millimetre (M); M3 to M10 compared with an open CAD table. Two of them print 14, 15, 16, 17
 * and 18, 19 for medium and coarse of M12, M14, M16: ISO 273 has 13.5, 14.5 and so on. */
int32_t thread_clearance_hole_um(int32_t thread_um, hole_fit fit) {
    static const int16_t holes[][4] = {
        {200, 220, 240, 260},     {250, 270, 290, 310},     {300, 320, 340, 360},    {400, 430, 450, 480},
        {500, 530, 550, 580},     {600, 640, 660, 700},     {800, 840, 900, 1000},   {1000, 1050, 1100, 1200},
        {1200, 1300, 1350, 1450}, {1400, 1500, 1550, 1650}, {1600, 1700, 1750, 1850}};
    for (size_t i = 0; i < sizeof holes / sizeof *holes; i++)
        if (holes[i][0] * 10 == thread_um && fit <= HOLE_COARSE)
            return holes[i][1 + fit] * 10;
    return 0;
}

int32_t thread_tapping_drill_um(int32_t thread_um, int32_t pitch_um) {
    return thread_pitch_known(thread_um, pitch_um) ? thread_um - pitch_um : 0;
}

double thread_pitch_diameter_mm(int32_t thread_um, int32_t pitch_um) {
    return thread_pitch_known(thread_um, pitch_um) ? (thread_um - 0.649519 * pitch_um) / 1e3 : (double)NAN;
}

double thread_core_diameter_mm(int32_t thread_um, int32_t pitch_um) {
    return thread_pitch_known(thread_um, pitch_um) ? (thread_um - 1.226869 * pitch_um) / 1e3 : (double)NAN;
}

double thread_stress_area_mm2(int32_t thread_um, int32_t pitch_um) {
    double mean =
        0.5 * (thread_pitch_diameter_mm(thread_um, pitch_um) + thread_core_diameter_mm(thread_um, pitch_um));
    return pi / 4 * mean * mean;
}
