/* tell.c: an entry of the journal in words. */
#include "base/number.h"
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

static text told_test(arena *a, const store_entry *n) {
    char value[24];
    number_print_decimal(n->milli, 3, value);
    return arena_format(a, "%.*s test %lld: %s%s", TEXT_ARG(n->step), (long long)n->test, value,
                        n->about.len ? ", signed" : "");
}

static text told_move(arena *a, const store_entry *n) {
    return arena_format(a, "%lld of %.*s: %.*s to %.*s%s%.*s", (long long)n->usable, TEXT_ARG(n->part),
                        TEXT_ARG(n->from_place), TEXT_ARG(n->to_place), n->step.len ? ", step " : "",
                        TEXT_ARG(n->step));
}

/* A row of the workshop's tables, by the table's own words. */
static text told_row(arena *a, const store_entry *n) {
    const char *done = n->cells.len ? "set" : "taken out";
    if (text_is(n->sheet, "attendance"))
        return arena_format(a, "attendance of session and person %.*s %s", TEXT_ARG(n->key), done);
    const char *what = text_is(n->sheet, "sessions")     ? "session"
                       : text_is(n->sheet, "crew")       ? "person"
                       : text_is(n->sheet, "tools")      ? "the workshop's tool"
                       : text_is(n->sheet, "workplaces") ? "the workshop's workplace"
                                                         : "the workshop";
    return arena_format(a, "%s %.*s %s", what, TEXT_ARG(n->key), done);
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
    case STORE_START:
        return arena_format(a, "%.*s started", TEXT_ARG(n->step));
    case STORE_CHANGE:
        return arena_format(a, "%.*s: others went on with it", TEXT_ARG(n->step));
    case STORE_LEAVE:
        return arena_format(a, "%.*s left unfinished", TEXT_ARG(n->step));
    case STORE_BLOCK:
        return arena_format(a, "%.*s blocked: %.*s", TEXT_ARG(n->step), TEXT_ARG(n->note));
    case STORE_FINISH:
        return arena_format(a, "%.*s done", TEXT_ARG(n->step));
    case STORE_STRIP:
        return arena_format(a, "%.*s taken apart: %.*s", TEXT_ARG(n->step), TEXT_ARG(n->note));
    case STORE_TEST:
        return told_test(a, n);
    case STORE_MOVE:
        return told_move(a, n);
    case STORE_READING:
        return arena_format(a, "%.*s row %lld, piece %lld: %lld mV", TEXT_ARG(n->container),
                            (long long)n->line, (long long)n->piece, (long long)n->millivolts);
    case STORE_CLOSE:
        return arena_format(a, "closing count%s%.*s", n->note.len ? ", missing: " : ", all here",
                            TEXT_ARG(n->note));
    case STORE_RECOUNT:
        return arena_format(a, "%.*s row %lld counted again, unseen: %lld usable", TEXT_ARG(n->container),
                            (long long)n->line, (long long)n->usable);
    case STORE_HOLD:
        return arena_format(a, "%.*s taken%s%.*s", TEXT_ARG(n->container), n->note.len ? " to " : "",
                            TEXT_ARG(n->note));
    case STORE_BACK:
        return arena_format(a, "%.*s brought back", TEXT_ARG(n->container));
    case STORE_LABEL:
        return arena_format(a, "%.*s lies in %.*s", TEXT_ARG(n->part),
                            TEXT_ARG(n->note.len ? n->note : TEXT("no compartment")));
    case STORE_TOOL:
        return arena_format(a, "%lld of tool %.*s are here", (long long)n->usable, TEXT_ARG(n->tool));
    case STORE_REPORT:
        return arena_format(a, "%lld of %.*s asked of the maker", (long long)n->usable, TEXT_ARG(n->part));
    case STORE_SET:
        return told_row(a, n);
    case STORE_RENAME:
        return arena_format(a, "%.*s was given a name", TEXT_ARG(n->about));
    case STORE_CODE:
        return arena_format(a, "the code %s%.*s was %.*s", n->about.len ? "of " : "to join with",
                            TEXT_ARG(n->about), TEXT_ARG(n->note));
    case STORE_ANNOUNCE:
        return arena_format(a, "%.*s announced", TEXT_ARG(n->step));
    case STORE_VERBS:
        break;
    }
    return TEXT("an entry that this program does not know");
}
