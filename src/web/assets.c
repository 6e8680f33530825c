#include "web/assets.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#define ZLIB_CONST /* the bytes to pack are only read */
#include <zlib.h>

#define PAGE(name) extern const char web_page_##name[], web_page_##name##_end[]
PAGE(shell);
PAGE(style);
PAGE(main);
PAGE(store);
PAGE(dom);
PAGE(words);
PAGE(words_de);
PAGE(stock);
PAGE(work);
PAGE(people);
PAGE(hello);
PAGE(hello_script);

typedef struct {
    const char *path, *type, *from, *to;
} page_file;

#define HTML "text/html; charset=utf-8"
#define SCRIPT "text/javascript; charset=utf-8"
#define FILE_OF(name) web_page_##name, web_page_##name##_end

static const page_file files[] = {
    {"/", HTML, FILE_OF(shell)},
    {"/hello", HTML, FILE_OF(hello)},
    {"/hello.js", SCRIPT, FILE_OF(hello_script)},
    {"/style.css", "text/css; charset=utf-8", FILE_OF(style)},
    {"/main.js", SCRIPT, FILE_OF(main)},
    {"/store.js", SCRIPT, FILE_OF(store)},
    {"/dom.js", SCRIPT, FILE_OF(dom)},
    {"/words.js", SCRIPT, FILE_OF(words)},
    {"/words-de.js", SCRIPT, FILE_OF(words_de)},
    {"/stock.js", SCRIPT, FILE_OF(stock)},
    {"/work.js", SCRIPT, FILE_OF(work)},
    {"/people.js", SCRIPT, FILE_OF(people)},
};
enum { N_FILES = sizeof files / sizeof files[0] };

struct assets {
    struct {
        buf packed;
        char etag[24];
    } of[N_FILES];
};

void assets_etag(text bytes, char out[24]) {
    uint64_t h = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < bytes.len; i++)
        h = (h ^ (unsigned char)bytes.at[i]) * UINT64_C(1099511628211);
    snprintf(out, 24, "\"%016" PRIx64 "\"", h);
}

void assets_gzip(text bytes, buf *out) {
    z_stream z = {0};
    if (deflateInit2(&z, Z_BEST_COMPRESSION, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) != Z_OK)
        return;
    unsigned char part[16384];
    z.next_in = (const Bytef *)bytes.at;
    z.avail_in = (uInt)bytes.len;
    for (int state = Z_OK; state == Z_OK;) {
        z.next_out = part;
        z.avail_out = sizeof part;
        state = deflate(&z, Z_FINISH);
        buf_add(out, (text){(const char *)part, sizeof part - z.avail_out});
    }
    deflateEnd(&z);
}

static text bytes_of(const page_file *f) {
    return (text){f->from, (size_t)(f->to - f->from)};
}

assets *assets_open(void) {
    assets *a = calloc(1, sizeof *a);
    for (int i = 0; a && i < N_FILES; i++) {
        assets_etag(bytes_of(&files[i]), a->of[i].etag);
        assets_gzip(bytes_of(&files[i]), &a->of[i].packed);
    }
    return a;
}

void assets_close(assets *a) {
    for (int i = 0; a && i < N_FILES; i++)
        buf_free(&a->of[i].packed);
    free(a);
}

bool assets_answer(const assets *a, const http_request *r, text path, http_answer *to) {
    for (int i = 0; i < N_FILES; i++) {
        if (!text_is(path, files[i].path))
            continue;
        to->status = text_is(r->if_none_match, a->of[i].etag) ? 304 : 200;
        to->type = files[i].type;
        snprintf(to->etag, sizeof to->etag, "%s", a->of[i].etag);
        to->gzipped = r->takes_gzip;
        to->fixed = r->takes_gzip ? buf_text(&a->of[i].packed) : bytes_of(&files[i]);
        return true;
    }
    return false;
}
