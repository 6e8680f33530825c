/* Taking out of photos what they say besides the picture. The photos are written here byte by byte, as ITU-T T.81
 * (annex B), TIFF 6.0 and the PNG specification lay them out. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/image_file.h"

#define TABLES "\xFF\xDB\0\x04QT" /* a table with two bytes in it */
#define FRAME "\xFF\xC0\0\x04WH"
#define SCAN "\xFF\xDA\0\x04SS\x12\xFF\0\x34\xFF\xD3\x56"
#define COMMENT "\xFF\xFE\0\x10Pine Hill 12\0\0"
#define JFIF "\xFF\xE0\0\x07JFIF\0"

/* Little-endian Exif: two entries, the place (GPS directory) and the orientation 6. */
#define EXIF                                                                                                 \
    "\xFF\xE1\0\x2E"                                                                                         \
    "Exif\0\0"                                                                                               \
    "II\x2A\0\x08\0\0\0"                                                                                     \
    "\x02\0"                                                                                                 \
    "\x25\x88\x04\0\x01\0\0\0HERE"                                                                           \
    "\x12\x01\x03\0\x01\0\0\0\x06\0\0\0"                                                                     \
    "\0\0\0\0"

static text strip(buf *out, text bytes) {
    const char *why;
    buf_clear(out);
    return image_file_strip(bytes, out, &why) ? buf_text(out) : TEXT("");
}

static void test_jpeg(void **state) {
    (void)state;
    buf out = {0};
    text t = strip(&out, TEXT("\xFF\xD8" JFIF EXIF COMMENT TABLES FRAME SCAN COMMENT TABLES SCAN "\xFF\xD9"
                              "and a second picture"));
    static const char wanted[] = "\xFF\xD8\xFF\xE1\0\x22"
                                 "Exif\0\0"
                                 "MM\0\x2A\0\0\0\x08\0\x01"
                                 "\x01\x12\0\x03\0\0\0\x01\0\x06\0\0"
                                 "\0\0\0\0" JFIF TABLES FRAME SCAN TABLES SCAN "\xFF\xD9";
    assert_int_equal(t.len, sizeof wanted - 1);
    assert_memory_equal(t.at, wanted, sizeof wanted - 1);
    assert_int_equal(text_find(t, TEXT("HERE")), -1);
    /* Once more changes nothing. */
    buf again = {0};
    assert_true(text_equal(strip(&again, t), t));
    buf_free(&again);
    /* Without an orientation no Exif is made. */
    t = strip(&out, TEXT("\xFF\xD8" COMMENT TABLES SCAN "\xFF\xD9"));
    assert_true(text_equal(t, TEXT("\xFF\xD8" TABLES SCAN "\xFF\xD9")));
    buf_free(&out);
}

#define CHUNK(name, bytes) "\0\0\0\x04" name bytes "CRC!"

static void test_png(void **state) {
    (void)state;
    buf out = {0};
    text t = strip(&out, TEXT("\x89PNG\r\n\x1a\n" CHUNK("IHDR", "head") CHUNK("eXIf", "HERE")
                                  CHUNK("tEXt", "Pine") CHUNK("gAMA", "1234") CHUNK("IDAT", "data")
                                      CHUNK("tIME", "2027") CHUNK("IEND", "none") "and more"));
    assert_true(text_equal(t, TEXT("\x89PNG\r\n\x1a\n" CHUNK("IHDR", "head") CHUNK("gAMA", "1234")
                                       CHUNK("IDAT", "data") CHUNK("IEND", "none"))));
    buf_free(&out);
}

/* Cut off anywhere, or with any byte changed: it is refused or comes out whole, never read beyond its end (ASan). */
static void test_damaged(void **state) {
    (void)state;
    static const char jpeg[] = "\xFF\xD8" JFIF EXIF COMMENT TABLES FRAME SCAN "\xFF\xD9";
    size_t len = sizeof jpeg - 1;
    buf out = {0};
    for (size_t cut = 0; cut < len; cut++)
        assert_int_equal(strip(&out, (text){jpeg, cut}).len, 0);
    unsigned whole = 0;
    for (size_t at = 0; at < len; at++)
        for (int value = 0; value < 256; value += 5) {
            char changed[sizeof jpeg];
            memcpy(changed, jpeg, sizeof jpeg);
            changed[at] = (char)value;
            text t = strip(&out, (text){changed, len});
            whole += t.len > 0;
            assert_true(t.len <= len);
        }
    assert_true(whole > 1000); /* most bytes are the picture's own */
    const char *why;
    assert_false(image_file_strip(TEXT("GIF89a"), &out, &why));
    assert_string_equal(why, "it is neither PNG nor JPEG");
    buf_free(&out);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_jpeg), cmocka_unit_test(test_png),
                                       cmocka_unit_test(test_damaged)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
