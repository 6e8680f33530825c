/* qr.c: a QR code as squares (ISO/IEC 18004; libqrencode makes the matrix). */
#include <errno.h>
#include <qrencode.h>

#include "picture/picture.h"

enum { QUIET_MODULES = 4 }; /* white around it, as the standard asks */

/* Dark modules that touch in a row are one box: fewer shapes, and no hair lines between them in print. */
static void add_row(picture *p, const unsigned char *row, int n, int at, double module) {
    for (int x = 0; x < n;) {
        int end = x;
        while (end < n && (row[end] & 1))
            end++;
        if (end > x)
            picture_add(p, (picture_shape){.kind = PICTURE_BOX,
                                           .x = (x + QUIET_MODULES) * module,
                                           .y = (at + QUIET_MODULES) * module,
                                           .width = (end - x) * module,
                                           .height = module,
                                           .fill = PICTURE_INK});
        x = end + (end == x);
    }
}

bool picture_qr(arena *a, text words, double side, picture *out, err *e) {
    if (!(side > 0 && side < 2000))
        return err_input(e, "QR code", "0 to 2000 points", "a side of %g points cannot be drawn", side);
    QRcode *code = QRcode_encodeString8bit(arena_z(a, words), 0, QR_ECLEVEL_M);
    if (!code)
        return errno == ERANGE ? err_input(e, "QR code", "make it shorter", "%zu bytes do not fit", words.len)
                               : err_run(e, "QR code", "close other programs", "it cannot be made");
    int n = code->width;
    double module = side / (n + 2 * QUIET_MODULES);
    *out = picture_in(a, side, side);
    for (int y = 0; y < n; y++)
        add_row(out, code->data + (ptrdiff_t)y * n, n, y, module);
    QRcode_free(code);
    return true;
}
