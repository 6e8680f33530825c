/* app.h: everything one running server knows; private to the room.
 *
 * Belongs to the one thread that serves. The planner alone has a second thread (planner.h).
 */
#ifndef WEB_APP_H
#define WEB_APP_H

#include "desk/desk.h"
#include "web/ask.h"
#include "web/assets.h"
#include "web/devices.h"
#include "web/guard.h"
#include "web/live.h"
#include "web/planner.h"
#include "web/state.h"
#include "web/web.h"

typedef struct {
    const web_setup *setup;
    arena *memory; /* of `desk`; both are made anew when it has grown */
    desk *desk;
    assets *assets;
    live *live;
    planner *planner;
    devices devices;
    guard guard;
    state *state;
    buf kit; /* what never changes, as JSON, and packed */
    buf kit_packed;
    char kit_etag[24];
    uint16_t port;
    buf plan;              /* the last one, as JSON */
    int64_t planned_entry; /* of the journal when it was asked for */
    size_t desk_fresh_bytes;
    double changed_s, beat_s, looked_s;
    bool failing;
    uint32_t reached; /* devices that opened the start-up page from another machine */
} app;

MUST_USE bool app_open(app *a, const web_setup *setup, err *e);
void app_close(app *a);

/* Answers a request that passed the guard. */
void app_answer(app *a, const http_request *r, http_answer *to);

/* Brings everything up to date with the file, and tells every page what changed. */
void app_publish(app *a);

/* Now and then: did a command beside us write something, is a plan ready? */
void app_tick(app *a);

/* One act of a device (acts.c): {"once": KEY, "do": WORD, ...}. */
void app_act(app *served, const http_request *r, device *who, http_answer *to);

/* What the terminal shows when all is ready (welcome.c). */
void welcome_say(app *a, arena *memory);

#endif
