/* assets.h: the pages' own files, inside the executable; private to the room. */
#ifndef WEB_ASSETS_H
#define WEB_ASSETS_H

#include "web/http.h"

typedef struct assets assets;

/* Packs every file once with gzip and names it by a hash of its bytes. */
assets *assets_open(void);
void assets_close(assets *a);

/* Answers with the file at `path`, or with "not changed" when the other side has it. False: there is no such file. */
bool assets_answer(const assets *a, const http_request *r, text path, http_answer *to);

/* `bytes` as gzip writes them (RFC 1952), added to `out`. */
void assets_gzip(text bytes, buf *out);

/* A short name for bytes: FNV-1a, 64 bits, as a quoted ETag. Tells versions of one thing apart, proves nothing. */
void assets_etag(text bytes, char out[24]);

#endif
