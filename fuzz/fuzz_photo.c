/* Any bytes as a photo: what comes out is a picture of the same kind, no longer than what went in but for the kept
 * orientation, and taking the rest out once more changes nothing. */
#include <stdint.h>
#include <stdlib.h>

#include "base/image_file.h"

enum { ORIENTATION_BYTES = 36 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    text bytes = {(const char *)data, size};
    buf once = {0}, twice = {0};
    const char *why = NULL;
    if (image_file_strip(bytes, &once, &why)) {
        if (image_file_kind(buf_text(&once)) != image_file_kind(bytes) ||
            once.len > size + ORIENTATION_BYTES || !image_file_strip(buf_text(&once), &twice, &why) ||
            !text_equal(buf_text(&once), buf_text(&twice)))
            abort();
    } else if (!why || once.len) {
        abort();
    }
    buf_free(&once);
    buf_free(&twice);
    return 0;
}
