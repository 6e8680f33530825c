/* web.h: serves a build to the phones and the laptop of a workshop until it is told to stop.
 *
 * One process, one thread for sockets, timers and the only writing connection; plans are made in a second thread that
 * opens the file for reading. Commands beside a running server write to the file by themselves: the file's lock lets
 * one act in at a time, and the server sees what they wrote within half a second.
 *
 * Plain HTTP unless a certificate is given: whoever shares the Wi-Fi can listen. The pages say so.
 */
#ifndef WEB_WEB_H
#define WEB_WEB_H

#include <stdint.h>

#include "base/buf.h"
#include "base/err.h"

enum { WEB_USUAL_PORT = 8460, WEB_MOST_WIFI = 63 };

typedef struct {
    const char *file;
    uint16_t port;                         /* 0: any that is free */
    bool lan;                              /* reachable from other machines; otherwise from this one only */
    const char *name;                      /* host name by which phones reach this machine, or NULL */
    const char *wifi;                      /* name of the Wi-Fi to show a QR for, or NULL */
    const char *wifi_password;             /* or NULL: an open Wi-Fi */
    const char *certificate, *private_key; /* files in PEM; both or none */

    /* Gets what the terminal shows, once the server listens and whenever there is news. */
    void (*say)(void *user, text words);
    void *user;
} web_setup;

/* Serves until SIGINT or SIGTERM. ERR_INPUT: no such build, a name or certificate that is none; ERR_RUN: the port is taken. */
MUST_USE bool web_serve(const web_setup *setup, err *e);

#endif
