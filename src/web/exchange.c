#include "web/exchange.h"

#include <arpa/inet.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>

#include "base/sys.h"

typedef struct {
    arena *memory;
    buf body;
    bool too_large;
} exchange;

static peer *peer_of(struct MHD_Connection *c) {
    const union MHD_ConnectionInfo *i = MHD_get_connection_info(c, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    return i ? i->socket_context : NULL;
}

void exchange_connected(void *what, struct MHD_Connection *c, void **of_socket,
                        enum MHD_ConnectionNotificationCode code) {
    exchange_room *room = what;
    if (code == MHD_CONNECTION_NOTIFY_STARTED) {
        peer *l = calloc(1, sizeof *l);
        const union MHD_ConnectionInfo *fd = MHD_get_connection_info(c, MHD_CONNECTION_INFO_CONNECTION_FD);
        if (!l)
            return;
        *l = (peer){.next = room->peers,
                    .at = &room->peers,
                    .fd = fd ? fd->connect_fd : -1,
                    .since_s = sys_seconds()};
        if (l->next)
            l->next->at = &l->next;
        room->peers = l;
        *of_socket = l;
        return;
    }
    peer *l = *of_socket;
    if (!l)
        return;
    *l->at = l->next;
    if (l->next)
        l->next->at = l->at;
    free(l);
    *of_socket = NULL;
}

void exchange_cut_slow(exchange_room *room, double now_s, double patience_s) {
    for (peer *l = room->peers; l; l = l->next)
        if (!l->streams && now_s - l->since_s > patience_s && l->fd >= 0)
            shutdown(l->fd, SHUT_RDWR);
}

void exchange_done(void *room, struct MHD_Connection *c, void **own, enum MHD_RequestTerminationCode why) {
    exchange *x = *own;
    peer *l = peer_of(c);
    (void)room;
    (void)why;
    if (l) {
        l->since_s = sys_seconds();
        l->streams = false;
    }
    if (!x)
        return;
    arena_close(x->memory);
    buf_free(&x->body);
    free(x);
    *own = NULL;
}

static const char *header(struct MHD_Connection *c, const char *name) {
    const char *value = MHD_lookup_connection_value(c, MHD_HEADER_KIND, name);
    return value ? value : "";
}

static void read_address(struct MHD_Connection *c, http_request *r) {
    const union MHD_ConnectionInfo *i = MHD_get_connection_info(c, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    if (!i || !i->client_addr || i->client_addr->sa_family != AF_INET)
        return;
    struct sockaddr_in v4;
    memcpy(&v4, i->client_addr, sizeof v4);
    inet_ntop(AF_INET, &v4.sin_addr, r->address, sizeof r->address);
    r->loopback = ntohl(v4.sin_addr.s_addr) >> 24 == 127;
}

static http_request read_request(struct MHD_Connection *c, exchange *x, const char *url, bool post) {
    http_request r = {.memory = x->memory, .post = post, .path = text_of(url), .body = buf_text(&x->body)};
    const char *token = MHD_lookup_connection_value(c, MHD_COOKIE_KIND, "kitbench");
    const char *since = header(c, "Last-Event-ID");
    if (!since[0])
        since = MHD_lookup_connection_value(c, MHD_GET_ARGUMENT_KIND, "since");
    r.token = text_of(token);
    r.since = text_of(since);
    r.if_none_match = text_of(header(c, "If-None-Match"));
    r.takes_gzip = strstr(header(c, "Accept-Encoding"), "gzip") != NULL;
    read_address(c, &r);
    return r;
}

/* Nothing but our own files is ever loaded, no page may frame ours, nothing is kept unasked. */
static void add_headers(struct MHD_Response *r, const http_answer *a) {
    MHD_add_response_header(
        r, "Content-Security-Policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:;"
        " connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
    MHD_add_response_header(r, "X-Content-Type-Options", "nosniff");
    MHD_add_response_header(r, "Referrer-Policy", "no-referrer");
    MHD_add_response_header(r, "Cross-Origin-Resource-Policy", "same-origin");
    MHD_add_response_header(r, "Cache-Control", a->etag[0] ? "no-cache" : "no-store");
    if (a->type)
        MHD_add_response_header(r, "Content-Type", a->type);
    if (a->etag[0]) {
        MHD_add_response_header(r, "ETag", a->etag);
        MHD_add_response_header(r, "Vary", "Accept-Encoding");
    }
    if (a->gzipped && a->status != 304)
        MHD_add_response_header(r, "Content-Encoding", "gzip");
    if (a->cookie[0])
        MHD_add_response_header(r, "Set-Cookie", a->cookie);
}

static struct MHD_Response *make_response(const http_answer *a) {
    text body = a->status == 304 ? TEXT("") : a->fixed.len ? a->fixed : buf_text(&a->body);
    union {
        const char *in;
        void *out;
    } bytes = {body.len ? body.at : ""}; /* the library only reads them, but does not say so in its type */
    return MHD_create_response_from_buffer(body.len, bytes.out,
                                           a->fixed.len ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_COPY);
}

static enum MHD_Result send_answer(struct MHD_Connection *c, http_answer *a, bool last) {
    struct MHD_Response *r = make_response(a);
    enum MHD_Result sent = MHD_NO;
    if (r) {
        add_headers(r, a);
        if (last)
            MHD_add_response_header(r, "Connection", "close");
        sent = MHD_queue_response(c, a->status, r);
        MHD_destroy_response(r);
    }
    buf_free(&a->body);
    return sent;
}

static enum MHD_Result send_stream(exchange_room *room, struct MHD_Connection *c, const http_request *q,
                                   http_answer *a) {
    struct MHD_Response *r = live_response(room->app->live, c, q->since, a->leader);
    if (!r) {
        http_refuse(a, 503, "run", "live", "too many pages are open", "close some");
        return send_answer(c, a, true);
    }
    a->type = "text/event-stream";
    add_headers(r, a);
    peer *l = peer_of(c);
    if (l)
        l->streams = true;
    enum MHD_Result sent = MHD_queue_response(c, 200, r);
    MHD_destroy_response(r);
    return sent;
}

static enum MHD_Result begin(exchange_room *room, struct MHD_Connection *c, const char *method, void **own) {
    http_answer no = {0};
    exchange *x = calloc(1, sizeof *x);
    if (!x)
        return MHD_NO;
    x->memory = arena_open();
    *own = x;
    peer *l = peer_of(c);
    if (l)
        l->since_s = sys_seconds();
    return guard_admit(&room->app->guard, c, method, &no) ? MHD_YES : send_answer(c, &no, true);
}

enum MHD_Result exchange_handle(void *what, struct MHD_Connection *c, const char *url, const char *method,
                                const char *version, const char *upload, size_t *upload_size, void **own) {
    exchange_room *room = what;
    (void)version;
    if (!*own)
        return begin(room, c, method, own);
    exchange *x = *own;
    if (*upload_size) {
        if (x->body.len + *upload_size > HTTP_LARGEST_BODY)
            return MHD_NO; /* more than it said: cut */
        buf_add(&x->body, (text){upload, *upload_size});
        *upload_size = 0;
        return MHD_YES;
    }
    http_request r = read_request(c, x, url, strcmp(method, "POST") == 0);
    http_answer a = {0};
    app_answer(room->app, &r, &a);
    return a.live ? send_stream(room, c, &r, &a) : send_answer(c, &a, false);
}
