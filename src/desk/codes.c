/* codes.c: codes of people: setting, proving, locking. */
#include "base/sys.h"
#include "desk/reasons.h"
#include "desk/secret.h"

enum { SHORTEST_CODE = 4, LONGEST_CODE = 64 };

const char *desk_role_word(desk_role r) {
    return r == DESK_LEADER ? "leader" : r == DESK_SUPERVISOR ? "supervisor" : "learner";
}

desk_role desk_role_of(const desk *d, text person) {
    const kit_person *p = person.len ? reasons_person(d, person) : NULL;
    return !p || !p->adult ? DESK_LEARNER : p->leader ? DESK_LEADER : DESK_SUPERVISOR;
}

bool desk_codes(const desk *d, desk_code **out, uint32_t *n, err *e) {
    store_code *codes;
    if (!store_read_codes(d->memory, d->file, &codes, n, e))
        return false;
    *out = arena_array(d->memory, desk_code, *n);
    for (uint32_t i = 0; i < *n; i++) {
        int64_t most = codes[i].person.len ? DESK_MOST_TRIES : DESK_MOST_JOIN_TRIES;
        (*out)[i] = (desk_code){codes[i].person, codes[i].wrong_tries >= most, codes[i].wrong_tries};
    }
    return true;
}

static const store_code *code_of(const store_code *codes, uint32_t n, text person) {
    for (uint32_t i = 0; i < n; i++)
        if (text_equal(codes[i].person, person))
            return &codes[i];
    return NULL;
}

/* A file that cannot be read gives no proof away: then codes are taken to be set. */
static bool have_codes(const desk *d, desk_role least) {
    store_code *codes = NULL;
    uint32_t n = 0;
    if (!store_read_codes(d->memory, d->file, &codes, &n, NULL))
        return true;
    for (uint32_t i = 0; i < n; i++)
        if (codes[i].person.len && desk_role_of(d, codes[i].person) >= least)
            return true;
    return false;
}

static bool in_proofs(const desk *d, text person) {
    for (uint32_t i = 0; i < d->n_proved; i++)
        if (text_equal(d->proved[i], person))
            return true;
    return false;
}

bool desk_is_proved(const desk *d, text person) {
    return in_proofs(d, person) || !have_codes(d, DESK_LEARNER);
}

bool desk_needs_proof(const desk *d, text person) {
    const kit_person *p = reasons_person(d, text_trim(person));
    return p && desk_role_of(d, p->number) != DESK_LEARNER && !desk_is_proved(d, p->number);
}

void roles_check(const desk *d, text person, desk_reasons *why) {
    store_code *codes = NULL;
    uint32_t n = 0;
    text name = desk_person_name(d, person);
    if (!person.len || desk_role_of(d, person) == DESK_LEARNER || desk_is_proved(d, person))
        return;
    if (store_read_codes(d->memory, d->file, &codes, &n, NULL) && !code_of(codes, n, person))
        reasons_add(d, why, "%.*s has no code yet to prove it with; a leader sets one", TEXT_ARG(name));
    else
        reasons_add(d, why, "%.*s must prove it, with the code or on a device of one's own", TEXT_ARG(name));
}

void roles_add_proof(desk *d, text person) {
    arena_room(d->memory, d->proved, d->n_proved, d->proved_cap, text);
    d->proved[d->n_proved++] = person;
}

/* ---- setting ---- */

static bool is_too_plain(text code) {
    bool same = true, up = true, down = true;
    for (size_t i = 1; i < code.len; i++) {
        same = same && code.at[i] == code.at[i - 1];
        up = up && code.at[i] == code.at[i - 1] + 1;
        down = down && code.at[i] == code.at[i - 1] - 1;
    }
    return same || up || down;
}

static bool check_new_code(text code, err *e) {
    if (!act_check_text(code, "code", e))
        return false;
    if (code.len < SHORTEST_CODE || code.len > LONGEST_CODE)
        return err_input(e, "code", "take at least 4 digits or letters", "it has %zu characters", code.len);
    return !is_too_plain(code) || err_input(e, "code", "take one that nobody guesses",
                                            "all the same, or counting, is guessed first");
}

/* An adult of the crew. */
static bool find_adult(const desk *d, text person, text *number, err *e) {
    const char *shown = arena_format(d->memory, "\"%.*s\"", TEXT_ARG(person)).at;
    const kit_person *p = reasons_person(d, text_trim(person));
    if (!p)
        return err_input(e, shown, "write a name of the crew", "nobody in the crew is called that");
    *number = p->number;
    return p->adult || err_input(e, shown, "only adults have codes; learners join with the code of the day",
                                 "the crew has no adult of that name");
}

