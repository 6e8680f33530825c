#include "paper/image.h"

#include <string.h>

enum { MOST_SIDE = 12000, MOST_POINTS = 40000000 };

typedef struct {
    text rest;
} byte_source;

static cairo_status_t give_bytes(void *from, unsigned char *to, unsigned int n) {
    byte_source *s = from;
    if (s->rest.len < n)
        return CAIRO_STATUS_READ_ERROR;
    memcpy(to, s->rest.at, n);
    s->rest.at += n;
    s->rest.len -= n;
    return CAIRO_STATUS_SUCCESS;
}

static unsigned byte_at(text t, size_t i) {
    return (unsigned char)t.at[i];
}

static unsigned big16(text t, size_t i) {
    return byte_at(t, i) << 8 | byte_at(t, i + 1);
}

static bool size_is_sane(unsigned long width, unsigned long height, const char **why) {
    *why = "it is larger than 40 million points";
    return width >= 1 && height >= 1 && width <= MOST_SIDE && height <= MOST_SIDE &&
           width * height <= MOST_POINTS;
}

static bool open_png(text bytes, image *out, const char **why) {
    *why = "its PNG header is cut off";
    if (bytes.len < 24)
        return false;
    unsigned long width = (unsigned long)big16(bytes, 16) << 16 | big16(bytes, 18);
    unsigned long height = (unsigned long)big16(bytes, 20) << 16 | big16(bytes, 22);
    if (!size_is_sane(width, height, why))
        return false;
    byte_source source = {bytes};
    out->surface = cairo_image_surface_create_from_png_stream(give_bytes, &source);
    if (cairo_surface_status(out->surface)) {
        image_close(out);
        *why = "its PNG data are damaged";
        return false;
    }
    out->width = (int)width;
    out->height = (int)height;
    return true;
}

/* Finds the frame header (ITU-T T.81, B.2.2): markers C0..CF but for C4, C8 and CC. */
static bool jpeg_size(text t, unsigned *width, unsigned *height) {
    for (size_t i = 2; i + 9 < t.len;) {
        if (byte_at(t, i) != 0xFF)
            return false;
        unsigned marker = byte_at(t, i + 1);
        if (marker == 0xFF) {
            i++;
            continue;
        }
        if (marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC) {
            *height = big16(t, i + 5);
            *width = big16(t, i + 7);
            return true;
        }
        i += 2 + (size_t)big16(t, i + 2);
    }
    return false;
}

static bool open_jpeg(text bytes, image *out, const char **why) {
    unsigned width = 0, height = 0;
    *why = "its JPEG data are damaged";
    if (!jpeg_size(bytes, &width, &height) || !size_is_sane(width, height, why))
        return false;
    out->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)width, (int)height);
    cairo_status_t status = cairo_surface_set_mime_data(
        out->surface, CAIRO_MIME_TYPE_JPEG, (const unsigned char *)bytes.at, bytes.len, NULL, NULL);
    if (status || cairo_surface_status(out->surface)) {
        image_close(out);
        return false;
    }
    out->width = (int)width;
    out->height = (int)height;
    return true;
}

bool image_open(text bytes, image *out, const char **why) {
    *out = (image){0};
    if (text_starts(bytes, TEXT("\x89PNG\r\n\x1a\n")))
        return open_png(bytes, out, why);
    if (text_starts(bytes, TEXT("\xff\xd8\xff")))
        return open_jpeg(bytes, out, why);
    *why = "it is neither PNG nor JPEG";
    return false;
}

void image_close(image *i) {
    if (i->surface)
        cairo_surface_destroy(i->surface);
    *i = (image){0};
}

static double scale_of(const image *i, double width, double most_height) {
    double by_width = width / i->width, by_height = most_height / i->height;
    return by_width < by_height ? by_width : by_height;
}

double image_height(const image *i, double width, double most_height) {
    return i->surface ? i->height * scale_of(i, width, most_height) : 0;
}

void image_draw(sheet *s, const image *i, double x, double y, double width, double most_height) {
    if (!i->surface || !s->cr)
        return;
    double scale = scale_of(i, width, most_height);
    cairo_save(s->cr);
    cairo_translate(s->cr, x, y);
    cairo_scale(s->cr, scale, scale);
    cairo_set_source_surface(s->cr, i->surface, 0, 0);
    cairo_paint(s->cr);
    cairo_restore(s->cr);
}
