/* undo.c: undoing an entry or the last act: another entry, so nothing is lost. */
#include <stdio.h>

#include "desk/act.h"

static bool can_be_undone(const store_entry *n, err *e) {
    char place[64];
    snprintf(place, sizeof place, "entry %lld", (long long)n->entry);
    if (n->verb == STORE_BEGIN || n->verb == STORE_FORGET)
        return err_input(e, place, "",
                         n->verb == STORE_BEGIN ? "it began the file and cannot be undone"
                                                : "a name that was blanked is gone for good");
    if (n->undone)
        return err_input(e, place, "", "it is undone already");
    return true;
}

/* The last act that still stands and is no undo itself; 0 when there is none. */
static int64_t last_act(const store_entry *all, size_t n) {
    for (size_t i = n; i-- > 0;)
        if (!all[i].undone && all[i].verb != STORE_BEGIN && all[i].verb != STORE_FORGET &&
            all[i].verb != STORE_UNDO)
            return all[i].act;
    return 0;
}

static bool append_undo(desk *d, const store_entry *stamp, const store_entry *target, err *e) {
    store_entry n = act_entry(stamp, STORE_UNDO);
    n.undoes = target->entry;
    int64_t number;
    return store_append(d->file, &n, &number, e);
}

static bool undo_entries(desk *d, const store_entry *stamp, int64_t entry, text **told, uint32_t *n_told,
                         err *e) {
    store_entry *all;
    size_t n, cap = 0;
    if (!store_read_journal(d->memory, d->file, 1, &all, &n, e))
        return false;
    int64_t act = entry ? 0 : last_act(all, n);
    if (!entry && !act)
        return err_input(e, d->path, "", "there is nothing to undo");
    if (entry < 0 || (size_t)entry > n)
        return err_input(e, d->path, "", "it has no entry %lld; the last is %zu", (long long)entry, n);
    *told = NULL;
    *n_told = 0;
    for (size_t i = n; i-- > 0;) {
        if (entry ? all[i].entry != entry : all[i].act != act || all[i].undone)
            continue;
        if (!can_be_undone(&all[i], e) || !append_undo(d, stamp, &all[i], e))
            return false;
        arena_room(d->memory, *told, *n_told, cap, text);
        (*told)[(*n_told)++] = desk_tell_entry(d, &all[i]);
    }
    return true;
}

bool desk_undo(desk *d, int64_t entry, desk_who who, text **told, uint32_t *n_told, err *e) {
    store_entry stamp;
    if (!act_begin(d, who, &stamp, e))
        return false;
    return act_end(d, undo_entries(d, &stamp, entry, told, n_told, e), e);
}
