/* server.h: sockets, HTTP and the loop; private to the room.
 *
 * One thread: the library's own set of sockets (epoll), the planner's descriptor and the signals are waited for
 * together. A connection that has not ended its request within SERVER_PATIENCE_S is cut, however slowly it goes on
 * sending.
 */
#ifndef WEB_SERVER_H
#define WEB_SERVER_H

#include <signal.h>

#include "web/app.h"

enum { SERVER_PATIENCE_S = 30, SERVER_IDLE_S = 20, SERVER_MOST_CONNECTIONS = 400, SERVER_TICK_MS = 400 };

typedef struct server server;

/* Before any thread is made: the signals that end us are read in the loop, not caught, so no code runs at a moment that
 * nobody chose. */
void server_block_signals(sigset_t *before);

/* Listens. `a` must be open and is told its port and names. */
MUST_USE bool server_open(app *a, server **out, err *e);

/* Serves until a signal asks it to end. */
void server_run(server *s);
void server_close(server *s);

#endif
