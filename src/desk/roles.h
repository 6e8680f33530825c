/* roles.h: who may say what, and from which device; part of desk.h, which includes it.
 *
 * Without any person's code everybody is taken at their word. Once a person has a code (a PIN), whatever an adult has to
 * say - a supervised start, a sign-off, the correction of one - must be proved: by that person's code, or by a device
 * that is that person's own. A proof holds for the next act of this desk and no further.
 *
 * Codes are kept as Argon2id hashes. After DESK_MOST_TRIES wrong tries in a row a person's code is locked, which is kept
 * in the file, until a leader sets a new one. A code of a few digits protects against somebody at a phone, not against
 * somebody who has the file.
 */
#ifndef DESK_ROLES_H
#define DESK_ROLES_H

#include "base/text.h"

enum {
    DESK_MOST_TRIES = 5,       /* of a person's code */
    DESK_MOST_JOIN_TRIES = 20, /* of the code to join with, by all devices together */
    DESK_JOIN_CODE = 4,        /* characters of a code to join with */
    DESK_TOKEN = 32            /* characters of a device's token */
};

typedef enum { DESK_LEARNER, DESK_SUPERVISOR, DESK_LEADER } desk_role;

const char *desk_role_word(desk_role r); /* "learner", "supervisor", "leader" */

/* What a person of the crew is: leaders lead, other adults supervise, the rest learn. Numbers of nobody: a learner. */
desk_role desk_role_of(const struct desk *d, text person);

typedef struct {
    text person; /* by number; empty: the code to join with */
    bool locked;
    int64_t wrong_tries;
} desk_code;

/* The codes that are set (never what they are); in the desk's arena. */
MUST_USE bool desk_codes(const struct desk *d, desk_code **out, uint32_t *n, err *e);

/* Sets an adult's code, or takes it away (`code` NULL). `person` is a name or number. At least 4 characters, not all the
 * same and not counting up or down. Once a leader has a code, only a leader who proved it, or the person self, may. */
MUST_USE bool desk_set_code(struct desk *d, text person, const char *code, desk_who who, err *e);

/* Takes all codes away, with a reason, when nobody knows them any more: whoever has the file can do so anyway, and the
 * journal tells it. */
MUST_USE bool desk_clear_codes(struct desk *d, const char *reason, desk_who who, err *e);

/* `code` is the person's: then what the person says in the next act is proved. False (ERR_INPUT) when it is wrong, with
 * how many tries are left, or locked. */
MUST_USE bool desk_prove(struct desk *d, text person, const char *code, err *e);

/* Is the person's word enough, or proved for the next act? */
bool desk_is_proved(const struct desk *d, text person);

/* Has this person (a name or number) to prove what an adult says? False for learners, and without codes. */
bool desk_needs_proof(const struct desk *d, text person);

/* ---- devices ---- */

typedef struct {
    text device; /* "phone 3": stands in the journal */
    text person; /* whose own it is; empty: shared */
    desk_role role;
    text place; /* the table it lies on; may be empty */
} desk_joined;

/* A new code to join with, which replaces the old one: letters and digits that nobody mixes up. Devices that joined
 * stay. */
MUST_USE bool desk_new_join_code(struct desk *d, char code[DESK_JOIN_CODE + 1], desk_who who, err *e);

/* A device joins: with the code to join (`person` empty), or as somebody's own with that person's code. It keeps `token`
 * and shows it with whatever it sends. */
MUST_USE bool desk_join(struct desk *d, text person, const char *code, char token[DESK_TOKEN + 1],
                        desk_joined *out, err *e);

/* Which device shows this token: ERR_INPUT when none does. If it is somebody's own, that person is proved for the next
 * act. */
MUST_USE bool desk_know_device(struct desk *d, text token, desk_joined *out, err *e);

/* "Now here": the table on which the device lies. */
MUST_USE bool desk_place_device(struct desk *d, text device, text place, err *e);

/* The device is asked for a code again. */
MUST_USE bool desk_drop_device(struct desk *d, text device, err *e);

/* All devices that joined; in the desk's arena. */
MUST_USE bool desk_devices(const struct desk *d, desk_joined **out, uint32_t *n, err *e);

/* The act that was given this name (desk_who.once) by a device that did not hear the answer; 0: it was never written. */
MUST_USE bool desk_find_once(const struct desk *d, text once, int64_t *act, err *e);

#endif
