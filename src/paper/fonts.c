#include "paper/fonts.h"

#include <errno.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangofc-fontmap.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "base/sys.h"

extern const char paper_font_regular[], paper_font_regular_end[];
extern const char paper_font_bold[], paper_font_bold_end[];

enum { N_FONTS = 2 };

struct fonts {
    int files[N_FONTS]; /* open as long as the map lives: glyphs are read when they are first drawn */
    FcConfig *config;
    PangoFontMap *map;
};

static bool write_whole(int fd, const char *at, size_t size) {
    while (size) {
        ssize_t n = sys_fault("write") ? -1 : write(fd, at, size);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        at += n;
        size -= (size_t)n;
    }
    return true;
}

static bool add_font(fonts *f, int i, const char *at, const char *end, err *e) {
    f->files[i] = memfd_create("font", MFD_CLOEXEC);
    if (f->files[i] < 0 || !write_whole(f->files[i], at, (size_t)(end - at)))
        return err_run(e, "fonts", "", "no memory file can be made for a font (%s)", strerror(errno));
    char path[64];
    snprintf(path, sizeof path, "/proc/self/fd/%d", f->files[i]);
    if (!FcConfigAppFontAddFile(f->config, (const FcChar8 *)path))
        return err_run(e, "fonts", "is /proc mounted?", "%s cannot be read as a font", path);
    return true;
}

/* As long as there is a current configuration, pango does not load the system's, which nothing here would use. */
static void forget_the_system(void) {
    FcConfig *empty = FcConfigCreate();
    FcConfigSetCurrent(empty);
    FcConfigDestroy(empty);
}

bool fonts_open(fonts **out, err *e) {
    fonts *f = calloc(1, sizeof *f);
    if (!f)
        return err_run(e, "fonts", "", "out of memory");
    for (int i = 0; i < N_FONTS; i++)
        f->files[i] = -1;
    f->config = FcConfigCreate();
    forget_the_system();
    if (!add_font(f, 0, paper_font_regular, paper_font_regular_end, e) ||
        !add_font(f, 1, paper_font_bold, paper_font_bold_end, e)) {
        fonts_close(f);
        return false;
    }
    f->map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(f->map), f->config);
    *out = f;
    return true;
}

void fonts_close(fonts *f) {
    if (!f)
        return;
    if (f->map) {
        /* pango 1.50 keeps its reference to the configuration when the map ends, so it is taken away before */
        pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(f->map), NULL);
        g_object_unref(f->map);
    }
    if (f->config)
        FcConfigDestroy(f->config);
    for (int i = 0; i < N_FONTS; i++)
        if (f->files[i] >= 0)
            close(f->files[i]);
    free(f);
}

PangoFontMap *fonts_map(const fonts *f) {
    return f->map;
}
