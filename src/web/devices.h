/* devices.h: who is at the other end: phones and laptops that joined; private to the room.
 *
 * A device joins once and shows a token from then on; the desk keeps its hash (desk/roles.h), so a restart asks nobody
 * again. Three ways in: tonight's code of four characters, made anew at each start; the leader's link, which only the
 * terminal of this run shows; and an adult's own PIN, by which the device becomes that person's own.
 */
#ifndef WEB_DEVICES_H
#define WEB_DEVICES_H

#include "desk/desk.h"

enum { DEVICES_LEADER_CODE = 10, DEVICES_MOST_LEADERS = 16 };

/* The device behind one request; its texts live in the desk's arena. */
typedef struct {
    desk_joined joined;
    bool leader; /* leads this build: came in by the leader's link, or is a leader's own */
} device;

typedef struct {
    char join_code[DESK_JOIN_CODE + 1], leader_code[DEVICES_LEADER_CODE + 1];
    char leaders[DEVICES_MOST_LEADERS]
                [40]; /* devices that came in by the leader's link, the oldest replaced */
    uint32_t n_leaders;
} devices;

/* Makes both codes; writes tonight's into the build. */
MUST_USE bool devices_open(devices *d, desk *file, err *e);

/* The device that shows `token`. False with ERR_INPUT when none does. Whose own it is, is proved for the next act. */
MUST_USE bool devices_know(const devices *d, desk *file, text token, device *out, err *e);

/* A device joins. `person` empty: by tonight's code or the leader's; else by that person's PIN. */
MUST_USE bool devices_join(devices *d, desk *file, text person, const char *code, char token[DESK_TOKEN + 1],
                           device *out, err *e);

#endif