static bool may_set(const desk *d, text person, err *e) {
    if (!have_codes(d, DESK_LEADER) || in_proofs(d, person))
        return true;
    for (uint32_t i = 0; i < d->n_proved; i++)
        if (desk_role_of(d, d->proved[i]) == DESK_LEADER)
            return true;
    return err_input(e, "code", "let a leader prove it with the leader's own code",
                     "only a leader, or whose code it is, may change it");
}

static bool write_code(desk *d, const store_entry *stamp, text person, text hash, text note, err *e) {
    store_entry n = act_entry(stamp, STORE_CODE);
    int64_t number;
    n.about = person;
    n.note = note;
    return store_append(d->file, &n, &number, e) && store_set_code(d->file, person, hash, e);
}

bool desk_set_code(desk *d, text person, const char *code, desk_who who, err *e) {
    text number = TEXT(""), hash = TEXT("");
    store_entry stamp;
    if (!find_adult(d, person, &number, e) || !may_set(d, number, e) ||
        (code && (!check_new_code(text_of(code), e) || !secret_hash(d->memory, text_of(code), &hash, e))) ||
        !act_begin(d, who, &stamp, e))
        return false;
    return act_end(d, write_code(d, &stamp, number, hash, code ? TEXT("set") : TEXT("taken away"), e), e);
}

bool roles_set_join_code(desk *d, text code, desk_who who, err *e) {
    text hash = TEXT("");
    store_entry stamp;
    return secret_hash(d->memory, code, &hash, e) && act_begin(d, who, &stamp, e) &&
           act_end(d, write_code(d, &stamp, TEXT(""), hash, TEXT("set"), e), e);
}

static bool clear_all(desk *d, const store_entry *stamp, text reason, err *e) {
    store_code *codes = NULL;
    uint32_t n = 0;
    bool ok = store_read_codes(d->memory, d->file, &codes, &n, e);
    text note = arena_format(d->memory, "taken away: %.*s", TEXT_ARG(reason));
    for (uint32_t i = 0; i < n && ok; i++)
        ok = write_code(d, stamp, codes[i].person, TEXT(""), note, e);
    return ok;
}

bool desk_clear_codes(desk *d, const char *reason, desk_who who, err *e) {
    text because = text_trim(text_of(reason));
    store_entry stamp;
    if (!because.len)
        return err_input(e, "--reason", "say why in a few words", "it is missing");
    return act_check_text(because, "--reason", e) && act_begin(d, who, &stamp, e) &&
           act_end(d, clear_all(d, &stamp, because, e), e);
}

/* ---- proving ---- */

static bool write_tries(desk *d, text person, int64_t n, err *e) {
    bool ok =
        store_begin(d->file, e) && store_set_wrong_tries(d->file, person, n, e) && store_commit(d->file, e);
    store_abandon(d->file);
    return ok;
}

/* The try is written down as wrong before it is looked at, so that ending the program gives no try away. */
bool roles_try_code(desk *d, text person, text code, err *e) {
    store_code *codes = NULL;
    uint32_t n = 0;
    int64_t most = person.len ? DESK_MOST_TRIES : DESK_MOST_JOIN_TRIES;
    if (!store_read_codes(d->memory, d->file, &codes, &n, e))
        return false;
    const store_code *c = code_of(codes, n, person);
    if (!c)
        return err_input(e, "code", "a leader sets one with kitbench codes", "no code is set");
    if (c->wrong_tries >= most)
        return err_input(e, "code", person.len ? "a leader must set a new one" : "ask for a new one",
                         "it is locked after %lld wrong tries", (long long)most);
    if (!write_tries(d, person, c->wrong_tries + 1, e))
        return false;
    if (secret_is(c->hash, code))
        return write_tries(d, person, 0, e);
    int64_t left = most - c->wrong_tries - 1;
    if (!left)
        return err_input(e, "code", "a leader must set a new one", "it is wrong and locked now");
    return err_input(e, "code", "try again", "it is wrong; %lld more wrong tries and it is locked",
                     (long long)left);
}

bool desk_prove(desk *d, text person, const char *code, err *e) {
    text number = TEXT("");
    if (!find_adult(d, person, &number, e) || !roles_try_code(d, number, text_of(code), e))
        return false;
    roles_add_proof(d, number);
    return true;
}
