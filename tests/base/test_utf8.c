/* UTF-8: every code point, and every way to be malformed, against the definition in RFC 3629 done the slow way. */
#include <string.h>

#include "base/utf8.h"
#include "support/check.h"

/* RFC 3629, section 3: the bytes of a code point. */
static size_t encode(uint32_t point, unsigned char out[4]) {
    if (point < 0x80) {
        out[0] = (unsigned char)point;
        return 1;
    }
    size_t n = point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
    for (size_t i = n - 1; i > 0; i--, point >>= 6)
        out[i] = (unsigned char)(0x80 | (point & 0x3F));
    static const unsigned char leads[] = {0, 0, 0xC0, 0xE0, 0xF0};
    out[0] = (unsigned char)(leads[n] | point);
    return n;
}

static bool is_scalar(uint32_t point) {
    return point <= 0x10FFFF && !(point >= 0xD800 && point <= 0xDFFF);
}

/* Is this one well-formed sequence? Decoded by the bit pattern of its first byte, then encoded again: only the shortest
 * form of a scalar value comes back the same. */
static bool is_one_sequence(const unsigned char *b, size_t n) {
    size_t length = b[0] < 0x80             ? 1
                    : (b[0] & 0xE0) == 0xC0 ? 2
                    : (b[0] & 0xF0) == 0xE0 ? 3
                    : (b[0] & 0xF8) == 0xF0 ? 4
                                            : 0;
    if (length != n)
        return false;
    uint32_t point = n == 1 ? b[0] : b[0] & (0xFFU >> (n + 1));
    for (size_t i = 1; i < n; i++) {
        if ((b[i] & 0xC0) != 0x80)
            return false;
        point = point << 6 | (b[i] & 0x3F);
    }
    unsigned char again[4];
    return is_scalar(point) && encode(point, again) == n && memcmp(again, b, n) == 0;
}

static void every_code_point_is_read(void **state) {
    (void)state;
    for (uint32_t point = 0; point <= 0x10FFFF; point++) {
        unsigned char b[4];
        size_t n = encode(point, b), length = 0;
        text t = {(const char *)b, n};
        bool good = utf8_fault(t) < 0;
        if (good != is_scalar(point))
            fail_msg("U+%04X is %s", point, good ? "accepted" : "refused");
        if (!good)
            continue;
        assert_int_equal(utf8_point(t, 0, &length), point);
        assert_int_equal(length, n);
        assert_int_equal(utf8_count(t), 1);
    }
}

/* All sequences of one to three bytes from 80 on, and all of four with every first, second and third and some fourth
 * bytes: is the first fault where it should be? */
static void every_malformed_sequence_is_found(void **state) {
    (void)state;
    static const unsigned char last[] = {0x00, 0x41, 0x7F, 0x80, 0x9A, 0xBF, 0xC0, 0xFF};
    unsigned char b[4];
    for (unsigned lead = 0x80; lead <= 0xFF; lead++) {
        b[0] = (unsigned char)lead;
        assert_int_equal(utf8_fault((text){(char *)b, 1}), 0);
        for (unsigned second = 0; second <= 0xFF; second++) {
            b[1] = (unsigned char)second;
            if ((utf8_fault((text){(char *)b, 2}) != 0) != is_one_sequence(b, 2))
                fail_msg("%02X %02X", b[0], b[1]);
            for (unsigned third = 0; third <= 0xFF; third++) {
                b[2] = (unsigned char)third;
                if (!is_one_sequence(b, 2) &&
                    (utf8_fault((text){(char *)b, 3}) != 0) != is_one_sequence(b, 3))
                    fail_msg("%02X %02X %02X", b[0], b[1], b[2]);
                for (size_t i = 0; lead >= 0xF0 && i < sizeof last; i++) {
                    b[3] = last[i];
                    if ((utf8_fault((text){(char *)b, 4}) != 0) != is_one_sequence(b, 4))
                        fail_msg("%02X %02X %02X %02X", b[0], b[1], b[2], b[3]);
                }
            }
        }
    }
}

static void the_first_fault_is_told(void **state) {
    (void)state;
    assert_int_equal(utf8_fault(TEXT("")), -1);
    assert_int_equal(utf8_fault((text){NULL, 0}), -1);
    assert_int_equal(utf8_fault(TEXT("plain")), -1);
    assert_int_equal(utf8_fault(TEXT("a\xC3\xA4\xFFz\xFF")), 3);
    assert_int_equal(utf8_fault(TEXT("abc\xE2\x82")), 3);              /* cut short */
    assert_int_equal(utf8_fault(TEXT("\xE2\x82\xAC\xED\xA0\x80")), 3); /* half of a pair */
}

static void widths_are_columns(void **state) {
    (void)state;
    static const struct {
        const char *t;
        size_t width, points;
    } cases[] = {{"", 0, 0},
                 {"M8x25", 5, 5},
                 {"Gr\xC3\xB6\xC3\x9F"
                  "e",
                  5, 5},
                 {"e\xCC\x81", 1, 2},
                 {"\xE6\x97\xA5\xE6\x9C\xAC", 4, 2}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        text t = text_of(cases[i].t);
        assert_int_equal(utf8_width(t), cases[i].width);
        assert_int_equal(utf8_count(t), cases[i].points);
        for (size_t columns = 0; columns <= cases[i].width + 1; columns++) {
            text clipped = utf8_clip(t, columns);
            assert_true(utf8_fault(clipped) < 0 && utf8_width(clipped) <= columns && text_starts(t, clipped));
            if (columns >= cases[i].width)
                assert_true(text_equal(clipped, t));
        }
    }
}

static void names_fold_together(void **state) {
    (void)state;
    arena *a = arena_open();
    assert_true(text_is(utf8_fold(a,
                                  TEXT("Stra\xC3\x9F"
                                       "E"),
                                  false),
                        "strasse"));
    assert_true(text_is(utf8_fold(a, TEXT("\xC3\x84rmel"), true), "armel"));
    assert_true(text_equal(utf8_fold(a, TEXT("e\xCC\x81"), false), utf8_fold(a, TEXT("\xC3\x89"), false)));
    assert_true(text_is(utf8_fold(a, TEXT("m\xC2\xB2"), false), "m2")); /* NFKC */
    assert_true(text_is(utf8_fold(a, TEXT(""), true), ""));
    arena_close(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_code_point_is_read), cmocka_unit_test(every_malformed_sequence_is_found),
        cmocka_unit_test(the_first_fault_is_told),  cmocka_unit_test(widths_are_columns),
        cmocka_unit_test(names_fold_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
