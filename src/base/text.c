#include "base/text.h"

#include <stdio.h>
#include <string.h>

text text_of(const char *z) {
    return z ? (text){z, strlen(z)} : (text){"", 0};
}

bool text_equal(text a, text b) {
    return a.len == b.len && (a.len == 0 || memcmp(a.at, b.at, a.len) == 0);
}

bool text_is(text a, const char *z) {
    return text_equal(a, text_of(z));
}

int text_compare(text a, text b) {
    size_t shared = a.len < b.len ? a.len : b.len;
    int order = shared ? memcmp(a.at, b.at, shared) : 0;
    if (order)
        return order;
    return (a.len > b.len) - (a.len < b.len);
}

static bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

static size_t digits_at(text t, size_t from) {
    size_t end = from;
    while (end < t.len && is_digit(t.at[end]))
        end++;
    return end - from;
}

/* Compares two runs of digits as numbers of any length. */
static int compare_digits(text a, text b) {
    while (a.len > 1 && a.at[0] == '0')
        a.at++, a.len--;
    while (b.len > 1 && b.at[0] == '0')
        b.at++, b.len--;
    if (a.len != b.len)
        return a.len < b.len ? -1 : 1;
    return text_compare(a, b);
}

int text_compare_natural(text a, text b) {
    size_t i = 0, j = 0;
    while (i < a.len && j < b.len) {
        if (is_digit(a.at[i]) && is_digit(b.at[j])) {
            size_t m = digits_at(a, i), n = digits_at(b, j);
            int order = compare_digits((text){a.at + i, m}, (text){b.at + j, n});
            if (order)
                return order;
            i += m;
            j += n;
        } else {
            int order = (unsigned char)a.at[i++] - (unsigned char)b.at[j++];
            if (order)
                return order;
        }
    }
    if (i < a.len || j < b.len)
        return i < a.len ? 1 : -1;
    return text_compare(a, b); /* "07" and "7": a fixed order all the same */
}

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c + 32) : c;
}

bool text_equal_nocase(text a, text b) {
    if (a.len != b.len)
        return false;
    for (size_t i = 0; i < a.len; i++)
        if (lower(a.at[i]) != lower(b.at[i]))
            return false;
    return true;
}

bool text_starts(text t, text prefix) {
    return t.len >= prefix.len && text_equal((text){t.at, prefix.len}, prefix);
}

bool text_ends(text t, text suffix) {
    return suffix.len == 0 ||
           (t.len >= suffix.len && text_equal((text){t.at + (t.len - suffix.len), suffix.len}, suffix));
}

/* Length of the blank at the start of `t`, 0 when there is none. */
static size_t blank_before(text t) {
    if (t.len && (t.at[0] == ' ' || t.at[0] == '\t' || t.at[0] == '\r' || t.at[0] == '\n'))
        return 1;
    return text_starts(t, TEXT("\xC2\xA0")) ? 2 : 0;
}

static size_t blank_after(text t) {
    if (t.len && strchr(" \t\r\n", t.at[t.len - 1]) && t.at[t.len - 1])
        return 1;
    return text_ends(t, TEXT("\xC2\xA0")) ? 2 : 0;
}

text text_trim(text t) {
    for (size_t n; (n = blank_before(t)) > 0;)
        t.at += n, t.len -= n;
    for (size_t n; (n = blank_after(t)) > 0;)
        t.len -= n;
    return t;
}

text text_slice(text t, size_t from, size_t to) {
    if (to > t.len)
        to = t.len;
    if (from > to)
        from = to;
    return (text){from ? t.at + from : t.at, to - from}; /* nothing is added to the NULL of an empty text */
}

ptrdiff_t text_find(text t, text piece) {
    if (piece.len == 0)
        return 0;
    const char *found = t.len ? memmem(t.at, t.len, piece.at, piece.len) : NULL;
    return found ? found - t.at : -1;
}

bool text_next_piece(text *rest, char separator, text *piece) {
    if (!rest->at)
        return false;
    const char *cut = rest->len ? memchr(rest->at, separator, rest->len) : NULL;
    if (!cut) {
        *piece = *rest;
        *rest = (text){NULL, 0};
        return true;
    }
    size_t n = (size_t)(cut - rest->at);
    *piece = (text){rest->at, n};
    *rest = (text){cut + 1, rest->len - n - 1};
    return true;
}

static unsigned least(unsigned a, unsigned b) {
    return a < b ? a : b;
}

unsigned text_edits(text a, text b) {
    enum { LONGEST = 40 };
    unsigned rows[3][LONGEST + 1];
    if (a.len > LONGEST || b.len > LONGEST)
        return TEXT_EDITS_FAR;
    for (size_t j = 0; j <= b.len; j++)
        rows[0][j] = (unsigned)j;
    for (size_t i = 1; i <= a.len; i++) {
        unsigned *now = rows[i % 3];
        const unsigned *up = rows[(i + 2) % 3], *two_up = rows[(i + 1) % 3];
        now[0] = (unsigned)i;
        for (size_t j = 1; j <= b.len; j++) {
            now[j] = least(least(up[j], now[j - 1]) + 1, up[j - 1] + (a.at[i - 1] != b.at[j - 1]));
            if (i > 1 && j > 1 && a.at[i - 1] == b.at[j - 2] && a.at[i - 2] == b.at[j - 1])
                now[j] = least(now[j], two_up[j - 2] + 1);
        }
    }
    return rows[a.len % 3][b.len];
}

text arena_text(arena *a, text t) {
    char *copy = arena_alloc(a, t.len + 1);
    if (t.len)
        memcpy(copy, t.at, t.len);
    return (text){copy, t.len};
}

const char *arena_z(arena *a, text t) {
    return arena_text(a, t).at;
}

text arena_format_list(arena *a, const char *format, va_list list) {
    va_list again;
    va_copy(again, list);
    int n = vsnprintf(NULL, 0, format, list);
    size_t len = n > 0 ? (size_t)n : 0;
    char *made = arena_alloc(a, len + 1);
    vsnprintf(made, len + 1, format, again);
    va_end(again);
    return (text){made, len};
}

text arena_format(arena *a, const char *format, ...) {
    va_list list;
    va_start(list, format);
    text made = arena_format_list(a, format, list);
    va_end(list);
    return made;
}
