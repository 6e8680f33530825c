/* exchange.h: one request from its first header to the last byte of its answer; private to the room. */
#ifndef WEB_EXCHANGE_H
#define WEB_EXCHANGE_H

#include <microhttpd.h>

#include "web/app.h"

/* What is known of a connection; a list, so that slow ones are found. */
typedef struct peer {
    struct peer *next, **at;
    int fd;
    double since_s; /* waiting for a whole request, or sending an answer, since then */
    bool streams;   /* has no end by its nature */
} peer;

typedef struct {
    app *app;
    peer *peers;
} exchange_room;

/* The library's callbacks; `room` and `what` are an exchange_room. */
enum MHD_Result exchange_handle(void *what, struct MHD_Connection *c, const char *url, const char *method,
                                const char *version, const char *upload, size_t *upload_size, void **own);
void exchange_done(void *room, struct MHD_Connection *c, void **own, enum MHD_RequestTerminationCode why);
void exchange_connected(void *what, struct MHD_Connection *c, void **of_socket,
                        enum MHD_ConnectionNotificationCode code);

/* Cuts what has waited longer than `patience_s`. */
void exchange_cut_slow(exchange_room *room, double now_s, double patience_s);

#endif
