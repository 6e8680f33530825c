#include "web/devices.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

#include "base/sys.h"

/* No 0 and O, 1 and I: people may read it off the terminal and type it. */
static const char letters[] = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
_Static_assert(sizeof letters == 33, "32 letters, so that a byte gives each as often");

static bool make_leader_code(char *to, err *e) {
    unsigned char random[DEVICES_LEADER_CODE];
    if (!sys_random(random, sizeof random, e))
        return false;
    for (int i = 0; i < DEVICES_LEADER_CODE; i++)
        to[i] = letters[random[i] % 32];
    to[DEVICES_LEADER_CODE] = '\0';
    return true;
}

bool devices_open(devices *d, desk *file, err *e) {
    desk_who who = {.device = desk_device(file->memory)};
    return make_leader_code(d->leader_code, e) && desk_new_join_code(file, d->join_code, who, e);
}

static bool is_leader(const devices *d, const desk_joined *one) {
    for (uint32_t i = 0; i < d->n_leaders && i < DEVICES_MOST_LEADERS; i++)
        if (text_is(one->device, d->leaders[i]))
            return true;
    return one->role == DESK_LEADER;
}

bool devices_know(const devices *d, desk *file, text token, device *out, err *e) {
    file->n_proved = 0; /* what another device proved is not this one's */
    if (token.len != DESK_TOKEN)
        return err_input(e, "device", "type the code that the laptop shows", "this device has not joined");
    if (!desk_know_device(file, token, &out->joined, e))
        return false;
    out->leader = is_leader(d, &out->joined);
    return true;
}

static bool is_leader_code(const devices *d, const char *code) {
    return strlen(code) == DEVICES_LEADER_CODE &&
           sodium_memcmp(code, d->leader_code, DEVICES_LEADER_CODE) == 0;
}

bool devices_join(devices *d, desk *file, text person, const char *code, char token[DESK_TOKEN + 1],
                  device *out, err *e) {
    bool leads = !person.len && is_leader_code(d, code);
    file->n_proved = 0;
    if (!desk_join(file, person, leads ? d->join_code : code, token, &out->joined, e))
        return false;
    if (leads) {
        char *place = d->leaders[d->n_leaders++ % DEVICES_MOST_LEADERS];
        snprintf(place, sizeof d->leaders[0], "%.*s", TEXT_ARG(out->joined.device));
    }
    out->leader = is_leader(d, &out->joined);
    return true;
}
