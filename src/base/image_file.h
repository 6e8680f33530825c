/* image_file.h: picture files as bytes: what one is, and how to take out of it what it says besides the picture.
 *
 * Phones write into a photo where and when it was taken and by which device. That stands in segments beside the picture
 * (JPEG: APPn and comments, ITU-T T.81 annex B; PNG: ancillary chunks, W3C PNG specification), so they can be left out
 * without touching the picture itself. How a phone was held stands there, too, and is kept.
 */
#ifndef BASE_IMAGE_FILE_H
#define BASE_IMAGE_FILE_H

#include "base/buf.h"
#include "base/text.h"

typedef enum { IMAGE_FILE_NONE, IMAGE_FILE_PNG, IMAGE_FILE_JPEG } image_file;

/* By its first bytes. */
image_file image_file_kind(text bytes);

/* "image/png", "image/jpeg"; empty for none. */
const char *image_file_type(image_file kind);

/* Copies the picture to `out` without place, time, device, thumbnails and comments; of what stood there only how the
 * phone was held stays (Exif orientation). False when it is no whole PNG or JPEG; *why is a string that lives for ever
 * then. */
MUST_USE bool image_file_strip(text bytes, buf *out, const char **why);

#endif
