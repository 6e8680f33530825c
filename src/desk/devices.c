/* devices.c: phones and laptops that joined: by a code, to a table, or as somebody's own. */
#include "base/sys.h"
#include "desk/reasons.h"
#include "desk/secret.h"

_Static_assert((int)DESK_TOKEN == (int)SECRET_TOKEN, "one length of tokens");

/* Without 0 O 1 I L, which a beginner mixes up on a glaring screen. */
static const char join_alphabet[] = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";

bool desk_new_join_code(desk *d, char code[DESK_JOIN_CODE + 1], desk_who who, err *e) {
    if (!secret_pick(text_of(join_alphabet), code, DESK_JOIN_CODE, e))
        return false;
    code[DESK_JOIN_CODE] = 0;
    return roles_set_join_code(d, text_of(code), who, e);
}

static desk_joined told(const desk *d, const store_device *s) {
    return (desk_joined){s->device, s->person, desk_role_of(d, s->person), s->place};
}

static const store_device *find_device(const store_device *list, uint32_t n, text device) {
    for (uint32_t i = 0; i < n; i++)
        if (text_equal(list[i].device, device))
            return &list[i];
    return NULL;
}

/* "phone 4": the first number that is free. */
static text free_name(const desk *d, const store_device *list, uint32_t n) {
    for (uint32_t i = 1;; i++) {
        text name = arena_format(d->memory, "phone %u", i);
        if (!find_device(list, n, name))
            return name;
    }
}

static bool put_device(desk *d, const store_device *device, err *e) {
    bool ok = store_begin(d->file, e) && store_put_device(d->file, device, e) && store_commit(d->file, e);
    store_abandon(d->file);
    return ok;
}

/* A code to join with may be typed in small letters and with blanks. */
static text tidy_code(arena *a, text code) {
    buf out = {0};
    for (size_t i = 0; i < code.len; i++) {
        char c = code.at[i];
        if (c != ' ' && c != '-')
            buf_add_char(&out, c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c);
    }
    text t = arena_text(a, buf_text(&out));
    buf_free(&out);
    return t;
}

bool desk_join(desk *d, text person, const char *code, char token[DESK_TOKEN + 1], desk_joined *out, err *e) {
    store_device *list, device = {.since_s = sys_now_seconds()};
    uint32_t n;
    if (person.len ? !desk_prove(d, person, code, e)
                   : !roles_try_code(d, TEXT(""), tidy_code(d->memory, text_of(code)), e))
        return false;
    if (!secret_token(token, e) || !store_read_devices(d->memory, d->file, &list, &n, e))
        return false;
    device.device = free_name(d, list, n);
    device.token = secret_token_hash(d->memory, text_of(token));
    device.person = person.len ? reasons_person(d, text_trim(person))->number : TEXT("");
    *out = told(d, &device);
    return put_device(d, &device, e);
}

bool desk_know_device(desk *d, text token, desk_joined *out, err *e) {
    store_device *list;
    uint32_t n;
    if (!store_read_devices(d->memory, d->file, &list, &n, e))
        return false;
    text hash = secret_token_hash(d->memory, token);
    for (uint32_t i = 0; i < n; i++) {
        if (!text_equal(list[i].token, hash))
            continue;
        *out = told(d, &list[i]);
        if (out->role != DESK_LEARNER)
            roles_add_proof(d, out->person);
        return true;
    }
    return err_input(e, "device", "join with the code of the day", "it has not joined this build");
}

bool desk_place_device(desk *d, text device, text place, err *e) {
    store_device *list;
    uint32_t n;
    place = text_trim(place);
    if (!act_check_text(place, "table", e) || !store_read_devices(d->memory, d->file, &list, &n, e))
        return false;
    const store_device *there = find_device(list, n, device);
    if (!there)
        return err_input(e, "device", "join with the code of the day", "it has not joined this build");
    store_device moved = *there;
    moved.place = place;
    return put_device(d, &moved, e);
}

bool desk_drop_device(desk *d, text device, err *e) {
    bool ok = store_begin(d->file, e) && store_drop_device(d->file, device, e) && store_commit(d->file, e);
    store_abandon(d->file);
    return ok;
}

bool desk_devices(const desk *d, desk_joined **out, uint32_t *n, err *e) {
    store_device *list;
    if (!store_read_devices(d->memory, d->file, &list, n, e))
        return false;
    *out = arena_array(d->memory, desk_joined, *n);
    for (uint32_t i = 0; i < *n; i++)
        (*out)[i] = told(d, &list[i]);
    return true;
}

bool desk_find_once(const desk *d, text once, int64_t *act, err *e) {
    return store_find_once(d->file, once, act, e);
}
