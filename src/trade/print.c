/* print.c: the canonical text of a designation. */
#include <stdio.h>
#include <string.h>

#include "trade/designation.h"

typedef struct {
    char *out;
    size_t size, len;
} printer;

static void put(printer *p, const char *format, ...) PRINTF_LIKE(2, 3);

static void put(printer *p, const char *format, ...) {
    va_list list;
    va_start(list, format);
    size_t room = p->len < p->size ? p->size - p->len : 0;
    int n = vsnprintf(room ? p->out + p->len : NULL, room, format, list);
    va_end(list);
    if (n > 0)
        p->len += (size_t)n;
}

/* 4500 -> "4.5" without a trailing zero */
static void put_mm(printer *p, int32_t um) {
    if (um % 1000 == 0)
        put(p, "%d", um / 1000);
    else if (um % 100 == 0)
        put(p, "%d.%d", um / 1000, um % 1000 / 100);
    else if (um % 10 == 0)
        put(p, "%d.%02d", um / 1000, um % 1000 / 10);
    else
        put(p, "%d.%03d", um / 1000, um % 1000);
}

static void put_thread(printer *p, const designation *d) {
    put(p, d->profile == THREAD_TAPPING ? "ST" : "M");
    put_mm(p, d->thread_um);
    if (d->fine) {
        put(p, "x");
        put_mm(p, d->pitch_um);
    }
    if (d->length_um) {
        put(p, "x");
        put_mm(p, d->length_um);
    }
}

static void put_plain_size(printer *p, const designation *d) {
    put_mm(p, d->thread_um);
    if (d->length_um) {
        put(p, "x");
        put_mm(p, d->length_um);
    }
}

static const char *material_mark(fastener_material m) {
    static const char *const marks[MATERIAL_COUNT] = {"",   "St",        "spring steel", "A1", "A2",
                                                      "A4", "stainless", "brass",        "Al", "PA"};
    return (unsigned)m < MATERIAL_COUNT ? marks[m] : "";
}

static void put_tail(printer *p, const designation *d) {
    static const char *const finishes[FINISH_COUNT] = {"", "plain", "black", "Zn", "tZn", "Ni"};
    if (d->grade)
        put(p, "-%s", d->grade->code);
    else if (d->material)
        put(p, "-%s", material_mark(d->material));
    if ((unsigned)d->finish < FINISH_COUNT && d->finish)
        put(p, "-%s", finishes[d->finish]);
    if (d->left_hand)
        put(p, "-LH");
}

static void put_words(printer *p, const designation *d) {
    if (d->thread_um && (d->kind == FASTENER_PIN || d->kind == FASTENER_RING))
        put_plain_size(p, d);
    else if (d->thread_um)
        put_thread(p, d);
    put_tail(p, d);
    if (d->form)
        put(p, "%s%s", p->len ? " " : "", fastener_form_name(d->form));
    if (d->form != FORM_PLAIN_ROD) /* "threaded rod" already says what it is */
        put(p, "%s%s", p->len ? " " : "", d->kind ? fastener_kind_name(d->kind) : "fastener");
}

int designation_print(const designation *d, char *out, size_t size) {
    printer p = {out, size, 0};
    if (size)
        out[0] = 0;
    if (!d->standard) {
        put_words(&p, d);
        return (int)p.len;
    }
    char name[32];
    fastener_standard_print(d->standard, name, sizeof name);
    put(&p, "%s", name);
    switch (d->standard->size) {
    case SIZE_THREAD_LENGTH:
    case SIZE_THREAD:
    case SIZE_TAPPING_LENGTH:
        put(&p, " ");
        put_thread(&p, d);
        break;
    case SIZE_HOLE: /* named by its thread, which everyone understands */
        put(&p, " M");
        put_mm(&p, d->thread_um);
        break;
    case SIZE_FOR_THREAD:
        put(&p, "-");
        put_mm(&p, d->thread_um);
        break;
    case SIZE_DIAMETER_LENGTH:
    case SIZE_DIAMETER:
    default:
        put(&p, "-");
        put_plain_size(&p, d);
    }
    put_tail(&p, d);
    return (int)p.len;
}

bool designation_equal(const designation *a, const designation *b) {
    return a->kind == b->kind && a->form == b->form && a->drive == b->drive && a->extent == b->extent &&
           a->profile == b->profile && a->standard == b->standard && a->thread_um == b->thread_um &&
           a->pitch_um == b->pitch_um && a->fine == b->fine && a->left_hand == b->left_hand &&
           a->length_um == b->length_um && a->grade == b->grade && a->material == b->material &&
           a->finish == b->finish;
}
