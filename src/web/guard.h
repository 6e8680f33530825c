/* guard.h: what every request must keep before anything else looks at it; private to the room.
 *
 * - Host is one of the names and addresses we serve (a page of another site must not reach us under a name of its own
 *   that points here);
 * - a POST carries our own Origin and JSON (a form of another site can send neither);
 * - one Host, one Content-Length, no Transfer-Encoding: nothing that two readers could cut differently;
 * - a body of at most HTTP_LARGEST_BODY bytes;
 * - wrong codes: after five from one address within a minute no code of it is read for a minute.
 */
#ifndef WEB_GUARD_H
#define WEB_GUARD_H

#include <microhttpd.h>

#include "web/http.h"

enum { GUARD_MOST_HOSTS = 24, GUARD_ADDRESSES = 64, GUARD_TRIES = 5, GUARD_WAIT_S = 60 };

typedef struct {
    char hosts[GUARD_MOST_HOSTS][128]; /* "name:port", lower case */
    int n_hosts;
    bool tls;
    struct {
        char address[64];
        double since;
        int wrong;
    } tries[GUARD_ADDRESSES];
} guard;

/* Adds a name or address by which this server is reached. One that does not fit is passed over. */
void guard_add_host(guard *g, const char *host, uint16_t port);

/* True when the request may go on; otherwise `no` says why not. */
MUST_USE bool guard_admit(const guard *g, struct MHD_Connection *c, const char *method, http_answer *no);

/* May this address try a code now? A wrong one is told by guard_wrong_code. */
bool guard_may_try(const guard *g, const char *address, double now_s);
void guard_wrong_code(guard *g, const char *address, double now_s);

#endif
