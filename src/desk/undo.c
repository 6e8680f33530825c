/* undo.c: undoing an entry or the last act: another entry, so nothing is lost. */
#include <stdio.h>

#include "desk/sheet_row.h"

/* What stands outside the journal is not undone with it: the file itself, names, codes. */
static bool is_final(const store_entry *n) {
    return n->verb == STORE_BEGIN || n->verb == STORE_FORGET || n->verb == STORE_RENAME ||
           n->verb == STORE_CODE;
}

static const char *why_final(const store_entry *n, const char **remedy) {
    *remedy = "";
    if (n->verb == STORE_BEGIN)
        return "it began the file and cannot be undone";
    if (n->verb == STORE_FORGET)
        return "a name that was blanked is gone for good";
    *remedy = n->verb == STORE_RENAME ? "give the person a name anew" : "set the code anew";
    return n->verb == STORE_RENAME ? "the journal does not keep names" : "the journal does not keep codes";
}

static bool can_be_undone(const store_entry *n, err *e) {
    char place[64];
    const char *remedy;
    snprintf(place, sizeof place, "entry %lld", (long long)n->entry);
    if (is_final(n)) {
        const char *why = why_final(n, &remedy);
        return err_input(e, place, remedy, "%s", why);
    }
    if (n->undone)
        return err_input(e, place, "", "it is undone already");
    return true;
}

/* The last act that still stands and is no undo itself; 0 when there is none. */
static int64_t last_act(const store_entry *all, size_t n) {
    for (size_t i = n; i-- > 0;)
        if (!all[i].undone && !is_final(&all[i]) && all[i].verb != STORE_UNDO)
            return all[i].act;
    return 0;
}

static bool append_undo(desk *d, const store_entry *stamp, const store_entry *target, err *e) {
    store_entry n = act_entry(stamp, STORE_UNDO);
    n.undoes = target->entry;
    n.note = stamp->note;
    int64_t number;
    return store_append(d->file, &n, &number, e);
}

/* The entries that happened to a step are one whole with the moves of their act, and come one after another. */
static bool is_work(store_verb v) {
    return v >= STORE_START && v <= STORE_CLOSE;
}

static bool follows(const kit *k, kit_index step, kit_index before) {
    for (kit_index i = 0; i < k->n_step_after; i++)
        if (k->step_after[i].step == step && k->step_after[i].after == before)
            return true;
    return false;
}

/* Undoing what something else was built on since would leave a state that no rule allows. */
static bool check_later(const desk *d, const store_entry *all, size_t n, size_t at, err *e) {
    const store_entry *target = &all[at];
    kit_index step = kit_find_step(d->kit, target->step);
    for (size_t i = at + 1; i < n && step != KIT_NONE; i++) {
        const store_entry *later = &all[i];
        if (later->undone || later->act == target->act || !is_work(later->verb) || !later->step.len)
            continue;
        kit_index other = kit_find_step(d->kit, later->step);
        if (other != step &&
            !(other != KIT_NONE && later->verb == STORE_START && follows(d->kit, other, step)))
            continue;
        return err_input(e, arena_format(d->memory, "entry %lld", (long long)target->entry).at,
                         arena_format(d->memory, "undo entry %lld first", (long long)later->entry).at,
                         "%.*s came after it", TEXT_ARG(desk_tell_entry(d, later)));
    }
    return true;
}

/* What an adult said to others: a sign-off, or a report that was sent. NULL: neither. */
static const char *word_given(const store_entry *n) {
    return n->verb == STORE_TEST && n->about.len ? "it is a sign-off"
           : n->verb == STORE_REPORT             ? "it was sent to the maker"
                                                 : NULL;
}

/* It is taken back only by an adult, with a reason. */
static bool check_word(const desk *d, const store_entry *stamp, const store_entry *target, err *e) {
    const char *given = word_given(target);
    kit_index person =
        d->workshop && stamp->person.len ? kit_find_person(d->workshop, stamp->person) : KIT_NONE;
    bool adult = !d->workshop || (person != KIT_NONE && d->workshop->crew[person].adult);
    if (!given)
        return true;
    const char *place = arena_format(d->memory, "entry %lld", (long long)target->entry).at;
    if (!adult || !stamp->person.len || !stamp->note.len)
        return err_input(e, place, "an adult may undo it with --by NAME --reason TEXT", "%s", given);
    return !d->workshop || desk_is_proved(d, stamp->person) ||
           err_input(e, place, "prove it with the code, or on a device of one's own", "%s", given);
}

static bool check_work(const desk *d, const store_entry *stamp, const store_entry *all, size_t n, size_t at,
                       err *e) {
    const store_entry *target = &all[at], *first = target;
    while (first->verb == STORE_UNDO)
        first = &all[first->undoes - 1];
    if (target != first && is_work(first->verb))
        return err_input(e, arena_format(d->memory, "entry %lld", (long long)target->entry).at,
                         "say again what happened",
                         "what happens to steps, tests and pieces is not undone twice");
    return (!is_work(target->verb) || check_later(d, all, n, at, e)) && check_word(d, stamp, first, e);
}

/* Entry 0: the last act. An entry of the running build: its whole act. */
static bool choose_act(const desk *d, const store_entry *all, size_t n, int64_t *entry, int64_t *act,
                       err *e) {
    *act = *entry ? 0 : last_act(all, n);
    if (!*entry && !*act)
        return err_input(e, d->path, "", "there is nothing to undo");
    if (*entry < 0 || (size_t)*entry > n)
        return err_input(e, d->path, "", "it has no entry %lld; the last is %zu", (long long)*entry, n);
    const store_entry *target = *entry ? &all[*entry - 1] : NULL;
    if (target && is_work(target->verb) && !target->undone) {
        *act = target->act;
        *entry = 0;
    }
    return true;
}

static bool undo_entries(desk *d, const store_entry *stamp, int64_t entry, text **told, uint32_t *n_told,
                         err *e) {
    store_entry *all;
    size_t n, cap = 0;
    int64_t act;
    if (!store_read_journal(d->memory, d->file, 1, &all, &n, e) || !choose_act(d, all, n, &entry, &act, e))
        return false;
    *told = NULL;
    *n_told = 0;
    for (size_t i = n; i-- > 0;) {
        bool of_act = all[i].act == act && !all[i].undone && !is_final(&all[i]);
        if (entry ? all[i].entry != entry : !of_act)
            continue;
        if (!can_be_undone(&all[i], e) || !check_work(d, stamp, all, n, i, e) ||
            !append_undo(d, stamp, &all[i], e))
            return false;
        arena_room(d->memory, *told, *n_told, cap, text);
        (*told)[(*n_told)++] = desk_tell_entry(d, &all[i]);
    }
    return true;
}

bool desk_undo(desk *d, int64_t entry, const char *reason, desk_who who, text **told, uint32_t *n_told,
               err *e) {
    store_entry stamp;
    if (!act_check_text(text_of(reason), "--reason", e) || !act_begin(d, who, &stamp, e))
        return false;
    stamp.note = text_trim(text_of(reason));
    desk_reasons mind = {0};
    return sheet_rows_end(d, undo_entries(d, &stamp, entry, told, n_told, e), &mind, e);
}
