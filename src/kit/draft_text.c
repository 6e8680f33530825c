/* draft_text.c: which letters the bytes of a list mean. */
#include <string.h>

#include "base/buf.h"
#include "base/utf8.h"
#include "kit/draft_inside.h"

/* Bytes 80 to 9F of Windows-1252, 0 where it has no letter; the rest is ISO 8859-1, that is the same code point.
 * Source: https://www.unicode.org/Public/MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT */
static const uint16_t windows_1252[32] = {0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                          0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                          0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                          0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

static void add_point(buf *to, uint32_t point) {
    if (point < 0x80) {
        buf_add_char(to, (char)point);
        return;
    }
    if (point >= 0x10000) {
        buf_add_char(to, (char)(0xF0 | point >> 18));
        buf_add_char(to, (char)(0x80 | (point >> 12 & 0x3F)));
    } else if (point >= 0x800) {
        buf_add_char(to, (char)(0xE0 | point >> 12));
    } else {
        buf_add_char(to, (char)(0xC0 | point >> 6));
    }
    if (point >= 0x800)
        buf_add_char(to, (char)(0x80 | (point >> 6 & 0x3F)));
    buf_add_char(to, (char)(0x80 | (point & 0x3F)));
}

static uint32_t line_at(text bytes, size_t at) {
    uint32_t line = 1;
    for (size_t i = 0; i < at && i < bytes.len; i++)
        line += bytes.at[i] == '\n';
    return line;
}

static bool from_windows(text bytes, text file, faults *f, buf *to) {
    for (size_t i = 0; i < bytes.len; i++) {
        unsigned char b = (unsigned char)bytes.at[i];
        uint32_t point = b >= 0x80 && b < 0xA0 ? windows_1252[b - 0x80] : b;
        if (!point && b) {
            fault_add(f, (fault_place){file, 0, TEXT("")}, "save the list again as CSV (UTF-8)",
                      "line %u: the byte %02X is a letter neither in UTF-8 nor in Windows-1252",
                      line_at(bytes, i), b);
            return false;
        }
        add_point(to, point);
    }
    return true;
}

static uint32_t utf16_unit(text bytes, size_t at, bool little) {
    uint32_t first = (unsigned char)bytes.at[at], second = (unsigned char)bytes.at[at + 1];
    return little ? first | second << 8 : first << 8 | second;
}

/* RFC 2781, section 2.2. */
static bool from_utf16(text bytes, bool little, text file, faults *f, buf *to) {
    fault_place place = {file, 0, TEXT("")};
    if (bytes.len % 2) {
        fault_add(f, place, "save the list again as CSV (UTF-8)",
                  "it is UTF-16 cut in the middle of a letter");
        return false;
    }
    for (size_t i = 0; i < bytes.len; i += 2) {
        uint32_t unit = utf16_unit(bytes, i, little);
        if (unit >= 0xD800 && unit <= 0xDFFF) {
            uint32_t next = unit < 0xDC00 && i + 4 <= bytes.len ? utf16_unit(bytes, i + 2, little) : 0;
            if (next < 0xDC00 || next > 0xDFFF) {
                fault_add(f, place, "save the list again as CSV (UTF-8)",
                          "its UTF-16 holds half a letter (%04X) at byte %zu", unit, i);
                return false;
            }
            unit = 0x10000 + ((unit - 0xD800) << 10) + (next - 0xDC00);
            i += 2;
        }
        if (i > 1 || unit != 0xFEFF)
            add_point(to, unit);
    }
    return true;
}

/* UTF-16 without a byte order mark: of most letters in our lists one byte is zero. */
static draft_encoding utf16_by_zeros(text bytes) {
    enum { LOOK = 4096 };
    size_t n = bytes.len < LOOK ? bytes.len : LOOK, zeros[2] = {0, 0};
    for (size_t i = 0; i < n; i++)
        zeros[i % 2] += bytes.at[i] == 0;
    if (zeros[1] * 10 >= n * 4 && zeros[0] * 10 < n)
        return n ? DRAFT_UTF16_LE : DRAFT_ANY_ENCODING;
    if (zeros[0] * 10 >= n * 4 && zeros[1] * 10 < n)
        return n ? DRAFT_UTF16_BE : DRAFT_ANY_ENCODING;
    return DRAFT_ANY_ENCODING;
}

/* Good and bad letters beyond ASCII, read as UTF-8. */
static void weigh_utf8(text bytes, size_t *good, size_t *bad) {
    *good = *bad = 0;
    for (size_t at = 0; at < bytes.len;) {
        ptrdiff_t fault_at = utf8_fault(text_slice(bytes, at, bytes.len));
        size_t end = fault_at < 0 ? bytes.len : at + (size_t)fault_at;
        for (; at < end; at++)
            *good += (unsigned char)bytes.at[at] >= 0xC0;
        if (fault_at >= 0)
            ++*bad, at++;
    }
}

static draft_encoding guess(text bytes, draft_reason *why) {
    if (text_starts(bytes, TEXT("\xEF\xBB\xBF"))) {
        *why = (draft_reason){DRAFT_SURE, TEXT("it begins with a byte order mark")};
        return DRAFT_UTF8;
    }
    bool little = text_starts(bytes, TEXT("\xFF\xFE"));
    if (little || text_starts(bytes, TEXT("\xFE\xFF"))) {
        *why = (draft_reason){DRAFT_SURE, TEXT("it begins with a byte order mark")};
        return little ? DRAFT_UTF16_LE : DRAFT_UTF16_BE;
    }
    draft_encoding wide = utf16_by_zeros(bytes);
    if (wide != DRAFT_ANY_ENCODING) {
        *why = (draft_reason){DRAFT_LIKELY, TEXT("every other byte is zero")};
        return wide;
    }
    size_t good, bad;
    weigh_utf8(bytes, &good, &bad);
    if (!bad) {
        *why =
            (draft_reason){DRAFT_SURE, good ? TEXT("all bytes fit together") : TEXT("all letters are ASCII")};
        return DRAFT_UTF8;
    }
    if (good >= bad) { /* UTF-8 with damage: the CSV reader names the lines */
        *why = (draft_reason){DRAFT_LIKELY, TEXT("most bytes fit together")};
        return DRAFT_UTF8;
    }
    *why = (draft_reason){DRAFT_LIKELY, TEXT("the bytes are not UTF-8")};
    return DRAFT_WINDOWS_1252;
}

/* Lines that end in CR alone, as some old programs write them. */
static void mend_line_ends(buf *b) {
    if (!b->len || memchr(b->at, '\n', b->len))
        return;
    for (size_t i = 0; i < b->len; i++)
        if (b->at[i] == '\r')
            b->at[i] = '\n';
}

/* The first word with a letter beyond ASCII, so that a person can see whether the guess is right. */
static text sample_word(arena *a, text utf8) {
    for (size_t i = 0; i < utf8.len; i++) {
        if ((unsigned char)utf8.at[i] < 0x80)
            continue;
        size_t from = i, to = i;
        while (from > 0 && (utf8.at[from - 1] & 0x80 || strchr(" ,;\t\r\n\"", utf8.at[from - 1]) == NULL))
            from--;
        while (to < utf8.len && (utf8.at[to] & 0x80 || strchr(" ,;\t\r\n\"", utf8.at[to]) == NULL))
            to++;
        return utf8_clip(arena_text(a, text_slice(utf8, from, to)), 24);
    }
    return TEXT("");
}

bool draft_decode(arena *a, text bytes, draft_encoding wanted, text file, faults *f, draft_source *out) {
    draft_reason why = {DRAFT_NAMED, TEXT("so named")};
    draft_encoding e = wanted == DRAFT_ANY_ENCODING ? guess(bytes, &why) : wanted;
    buf made = {0};
    bool ok = true;
    if (e == DRAFT_WINDOWS_1252)
        ok = from_windows(bytes, file, f, &made);
    else if (e == DRAFT_UTF16_LE || e == DRAFT_UTF16_BE)
        ok = from_utf16(bytes, e == DRAFT_UTF16_LE, file, f, &made);
    else
        buf_add(&made, bytes);
    if (ok) {
        mend_line_ends(&made);
        *out = (draft_source){arena_text(a, buf_text(&made)), e, why};
        if (e == DRAFT_WINDOWS_1252 && wanted == DRAFT_ANY_ENCODING)
            out->reason.why = arena_format(a, "the bytes are not UTF-8; then it says \"%.*s\"",
                                           TEXT_ARG(sample_word(a, out->utf8)));
    }
    buf_free(&made);
    return ok;
}
