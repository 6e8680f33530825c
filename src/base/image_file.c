/* image_file.c: picture files as bytes, segment by segment. */
#include "base/image_file.h"

#include <string.h>

static const char png_begin[] = "\x89PNG\r\n\x1a\n";

static unsigned byte_at(text t, size_t i) {
    return (unsigned char)t.at[i];
}

image_file image_file_kind(text bytes) {
    if (bytes.len >= 8 && memcmp(bytes.at, png_begin, 8) == 0)
        return IMAGE_FILE_PNG;
    if (bytes.len >= 3 && byte_at(bytes, 0) == 0xFF && byte_at(bytes, 1) == 0xD8 && byte_at(bytes, 2) == 0xFF)
        return IMAGE_FILE_JPEG;
    return IMAGE_FILE_NONE;
}

const char *image_file_type(image_file kind) {
    return kind == IMAGE_FILE_PNG ? "image/png" : kind == IMAGE_FILE_JPEG ? "image/jpeg" : "";
}

/* ---- JPEG ---- */

static unsigned number_at(text t, size_t i, unsigned bytes, bool little) {
    unsigned n = 0;
    for (unsigned k = 0; k < bytes; k++)
        n = n << 8 | byte_at(t, i + (little ? bytes - 1 - k : k));
    return n;
}

/* Orientation in an Exif segment (TIFF 6.0: header, then a directory of 12-byte entries; tag 0x0112, type SHORT). 0: not
 * there. */
static unsigned orientation_of(text segment) {
    if (segment.len < 14 || memcmp(segment.at, "Exif\0\0", 6) != 0)
        return 0;
    text t = text_slice(segment, 6, segment.len);
    bool little = t.at[0] == 'I';
    size_t at = number_at(t, 4, 4, little);
    if (at > t.len || t.len - at < 2)
        return 0;
    unsigned n = number_at(t, at, 2, little);
    for (unsigned i = 0; i < n && at + 2 + 12 * ((size_t)i + 1) <= t.len; i++) {
        size_t entry = at + 2 + 12 * (size_t)i;
        unsigned value = number_at(t, entry + 8, 2, little);
        if (number_at(t, entry, 2, little) == 0x0112 && number_at(t, entry + 2, 2, little) == 3)
            return value <= 8 ? value : 0;
    }
    return 0;
}

/* An Exif segment with nothing but the orientation. */
static void add_orientation(buf *out, unsigned orientation) {
    char segment[] = "\xFF\xE1\0\x22"
                     "Exif\0\0"
                     "MM\0\x2A\0\0\0\x08"
                     "\0\x01"
                     "\x01\x12\0\x03\0\0\0\x01\0?\0\0"
                     "\0\0\0\0";
    segment[29] = (char)orientation;
    buf_add(out, (text){segment, sizeof segment - 1});
}

/* APP0 (JFIF, the density of points) and APP14 (how the colours are coded) belong to the picture. */
static bool is_wanted(unsigned marker) {
    return marker == 0xE0 || marker == 0xEE || !((marker >= 0xE1 && marker <= 0xEF) || marker == 0xFE);
}

/* After a scan's head come coded bytes: up to the next marker that is neither a stuffed zero nor a restart. */
static size_t end_of_scan(text t, size_t at) {
    while (at + 1 < t.len) {
        unsigned next = byte_at(t, at + 1);
        if (byte_at(t, at) == 0xFF && next != 0 && !(next >= 0xD0 && next <= 0xD7))
            return at;
        at++;
    }
    return t.len;
}

/* The segments up to the end of the picture; what stands after that is left out. */
static bool keep_segments(text t, buf *kept, unsigned *turned) {
    for (size_t at = 2; at + 1 < t.len && byte_at(t, at) == 0xFF;) {
        unsigned marker = byte_at(t, at + 1);
        if (marker == 0xD9) {
            buf_add(kept, text_slice(t, at, at + 2));
            return true;
        }
        if (marker == 0xFF) { /* fill byte */
            at++;
            continue;
        }
        bool bare =
            marker <= 0x01 || (marker >= 0xD0 && marker <= 0xD8); /* no segment, and none is due here */
        size_t length = at + 4 <= t.len ? number_at(t, at + 2, 2, false) : 0;
        if (bare || length < 2 || length > t.len - at - 2)
            return false;
        size_t end = at + 2 + length;
        if (marker == 0xE1 && !*turned)
            *turned = orientation_of(text_slice(t, at + 4, end));
        if (marker == 0xDA)
            end = end_of_scan(t, end);
        if (is_wanted(marker))
            buf_add(kept, text_slice(t, at, end));
        at = end;
    }
    return false;
}

static bool strip_jpeg(text t, buf *out, const char **why) {
    unsigned turned = 0;
    buf kept = {0};
    bool whole = keep_segments(t, &kept, &turned);
    if (whole) {
        buf_add(out, text_slice(t, 0, 2));
        if (turned)
            add_orientation(out, turned);
        buf_add(out, buf_text(&kept));
    }
    buf_free(&kept);
    *why = "the JPEG is cut off or damaged";
    return whole;
}

/* ---- PNG ---- */

/* Critical chunks, and those that change how the picture looks. */
static bool is_picture_chunk(const char *name) {
    static const char *const kept[] = {"IHDR", "PLTE", "IDAT", "IEND", "tRNS",
                                       "gAMA", "cHRM", "sRGB", "sBIT", "pHYs"};
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++)
        if (memcmp(name, kept[i], 4) == 0)
            return true;
    return false;
}

static bool strip_png(text t, buf *out, const char **why) {
    size_t at = 8;
    *why = "the PNG is cut off or damaged";
    buf_add(out, text_slice(t, 0, 8));
    while (t.len - at >= 12) {
        size_t length = number_at(t, at, 4, false);
        if (length > t.len - at - 12)
            return false;
        if (is_picture_chunk(t.at + at + 4))
            buf_add(out, text_slice(t, at, at + 12 + length));
        if (memcmp(t.at + at + 4, "IEND", 4) == 0)
            return true;
        at += 12 + length;
    }
    return false;
}

bool image_file_strip(text bytes, buf *out, const char **why) {
    *why = "it is neither PNG nor JPEG";
    image_file kind = image_file_kind(bytes);
    size_t before = out->len;
    bool ok = kind == IMAGE_FILE_PNG    ? strip_png(bytes, out, why)
              : kind == IMAGE_FILE_JPEG ? strip_jpeg(bytes, out, why)
                                        : false;
    if (!ok)
        out->len = before;
    return ok;
}
