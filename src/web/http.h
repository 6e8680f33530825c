/* http.h: a request and its answer as the rest of the room sees them; private to the room.
 *
 * Only server.c, live.c and guard.c know the library that speaks HTTP. A request has passed the guard: its host is
 * one of ours, its body is whole and within the limit, a POST came from our own pages.
 */
#ifndef WEB_HTTP_H
#define WEB_HTTP_H

#include <stdint.h>

#include "base/buf.h"
#include "base/err.h"

enum { HTTP_LARGEST_BODY = 256 * 1024 /* a photo in Base64 fits */ };

typedef struct {
    arena *memory; /* lives as long as the exchange */
    bool post;
    text path;  /* without the query */
    text token; /* of the device, from its cookie; empty: none */
    text if_none_match;
    text since;       /* last event that a live stream saw; empty: none */
    text body;        /* of a POST */
    char address[64]; /* of the other side */
    bool takes_gzip, loopback;
} http_request;

typedef struct {
    unsigned status;
    const char *type; /* of the body */
    buf body;         /* owned by the answer */
    text fixed;       /* or bytes that outlive the server */
    bool gzipped;     /* the bytes are */
    char etag[24];    /* empty: never kept */
    char cookie[192]; /* to set; empty: none */
    bool live;        /* a stream of events; nothing else counts then */
    bool leader;      /* of a stream */
} http_answer;

/* The one form of failures: {"error": {"kind", "place", "cause", "remedy", "reasons": []}}. Replaces what the answer
 * holds. */
void http_refuse(http_answer *to, unsigned status, const char *kind, const char *place, const char *cause,
                 const char *remedy);
void http_refuse_reasons(http_answer *to, const char *kind, const char *place, const text *reasons,
                         uint32_t n);
void http_refuse_err(http_answer *to, const err *e);

#endif
