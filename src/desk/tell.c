/* tell.c: an entry of the journal in words. */
#include "desk/act.h"

static text told_count(arena *a, const store_entry *n) {
    return arena_format(a, "%.*s row %lld: %lld usable%s%s%s%.*s", TEXT_ARG(n->container), (long long)n->line,
                        (long long)n->usable,
                        n->damaged > 0 ? arena_format(a, ", %lld damaged", (long long)n->damaged).at : "",
                        n->in_transit ? " in transit" : "", n->note.len ? ", " : "", TEXT_ARG(n->note));
}

static text told_day(arena *a, const store_entry *n) {
    char day[11];
    date_print(n->day, day);
    return arena_format(a, "%lld of %.*s promised for %s%s", (long long)n->usable, TEXT_ARG(n->part), day,
                        n->instead ? ", instead of what was promised before" : "");
}

static text told_arrival(arena *a, const store_entry *n) {
    text damaged = n->damaged > 0 ? arena_format(a, ", %lld damaged", (long long)n->damaged) : TEXT("");
    if (!n->container.len)
        return arena_format(a, "%lld of %.*s arrived%.*s", (long long)n->usable, TEXT_ARG(n->part),
                            TEXT_ARG(damaged));
    return arena_format(a, "%lld of %.*s arrived for %.*s row %lld%.*s", (long long)n->usable,
                        TEXT_ARG(n->part), TEXT_ARG(n->container), (long long)n->line, TEXT_ARG(damaged));
}

text desk_tell_entry(const desk *d, const store_entry *n) {
    arena *a = d->memory;
    switch (n->verb) {
    case STORE_BEGIN:
        return arena_format(a, "the build file was begun: %.*s", TEXT_ARG(n->note));
    case STORE_RECEIVE:
        return arena_format(a, "%.*s received%s%s%.*s", TEXT_ARG(n->container),
                            n->mass_g >= 0 ? arena_format(a, ", %lld g", (long long)n->mass_g).at : "",
                            n->note.len ? ", damaged: " : "", TEXT_ARG(n->note));
    case STORE_COUNT:
        return told_count(a, n);
    case STORE_FIND:
        return arena_format(a, "%.*s: %lld not on the list: %.*s", TEXT_ARG(n->container),
                            (long long)n->usable, TEXT_ARG(n->note));
    case STORE_VOLTAGE:
        return arena_format(a, "%.*s row %lld, piece %lld: %lld mV", TEXT_ARG(n->container),
                            (long long)n->line, (long long)n->piece, (long long)n->millivolts);
    case STORE_PROMISE:
        return told_day(a, n);
    case STORE_ARRIVE:
        return told_arrival(a, n);
    case STORE_UNDO:
        return arena_format(a, "entry %lld undone", (long long)n->undoes);
    case STORE_FORGET:
        return arena_format(a, "the name of %.*s was blanked", TEXT_ARG(n->about));
    case STORE_VERBS:
        break;
    }
    return TEXT("an entry that this program does not know");
}
