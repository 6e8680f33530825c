/* Pictures of a kit: any bytes are refused or drawn into a PDF. */
#include <cairo-pdf.h>
#include <stdint.h>
#include <stdlib.h>

#include "paper/image.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    image i;
    const char *why = NULL;
    if (!image_open((text){(const char *)data, size}, &i, &why)) {
        if (!why || i.surface)
            abort();
        return 0;
    }
    cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(NULL, NULL, 300, 300);
    cairo_t *cr = cairo_create(pdf);
    sheet s = {.cr = cr};
    image_draw(&s, &i, 0, 0, 200, 200);
    cairo_destroy(cr);
    cairo_surface_destroy(pdf);
    image_close(&i);
    return 0;
}
