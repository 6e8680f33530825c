#include "base/utf8.h"

#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

/* Length of the well-formed sequence at the start, 0 when there is none (RFC 3629, section 4). */
static size_t sequence_length(const unsigned char *b, size_t n) {
    unsigned char low = 0x80, high = 0xBF; /* range of the second byte */
    size_t length;
    if (b[0] < 0x80)
        return 1;
    if (b[0] >= 0xC2 && b[0] <= 0xDF) {
        length = 2;
    } else if (b[0] >= 0xE0 && b[0] <= 0xEF) {
        length = 3;
        low = b[0] == 0xE0 ? 0xA0 : 0x80;
        high = b[0] == 0xED ? 0x9F : 0xBF;
    } else if (b[0] >= 0xF0 && b[0] <= 0xF4) {
        length = 4;
        low = b[0] == 0xF0 ? 0x90 : 0x80;
        high = b[0] == 0xF4 ? 0x8F : 0xBF;
    } else {
        return 0;
    }
    if (n < length || b[1] < low || b[1] > high)
        return 0;
    for (size_t i = 2; i < length; i++)
        if ((b[i] & 0xC0) != 0x80)
            return 0;
    return length;
}

ptrdiff_t utf8_fault(text t) {
    const unsigned char *b = (const unsigned char *)t.at;
    for (size_t i = 0; i < t.len;) {
        size_t length = sequence_length(b + i, t.len - i);
        if (!length)
            return (ptrdiff_t)i;
        i += length;
    }
    return -1;
}

text utf8_mend(arena *a, text t) {
    static const char replacement[] = "\xEF\xBF\xBD";
    if (utf8_fault(t) < 0)
        return t;
    char *made = arena_alloc_array(a, t.len, sizeof replacement - 1);
    size_t n = 0;
    for (size_t i = 0; i < t.len;) {
        size_t length = sequence_length((const unsigned char *)t.at + i, t.len - i);
        size_t added = length ? length : sizeof replacement - 1;
        memcpy(made + n, length ? t.at + i : replacement, added);
        n += added;
        i += length ? length : 1;
    }
    return (text){made, n};
}

uint32_t utf8_point(text t, size_t at, size_t *length) {
    utf8proc_int32_t point = 0xFFFD;
    utf8proc_ssize_t n =
        utf8proc_iterate((const utf8proc_uint8_t *)t.at + at, (utf8proc_ssize_t)(t.len - at), &point);
    *length = n > 0 ? (size_t)n : 1;
    return n > 0 ? (uint32_t)point : 0xFFFD;
}

size_t utf8_count(text t) {
    size_t count = 0;
    for (size_t i = 0, n; i < t.len; i += n, count++)
        utf8_point(t, i, &n);
    return count;
}

static size_t point_width(uint32_t point) {
    int width = utf8proc_charwidth((utf8proc_int32_t)point);
    return width > 0 ? (size_t)width : 0;
}

size_t utf8_width(text t) {
    size_t width = 0;
    for (size_t i = 0, n; i < t.len; i += n)
        width += point_width(utf8_point(t, i, &n));
    return width;
}

text utf8_clip(text t, size_t columns) {
    size_t width = 0;
    for (size_t i = 0, n; i < t.len; i += n) {
        width += point_width(utf8_point(t, i, &n));
        if (width > columns)
            return (text){t.at, i};
    }
    return t;
}

text utf8_fold(arena *a, text t, bool plain) {
    utf8proc_uint8_t *folded = NULL;
    utf8proc_option_t how = UTF8PROC_STABLE | UTF8PROC_COMPAT | UTF8PROC_CASEFOLD | UTF8PROC_IGNORE;
    how |= plain ? (utf8proc_option_t)(UTF8PROC_DECOMPOSE | UTF8PROC_STRIPMARK) : UTF8PROC_COMPOSE;
    utf8proc_ssize_t n = utf8proc_map((const utf8proc_uint8_t *)t.at, (utf8proc_ssize_t)t.len, &folded, how);
    text result = n >= 0 ? arena_text(a, (text){(const char *)folded, (size_t)n}) : arena_text(a, t);
    free(folded);
    return result;
}
