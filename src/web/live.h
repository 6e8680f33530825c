/* live.h: the live stream, by which every page sees within a second what somebody else entered; private to the room.
 *
 * GET /api/live?since=ID is a stream of server-sent events (text/event-stream). ID is the `at` of the state that the page
 * holds, or the id of the last event it saw (a browser that connects again sends that one as Last-Event-ID, which counts
 * first). It must belong to a device that joined; otherwise the answer is 401 in the usual form of failures.
 *
 *   id: RUN-N          RUN names this run of the server, N counts its events without gaps
 *   event: change      data: {"at": ID, "set": {KEY: VALUE, ...}, "drop": [KEY, ...]}
 *                      The page puts VALUE under KEY and forgets the keys in "drop". It then holds the state of ID.
 *   event: again       data: {}. The page is too far behind, or knows another run: it fetches /api/state anew.
 *   : (a comment)      every 15 seconds, so that either side notices when the other has gone
 *
 * Keys for the leader alone are in the leader's streams only. The server keeps the last LIVE_KEPT events once for all
 * streams; a stream that never reads costs nothing but its place and is cut with its connection.
 */
#ifndef WEB_LIVE_H
#define WEB_LIVE_H

#include <microhttpd.h>

#include "web/http.h"

enum { LIVE_KEPT = 256, LIVE_MOST_STREAMS = 150, LIVE_BEAT_S = 15 };

typedef struct live live;

live *live_open(err *e);

/* Lets all streams end; run the daemon once more before it is stopped, since none may be suspended then. */
void live_end_all(live *l);
void live_close(live *l);

/* The id of the last event. */
void live_at(const live *l, char out[40]);

/* The id that the next event will have. */
void live_next(const live *l, char out[40]);

/* Sends an event; `leader` is what leaders get instead of `all`. One line of JSON each. */
void live_send(live *l, text all, text leader);

/* A comment to every stream that waits. */
void live_beat(live *l);

uint32_t live_streams(const live *l);

/* A response that streams from event `since` on. NULL when there are too many. */
struct MHD_Response *live_response(live *l, struct MHD_Connection *c, text since, bool leader);

#endif
