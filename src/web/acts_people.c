/* acts_people.c: the crew, its dates and who comes, as pages change them. What a change unsettles elsewhere is told in
 * the answer's list and does not stop it. */
#include <string.h>

#include "web/acts.h"

static bool read_answer(act *a, const char *key, desk_answer *out, err *e) {
    bool yes;
    *out = DESK_AS_IT_IS;
    if (!json_object_get(a->in, key))
        return true;
    if (!ask_bool(a->in, key, &yes, e))
        return false;
    *out = yes ? DESK_YES : DESK_NO;
    return true;
}

static bool read_change(act *a, desk_person_change *c, err *e) {
    const char *name, *supervises;
    if (!ask_text(a->in, "name", &name, e) || !read_answer(a, "adult", &c->adult, e) ||
        !read_answer(a, "leader", &c->leader, e) ||
        !ask_names(a->memory, a->in, "supervises", &supervises, e))
        return false;
    c->name = name[0] ? name : NULL;
    c->supervises = json_object_get(a->in, "supervises") ? supervises : NULL;
    return true;
}

bool act_add_person(act *a, err *e) {
    desk_person_change c = {0};
    text number;
    return read_change(a, &c, e) && desk_add_person(a->desk, &c, a->by, &a->mind, &number, e);
}

bool act_change_person(act *a, err *e) {
    desk_person_change c = {0};
    const char *person;
    return ask_word(a->in, "person", &person, e) && read_change(a, &c, e) &&
           desk_change_person(a->desk, text_of(person), &c, a->by, &a->mind, e);
}

bool act_remove_person(act *a, err *e) {
    const char *person;
    return ask_word(a->in, "person", &person, e) &&
           desk_remove_person(a->desk, text_of(person), a->by, &a->mind, e);
}

bool act_add_sessions(act *a, err *e) {
    const char *rule;
    int64_t first;
    uint32_t n;
    return ask_word(a->in, "rule", &rule, e) &&
           desk_add_sessions(a->desk, text_of(rule), -1, -1, a->by, &a->mind, &first, &n, e);
}

bool act_cancel_session(act *a, err *e) {
    int64_t session;
    bool cancelled;
    return ask_integer(a->in, "session", 1, 9999, 0, &session, e) &&
           ask_bool(a->in, "cancelled", &cancelled, e) &&
           desk_cancel_session(a->desk, session, cancelled, a->by, &a->mind, e);
}

static bool read_clock(act *a, const char *key, int *out, err *e) {
    const char *clock;
    *out = -1;
    if (!ask_text(a->in, key, &clock, e))
        return false;
    return !clock[0] || date_read_clock(text_of(clock), out) ||
           err_input(e, key, "write it like 18:30", "it is no time of day");
}

bool act_attend(act *a, err *e) {
    int64_t session;
    const char *person;
    bool comes;
    int from, until;
    return ask_integer(a->in, "session", 1, 9999, 0, &session, e) && ask_word(a->in, "person", &person, e) &&
           ask_bool(a->in, "comes", &comes, e) && read_clock(a, "from", &from, e) &&
           read_clock(a, "until", &until, e) &&
           desk_attend(a->desk, session, text_of(person), comes, from, until, a->by, &a->mind, e);
}
